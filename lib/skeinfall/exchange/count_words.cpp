#include "skeinfall/exchange/count_words.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <regex>
#include <string_view>
#include <utility>
#include <vector>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/detail/name_counts.hpp"
#include "skeinfall/exchange/detail/plain_piece.hpp"
#include "skeinfall/project/thing_words.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange {
namespace {

using detail::without_age;
using project::Thing;

constexpr std::int64_t most_pieces = 10'000;

std::optional<std::int64_t> number_of(const std::string& word) {
    static constexpr std::array<std::pair<std::string_view, std::int64_t>, 31> words{
        {{"a", 1},         {"an", 1},        {"the", 1},      {"one", 1},      {"two", 2},
         {"three", 3},     {"four", 4},      {"five", 5},     {"six", 6},      {"seven", 7},
         {"eight", 8},     {"nine", 9},      {"ten", 10},     {"eleven", 11},  {"twelve", 12},
         {"thirteen", 13}, {"fourteen", 14}, {"fifteen", 15}, {"sixteen", 16}, {"seventeen", 17},
         {"eighteen", 18}, {"nineteen", 19}, {"twenty", 20},  {"thirty", 30},  {"forty", 40},
         {"fifty", 50},    {"sixty", 60},    {"seventy", 70}, {"eighty", 80},  {"ninety", 90},
         {"hundred", 100}}};
    const std::string low = base::lower(word);
    for (const auto& [name, value] : words)
        if (low == name) return value;
    const auto value = units::parse_whole(low);
    if (!value || *value < 1 || *value > most_pieces) return std::nullopt;
    return *value;
}

/// "thirty six", "one hundred and twenty", "two thousand" at the start, and what stands behind;
/// nothing where it is one word. Before "inch" the last word may be a size.
std::optional<std::pair<std::int64_t, std::string>> number_of_words(const std::string& text) {
    std::vector<std::string> words;
    for (const std::string& word : base::split(text, ' '))
        if (!word.empty()) words.push_back(word);
    std::int64_t sum = 0;
    std::int64_t part = 0;
    std::size_t read = 0;
    std::size_t at = 0;
    for (; at < words.size(); ++at) {
        const std::string low = base::lower(words[at]);
        if (low == "and" && (part >= 100 || sum > 0) && at + 1 < words.size() &&
            number_of(words[at + 1]).value_or(100) < 100 && words[at + 1].size() > 2)
            continue;
        if (low == "thousand" && at > 0 && part > 0 && sum == 0) {
            sum = 1000 * part;
            part = 0;
        } else if (low == "hundred" && at > 0 && part > 0 && part < 10) {
            part *= 100;
        } else {
            const std::size_t dash = low.find('-');
            const auto tens = number_of(low.substr(0, dash));
            const auto ones = dash == std::string::npos ? std::optional<std::int64_t>(0)
                                                        : number_of(low.substr(dash + 1));
            const bool digits = !low.empty() && base::is_digit(low.front());
            const bool article = low == "the" || (at > 0 && (low == "a" || low == "an"));
            if (!tens || !ones || digits || article || *tens >= 100 || *ones >= 10 ||
                (dash != std::string::npos && *tens < 20))
                break;
            const std::int64_t room = part % 100 == 0 ? 100 : part >= 20 && part % 10 == 0 ? 10 : 1;
            if (*tens + *ones >= room) break;
            part += *tens + *ones;
        }
        ++read;
    }
    const bool several = read > 1 || (!words.empty() && words[0].find('-') != std::string::npos);
    if (!several || sum + part < 2 || at >= words.size()) return std::nullopt;
    if (project::is_thing(words[at], Thing::measure)) return std::nullopt;
    return std::pair{
        sum + part,
        base::join({words.begin() + static_cast<std::ptrdiff_t>(at), words.end()}, " ")};
}

std::string with_count(std::int64_t count, const std::string& rest) {
    const bool counted = !rest.empty() && base::is_digit(rest.front());
    return count < 1 || count > most_pieces || counted ? rest
                                                       : std::to_string(count) + " x " + rest;
}

/// "set of six coasters", "2 boxes of 6 coasters", "garland of 12 flags", "10-flag bunting".
std::optional<std::string> counted_in_holder(const std::string& text) {
    static const std::regex of_them(
        R"(^(?:([A-Za-z]+|\d+)\s+)?([A-Za-z]+)\s+of\s+([A-Za-z]+|\d+)\s+(.+)$)");
    static const std::regex hung(R"(^(?:an?\s+)?(\d+)[\s-]+([A-Za-z]+)\s+([A-Za-z]+)$)");
    std::smatch found;
    if (std::regex_match(text, found, of_them) &&
        project::is_thing(found[2].str(), Thing::holder)) {
        const auto holders =
            found[1].matched ? number_of(found[1].str()) : std::optional<std::int64_t>(1);
        const auto each = number_of(found[3].str());
        const bool article =
            base::lower(found[3].str()) == "a" || base::lower(found[3].str()) == "the";
        if (holders && each && !article) return with_count(*holders * *each, found[4]);
    }
    if (std::regex_match(text, found, hung))
        for (const std::string_view hangs : {"bunting", "garland", "banner"})
            if (base::same_word(found[3].str(), hangs))
                if (const auto number = number_of(found[1].str()); number && *number > 1)
                    return with_count(*number, found[2].str() + " of the " + found[3].str());
    return std::nullopt;
}

/// "1 1/2 dozen squares", "2,5 dozen", "one and a half dozen", "a dozen and a half squares".
std::optional<std::string> dozens_and_a_part(const std::string& text) {
    constexpr auto icase = std::regex::icase;
    static const std::regex mixed(
        R"(^(\d{1,3})\s+(\d)/(\d)\s*(dozen|score|gross)s?\s+(?:of\s+)?(.+)$)", icase);
    static const std::regex decimal(
        R"(^(\d{1,3})[.,](5|25|75)\s*(dozen|score|gross)s?\s+(?:of\s+)?(.+)$)", icase);
    static const std::regex halves(
        R"(^(\d{1,3}|[A-Za-z]+)\s+and\s+a\s+half\s+(dozen|score|gross)s?\s+(?:of\s+)?(.+)$)",
        icase);
    static const std::regex behind(
        R"(^(?:(\d{1,3}|[A-Za-z]+)\s+)?(dozen|score|gross)\s+and\s+a\s+half\s+(?:of\s+)?(.+)$)",
        icase);
    const auto of = [](const std::string& unit) {
        return base::same_word(unit, "dozen") ? 12 : base::same_word(unit, "score") ? 20 : 144;
    };
    // Whole things, or none that are known.
    const auto counted = [](std::int64_t parts, std::int64_t in_one, const std::string& rest) {
        return in_one > 0 && parts % in_one == 0 ? std::optional(with_count(parts / in_one, rest))
                                                 : std::nullopt;
    };
    std::smatch found;
    if (std::regex_match(text, found, mixed)) {
        const std::int64_t in_one = number_of(found[3]).value_or(0);
        return counted(
            (number_of(found[1]).value_or(0) * in_one + number_of(found[2]).value_or(0)) *
                of(found[4]),
            in_one, found[5]);
    }
    if (std::regex_match(text, found, decimal)) {
        const std::int64_t quarters = found[2] == "5" ? 2 : found[2] == "25" ? 1 : 3;
        return counted((4 * number_of(found[1]).value_or(0) + quarters) * of(found[3]), 4,
                       found[4]);
    }
    if (std::regex_match(text, found, halves))
        if (const auto whole = number_of(found[1]))
            return counted((2 * *whole + 1) * of(found[2]), 2, found[3]);
    if (std::regex_match(text, found, behind)) {
        const auto dozens = found[1].matched ? number_of(found[1]) : std::optional<std::int64_t>(1);
        if (dozens) return counted((2 * *dozens + 1) * of(found[2]), 2, found[3]);
    }
    return std::nullopt;
}

/// "two dozen squares", "half a gross of squares", "baker's dozen of rolls": counts that have a
/// name.
std::optional<std::string> counted_by_the_dozen(const std::string& text) {
    static const std::regex form(
        R"(^(?:(a\s+|an\s+|one\s+|1\s+)?(half)(?:[\s-]+an?)?[\s-]+|(?!baker)([A-Za-z]+|\d+)\s+)?(baker'?s[\s-]+dozen|dozen|score|gross)(?:s|es)?\s+(of\s+)?(.+)$)",
        std::regex::icase);
    std::smatch found;
    if (auto mixed = dozens_and_a_part(text)) return mixed;
    static const std::regex how_many(R"(^(?:dozens|scores)\b)", std::regex::icase);
    if (std::regex_search(text, how_many)) return std::nullopt;
    if (!std::regex_match(text, found, form)) return std::nullopt;
    const std::string name = base::lower(found[4].str());
    // "score board cover"
    const bool several = found[3].matched && number_of(found[3]).value_or(1) > 1;
    if ((name == "score" || name == "gross") && !found[5].matched && !several) return std::nullopt;
    const std::int64_t one = name == "dozen"   ? 12
                             : name == "score" ? 20
                             : name == "gross" ? 144
                                               : 13;
    if (found[2].matched)
        return one % 2 == 0 ? std::optional(with_count(one / 2, found[6])) : std::nullopt;
    const auto times =
        found[3].matched ? number_of(found[3].str()) : std::optional<std::int64_t>(1);
    if (!times) return std::nullopt;
    return with_count(*times * one, found[6]);
}

/// "a dozen scarves", "set of six coasters", "both mitts", "three pairs of socks", "two mitts".
std::optional<std::string> counted_in_front(const std::string& text) {
    constexpr auto icase = std::regex::icase;
    if (const auto spoken = number_of_words(text)) {
        const std::string in_digits = std::to_string(spoken->first) + " " + spoken->second;
        if (auto known = counted_by_the_dozen(in_digits)) return known;
        return with_count(spoken->first, spoken->second);
    }
    if (auto known = counted_by_the_dozen(text)) return known;
    if (auto held = counted_in_holder(text)) return held;
    static const std::regex couple(R"(^(?:a\s+|the\s+)?couple\s+(?:of\s+)?(.+)$)", icase);
    static const std::regex both(R"(^both(?:\s+of)?(?:\s+the)?\s+(.+)$)", icase);
    static const std::regex pairs(R"(^(?:([A-Za-z]+|\d+)\s+)?pairs?\s+(?:of\s+)?(.+)$)", icase);
    static const std::regex spelled(R"(^([A-Za-z]+)\s+(.+)$)");
    static const std::regex times_each(R"(^(\d+)\s*[x*]\s*([A-Za-z].*)$)", icase);
    static const std::regex packed(R"(^([A-Za-z]+|\d+)[\s-]*packs?\s+(?:of\s+)?([A-Za-z].*)$)",
                                   icase);
    static const std::regex grouped(
        R"(^(?:a\s+)?(duo|trio|quartet|quintet|sextet)\s+(?:of\s+)?(.+)$)", icase);
    std::smatch found;
    const auto times = [&](std::size_t group) {
        return found[group].matched ? number_of(found[group]) : std::optional<std::int64_t>(1);
    };
    if (std::regex_match(text, found, grouped)) {
        static constexpr std::array<std::string_view, 5> groups{"duo", "trio", "quartet", "quintet",
                                                                "sextet"};
        for (std::size_t at = 0; at < groups.size(); ++at)
            if (base::same_word(found[1].str(), groups.at(at)))
                return with_count(static_cast<std::int64_t>(at) + 2, found[2]);
    }
    for (const std::regex* form : {&times_each, &packed})
        if (std::regex_match(text, found, *form))
            if (const auto number = number_of(found[1]); number && *number > 1)
                return with_count(*number, found[2]);
    if (std::regex_match(text, found, couple)) return with_count(2, found[1]);
    if (std::regex_match(text, found, both)) return with_count(2, found[1]);
    if (std::regex_match(text, found, pairs))
        if (const auto number = times(1)) return with_count(2 * *number, found[2]);
    if (std::regex_match(text, found, spelled)) {
        const std::string word = base::lower(found[1].str());
        const bool article = word == "a" || word == "an" || word == "the";
        const auto number = number_of(word);
        const std::string rest = found[2];
        if (number && !article) return std::to_string(*number) + " " + rest;
    }
    return std::nullopt;
}

/// "granny squares x 30", "squares (30)", "mitts, both", "coasters, set of 6".
std::optional<std::string> counted_behind(const std::string& name) {
    constexpr auto icase = std::regex::icase;
    static const std::regex figure(
        R"(^([A-Za-z].*?)\s*,?\s*(?:\bx\s*|x(?=\d)|\btimes\s+|\*\s*|#\s*)(\d+|[A-Za-z]+)(?:\s+times)?$)",
        icase);
    static const std::regex bracketed(
        R"(^([A-Za-z].*?)\s*[\(\[]\s*(?:x\s*|make\s+|work\s+|all\s+)?(\d+|[A-Za-z]+)(?:\s*x|\s*(?:pcs|pc|nos?|nr|off|ea)\.?|\s+pieces|\s+times|\s+of\s+(?:them|these)|\s+needed|\s+required|\s+in\s+(?:all|total))?\s*[\)\]]$)",
        icase);
    static const std::regex both(
        R"(^([A-Za-z].*?)\s*,?\s*[\(\[]?\s*(?:both|twice|two times|2 times|(?:a\s+|one\s+|1\s+)?(?:pair|pr)\.?)[\)\]]?$)",
        icase);
    static const std::regex set(
        R"(^([A-Za-z].*?)\s*,?\s*(?:set|pack|make|quantity|qty\.?)\s*:?\s*(?:of\s+)?(\d+|[A-Za-z]+)$)",
        icase);
    static const std::regex figure_first(R"(^([A-Za-z].*?)\s*,?\s*(\d+)\s*x$)", icase);
    // "placemats four", "coasters, 4", but "size 6"
    static const std::regex bare(
        R"(^([A-Za-z].*?)\s*,?\s+(?:-\s+)?(?:all\s+)?(\d+|[A-Za-z]+)(?:\s+of\s+(?:them|each|these)|\s+pieces|\s+times|\s*(?:pcs|pc|nos?|nr|off|ea)\.?|\s+(?:needed|required|in\s+all|in\s+total|alike))?$)",
        icase);
    static const std::regex a_size(R"(\b(?:size|no\.?|number|age|#)\s*$)", icase);
    // "bunting, 10 flags"
    static const std::regex hung(R"(^(bunting|garland|banner)\s*,\s*(\d+)\s+([A-Za-z]+s)$)", icase);
    if (detail::series_in(name)) return std::nullopt;
    std::smatch found;
    if (std::regex_match(name, found, hung))
        if (const auto number = number_of(found[2].str()))
            return with_count(*number, found[3].str() + " of the " + found[1].str());
    for (const std::regex* form : {&figure, &bracketed, &set, &figure_first, &bare})
        if (std::regex_match(name, found, *form))
            if (const auto number = number_of(found[2]);
                number && !base::same_word(found[2].str(), "a") &&
                (form != &bare || (*number > 1 && !std::regex_search(found[1].str(), a_size) &&
                                   !detail::ends_in_length(found[1]))))
                return with_count(*number, found[1]);
    if (std::regex_match(name, found, both)) return with_count(2, found[1]);
    return std::nullopt;
}

bool is_plural(const std::string& low) {
    if (project::is_thing(low, Thing::several)) return true;
    // One garment, in the plural or with an s of its own.
    if (project::is_thing(low, Thing::one)) return false;
    if (low.size() < 4 || low.back() != 's') return false;
    return !low.ends_with("ss") && !low.ends_with("us") && !low.ends_with("is") &&
           !low.ends_with("'s");
}

/// A size, a colour or a figure behind what is named.
bool qualifies(const std::string& low) {
    return project::is_thing(low, Thing::size) || project::is_colour_word(low) ||
           base::is_digit(low.front());
}

/// Parts of a name between marks, without what prepositions begin: "socks" and "adult" of "socks
/// for Ann (adult)".
std::vector<std::vector<std::string>> parts_of_name(const std::string& name) {
    static const std::regex marks(R"([,;:()\[\]{}/|]| -+ | -+$)");
    std::vector<std::vector<std::string>> out;
    const std::string plain = std::regex_replace(base::lower(without_age(name)), marks, "\n");
    for (const std::string& part : base::split(plain, '\n')) {
        std::vector<std::string> words;
        for (const std::string& word : base::split(part, ' ')) {
            if (word.empty()) continue;
            bool stops = false;
            for (const std::string_view sign :
                 {"of", "for", "in", "with", "from", "by", "to", "on", "at", "and", "&"})
                stops = stops || (word == sign && !words.empty());
            if (stops) break;
            words.push_back(word);
        }
        if (!words.empty()) out.push_back(std::move(words));
    }
    return out;
}

/// The words of a kind, without sizes and colours behind it.
std::vector<std::string> words_of_kind(const std::string& name) {
    std::vector<std::vector<std::string>> parts = parts_of_name(name);
    if (parts.empty()) return {};
    std::vector<std::string> words = std::move(parts.front());
    for (std::size_t at = 1; at < words.size(); ++at)
        if (words[at] == "size" || words[at] == "sized" || words[at] == "sz") words.resize(at);
    while (words.size() > 1 && qualifies(words.back())) words.pop_back();
    return words;
}

/// The word that a name is a kind of: "squares" of "squares in rust", "scarf" of "scarf for kids".
std::string head_of(const std::string& name) {
    const std::vector<std::string> words = words_of_kind(name);
    return words.empty() ? std::string() : words.back();
}

/// "mitts" anywhere in a name but behind a preposition.
bool names_a_pair(const std::string& name) {
    for (const auto& part : parts_of_name(name))
        for (const std::string& word : part)
            if (project::is_thing(word, Thing::pair)) return true;
    return false;
}

/// "scarf, 2 layers", "mitts, 2 right", "one each for six friends": a number in a name that
/// measures nothing, or a word that stands for one.
bool counts_within(const std::string& given) {
    // Numbers in words as figures: "two-layer" is "2 layer".
    std::string low;
    for (const std::string& part : base::split(without_age(given), ' '))
        for (std::string word : base::split(part, '-')) {
            while (!word.empty() && word.back() == '.') word.pop_back();
            for (const std::string_view several :
                 {"each",    "every",      "dozen",         "dozens",    "apiece",     "per",
                  "qty",     "quantity",   "pcs",           "pieces",    "ea",         "dz",
                  "dzn",     "doz",        "copies",        "duplicate", "duplicates", "dup",
                  "dups",    "triplicate", "quadruplicate", "duo",       "trio",       "quartet",
                  "quintet", "sextet",     "triple",        "layered"})
                if (word == several) return true;
            const auto number = word.size() > 2 ? number_of(word) : std::nullopt;
            low +=
                (low.empty() ? "" : " ") + (number && *number > 1 ? std::to_string(*number) : word);
        }
    static const std::regex figure(R"((?:^|[^\d.,/])(\d+)\s+([a-z]+))");
    static const std::regex numbered(R"((?:size|no\.?|number|age|#)\s*$)");
    for (std::sregex_iterator found(low.begin(), low.end(), figure), end; found != end; ++found) {
        // "size 6 hat", "mark 2 scarf"
        const std::string before(base::trimmed(
            std::string_view(low).substr(0, static_cast<std::size_t>(found->position(1)))));
        if (std::regex_search(before, numbered) ||
            project::is_thing(before.substr(before.rfind(' ') + 1), Thing::numbered))
            continue;
        const auto number = number_of((*found)[1]);
        if (number.value_or(most_pieces) < 2) continue;
        if (!project::is_thing((*found)[2].str(), Thing::measure)) return true;
    }
    return false;
}

/// Two things in one name, or one that is to be made again.
bool names_two(const std::string& low) {
    static const std::regex sides(
        R"(\b(?:front|back)s?\s*(?:/|,|\+|&|-|\band\b)\s*(?:front|back)|\b(?:left|right)\s*(?:/|,|\+|&|-|\band\b|\bor\b)\s*(?:left|right)|\bl\s*(?:/|\+|&|\band\b)\s*r\b|\br\s*(?:/|\+|&|\band\b)\s*l\b|\b(?:top|bottom)\s*(?:/|,|\+|&|-|\band\b)\s*(?:top|bottom)|\b(?:upper|lower|inner|outer)\s*(?:/|,|\+|&|\band\b)\s*(?:upper|lower|inner|outer))");
    // "right front, left front" but not "front post"
    static const std::regex apart(
        R"(\bleft\b.*\bright\b|\bright\b.*\bleft\b|\bfronts?\b(?!\s+post).*[,/+&].*\bbacks?\b(?!\s+post)|\bbacks?\b(?!\s+post).*[,/+&].*\bfronts?\b(?!\s+post)|\b(?:top|upper|inner)\s+[a-z]+\s*(?:/|,|\+|&|\band\b)\s*(?:bottom|lower|outer)\b)");
    // "reverse single crochet" is a stitch.
    static const std::regex turned(
        R"(\breverse\b(?!\s+(?:st\b|stocking|stockinette|sc\b|single|garter|crab|crochet|shell))|\brevers(?:ed|ing)\b|\bmirror(?:ed|ing|s)\b|\bmirror[\s-]+image|\bmirror$|\bmirror\s*(?:\)|for\b|it\b|the\b|other\b)|\bopposite\b|\bother\s+(?:side|half|hand|foot|leg|arm|sleeve|front|end)\b|\bvice\s+versa\b|\bsame\s+again\b|\ba\s+piece$|\bto\s+match\b|\bas\s+(?:the\s+)?(?:first|other|before)\b|\bsecond\s+(?:the\s+)?(?:same|alike|side)\b)");
    static const std::regex again(
        R"(\btwice\b|\bthrice\b|\bditto\b|\bagain\b|\banother\b|\balike\b|\brepeat(?:ed)?\s+(?:for|the|once|it|with)\b|\b(?:second|other) one\b|\bthe other\b|\b(?:make|work|knit|crochet|do)\s+(?:the\s+|a\s+)?(?:second|other)\b|\bpr\b)");
    for (const std::regex* form : {&sides, &apart, &turned, &again})
        if (std::regex_search(low, *form)) return true;
    for (const std::string_view two : {" + ", "for each of", "twin"})
        if (low.find(two) != std::string::npos) return true;
    return false;
}

}  // namespace

