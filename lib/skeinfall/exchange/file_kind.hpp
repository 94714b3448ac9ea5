#pragma once
/// \file
/// Files that were named where another kind of file is wanted.

#include <optional>
#include <string>
#include <string_view>

#include "skeinfall/base/problem.hpp"

namespace skeinfall::exchange {

/// What a command wants of a file.
enum class Wanted { project, pattern, sheet, section };

/// What the file is instead, and what to do with it; nothing for one that may be what is wanted.
[[nodiscard]] std::optional<base::Problem> other_kind(std::string_view bytes,
                                                      const std::string& file, Wanted wanted);

}  // namespace skeinfall::exchange
