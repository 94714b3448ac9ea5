#pragma once
/// \file
/// Days of the Gregorian calendar as ISO 8601 writes them, "2024-05-31".

#include <chrono>
#include <string>
#include <string_view>

#include "skeinfall/base/result.hpp"

namespace skeinfall::base {

using Day = std::chrono::year_month_day;

/// Only the form with four, two and two digits, and only days that the calendar has.
[[nodiscard]] Result<Day> parse_day(std::string_view text);

/// Precondition: a day of the calendar in the years 0 to 9999.
[[nodiscard]] std::string to_text(const Day& day);

}  // namespace skeinfall::base
