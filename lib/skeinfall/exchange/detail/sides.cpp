#include "skeinfall/exchange/detail/sides.hpp"

#include <algorithm>
#include <array>
#include <regex>
#include <vector>

#include "skeinfall/base/letters.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange::detail {
namespace {

using base::is_digit;

/// "9 to 12 in", "40 to 60 sts": the first takes the word or unit of the second.
std::optional<Side> tapered_side(const std::string& text) {
    static const std::regex form(R"(^(\d[\d.,/ ]*?)\s*([A-Za-z\x22\x27 .]*?)\s*\bto\s+(\d.*)$)");
    std::smatch found;
    // Rows of blanks could be parted in too many ways.
    if (text.find("  ") != std::string::npos || !std::regex_match(text, found, form))
        return std::nullopt;
    const auto last = side_of(found[3]);
    if (!last || last->last_count || !last->last_length.empty() || last->rows())
        return std::nullopt;
    std::string unit(base::trimmed(std::string(found[2])));
    if (unit.empty()) {
        const std::string second = found[3];
        std::size_t at = 0;
        while (at < second.size() &&
               (is_digit(second[at]) ||
                std::string_view(".,/ ").find(second[at]) != std::string_view::npos))
            ++at;
        unit = second.substr(at);
    }
    auto first = side_of(std::string(found[1]) + " " + unit);
    if (!first || first->count.has_value() != last->count.has_value()) return std::nullopt;
    first->last_count = last->count;
    first->last_length = last->length;
    return first;
}

/// "12 in wide": the side without the words that say which it is.
std::string without_direction(std::string_view given, Way& way) {
    static constexpr std::array<std::pair<std::string_view, Way>, 18> words{
        {{"wide", Way::across},
         {"across", Way::across},
         {"around", Way::round},
         {"all round", Way::round},
         {"round", Way::round},
         {"in width", Way::across},
         {"in circumference", Way::round},
         {"circumference", Way::round},
         {"long", Way::up},
         {"tall", Way::up},
         {"high", Way::up},
         {"deep", Way::up},
         {"in length", Way::up},
         {"in height", Way::up},
         {"in depth", Way::up},
         {"width", Way::across},
         {"length", Way::up},
         {"height", Way::up}}};
    std::string text(base::trimmed(given));
    for (const auto& [word, says] : words) {
        const std::string ending = " " + std::string(word);
        if (!base::lower(text).ends_with(ending)) continue;
        way = says;
        text.resize(text.size() - ending.size());
        break;
    }
    return text;
}

/// The first takes the unit of the second where it has none.
std::string with_unit_of(std::string first, const std::string& second) {
    if (first.empty() || !is_digit(first.back()) || !units::parse_length(second)) return first;
    std::size_t at = 0;
    while (at < second.size() &&
           (is_digit(second[at]) || second[at] == '.' || second[at] == ',' || second[at] == '/' ||
            (second[at] == ' ' && at + 1 < second.size() && is_digit(second[at + 1]))))
        ++at;
    return first + second.substr(at);
}

using Sides = std::pair<Side, Side>;

bool goes_across(const Side& side) {
    return side.way == Way::across || side.way == Way::round;
}

/// "18 in around, 4 in wide": of a band the width is its height. Half of what it is around, it may
/// be the width as it lies flat.
std::optional<Sides> as_band(const Side& round, const Side& wide) {
    if (round.way != Way::round || wide.way != Way::across) return std::nullopt;
    const auto around = units::parse_length(round.length);
    const auto width = units::parse_length(wide.length);
    constexpr double flat = 2.5;
    if (!around || !width || *around < flat * *width) return std::nullopt;
    Side up = wide;
    up.way = Way::up;
    return Sides{round, up};
}

/// "60 in around and 12 in tall", "33 hdc, 96 rows": only where the words say which is which.
std::optional<Sides> sides_by_words(const std::string& text) {
    static const std::regex parted(R"(^(\d.*?)\s*(?:,|\band\b|&)\s*(\d.*)$)", std::regex::icase);
    // "60 in long 8 in wide"
    static const std::regex unparted(
        R"(^(\d.*?\b(?:wide|across|around|long|tall|high|deep))\s+(\d.*)$)", std::regex::icase);
    std::smatch found;
    if (!std::regex_match(text, found, parted) && !std::regex_match(text, found, unparted))
        return std::nullopt;
    const auto a = side_of(found[1]);
    const auto b = side_of(found[2]);
    if (!a || !b) return std::nullopt;
    if (auto band = as_band(*a, *b)) return band;
    if (auto band = as_band(*b, *a)) return band;
    const bool counts = a->count && b->count && a->rows() != b->rows();
    const bool ways =
        goes_across(*a) != goes_across(*b) && a->way != Way::unsaid && b->way != Way::unsaid;
    if (!counts && !ways) return std::nullopt;
    return Sides{*a, *b};
}

/// "15 cm square"
std::optional<Sides> square_side(const std::string& text) {
    static const std::regex square(R"(^(\d.*?)[\s-]*(?:square|sq\.?)$)", std::regex::icase);
    std::smatch found;
    if (!std::regex_match(text, found, square)) return std::nullopt;
    const auto side = side_of(found[1]);
    if (!side || side->length.empty() || !side->last_length.empty()) return std::nullopt;
    return Sides{*side, *side};
}

std::optional<Sides> sides_in_order(const std::string& text) {
    static const std::array<std::regex, 2> between{std::regex(R"(^(.*?)\s+(?:x|by|X)\s+(.*)$)"),
                                                   std::regex(R"(^(\d[\d.,]*[^\d]*?)[xX](\d.*)$)")};
    std::smatch found;
    for (const std::regex& sign : between) {
        if (!std::regex_match(text, found, sign)) continue;
        const std::string second(base::trimmed(std::string(found[2])));
        Way none = Way::unsaid;
        const auto a = side_of(with_unit_of(std::string(base::trimmed(std::string(found[1]))),
                                            without_direction(second, none)));
        const auto b = side_of(second);
        if (a && b) return Sides{*a, *b};
    }
    static const std::regex of(R"(^(\d+\s*\S+)\s+of\s+(\d+.*)$)");
    if (std::regex_match(text, found, of)) {
        const auto a = side_of(found[1]);
        const auto b = side_of(found[2]);
        if (a && b && a->rows() && b->stitches()) return Sides{*b, *a};
    }
    if (auto said = sides_by_words(text)) return said;
    return square_side(text);
}

}  // namespace

