#include "skeinfall/exchange/count_words.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <regex>
#include <string_view>
#include <utility>
#include <vector>

#include "skeinfall/base/text.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange {
namespace {

constexpr std::int64_t most_pieces = 10'000;

/// A number in figures or in a word; "a" and "the" count one.
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

std::string with_count(std::int64_t count, const std::string& rest) {
    return count < 1 || count > most_pieces ? rest : std::to_string(count) + " " + rest;
}

/// "a dozen scarves", "set of six coasters", "both mitts", "three pairs of socks", "two mitts".
std::optional<std::string> counted_in_front(const std::string& text) {
    constexpr auto icase = std::regex::icase;
    static const std::regex half(R"(^(?:a\s+)?half\s+(?:a\s+)?dozen\s+(?:of\s+)?(.+)$)", icase);
    static const std::regex dozens(R"(^(?:([A-Za-z]+|\d+)\s+)?dozens?\s+(?:of\s+)?(.+)$)", icase);
    static const std::regex couple(R"(^(?:a\s+|the\s+)?couple\s+(?:of\s+)?(.+)$)", icase);
    static const std::regex both(R"(^both(?:\s+of)?(?:\s+the)?\s+(.+)$)", icase);
    static const std::regex pairs(R"(^(?:([A-Za-z]+|\d+)\s+)?pairs?\s+(?:of\s+)?(.+)$)", icase);
    static const std::regex set(
        R"(^(?:([A-Za-z]+|\d+)\s+)?(?:sets?|packs?|lots?|batch(?:es)?)\s+of\s+([A-Za-z]+|\d+)\s+(.+)$)",
        icase);
    static const std::regex spelled(R"(^([A-Za-z]+)\s+(.+)$)");
    static const std::regex times_each(R"(^(\d+)\s*x\s*([A-Za-z].*)$)", icase);
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
    if (std::regex_match(text, found, half)) return with_count(6, found[1]);
    if (std::regex_match(text, found, dozens))
        if (const auto number = times(1)) return with_count(12 * *number, found[2]);
    if (std::regex_match(text, found, couple)) return with_count(2, found[1]);
    if (std::regex_match(text, found, both)) return with_count(2, found[1]);
    if (std::regex_match(text, found, set)) {
        const auto sets = times(1);
        const auto each = number_of(found[2]);
        if (sets && each) return with_count(*sets * *each, found[3]);
    }
    if (std::regex_match(text, found, pairs))
        if (const auto number = times(1)) return with_count(2 * *number, found[2]);
    if (std::regex_match(text, found, spelled)) {
        const std::string word = base::lower(found[1].str());
        const bool article = word == "a" || word == "an" || word == "the";
        const auto number = number_of(word);
        // "one hundred squares"
        std::smatch more;
        const std::string rest = found[2];
        if (number && std::regex_match(rest, more, spelled) &&
            base::same_word(more[1].str(), "hundred"))
            return with_count(100 * *number, more[2]);
        if (number && !article) return with_count(*number, rest);
    }
    return std::nullopt;
}

/// "granny squares x 30", "squares (30)", "mitts, both", "coasters, set of 6".
std::optional<std::string> counted_behind(const std::string& name) {
    constexpr auto icase = std::regex::icase;
    static const std::regex figure(
        R"(^([A-Za-z].*?)\s*,?\s*(?:x|times|\*|#)\s*(\d+)(?:\s+times)?$)", icase);
    static const std::regex bracketed(
        R"(^([A-Za-z].*?)\s*[\(\[]\s*(?:x\s*|make\s+|work\s+)?(\d+|[A-Za-z]+)(?:\s*x|\s+pieces|\s+of\s+them|\s+needed|\s+required|\s+in\s+all)?\s*[\)\]]$)",
        icase);
    static const std::regex both(R"(^([A-Za-z].*?)\s*,?\s*\(?both\)?$)", icase);
    static const std::regex set(
        R"(^([A-Za-z].*?)\s*,?\s*(?:set|pack|make|quantity|qty\.?)\s*:?\s*(?:of\s+)?(\d+|[A-Za-z]+)$)",
        icase);
    static const std::regex figure_first(R"(^([A-Za-z].*?)\s*,?\s*(\d+)\s*x$)", icase);
    // "placemats four", "coasters, 4", but "size 6"
    static const std::regex bare(
        R"(^([A-Za-z].*?)\s*,?\s+(\d+|[A-Za-z]+)(?:\s+of\s+(?:them|each)|\s+pieces|\s+pcs\.?)?$)",
        icase);
    static const std::regex a_size(R"(\b(?:size|no\.?|number|age|#)\s*$)", icase);
    std::smatch found;
    for (const std::regex* form : {&figure, &bracketed, &set, &figure_first, &bare})
        if (std::regex_match(name, found, *form))
            if (const auto number = number_of(found[2]);
                number && !base::same_word(found[2].str(), "a") &&
                (form != &bare || (*number > 1 && !std::regex_search(found[1].str(), a_size))))
                return with_count(*number, found[1]);
    if (std::regex_match(name, found, both)) return with_count(2, found[1]);
    return std::nullopt;
}

/// The word that a name is a kind of: "squares" of "squares in rust", "scarf" of "scarf for kids".
std::string head_of(const std::string& name) {
    std::string head;
    for (const std::string& word : base::split(base::lower(name), ' ')) {
        if (word.empty()) continue;
        for (const std::string_view sign :
             {"of", "for", "in", "with", "from", "by", "to", "on", "at", "and", "&"})
            if (word == sign && !head.empty()) return head;
        head = word;
    }
    return head;
}

/// "scarf, 2 layers", "mitts, 2 right", "one each for six friends": a number in a name that
/// measures nothing, or a word that stands for one.
bool counts_within(const std::string& given) {
    // Numbers in words as figures: "two-layer" is "2 layer".
    std::string low;
    for (const std::string& part : base::split(given, ' '))
        for (const std::string& word : base::split(part, '-')) {
            for (const std::string_view several :
                 {"each", "apiece", "per", "qty", "quantity", "pcs", "pieces", "copies", "duo",
                  "trio", "quartet", "quintet", "sextet", "triple", "layered"})
                if (word == several) return true;
            const auto number = word.size() > 2 ? number_of(word) : std::nullopt;
            low +=
                (low.empty() ? "" : " ") + (number && *number > 1 ? std::to_string(*number) : word);
        }
    static const std::regex figure(R"((?:^|[^\d.,/])(\d+)\s+([a-z]+))");
    static const std::regex numbered(R"((?:size|no\.?|number|age|#)\s*$)");
    for (std::sregex_iterator found(low.begin(), low.end(), figure), end; found != end; ++found) {
        // "size 6 hat"
        if (std::regex_search(low.substr(0, static_cast<std::size_t>(found->position(1))),
                              numbered))
            continue;
        const auto number = number_of((*found)[1]);
        if (number.value_or(most_pieces) < 2) continue;
        bool measures = false;
        for (const std::string_view unit :
             {"month",  "months", "year", "years",    "yr",     "in",     "inch",   "inches",
              "cm",     "mm",     "m",    "ft",       "ply",    "oz",     "strand", "strands",
              "g",      "yd",     "yds",  "day",      "days",   "week",   "weeks",  "st",
              "sts",    "row",    "rows", "stitches", "rounds", "colour", "color",  "colours",
              "colors", "point",  "tone", "toned",    "way",    "needle", "hook"})
            measures = measures || (*found)[2].str() == unit;
        if (!measures) return true;
    }
    return false;
}

/// Two things in one name.
bool names_two(const std::string& low) {
    for (const std::string_view two :
         {"front and back", "back and front", "front & back", "back & front", "left and right",
          "right and left", "left & right", "right & left", "top and bottom", "top & bottom", " + ",
          "for each of", "twin"})
        if (low.find(two) != std::string::npos) return true;
    return false;
}

}  // namespace

