#pragma once
/// \file
/// Wraps per inch as makers count them: turns of yarn laid side by side round a ruler.

#include <string_view>

#include "skeinfall/base/result.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::units {

/// "9", "9 wpi", "9 wraps per in", "36 wraps / 10 cm". A bare number is wraps per inch, as the
/// trade's WPI is. Numbers as in parse.hpp; on failure the Problem's place holds the column.
[[nodiscard]] base::Result<WrapGauge> parse_wraps(std::string_view text);

}  // namespace skeinfall::units
