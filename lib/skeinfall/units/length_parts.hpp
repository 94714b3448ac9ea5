#pragma once
/// \file
/// Lengths said in two units: "5 ft 6 in", "1 m 50". parse_length() and reads_two_ways() know them.

#include <optional>
#include <string>
#include <string_view>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::units {

/// "5 ft 6 in", "5'6\"", "3 ft 6", "1 m 50", "1 yd 18 in" anywhere in a text as "66 in", "66 in",
/// "42 in", "1.5 m", "54 in"; all else as it stands. A figure without a unit belongs to feet as
/// inches, and to metres as two figures of centimetres, where no word follows that it may count.
[[nodiscard]] std::string lengths_in_one_unit(std::string_view text);

namespace detail {

/// A whole text that is such a length.
[[nodiscard]] std::optional<Length> length_in_parts(std::string_view text);

/// "1 m 5", "3 ft 14", "1 yd 18": a figure behind a length that may be of either unit, or a count.
[[nodiscard]] std::optional<base::Problem> part_without_unit(std::string_view text);

}  // namespace detail
}  // namespace skeinfall::units