std::string counted_in_figures(const std::string& text) {
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
        R"(\b(?:doubl(?:e|ed)|two|2|twice)[\s-]*(?:sided|layer(?:s|ed)?|thick(?:ness)?|faced|walled)\b|\bboth sides\b|\bfront and back\b|\bback and front\b)",
        std::regex::icase);
    if (!std::regex_search(name, twice)) return std::nullopt;
    std::string rest;
    for (const std::string& word : base::split(std::regex_replace(name, twice, " "), ' '))
        if (!word.empty()) rest += (rest.empty() ? "" : " ") + word;
    return rest;
}

bool comes_in_pairs(const std::string& name) {
    const std::string word = base::lower(name);
    for (const std::string_view known :
         {"mitts", "mittens", "gloves", "socks", "slippers", "booties", "bootees", "sleeves",
          "legwarmers", "leg warmers", "wristwarmers", "wrist warmers", "armwarmers", "arm warmers",
          "stockings", "cuffs"})
        if (word == known || word.ends_with(" " + std::string(known))) return true;
    return false;
}

bool names_several(const std::string& name) {
    const std::string low = base::lower(base::trimmed(name));
    for (const std::string_view vague :
         {"some ", "several ", "a few ", "few ", "many ", "multiple ", "various ", "all ",
          "all the ", "lots of ", "a set of ", "set of ", "a pack of ", "pack of ", "a bunch of ",
          "bunch of "})
        if (low.starts_with(vague)) return true;
    if (names_two(low) || counts_within(low)) return true;
    const std::string head = head_of(low);
    for (const std::string_view group : {"set", "pack", "pair", "both", "batch", "bunch"})
        if (head == group) return true;
    // One garment, in the plural or with an s of its own: common practice, no source.
    for (const std::string_view one :
         {"trousers",  "shorts",   "pants",    "leggings",  "tights",  "overalls",
          "dungarees", "rompers",  "bloomers", "pyjamas",   "pajamas", "longies",
          "soakers",   "knickers", "swatches", "christmas", "canvas",  "atlas",
          "cosmos",    "iris",     "chaos",    "lens",      "gas",     "always"})
        if (head == one) return false;
    if (head.size() < 4 || head.back() != 's') return false;
    return !head.ends_with("ss") && !head.ends_with("us") && !head.ends_with("is") &&
           !head.ends_with("'s");
}

}  // namespace skeinfall::exchange