std::optional<std::int64_t> spoken_number(const std::string& word) {
    return number_of(word);
}

std::optional<std::string> collected_in(const std::string& name) {
    static const std::regex of_them(R"(^(?:an?\s+|the\s+)?[A-Za-z][A-Za-z' -]*?\s+of\s+(.+)$)",
                                    std::regex::icase);
    std::smatch found;
    if (!std::regex_match(name, found, of_them)) return std::nullopt;
    const std::vector<std::string> words = words_of_kind(found[1]);
    if (words.empty() || !is_plural(words.back()) ||
        project::is_thing(words.back(), Thing::measure))
        return std::nullopt;
    return base::join(words, " ");
}

bool is_kind(const std::string& name, project::Thing means) {
    const std::vector<std::string> words = words_of_kind(name);
    if (words.empty()) return false;
    const std::string two =
        words.size() < 2 ? std::string() : words[words.size() - 2] + " " + words.back();
    return project::is_thing(words.back(), means) || project::is_thing(two, means);
}

std::string kind_of(const std::string& name) {
    return base::join(words_of_kind(name), " ");
}

bool may_be_counted(const std::string& name) {
    const std::vector<std::string> words = words_of_kind(name);
    if (words.size() < 2) return true;
    return std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return is_plural(word) || project::is_thing(word, Thing::group);
    });
}

