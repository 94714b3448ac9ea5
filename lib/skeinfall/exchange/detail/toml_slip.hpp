#pragma once
/// \file
/// What is wrong with a line that is not TOML, in the words of who wrote it.

#include <string_view>

#include "skeinfall/base/problem.hpp"

namespace skeinfall::exchange::detail {

/// `parser` is what toml++ says of it, `line` the line it stops in and `text` the whole file. The
/// problem has no place.
[[nodiscard]] base::Problem toml_slip(std::string_view parser, std::string_view line,
                                      std::string_view text);

}  // namespace skeinfall::exchange::detail
