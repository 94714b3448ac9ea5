#pragma once
/// \file
/// Readers of texts know no place: what would be right in one is said by whoever knows it.

#include <string>
#include <string_view>

#include "skeinfall/base/problem.hpp"

namespace skeinfall::units {

/// How the readers of units/parse.hpp begin the remedy that shows an example of their own.
inline constexpr std::string_view shows_form = "Write it like \"";

/// The figure of `text` in the place of the example's, where the text is a figure alone: "20 cm"
/// for "20" where "15 cm" would do. Else the example.
[[nodiscard]] std::string fitted_example(std::string_view text, std::string_view example);

/// The problem with `before` and the fitted example in quotes in place of the reader's own
/// example, where it shows one: "Write --scale "1 g"." A count stands without quotes.
[[nodiscard]] base::Problem with_example(base::Problem problem, std::string_view text,
                                         std::string_view before, std::string_view example);

}  // namespace skeinfall::units
