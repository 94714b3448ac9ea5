#pragma once
/// \file
/// Inside units: reads a yarn count out of a scanned text.

#include <optional>

#include "skeinfall/units/count.hpp"
#include "skeinfall/units/scanner.hpp"

namespace skeinfall::units::detail {

/// Number and system, in either order.
[[nodiscard]] std::optional<YarnCount> read_count(Scanner& scanner);

/// A count's name alone, for number 1.
[[nodiscard]] std::optional<YarnCount> read_count_unit(Scanner& scanner);

/// Refuses two numbers that come without a system, and shows their readings. False when the text
/// is not such a pair.
bool refuse_bare_pair(Scanner& scanner);

}  // namespace skeinfall::units::detail