bool counts_again(const std::string& name) {
    static const std::regex again(
        R"(\b(?:pairs?|pr|both|twice|another|sets?|dozens?)\b|^(?:each|every|score|gross|hundreds?|thousands?|half|quarter)\b)",
        std::regex::icase);
    const std::string first = name.substr(0, name.find(' '));
    // "3 six squares"
    const bool number = first.size() < name.size() && first.size() > 2 &&
                        !base::same_word(first, "the") && number_of(first);
    return number || std::regex_search(name, again) ||
           project::is_thing(head_of(name), Thing::group);
}

std::string counted_in_figures(const std::string& given) {
    if (const auto alone = detail::count_alone(given))
        return std::to_string(*alone) + (*alone == 1 ? " piece" : " pieces");
    // "make 2 legs"
    if (const std::size_t blank = given.find(' ');
        blank < given.size() && project::is_thing(given.substr(0, blank), Thing::bids)) {
        const std::string rest(base::trimmed(std::string_view(given).substr(blank)));
        const std::string counted = counted_in_figures(rest);
        return base::is_digit(counted.empty() ? ' ' : counted.front()) ? counted : given;
    }
    const std::string text = detail::count_plainly(given);
    if (const auto front = counted_in_front(text)) return *front;
    if (text.find(':') != std::string::npos) return text;
    if (base::same_word(text, "both") || base::same_word(text, "pair") ||
        base::same_word(text, "a pair"))
        return "2 pieces";
    static const std::regex set_alone(R"(^(?:a\s+)?(?:set|pack)\s+of\s+(\d+|[A-Za-z]+)$)",
                                      std::regex::icase);
    if (std::smatch found; std::regex_match(text, found, set_alone))
        if (const auto number = number_of(found[1])) return with_count(*number, "pieces");
    return counted_behind(text).value_or(text);
}

