#pragma once
/// \file
/// Counts of rows and stitches from what they measure.

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace skeinfall::project {

/// What sums may be off by: a half is not to turn on it.
inline constexpr double rounding_noise = 1e-9;

/// The nearest whole count, a half downwards; at least 1.
[[nodiscard]] inline std::int64_t nearest_whole(double value) {
    return std::max<std::int64_t>(1, std::llround(value - rounding_noise));
}

}  // namespace skeinfall::project
