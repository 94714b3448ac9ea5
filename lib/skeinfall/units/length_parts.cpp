#include "skeinfall/units/length_parts.hpp"

#include <array>
#include <regex>
#include <string>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::units {
namespace {

// A regular expression goes as deep as its text is long.
constexpr std::size_t longest_of_parts = 200;

/// The end of a side: what follows is no word that the figure before it may count.
const char* const end_of_side =
    R"((?=\s*(?:$|[,;:)\]]|(?:x|by|and|to|wide|long|tall|high|deep|around|across|round|square)\b)))";

struct PartForm {
    std::regex form;  ///< what stands before, the larger part, the smaller
    double smaller_in_larger;
    double shown_in_larger;
    const char* shown;
    bool smaller_first;  ///< shown in the smaller unit
};

const std::array<PartForm, 5>& part_forms() {
    static const std::string before = R"((^|[^\d.,/]))";
    static const std::string feet = R"((\d{1,2})\s*(?:'|ft\b\.?|feet\b|foot\b)\s*)";
    static const std::string yards = R"((\d{1,2})\s*(?:yds?\b\.?|yards?\b)\s*)";
    static const std::string metres = R"((\d)\s*m(?:et(?:re|er)s?)?)";
    static const std::string inches = R"((\d{1,2}(?:\.\d+)?)\s*(?:"|in\b\.?|inch(?:es)?\b))";
    constexpr auto icase = std::regex::icase;
    constexpr double in_feet = 12.0;
    constexpr double in_yards = 36.0;
    constexpr double in_metres = 100.0;
    static const std::array<PartForm, 5> forms{
        {{std::regex(before + feet + inches, icase), in_feet, in_feet, "in", true},
         {std::regex(before + feet + R"((\d{1,2}(?:\.\d+)?))" + end_of_side, icase), in_feet,
          in_feet, "in", true},
         {std::regex(before + yards + inches, icase), in_yards, in_yards, "in", true},
         {std::regex(before + metres + R"(\s+(\d{1,2})\s*cm\b)", icase), in_metres, 1.0, "m",
          false},
         {std::regex(before + metres + R"(\s*(\d{2}))" + end_of_side, icase), in_metres, 1.0, "m",
          false}}};
    return forms;
}

std::string in_one_unit(const std::string& text, const PartForm& part) {
    std::string out;
    std::size_t at = 0;
    for (std::sregex_iterator found(text.begin(), text.end(), part.form), end; found != end;
         ++found) {
        const auto larger = base::number_of<double>((*found)[2].str());
        const auto smaller = base::number_of<double>((*found)[3].str());
        if (!larger || !smaller || *smaller >= part.smaller_in_larger) continue;
        const double whole = *larger + *smaller / part.smaller_in_larger;
        out += text.substr(at, static_cast<std::size_t>(found->position(0)) - at) +
               (*found)[1].str() +
               fmt::format("{:.10g} {}", whole * part.shown_in_larger, part.shown);
        at = static_cast<std::size_t>(found->position(0) + found->length(0));
    }
    return out + text.substr(at);
}

}  // namespace

std::string lengths_in_one_unit(std::string_view given) {
    std::string text(given);
    if (text.size() > longest_of_parts) return text;
    for (const PartForm& part : part_forms()) text = in_one_unit(text, part);
    return text;
}

namespace detail {

std::optional<Length> length_in_parts(std::string_view text) {
    const std::string one = lengths_in_one_unit(base::trimmed(text));
    if (one == base::trimmed(text)) return std::nullopt;
    const auto read = parse_length(one);
    return read ? std::optional(*read) : std::nullopt;
}

std::optional<base::Problem> part_without_unit(std::string_view given) {
    if (given.size() > longest_of_parts) return std::nullopt;
    const std::string text = lengths_in_one_unit(given);
    static const std::regex form(
        R"((?:^|[^\d.,/])((\d{1,2}\s*(?:m|met(?:re|er)s?|ft|feet|foot|yds?|yards?))\s+(\d{1,2})))" +
            std::string(end_of_side),
        std::regex::icase);
    std::smatch found;
    if (!std::regex_search(text, found, form)) return std::nullopt;
    const bool metric = found[2].str().find_first_of("mM") != std::string::npos;
    const std::string unit = metric ? " cm" : " in";
    return base::Problem{
        base::quoted(found[1].str()) + " has a figure without its unit",
        {.file = {}, .line = 0, .column = static_cast<std::size_t>(found.position(1)) + 1},
        "the unit of both, \"" + found[1].str() + unit + "\"",
        "Where it counts pieces, write \"x " + found[3].str() + "\" behind the size."};
}

}  // namespace detail
}  // namespace skeinfall::units