std::optional<std::string> one_side_of(const std::string& name) {
    static const std::regex twice(
        R"(\b(?:doubl(?:e|ed)|two|2|twice)[\s-]*(?:sided|layer(?:s|ed)?|thick(?:ness)?|faced|walled)\b|\bdoubled(?:[\s-]+over)?\b(?!\s+(?:yarn|strand))|\bdouble(?=\s+(?:pot\s?holder|hot\s?pad|trivet|oven))|\bboth sides\b|\bfront\s*(?:and|&|/|,)\s*back\b|\bback\s*(?:and|&|/|,)\s*front\b)",
        std::regex::icase);
    if (!std::regex_search(name, twice)) return std::nullopt;
    const std::string rest = kind_of(std::regex_replace(name, twice, " "));
    return rest.empty() ? "pieces" : rest;
}

bool comes_in_pairs(const std::string& name) {
    const std::vector<std::string> words = words_of_kind(name);
    // "left mitts, 2 right"
    if (words.empty() || counts_within(base::lower(name))) return false;
    return is_kind(name, Thing::pair);
}

bool names_several(const std::string& name) {
    const std::string low = base::lower(base::trimmed(name));
    for (const std::string_view vague :
         {"some ", "several ", "a few ", "few ", "many ", "multiple ", "various ", "all ",
          "all the ", "lots of ", "a set of ", "set of ", "a pack of ", "pack of ", "a bunch of ",
          "bunch of "})
        if (low.starts_with(vague)) return true;
    if (names_two(low) || counts_within(low) || collected_in(low)) return true;
    const std::string head = head_of(low);
    return project::is_thing(head, Thing::group) || is_plural(head) || names_a_pair(low);
}

}  // namespace skeinfall::exchange
