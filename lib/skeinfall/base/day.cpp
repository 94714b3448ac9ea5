#include "skeinfall/base/day.hpp"

#include <algorithm>
#include <optional>
#include <string>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"

namespace skeinfall::base {
namespace {

/// Nothing unless every character is a digit.
std::optional<int> number_in(std::string_view digits) {
    if (!std::all_of(digits.begin(), digits.end(), [](char c) { return c >= '0' && c <= '9'; }))
        return std::nullopt;
    return leading_number<int>(digits);
}

}  // namespace

Result<Day> parse_day(std::string_view text) {
    text = trimmed(text);
    if (text.size() == 10 && text[4] == '-' && text[7] == '-') {
        const auto year = number_in(text.substr(0, 4));
        const auto month = number_in(text.substr(5, 2));
        const auto day = number_in(text.substr(8, 2));
        if (year && month && day) {
            const Day found = std::chrono::year(*year) /
                              std::chrono::month(static_cast<unsigned>(*month)) /
                              std::chrono::day(static_cast<unsigned>(*day));
            if (found.ok()) return found;
            return Problem{"the calendar has no day \"" + shown_inert(text) + "\"",
                           {.file = {}, .line = 0, .column = 1},
                           "year, month and day such as 2024-05-31",
                           "Check the month and the day."};
        }
    }
    return Problem{"\"" + shown_inert(text.substr(0, 40)) + "\" is not a day",
                   {.file = {}, .line = 0, .column = 1},
                   "year, month and day such as 2024-05-31",
                   "Write four digits of the year first, then month and day with two each."};
}

std::string to_text(const Day& day) {
    std::string out = "0000-00-00";
    const auto write = [&out](std::size_t last, unsigned number) {
        for (; number > 0; number /= 10) out[last--] = static_cast<char>('0' + number % 10);
    };
    write(3, static_cast<unsigned>(static_cast<int>(day.year())));
    write(6, static_cast<unsigned>(day.month()));
    write(9, static_cast<unsigned>(day.day()));
    return out;
}

}  // namespace skeinfall::base
