#pragma once
/// \file
/// Yarn at hand in the order of words that its reader knows.

#include <string>
#include <vector>

namespace skeinfall::exchange::detail {

/// "3x50g", "4 @ 200 yd", "a pair of 170 yd skeins", "3 50g balls of 120m", "2 new skeins of 170
/// yd", "2 balls of rust, 200 yd each", "1 lb 4 oz" as "3 x 50g", "4 x 200 yd", "2 skeins of 170
/// yd" and the like; any other text as it is.
[[nodiscard]] std::string usual_having(std::string text);

/// "2 balls + 48 g", "3 skeins of 170 yd; 48 g", "200 yd and 2 balls of 100 yd" one by one; the
/// text alone where nothing says that it tells of several.
[[nodiscard]] std::vector<std::string> several_havings(const std::string& text);

}  // namespace skeinfall::exchange::detail
