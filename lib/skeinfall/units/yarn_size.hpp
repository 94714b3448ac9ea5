#pragma once
/// \file
/// Inside units: length per mass from a scanned text.

#include <optional>

#include "skeinfall/units/quantity.hpp"
#include "skeinfall/units/scanner.hpp"

namespace skeinfall::units::detail {

/// The rest of "170 yd / 3.5 oz" or "100 g / 200 m" after the first amount, whose kind is length
/// or mass.
[[nodiscard]] std::optional<Grist> read_second_half(Scanner& scanner, Kind first, double amount);

}  // namespace skeinfall::units::detail
