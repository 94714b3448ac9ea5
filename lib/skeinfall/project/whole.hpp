#pragma once
/// \file
/// What a project lacks to be worked out. Files are held to more by their reader; this is for
/// values that a program made.

#include <cstdint>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::project {

/// Largest count of rows, stitches, copies or rounds that a project may state. No product of three
/// of them is too large for a count.
inline constexpr std::int64_t largest_count = 1'000'000;

/// So many rows a file's pieces may have together, in all sizes: what two seconds work through.
/// What a program makes of it, as `largest` does, may have some times as many.
inline constexpr std::int64_t most_rows_in_all = 200'000;
inline constexpr std::int64_t most_rows_worked_out = 4 * most_rows_in_all;

/// Everything without which rows cannot be counted or a yarn cannot be found, each a problem that
/// names its piece or yarn: a piece without rows or stitches, lists that do not fit the sizes, a
/// gauge of nothing, yarns that are not described, counts above the limits. Empty when nothing is
/// lacking.
[[nodiscard]] base::Problems lacking(const Project& project);

}  // namespace skeinfall::project
