#pragma once
/// \file
/// A finished report as a reader prefers it. Reports print yards before metres and a point in
/// decimals; both figures are rounded from the unrounded quantity, so that changing their order
/// changes no figure.

#include <string>
#include <string_view>

namespace skeinfall::report {

/// "372 yd (340 m)" becomes "340 m (372 yd)", in as much room; "16.5 in / 42 cm" becomes
/// "42 cm / 16.5 in", and so for lists of sizes and lengths per mass.
[[nodiscard]] std::string metres_first(std::string_view text);

/// "4.2 yd" becomes "4,2 yd" and "4 (4.5, 5) in" becomes "4 (4,5; 5) in"; versions, names with
/// points and ends of sentences stay.
[[nodiscard]] std::string decimal_comma(std::string_view text);

}  // namespace skeinfall::report
