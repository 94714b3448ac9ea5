#include <algorithm>
#include <cstdint>
#include <regex>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/count_words.hpp"
#include "skeinfall/exchange/detail/sides.hpp"
#include "skeinfall/exchange/detail/total_answer.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/name_words.hpp"
#include "skeinfall/project/fabric_words.hpp"
#include "skeinfall/project/thing_words.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange {
namespace {

using detail::no_such;

const char* const extra_forms = "\"edging 30 yd\" or \"border of 2 rounds of 180 sts\"";
constexpr auto icase = std::regex::icase;

/// "each", "in all", "per placemat" behind an amount, taken off the text.
void take_of(std::string& text, WrittenExtra& extra) {
    static const std::regex each(
        R"(\s*,?\s*\(?(?:each|apiece|(?:per|for each|for every)\s+(?:one|piece|copy)|for each)\)?$)",
        icase);
    static const std::regex per(
        R"(\s*,?\s*\(?(?:per|for each|for every|on each|to each)\s+([A-Za-z][A-Za-z -]*?)\)?$)",
        icase);
    static const std::regex all(
        R"(\s*,?\s*\(?(?:in all|in total|altogether|all together|for (?:all|both)(?: of (?:them|it))?|together|total)\)?$)",
        icase);
    std::smatch found;
    if (std::regex_search(text, found, each)) {
        extra.of = ExtraOf::each;
    } else if (std::regex_search(text, found, all)) {
        extra.of = ExtraOf::all;
    } else if (std::regex_search(text, found, per) && found.position(0) > 0) {
        extra.of = ExtraOf::each;
        extra.each_of = found[1];
    } else {
        return;
    }
    const std::string rest = found.prefix();
    text = rest;
}

/// Takes a count of things off a text that `counted` matches, its figure and what is counted; no
/// amount of yarn, rows or stitches is one.
void take_count(std::string& text, const std::regex& counted, WrittenExtra& extra) {
    const std::string in_figures = counted_in_figures(text);
    std::smatch found;
    if (!std::regex_match(in_figures, found, counted)) return;
    const std::string rest = found[2];
    const std::string first = rest.substr(0, rest.find(' '));
    if (units::parse_length("1 " + first) || units::parse_mass("1 " + first) ||
        detail::says_rows(first) || detail::says_stitches(first))
        return;
    extra.things = detail::whole(found[1]).value_or(1);
    text = rest;
}

/// "2 pompoms 10 m" as two of them.
void take_things(std::string& text, WrittenExtra& extra) {
    static const std::regex counted(
        R"(^(\d{1,4})\s+(?:x\s+)?([A-Za-z][A-Za-z -]*?[:,]?\s+.*\d.*)$)");
    take_count(text, counted, extra);
}

/// How many places a name says it is at: 2 of "fringe on both ends", 4 of "edging on all four
/// sides".
std::optional<std::int64_t> places_in(const std::string& name) {
    static const std::regex two(
        R"(\b(?:both|either)\b|\b(?:front|back)\s*(?:and|&|\+|/)\s*(?:front|back)\b|\b(?:top|bottom)\s*(?:and|&|\+|/)\s*(?:top|bottom)\b|\b(?:left|right)\s*(?:and|&|\+|/)\s*(?:left|right)\b)",
        icase);
    static const std::regex counted(
        R"(\b([A-Za-z]+)\s+(?:long\s+|short\s+|outer\s+)?(?:sides|ends|edges|corners|points|panels)\b)",
        icase);
    if (std::regex_search(name, two)) return 2;
    std::smatch found;
    if (!std::regex_search(name, found, counted)) return std::nullopt;
    const auto number = spoken_number(found[1]);
    return number && *number > 1 ? number : std::nullopt;
}

/// "handles, 60 m each" counts nothing; neither do "edging each 15 m" and "edging for each side".
std::optional<base::Problem> each_of_how_many(std::string_view given, WrittenExtra& extra) {
    static const std::regex ends(R"(\s+each$)", icase);
    if (const std::string bare = std::regex_replace(extra.name, ends, "");
        bare != extra.name && extra.of != ExtraOf::all) {
        extra.name = bare;
        extra.of = ExtraOf::each;
    }
    static const std::regex within(R"(\b(?:each|every|per)\b)", icase);
    if (!std::regex_search(extra.name, within)) return std::nullopt;
    return no_such(given, "an extra", "the yarn of all of it, \"edging 60 m in all\"",
                   "It says each, and not how many there are.");
}

/// "fringe: 40 strands of 30 cm"
bool take_fringe(const std::string& text, WrittenExtra& extra) {
    static const std::regex fringe(
        R"(^([A-Za-z][A-Za-z ]*?)(?:\s+of|\s+with|:|,)?\s+(\d+)\s+(?:strands?|threads?)\s*,?\s*(?:of|x|at|cut to|each|,)?\s+(\d[\d.,/ ]*?\s*[A-Za-z"']+)(?:\s+(?:long|each))?$)",
        icase);
    static const std::regex is_fringe(R"(\b(?:fringe|fringes|fringing)\b)", icase);
    std::smatch found;
    if (!std::regex_match(text, found, fringe)) return false;
    const std::string name = found[1];
    const std::int64_t strands = detail::whole(found[2]).value_or(0);
    const std::string cut = found[3];
    if (!std::regex_search(name, is_fringe) || strands < 1 || !units::parse_length(cut))
        return false;
    extra.name = name;
    extra.strands = strands;
    extra.cut = cut;
    return true;
}

/// What lines that are no extra mean, as it would be taken.
base::Problem not_an_extra(std::string_view given, const std::string& text,
                           const WrittenExtra& extra) {
    static const std::regex rounds(
        R"(^([A-Za-z][A-Za-z ]*?)(?:\s+of|:|,)?\s+(\d+)\s+(?:rounds?|rnds?|rows?)\b.*$)", icase);
    static const std::regex two(R"(\d[^,;&+]*?\s*(?:,|;|&|\+|\band\b|\bplus\b)\s*[A-Za-z].*\d)",
                                icase);
    static const std::regex several(
        R"(^([A-Za-z][A-Za-z -]*?)[:,]?\s+(\d+)\s*x\s*(\d[\d.]*\s*(?:yds?|yards?|m|met(?:re|er)s?|g|grams?|oz|ounces?))$)",
        icase);
    static const std::regex range(
        R"(^([A-Za-z][A-Za-z -]*?)[:,]?\s+\d[\d.]*\s*[A-Za-z]*\s*(?:-|to)\s*(\d[\d.]*\s*[A-Za-z]+)$)",
        icase);
    std::smatch found;
    if (detail::two_sides(extra.yarn) && !std::regex_match(text, several))
        return no_such(given, "an extra", "the yarn it takes, \"" + extra.name + " 30 yd\"",
                       "What is worked to a size is a piece of the make, beside the first.");
    if (std::regex_match(text, found, several))
        return no_such(given, "an extra",
                       "how many and the yarn of each, \"" + found[2].str() + " " + found[1].str() +
                           " " + found[3].str() + " each\"",
                       "");
    if (std::regex_match(text, found, range))
        return no_such(
            given, "an extra",
            "one amount, such as the most, \"" + found[1].str() + " " + found[2].str() + "\"", "");
    if (std::regex_search(text, two))
        return no_such(given, "an extra", extra_forms,
                       "It may name more than one: give each an answer of its own.");
    if (std::regex_match(text, found, rounds))
        return no_such(given, "an extra",
                       "the stitches of a round, \"" + found[1].str() + " of " + found[2].str() +
                           " rounds of 180 sts\"",
                       "Or the yarn it takes: \"" + found[1].str() + " 30 yd\".");
    return no_such(given, "an extra", extra_forms, "Its name, and how much yarn it takes.");
}

/// "edging 1 ball of 50 g" as 50 g.
std::string balls_as_amount(const std::string& yarn) {
    static const std::regex form(
        R"(^(\d+)\s+(?:balls?|skeins?|hanks?|cones?|cakes?)\s+of\s+(\d[\d.]*\s*[A-Za-z]+)$)",
        icase);
    std::smatch found;
    if (!std::regex_match(yarn, found, form)) return yarn;
    const auto count = detail::whole(found[1]);
    const std::string each = found[2];
    if (!count || *count < 1) return yarn;
    if (const auto length = units::parse_length(each))
        return fmt::format("{:.6g} m", static_cast<double>(*count) * length->value());
    if (const auto mass = units::parse_mass(each))
        return fmt::format("{:.6g} g", static_cast<double>(*count) * (*mass / units::gram));
    return yarn;
}

/// "30 g" four times as "120 g".
std::string times_said(const std::string& yarn, std::int64_t times) {
    const auto one = base::number_first<double>(yarn);
    return one ? fmt::format("{:.6g} {}", static_cast<double>(times) * one->value,
                             base::trimmed(one->rest))
               : yarn;
}

/// "fringe 20 cm", "strap 1 m": as long as the thing itself, and no yarn.
bool is_a_size(const WrittenExtra& extra) {
    const auto length = units::parse_length(extra.yarn);
    if (!length) return false;
    static const std::regex of_a_tape(
        R"(\d\s*(?:mm|cm|dm|in|inch(?:es)?|ft|foot|feet|["']|millimet(?:re|er)s?|centimet(?:re|er)s?)\.?$)",
        icase);
    if (std::regex_search(extra.yarn, of_a_tape)) return true;
    constexpr double shortest = 4.0;  // metres; no cord or border takes less (a judgement)
    static const std::regex sewn(R"(\b(?:sew|join|end|tail|weav))", icase);
    return *length < shortest * units::metre && !std::regex_search(extra.name, sewn) &&
           !project::speaks_of(extra.name, project::Thing::amount);
}

/// What words at one end of a text say of the amount beside it, and the text without them and the
/// marks around them.
struct BesideAmount {
    std::optional<project::Thing> says;
    std::string rest;
};
BesideAmount beside_amount(const std::string& text, bool behind) {
    using project::Thing;
    static const std::regex marks(R"(^[\s,;:.()\[\]?!-]+|[\s,;:.()\[\]?!-]+$)");
    const std::string plain = std::regex_replace(text, marks, "");
    std::vector<std::string> words;
    for (const std::string& word : base::split(plain, ' '))
        if (!word.empty()) words.push_back(word);
    constexpr std::size_t longest = 5;
    // The longest says what is meant: "no more than" is not "more than".
    for (std::size_t many = std::min(longest, words.size()); many > 0; --many) {
        const auto part = static_cast<std::ptrdiff_t>(behind ? words.size() - many : many);
        const std::vector<std::string> first(words.begin(), words.begin() + part);
        const std::vector<std::string> last(words.begin() + part, words.end());
        std::string said = base::join(behind ? last : first, " ");
        while (!said.empty() && (said.back() == '.' || said.back() == ',')) said.pop_back();
        for (const Thing one : {Thing::roughly, Thing::at_most, Thing::nearby})
            if (project::is_thing(said, one))
                return {one, std::regex_replace(base::join(behind ? first : last, " "), marks, "")};
    }
    return {std::nullopt, plain};
}

/// "at least 30 yd", "30 yd more or less", "maybe edging 30 yd": what may be more. Words that say
/// it is the most are taken off.
std::optional<base::Problem> said_roughly(std::string_view given, WrittenExtra& extra,
                                          const std::string& amount, bool named_first) {
    using project::Thing;
    for (const bool behind : {true, false}) {
        const BesideAmount beside = beside_amount(extra.name, behind);
        // "around the neck" is a place, and no amount, but right before one.
        if (!beside.says || (beside.says == Thing::nearby && !(behind && named_first))) continue;
        if (beside.says == Thing::at_most) {
            extra.name = beside.rest;
            continue;
        }
        return no_such(given, "an extra",
                       "the most it may take, \"" + (beside.rest.empty() ? "edging" : beside.rest) +
                           " " + amount + "\"",
                       "Said roughly, it may be more.");
    }
    return std::nullopt;
}

/// "edging twice", "double", "four times" in a name: how often its yarn may be taken.
std::optional<std::int64_t> times_in(const std::string& name, std::string& rest) {
    static const std::regex form(
        R"((?:^|[\s,(])(twice|thrice|(?:double|doubled|triple|tripled|treble|quadruple)(?!d?\s+(?:crochet|knit|knitting|moss|seed|treble|chain|rib|ribbing|stitch|st|loop|picot|shell|sc|dc|hdc|tr|bed)\b)(?!\s+[a-z]+\s+stitch)|(?:([A-Za-z]+)\s+times))(?=$|[\s,)-]))",
        icase);
    std::smatch found;
    // "same for the other side"
    static const std::regex once_more(
        R"([\s,(]*\b(?:again|ditto|likewise|(?:and\s+)?another|(?:the\s+)?same\s+(?:for|on|again|at)|repeat(?:ed)?|(?:the\s+)?other\s+(?:side|end|half|edge|one))\b.*$)",
        icase);
    if (std::regex_search(name, found, once_more)) {
        rest = found.prefix();
        return 2;
    }
    if (!std::regex_search(name, found, form)) return std::nullopt;
    const std::string word = base::lower(found[1].str());
    std::optional<std::int64_t> times = word.starts_with("tw") || word.starts_with("d") ? 2 : 3;
    if (word.starts_with("q")) times = 4;
    if (found[2].matched) times = spoken_number(found[2]);
    if (!times || *times < 2) return std::nullopt;
    static const std::regex marks(R"(^[\s,()-]+|[\s,()-]+$)");
    rest = std::regex_replace(found.prefix().str() + " " + found.suffix().str(), marks, "");
    return times;
}

/// Where a name says more than what it is of: another amount, a count, or how often.
std::optional<base::Problem> name_says_more(std::string_view given, const WrittenExtra& extra) {
    static const std::regex each(R"(^(?:an?|by\s+the|by|every|each|per)\s)", icase);
    static const std::regex amount(
        R"(\d\s*(?:mm|cm|m|km|g|kg|oz|lb|yds?|yards?|met|gram|ounce|ft|in)\b)", icase);
    const std::string& name = extra.name;
    if (extra.yarn.empty()) return std::nullopt;
    if (std::regex_search(name, amount))
        return no_such(given, "an extra", extra_forms,
                       "It may name more than one: give each an answer of its own.");
    std::string rest;
    if (const auto times = times_in(name, rest)) {
        const std::string of = rest.empty() ? "edging" : rest;
        return no_such(given, "an extra",
                       "\"" + of + " " + extra.yarn + " in all\" or \"" + of + " " +
                           times_said(extra.yarn, *times) + " in all\"",
                       "It may be the yarn of one or of all.");
    }
    if (name.find_first_of("0123456789") != std::string::npos)
        return no_such(given, "an extra", extra_forms,
                       "What the figures of its name count is not known.");
    if (std::regex_search(name, each))
        return no_such(given, "an extra", "the yarn of all of it, \"edging 60 m in all\"",
                       "It says each, and not how many there are.");
    return std::nullopt;
}

/// "edging 30 yd", "30 yd for the edging": its name and its yarn; whether the name comes first.
bool take_yarn(const std::string& text, WrittenExtra& extra) {
    std::size_t at = 0;
    while (at < text.size() && !base::is_digit(text[at])) ++at;
    extra.name = std::string(base::trimmed(text.substr(0, at)));
    while (!extra.name.empty() && (extra.name.back() == ':' || extra.name.back() == ','))
        extra.name.pop_back();
    extra.yarn = text.substr(at);
    const auto is_amount = [](const std::string& words) {
        return units::parse_length(words).ok() || units::parse_mass(words).ok();
    };
    static const std::regex behind(R"(^(\d[\d.,/ ]*\s*[A-Za-z"']+)((?:\s|[,;:(]).*)$)");
    std::smatch found;
    const bool named = !extra.name.empty();
    if (is_amount(extra.yarn) || !std::regex_match(extra.yarn, found, behind) ||
        !is_amount(found[1])) {
        if (!named) extra.name = extra.each_of.empty() ? "extra" : extra.each_of;
        return named;
    }
    const std::string amount = found[1];
    const std::string tail(base::trimmed(found[2].str()));
    const auto says = [&](bool at_end) {
        const auto beside = beside_amount(tail, at_end).says;
        return beside && beside != project::Thing::nearby;
    };
    if (named && !says(true) && !says(false)) return true;
    static const std::regex joint(R"(^(?:[,;:(]\s*)?(?:(?:for|of|on|to)\s+)(?:the\s+|an?\s+)?)",
                                  icase);
    static const std::regex article(R"(^(?:[,;:(]\s*)(?:the\s+)?|^the\s+)", icase);
    const std::string of = std::regex_search(tail, joint) ? std::regex_replace(tail, joint, "")
                                                          : std::regex_replace(tail, article, "");
    extra.yarn = amount;
    extra.name = named ? extra.name + " " + of : of;
    return false;
}

/// "30 yd for 4 pockets", "30 yd for two straps" as so many of them.
void take_things_of_name(WrittenExtra& extra) {
    static const std::regex counted(R"(^(\d{1,4})\s+(?:x\s+)?([A-Za-z].*)$)");
    if (extra.things <= 1) take_count(extra.name, counted, extra);
}

}  // namespace

base::Result<WrittenExtra> parse_extra(std::string_view given) {
    std::string text(base::trimmed(plain_signs(given)));
    if (text.size() > detail::longest_answer) return no_such(given, "an extra", extra_forms);
    static const std::regex in_two_units(
        R"((\d[\d.,]*\s*[A-Za-z]+)\s*(?:\(|/|=)\s*(\d[\d.,]*\s*[A-Za-z]+)\s*\)?)");
    if (std::smatch both; std::regex_search(text, both, in_two_units)) {
        const detail::SaidTwice same = detail::amount_said_twice(both[1], both[2]);
        if (same.apart)
            return no_such(given, "an extra", "one of the two, \"" + both[1].str() + "\"",
                           "Its two figures are not the same amount.");
        if (!same.larger.empty()) text = both.prefix().str() + same.larger + both.suffix().str();
    }
    WrittenExtra out;
    take_of(text, out);
    take_things(text, out);
    static const std::regex of_yarn(R"(\s+(?:of\s+)?(?:the\s+)?yarn$)", icase);
    const std::string bare = std::regex_replace(text, of_yarn, "");
    const bool says_yarn = bare != text;
    text = bare;
    if (take_fringe(text, out)) {
        const bool several = out.things > 1 && out.of == ExtraOf::unsaid;
        if (!several && !places_in(out.name)) return out;
        const std::int64_t times = several ? out.things : 2;
        return no_such(given, "an extra",
                       "the strands of all of it, \"fringe: " +
                           std::to_string(times * out.strands) + " strands of " + out.cut + "\"",
                       "They may be those of one end or of all.");
    }
    static const std::regex rounds(
        R"(^([A-Za-z][A-Za-z ]*?)(?:\s+of|:|,)?\s+(\d+)\s+(?:rounds?|rows?)\s+(?:of|x|with)\s+(\d+)\s+([A-Za-z]+)$)",
        icase);
    std::smatch found;
    const bool many = out.things > 1 && out.of == ExtraOf::unsaid;
    if (std::regex_match(text, found, rounds)) {
        out.name = found[1];
        const std::string amount = text.substr(out.name.size() + 1);
        std::string rest;
        if (auto rough = said_roughly(given, out, amount, true)) return *std::move(rough);
        if (times_in(out.name, rest))
            return no_such(given, "an extra", "all of its rounds, \"edging 4 rounds of 180 sts\"",
                           "It may be the rounds of one or of all.");
        if (many || places_in(out.name) || (says_how_many(out.name) && out.of == ExtraOf::unsaid))
            return no_such(given, "an extra", extra_forms, "Give each a line of its own.");
        for (const project::Craft craft : {project::Craft::crochet, project::Craft::knit})
            for (const project::FabricWord& word : project::fabrics_in_name(craft, out.name))
                if (word.takes_more && detail::says_stitches(found[4]))
                    return no_such(given, "an extra",
                                   "the stitches by their name, \"border of " + found[2].str() +
                                       " rounds of " + found[3].str() + " " +
                                       std::string(word.word) + "\"",
                                   "Or the yarn it takes: \"border 30 yd\".");
        out.rounds = detail::whole(found[2]).value_or(0);
        out.stitches = detail::whole(found[3]).value_or(0);
        if (!detail::says_stitches(found[4])) out.stitch = found[4];
        if (out.rounds > 0 && out.stitches > 0) return out;
        return no_such(given, "an extra", extra_forms);
    }
    const bool named_first = take_yarn(text, out);
    if (auto rough = said_roughly(given, out, out.yarn, named_first)) return *std::move(rough);
    if (out.name.empty()) out.name = out.each_of.empty() ? "extra" : out.each_of;
    if (!named_first) take_things_of_name(out);
    if (auto more = name_says_more(given, out)) return *std::move(more);
    if (out.name.ends_with('-'))
        return no_such(given, "an extra", extra_forms, "No yarn is less than none.");
    if (out.things > 1 && out.name.ends_with(" of")) out.name.resize(out.name.size() - 3);
    if (auto problem = each_of_how_many(given, out)) return *std::move(problem);
    if (const auto places = places_in(out.name)) {
        if (out.things > 1)
            return no_such(given, "an extra", "the yarn of all of it, \"edging 60 m in all\"",
                           "It counts twice: of each, and at each place.");
        out.things = *places;
    }
    const bool several = out.things > 1 && out.of == ExtraOf::unsaid;
    out.yarn = balls_as_amount(out.yarn);
    if (!units::parse_length(out.yarn) && !units::parse_mass(out.yarn))
        return not_an_extra(given, text, out);
    if (several || (says_how_many(out.name) && out.of == ExtraOf::unsaid))
        return no_such(
            given, "an extra",
            "\"" + out.name + " " + out.yarn + " in all\" or " +
                (several ? "\"" + out.name + " " + times_said(out.yarn, out.things) + " in all\""
                         : "\"" + out.name + " " + out.yarn + " each\""),
            "It may be the yarn of one or of all.");
    if (!says_yarn && is_a_size(out))
        return base::Problem{
            base::quoted(given) + " may be a size, and not how much yarn it takes",
            {},
            "an amount of yarn, \"" + out.name + " 10 yd\"",
            "Where it is the yarn, say so: \"" + out.name + " " + out.yarn + " of yarn\"."};
    return out;
}

}  // namespace skeinfall::exchange