base::Problem no_such(std::string_view text, const std::string& kind, std::string expected,
                      std::string remedy) {
    return {base::quoted(text) + " is not understood as " + kind,
            {},
            std::move(expected),
            std::move(remedy)};
}

std::optional<std::int64_t> whole(const std::string& text) {
    const auto value = units::parse_whole(text);
    return value ? std::optional(*value) : std::nullopt;
}

bool says_stitches(const std::string& word) {
    for (const char* known : {"st", "sts", "st.", "sts.", "stitch", "stitches"})
        if (base::same_word(word, known)) return true;
    return false;
}

bool says_rows(const std::string& word) {
    for (const char* known : {"row", "rows", "rounds", "round", "rnd", "rnds", "r"})
        if (base::same_word(word, known)) return true;
    return false;
}

bool says_rounds(const std::string& word) {
    return word.size() > 1 && base::lower(word).starts_with("r") &&
           base::lower(word).find("nd") != std::string::npos;
}

std::optional<Side> side_of(const std::string& given) {
    Way way = Way::unsaid;
    const std::string text = without_direction(given, way);
    if (units::parse_length(text)) return Side{{}, {}, text, {}, {}, way};
    static const std::regex counted(R"(^(\d+)\s*([A-Za-z][A-Za-z0-9 .\x27/-]*)$)");
    std::smatch found;
    if (auto tapered = tapered_side(text)) {
        tapered->way = way;
        return tapered;
    }
    if (!std::regex_match(text, found, counted)) return std::nullopt;
    const auto count = whole(found[1]);
    if (!count) return std::nullopt;
    // "150 cm and a bit" is no count of stitches, nor is the 2 of "2 colour scarf 33 hdc".
    const std::string word = found[2];
    for (const std::string& part : base::split(word, ' '))
        if (!part.empty() && std::all_of(part.begin(), part.end(), is_digit)) return std::nullopt;
    if (units::parse_length("1 " + word.substr(0, word.find(' ')))) return std::nullopt;
    return Side{count, std::string(base::trimmed(std::string(found[2]))), {}, {}, {}, way};
}

std::optional<std::pair<Side, Side>> two_sides(const std::string& text) {
    auto sides = sides_in_order(text);
    // "70 in long x 9 in wide"
    if (sides && (sides->first.way == Way::up || goes_across(sides->second)) &&
        sides->first.way != sides->second.way)
        std::swap(sides->first, sides->second);
    return sides;
}

}  // namespace skeinfall::exchange::detail
