#pragma once
/// \file
/// Inside units: reads yarn counts and yarn sizes out of a scanned text.

#include <optional>

#include "skeinfall/units/count.hpp"
#include "skeinfall/units/detail/scanner.hpp"

namespace skeinfall::units::detail {

/// Number and system, in either order.
[[nodiscard]] std::optional<YarnCount> read_count(Scanner& scanner);

/// A count's name alone, for number 1.
[[nodiscard]] std::optional<YarnCount> read_count_unit(Scanner& scanner);

/// Refuses two numbers that come without a system, and shows their readings. False when the text
/// is not such a pair.
bool refuse_bare_pair(Scanner& scanner);

/// The rest of "170 yd / 3.5 oz" or "100 g / 200 m" after the first amount, whose kind is length
/// or mass.
[[nodiscard]] std::optional<Grist> read_second_half(Scanner& scanner, Kind first, double amount);

}  // namespace skeinfall::units::detail
