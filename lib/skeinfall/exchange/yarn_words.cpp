#include "skeinfall/exchange/yarn_words.hpp"

#include <algorithm>
#include <cstdint>
#include <regex>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/detail/having_words.hpp"
#include "skeinfall/exchange/detail/sides.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/project/thing_words.hpp"
#include "skeinfall/stash/at_hand.hpp"
#include "skeinfall/yarn/fibre_facts.hpp"
#include "skeinfall/yarn/label_text.hpp"
#include "skeinfall/yarn/regional_names.hpp"

namespace skeinfall::exchange {
namespace {

bool holds(std::string_view text, std::string_view letters) {
    return base::lower(text).find(base::lower(letters)) != std::string::npos;
}

/// "Half a ball", "about 200 g", "3 part balls": how much that is only a scale tells.
bool says_roughly(const std::string& text) {
    for (const std::string& word : base::split(base::lower(text), ' '))
        for (const std::string_view rough :
             {"half",      "part",   "partial", "begun",  "started", "opened",  "leftover",
              "leftovers", "most",   "about",   "around", "approx",  "approx.", "roughly",
              "nearly",    "almost", "some",    "third",  "quarter", "~"})
            if (word == rough || (rough == "~" && word.starts_with('~'))) return true;
    return false;
}

constexpr const char* having_forms = "\"2 skeins of 170 yd / 100 g\", \"340 yd\" or \"48 g\"";

/// "110 yd / 50 g, 42 g left", "42 g left of a ball of 110 yd / 50 g" as "42 g of 110 yd / 50 g".
std::string what_is_left(const std::string& text) {
    constexpr auto icase = std::regex::icase;
    static const std::regex behind(
        R"(^(?:an?\s+|one\s+|1\s+)?(?:(?:skein|ball|hank|cake)\s+of\s+)?(\d.*[A-Za-z])(?:\s+(?:skein|ball|hank|cake))?\s*[,;:]\s*(?:with\s+)?(\d[\d.,]*\s*[A-Za-z]+)\s+(?:(?:is|are)\s+)?(?:left|remaining|remains?|to go)$)",
        icase);
    static const std::regex before(
        R"(^(\d[\d.,]*\s*[A-Za-z]+)\s+(?:left|remaining)\s+(?:(?:of|from|in|on)\s+)?(?:(?:an?|the|one|1)\s+)?(?:(?:skein|ball|hank|cake)\s+of\s+)?(\d.*[A-Za-z])(?:\s+(?:skein|ball|hank|cake))?$)",
        icase);
    std::smatch found;
    const bool label_first = std::regex_match(text, found, behind);
    if (!label_first && !std::regex_match(text, found, before)) return text;
    const std::string label = found[label_first ? 1 : 2];
    const std::string left = found[label_first ? 2 : 1];
    const auto printed = yarn::parse_put_up(label);
    if (!printed || !units::parse_mass(left)) return text;
    return left + " of " + label;
}

/// "two 100 g skeins", "a dozen skeins of 50 g", "2 balls (170 yd / 100 g each)", "a 500 g cone" as
/// "2 skeins of 100 g" and the like.
std::string plain_having(std::string text) {
    constexpr auto icase = std::regex::icase;
    static const std::regex bracketed(R"(^([^()]*\S)\s*\(([^()]*)\)\s*$)");
    static const std::regex dozen(
        R"(^(?:(\d{1,2})\s+|an?\s+)?(half(?:\s+a)?[\s-]+)?dozen\s+(?=[a-z0-9]))", icase);
    static const std::regex amount_first(
        R"(^(\d{1,4}|an?)\s+(\d[\d.,]*\s*[A-Za-z]+)\s+(skeins?|balls?|hanks?|cones?|cakes?)$)",
        icase);
    static const std::regex one_alone(R"(^(\d[\d.,]*\s*[A-Za-z]+)\s+(skein|ball|hank|cone|cake)$)",
                                      icase);
    static const std::regex of_yarn(
        R"(^(\d[\d.,]*\s*[A-Za-z]+)\s+of\s+(?:the\s+|this\s+|my\s+)?yarn$)", icase);
    // "170 yd x 3", "50g/125m x 4"
    static const std::regex times_behind(R"(^(\d.*[A-Za-z])\s*(?:x|\*)\s*(\d{1,3})$)", icase);
    text = detail::usual_having(count_in_digits(text));
    std::smatch found;
    if (std::regex_match(text, found, times_behind) &&
        (yarn::parse_put_up(found[1].str()) || units::parse_length(found[1].str()) ||
         units::parse_mass(found[1].str())))
        text = found[2].str() + " skeins of " + found[1].str();
    if (std::regex_match(text, found, bracketed))
        text = found[1].str() + ", " + std::string(base::trimmed(found[2].str()));
    text = what_is_left(text);
    if (std::regex_search(text, found, dozen)) {
        const auto times =
            found[1].matched ? units::parse_whole(found[1].str()) : units::parse_whole("1");
        const std::string rest = found.suffix();
        if (times && !(found[1].matched && found[2].matched))
            text = fmt::format("{} {}", *times * (found[2].matched ? 6 : 12), rest);
    }
    if (std::regex_match(text, found, amount_first)) {
        const std::string count =
            found[1].str().front() == 'a' || found[1].str().front() == 'A' ? "1" : found[1].str();
        text = count + " " + found[3].str() + " of " + found[2].str();
    } else if (std::regex_match(text, found, one_alone)) {
        text = "1 " + found[2].str() + " of " + found[1].str();
    } else if (std::regex_match(text, found, of_yarn)) {
        text = found[1];
    }
    return text;
}

/// What is said of the yarn behind its amount.
struct SaidOfYarn {
    std::optional<yarn::FibreContent> fibre;
    std::optional<yarn::WeightClass> weight;
};

/// "500 g acrylic", "3 skeins of 200 yd of worsted wool yarn": words of fibre and class, taken off
/// the end.
SaidOfYarn take_said_of_yarn(std::string& text) {
    static const std::regex last(
        R"(^(.*[A-Za-z)])\s*[, ]\s*(?:of\s+)?(?:100\s*%\s*)?([A-Za-z]+(?:\s+[A-Za-z]+)?)$)");
    static const std::regex yarn_behind(R"(\s+yarn$)", std::regex::icase);
    SaidOfYarn out;
    std::smatch found;
    std::string rest = std::regex_replace(text, yarn_behind, "");
    bool taken = rest != text;
    for (bool more = true; more && std::regex_match(rest, found, last);) {
        const std::string front = found[1];
        const std::string words = found[2];
        more = false;
        // Of two words the last may stand by itself: "worsted wool".
        const std::size_t blank = words.rfind(' ');
        const bool apart = blank != std::string::npos && parse_class(words.substr(0, blank));
        for (const std::size_t from : {apart ? blank + 1 : 0, blank + 1}) {
            const std::string word = words.substr(from);
            // Many say "wool" of any yarn.
            const bool any_yarn = base::same_word(word, "wool");
            const auto fibre = any_yarn || out.fibre || !yarn::fibre_called(word)
                                   ? std::nullopt
                                   : std::optional(yarn::parse_fibre_content("100% " + word));
            const auto weight = parse_class(word);
            if (fibre && *fibre)
                out.fibre = **fibre;
            else if (weight && !out.weight)
                out.weight = *weight;
            else if (!any_yarn)
                continue;
            rest = front + (from == 0 ? "" : " " + words.substr(0, blank));
            more = taken = true;
            break;
        }
    }
    static const std::regex of_behind(R"([,\s]+(?:of)?$)", std::regex::icase);
    rest = std::regex_replace(rest, of_behind, "");
    if (taken) text = rest;
    return out;
}

/// What is said of the core that a cone of yarn was weighed with.
struct Core {
    bool said = false;
    std::string mass;  ///< empty where it lay on the scale and its own mass is not said
    bool none = false;
};
Core take_core(std::string& text) {
    static const std::regex form(
        R"(\s*[,(]?\s*\b(with(?:out)?|no|minus|less|including|incl\.?|plus|and)?\s*(?:its|the|an?)?\s*(?:empty\s+)?(?:core|cone|tube)s?\s*(?:of|weighs|weighing|:|=|at|is)?\s*(\d[\d.,]*\s*[A-Za-z]+)?\s*(?:each)?\)?$)",
        std::regex::icase);
    std::smatch found;
    Core out;
    if (!std::regex_search(text, found, form) || found.position(0) == 0) return out;
    const std::string how = base::lower(found[1].str());
    const std::string mass = found[2];
    // "2 cones of 500 g" speaks of no core.
    if (how.empty() && base::lower(found.str()).find("cone") != std::string::npos) return out;
    if (!mass.empty() && !units::parse_mass(mass)) return out;
    if (how.empty() && mass.empty()) return out;
    out.said = true;
    out.none = mass.empty() && (how == "without" || how == "no" || how == "minus" || how == "less");
    out.mass = mass;
    const std::string rest = found.prefix();
    text = std::string(base::trimmed(rest));
    return out;
}

/// "lot 4411" of "2 skeins of 170 yd / 100 g, lot 4411", taken off the text.
std::optional<std::string> take_lot(std::string& text) {
    static const std::regex form(
        R"(\s*[,(]?\s*\b(?:of\s+|in\s+)?(?:dye\s*-?\s*)?lot\s*(?:no\.?|number|nr\.?|#|:)?\s*#?([A-Za-z0-9][A-Za-z0-9/-]*)\)?(?=\s*(?:$|,|\bin\b)))",
        std::regex::icase);
    std::smatch found;
    if (!std::regex_search(text, found, form)) return std::nullopt;
    const std::string lot = found[1];
    const std::string rest = found.prefix().str() + found.suffix().str();
    if (std::regex_search(rest, form) || rest.find(" and") == rest.size() - 4) return std::nullopt;
    text = std::string(base::trimmed(rest));
    return lot;
}

/// "rust", "dark green": what may stand behind "in" as a colour.
bool may_be_colour(const std::string& words) {
    static const std::regex shade(
        R"(dark|light|pale|deep|bright|mid|medium|dusty|soft|off|baby|royal|hot|warm|cool|dull|muted|burnt|powder|natural|old|new)",
        std::regex::icase);
    const std::vector<std::string> all = base::split(words, ' ');
    return !all.empty() && project::is_colour_word(all.back()) &&
           std::all_of(all.begin(), all.end(), [](const std::string& word) {
               return project::is_colour_word(word) || std::regex_match(word, shade);
           });
}

/// What having_of_colour() and parse_having() read behind one another.
struct SaidHaving {
    OfColour of;
    bool colour_behind = false;
    std::optional<std::string> lot;
    Core core;
    SaidOfYarn yarn;
};
SaidHaving said_having(std::string_view given) {
    SaidHaving out;
    out.of = of_colour(given);
    if (given.size() > detail::longest_answer) return out;
    std::string& text = out.of.text;
    text = detail::usual_having(count_in_digits(std::string(base::trimmed(text))));
    const auto take = [&] {
        if (!out.lot) out.lot = take_lot(text);
        if (!out.core.said) out.core = take_core(text);
    };
    take();
    // "3 skeins of 170 yd / 100 g in rust"
    if (const std::size_t in = text.rfind(" in ");
        out.of.colour.empty() && in != std::string::npos && in + 4 < text.size() &&
        text.find_first_of("0123456789", in) == std::string::npos) {
        out.of.colour = std::string(base::trimmed(std::string_view(text).substr(in + 4)));
        out.colour_behind = true;
        text.resize(in);
        while (!text.empty() && (text.back() == ',' || text.back() == ' ')) text.pop_back();
        take();
    }
    text = std::string(base::trimmed(text));
    out.yarn = take_said_of_yarn(text);
    text = plain_having(text);
    return out;
}

/// What words that count or measure nothing mean for an answer.
std::optional<base::Problem> having_left_open(std::string_view given, const SaidHaving& said,
                                              const std::string& colour) {
    static const std::regex parts_of_skeins(
        R"(^\d+(?:[.,]\d+|\s*/\s*\d+|\s+\d+/\d+)\s+(?:skeins?|balls?|hanks?|cones?|cakes?)\b.*$)",
        std::regex::icase);
    if (said.colour_behind && !may_be_colour(said.of.colour) &&
        !base::same_name(said.of.colour, colour))
        return base::Problem{
            base::quoted("in " + said.of.colour) + " is not understood",
            {},
            having_forms,
            "Say how many there are and what each holds. Write a colour of the make "
            "before a colon."};
    if (std::regex_match(said.of.text, parts_of_skeins))
        return base::Problem{base::quoted(given) + " holds a part of a skein",
                             {},
                             "the whole ones, \"2 skeins of 170 yd / 100 g\"",
                             "Weigh the begun one, and give it by itself: \"48 g of 100 g / 170 "
                             "yd\"."};
    return std::nullopt;
}

/// A reading of a cone holds its core: asked for, or made the tare.
std::optional<base::Problem> with_core(std::string_view given, const SaidHaving& said,
                                       std::int64_t count, stash::Skein& one) {
    static const std::regex cone(R"(\bcones?\b)", std::regex::icase);
    if (!one.weighing) {
        if (!said.core.said || said.core.none) return std::nullopt;
        return base::Problem{
            base::quoted(given) + " names a core, but there is no weight to take it off",
            {},
            having_forms,
            "The core is taken off what a scale shows."};
    }
    if (said.core.none) return std::nullopt;
    if (!said.core.mass.empty()) {
        const auto mass = units::parse_mass(said.core.mass);
        if (*mass >= one.weighing->shown.value)
            return base::Problem{base::quoted(given) + " leaves no yarn beside the core",
                                 {},
                                 "\"cone of 160 g, core 40 g\"",
                                 ""};
        one.weighing->tare = units::Printed<units::Mass>{said.core.mass, *mass};
        return std::nullopt;
    }
    if (!said.core.said && !std::regex_search(said.of.text, cone)) return std::nullopt;
    const std::string cones =
        (count > 1 ? std::to_string(count) + " cones of " : "cone of ") + one.weighing->shown.text;
    return base::Problem{base::quoted(given) + " may be weighed with its core",
                         {},
                         "what the empty core weighs, \"" + cones + ", core 20 g\"",
                         "Where that is the yarn alone, say \"" + cones + ", without core\"."};
}

/// "2 skeins of ...", "a ball of 120 m", "3 x 50 g".
base::Result<CountedSkeins> counted_skeins(std::string_view given, const std::string& whole) {
    CountedSkeins out;
    static const std::regex together(
        R"(\b(?:in all|in total|altogether|all together|all told|total(?:ling)?)\b)",
        std::regex::icase);
    if (std::regex_search(std::string(given), together))
        return base::Problem{base::quoted(given) + " says what several hold together",
                             {},
                             "what each of them holds, \"2 skeins of 100 yd\"",
                             "Where they differ, give them one by one."};
    // "2 balls, 65 g each"
    static const std::regex of_each(R"((?:,\s*)?\s+(?:each|apiece)\.?$)", std::regex::icase);
    const std::string text = std::regex_replace(whole, of_each, "");
    const bool each = text != whole;
    out.rest = text;
    std::size_t at = 0;
    while (at < text.size() && text[at] >= '0' && text[at] <= '9') ++at;
    std::string after(base::trimmed(std::string_view(text).substr(at)));
    for (const std::string_view one_of_them : {"a ", "one "})
        if (at == 0 && base::lower(after).starts_with(one_of_them))
            after = after.substr(one_of_them.size());
    for (const std::string_view word : {"skeins", "skein", "balls", "ball", "hanks", "hank",
                                        "cones", "cone", "cakes", "cake", "x"}) {
        if ((at == 0 && (word == "x" || word.back() == 's')) ||
            !base::lower(after).starts_with(word))
            continue;
        const std::string_view behind = std::string_view(after).substr(word.size());
        if (!behind.empty() && behind.front() != ' ' && behind.front() != ',') continue;
        // "6 balls, 300 g, 720 m" and "6 x 50 g, 720 m" may give the figures of one or of all.
        if (at > 0 && !each && behind.find(',') != std::string_view::npos &&
            (word == "x" || behind.front() == ','))
            return base::Problem{
                base::quoted(given) + " does not say whether its figures are of each or of all",
                {},
                "the figures of each, \"6 balls of 50 g / 120 m\"",
                ""};
        // "a ball of 120 m" is one.
        const auto number =
            at == 0 ? units::parse_whole("1") : units::parse_whole(text.substr(0, at));
        if (!number || *number < 1 || *number > 1000)
            return base::Problem{base::quoted(given) + " counts no skeins", {}, having_forms, ""};
        out.count = *number;
        out.rest = std::string(base::trimmed(behind.starts_with(',') ? behind.substr(1) : behind));
        for (const std::string_view of : {"of ", "at ", "x "})
            if (out.rest.starts_with(of))
                out.rest = std::string(base::trimmed(out.rest.substr(of.size())));
        out.counted = true;
        break;
    }
    return out;
}

}  // namespace

base::Result<CountedSkeins> parse_counted(std::string_view text) {
    if (text.size() > detail::longest_answer)
        return base::Problem{base::quoted(text) + " counts no skeins", {}, having_forms, ""};
    std::string plain(base::trimmed(plain_signs(text)));
    take_said_of_yarn(plain);
    return counted_skeins(text, plain_having(plain));
}

std::vector<stash::Skein> yarns_named(const std::string& letters,
                                      const std::vector<stash::Skein>& stash) {
    std::vector<stash::Skein> out;
    const auto fits = [&](bool whole) {
        for (const stash::Skein& skein : stash) {
            const bool known = std::any_of(out.begin(), out.end(), [&](const stash::Skein& one) {
                return base::same_word(one.yarn.name, skein.yarn.name);
            });
            if (!known && (whole ? base::same_word(skein.yarn.name, letters)
                                 : holds(skein.yarn.name, letters)))
                out.push_back(skein);
        }
    };
    fits(true);
    if (out.empty()) fits(false);
    // "Marsh reed": name and colour, as they are printed.
    for (const stash::Skein& skein : stash)
        if (out.empty() && base::same_word(skein.yarn.name + " " + skein.colourway, letters))
            out.push_back(skein);
    return out;
}

base::Result<yarn::WeightClass> parse_class(std::string_view text) {
    const std::string plain(base::trimmed(plain_signs(text)));
    auto known = yarn::class_called(plain);
    if (known || plain.size() > detail::longest_answer) return known;
    // "worsted/aran", "sock yarn"
    static const std::regex either(R"(^([A-Za-z]+)\s*(?:/|\bor\b)\s*([A-Za-z]+)$)");
    static const std::regex behind(R"(\s+(?:yarn|wool)$)", std::regex::icase);
    std::smatch found;
    if (std::regex_match(plain, found, either)) {
        const auto one = yarn::class_called(found[1].str());
        const auto other = yarn::class_called(found[2].str());
        if (one && other && *one == *other) return one;
    } else if (auto bare = yarn::class_called(std::regex_replace(plain, behind, ""))) {
        return bare;
    }
    return known;
}

namespace {

base::Result<std::vector<stash::Skein>> one_having(std::string_view given, const yarn::Yarn& like,
                                                   const std::string& colour, std::size_t first) {
    if (given.size() > detail::longest_answer)
        return base::Problem{
            base::quoted(given) + " does not say what yarn you have", {}, having_forms, ""};
    const SaidHaving said = said_having(plain_signs(given));
    const std::string& text = said.of.text;
    const std::string forms = having_forms;
    stash::Skein one;
    one.yarn = like;
    one.colourway = said.of.colour.empty() ? colour : said.of.colour;
    one.dye_lot = said.lot;
    if (said.yarn.fibre) one.yarn.fibre = *said.yarn.fibre;
    if (said.yarn.weight) one.yarn.weight = said.yarn.weight;
    // Who tells of lots wants them kept apart.
    if (!said.lot) one.shade_group = stash::shade_at_hand;
    if (says_roughly(text))
        return base::Problem{base::quoted(given) + " does not say how much yarn that is",
                             {},
                             "what a scale shows of each, \"48 g\"",
                             "Weigh it, and give the label as well: \"48 g of 100 g / 200 m\"."};
    const auto begun = counted_skeins(given, text);
    if (!begun) return begun.problem();
    if (auto open = having_left_open(given, said, colour)) return *std::move(open);
    const std::int64_t count = begun->count;
    const bool counted = begun->counted;
    std::string rest = begun->rest;
    // "40 g of 50 g / 85 m": what is left of a skein with this label.
    if (const std::size_t of = rest.find(" of "); !counted && of != std::string::npos)
        if (const auto label = yarn::parse_put_up(rest.substr(of + 4));
            label &&
            (units::parse_mass(rest.substr(0, of)) || units::parse_length(rest.substr(0, of)))) {
            one.yarn.label = label->label;
            rest.resize(of);
        }
    if (!rest.empty()) {
        const auto printed = yarn::parse_put_up(rest);
        const yarn::Label put_up = printed ? printed->label : yarn::Label{};
        const auto length = units::parse_length(rest);
        const auto mass = units::parse_mass(rest);
        if (put_up.length) {
            one.yarn.label = put_up;
        } else if (length) {
            one.yarn.label.length = units::Printed<units::Length>{rest, *length};
            one.yarn.label.mass = std::nullopt;
        } else if (mass) {
            if (!one.yarn.label.length || !one.yarn.label.mass)
                return base::Problem{base::quoted(given) +
                                         " is a weight of a yarn whose length per "
                                         "weight is not known",
                                     {},
                                     "what its label says as well",
                                     "Say \"2 skeins of 170 yd / 100 g\", or give the label."};
            // "4 balls of 50 g" repeats the label; only another figure is a reading.
            if (!counted || *mass != one.yarn.label.mass->value) {
                const std::string step = step_of_reading(rest);
                one.part = true;
                one.weighing = measure::Weighing{
                    units::Printed<units::Mass>{rest, *mass},
                    units::Printed<units::Mass>{step, *units::parse_mass(step)}, std::nullopt};
            }
        } else if (static const std::regex several(R"(\d.*(?:[,;+&]|\band\b)\s*\d)",
                                                   std::regex::icase);
                   std::regex_search(rest, several)) {
            return base::Problem{base::quoted(given) + " may be several skeins",
                                 {},
                                 "one of them, or alike ones, \"2 skeins of 100 m\"",
                                 "Give the others by themselves; a started one as \"42 g of 50 g / "
                                 "110 yd\"."};
        } else {
            base::Problem problem = length.problem();
            problem.what = base::quoted(given) + " does not say what yarn you have";
            if (!problem.remedy.starts_with("Did you")) problem.remedy.clear();
            problem.expected = forms;
            problem.place = {};
            return problem;
        }
    } else if (!counted) {
        return base::Problem{
            base::quoted(given) + " does not say what yarn you have", {}, forms, ""};
    } else if (!one.yarn.label.length) {
        return base::Problem{"what a skein holds is not known",
                             {},
                             forms,
                             "Say \"2 skeins of 170 yd\", or give the label."};
    }
    if (auto problem = with_core(given, said, count, one)) return *std::move(problem);
    std::vector<stash::Skein> out;
    for (std::int64_t i = 0; i < count; ++i) {
        one.id = fmt::format("yours-{}", first + static_cast<std::size_t>(i));
        out.push_back(one);
    }
    return out;
}

}  // namespace

base::Result<std::vector<stash::Skein>> parse_having(std::string_view given, const yarn::Yarn& like,
                                                     const std::string& colour, std::size_t first) {
    const std::vector<std::string> parts = detail::several_havings(plain_signs(given));
    if (parts.size() < 2) return one_having(given, like, colour, first);
    std::vector<stash::Skein> out;
    yarn::Yarn yarn = like;
    for (const std::string& part : parts) {
        const auto one = one_having(part, yarn, colour, first + out.size());
        // Said once, a label holds for what follows it.
        if (!one) return one.problem();
        if (!yarn.label.mass && one->front().yarn.label.mass) yarn.label = one->front().yarn.label;
        out.insert(out.end(), one->begin(), one->end());
    }
    return out;
}

std::optional<base::Problem> not_a_label(const std::string& text) {
    const std::string forms = "its length and weight, such as \"170 yd / 100 g\"";
    const auto problem = [&](const std::string& what, const std::string& expected,
                             const std::string& remedy) {
        return base::Problem{base::quoted(text) + what, {}, expected, remedy};
    };
    static const std::regex bare(R"(^\s*\d[\d.,]*\s*(?:/|per|=|x)?\s*(?:\d[\d.,]*)?\s*$)",
                                 std::regex::icase);
    const bool figures = text.find_first_of("0123456789") != std::string::npos;
    if (yarn::parse_weight_class(base::trimmed(text)) || (!figures && parse_class(text)))
        return problem(" may be a weight class, and no label", forms,
                       "The class has an answer of its own.");
    if (std::regex_match(text, bare)) return problem(" has no units", forms, "");
    if (units::parse_mass(text))
        return problem(" gives no length", "the length as well, \"170 yd / " + text + "\"", "");
    if (units::parse_length(text))
        return problem(" gives no weight", "the weight as well, \"" + text + " / 100 g\"", "");
    return std::nullopt;
}

OfColour having_of_colour(std::string_view text) {
    return said_having(text).of;
}

std::string fibre_as_said(const std::string& text) {
    const bool figures = text.find_first_of("0123456789%") != std::string::npos;
    const std::string name(base::trimmed(text));
    return figures || name.empty() ? text : "100% " + name;
}

std::string class_as_said(const std::string& text) {
    if (yarn::parse_weight_class(base::trimmed(text))) return text;
    const auto known = parse_class(text);
    return known ? std::to_string(known->number) : text;
}

bool prints_much(std::string_view text) {
    std::size_t figures = 0;
    bool inside = false;
    for (const char c : text) {
        const bool figure = (c >= '0' && c <= '9') || (inside && (c == '.' || c == ','));
        if (figure && !inside) ++figures;
        inside = figure;
    }
    return figures > 2;
}

}  // namespace skeinfall::exchange
