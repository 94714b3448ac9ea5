#include "skeinfall/exchange/detail/growth.hpp"

#include <array>
#include <regex>
#include <string_view>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/count_words.hpp"
#include "skeinfall/exchange/detail/sides.hpp"

namespace skeinfall::exchange::detail {
namespace {

std::int64_t rows_between(const std::string& word) {
    static constexpr std::array<std::pair<std::string_view, std::int64_t>, 8> ordinals{
        {{"other", 2},
         {"second", 2},
         {"third", 3},
         {"fourth", 4},
         {"fifth", 5},
         {"sixth", 6},
         {"eighth", 8},
         {"tenth", 10}}};
    for (const auto& [name, value] : ordinals)
        if (base::same_word(word, name)) return value;
    return spoken_number(word).value_or(0);
}

/// The words round what was taken off, which part nothing any more.
std::string joined(std::string before, std::string rest) {
    static const std::regex ends(R"((?:[\s,;(]|\b(?:and|with)\b)+$)", std::regex::icase);
    static const std::regex begins(R"(^(?:[\s,;)]|\b(?:for|over|and|x|by)\b)+)", std::regex::icase);
    before = std::regex_replace(before, ends, "");
    rest = std::regex_replace(rest, begins, "");
    if (rest.empty() || before.empty()) return before + rest;
    return before + ", " + rest;
}

const char* const said_number = R"((\d+|an?|one|two|three|four|five|six|eight|ten))";
const char* const said_rows =
    R"(\s+(?:in\s+)?(?:every|each|per)\s+(?:(\d+|other|second|third|fourth|fifth|sixth|eighth|tenth|two|three|four|five|six)(?:nd|rd|th|st)?\s+)?(?:rows?|rounds?|rnds?)\b)";

}  // namespace

std::optional<Growth> take_growth(std::string& text) {
    static const std::regex counted(
        std::string(R"(\b)") + said_number +
            R"(\s+(?:([A-Za-z]+)\s+)?(more|less|fewer)(?:\s+(?:sts?|stitch(?:es)?))?)" + said_rows,
        std::regex::icase);
    static const std::regex told(
        std::string(
            R"(\b(increas(?:es?|ing|ed)|decreas(?:es?|ing|ed)|inc|dec|adding|growing)\s+(?:by\s+)?)") +
            said_number + R"((?:\s+(sts?|stitch(?:es)?))?)" + said_rows,
        std::regex::icase);
    std::smatch found;
    Growth out;
    std::string every;
    if (std::regex_search(text, found, counted)) {
        out.increase = spoken_number(found[1]).value_or(0);
        if (!base::same_word(found[3].str(), "more")) out.increase = -out.increase;
        if (!says_stitches(found[2])) out.stitch = base::lower(found[2].str());
        every = found[4];
    } else if (std::regex_search(text, found, told)) {
        out.increase = spoken_number(found[2]).value_or(0);
        if (base::lower(found[1].str()).starts_with("dec")) out.increase = -out.increase;
        every = found[4];
    } else {
        return std::nullopt;
    }
    out.every = every.empty() ? 1 : rows_between(every);
    if (out.increase == 0 || out.every < 1) return std::nullopt;
    const std::string left = joined(found.prefix(), found.suffix());
    text = left;
    return out;
}

std::optional<base::Problem> growth_not_read(const std::string& given, const std::string& sides) {
    static const std::regex grows(
        R"(\d.*\b(?:more|less|fewer|increas\w*|decreas\w*|inc|dec|growing|grows|narrowing|widening)\b)",
        std::regex::icase);
    if (!std::regex_search(sides, grows)) return std::nullopt;
    return no_such(given, "a piece", "how it grows, \"1 st x 139 rows, 1 more every 2 rows\"",
                   "Say how many stitches more or fewer, and every how many rows.");
}

}  // namespace skeinfall::exchange::detail
