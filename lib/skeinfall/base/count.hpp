#pragma once
/// \file
/// Counts multiplied and added where their size is not known beforehand.

#include <cstdint>
#include <limits>
#include <optional>

namespace skeinfall::base {

/// Nothing where the product has no room in 64 bits.
[[nodiscard]] constexpr std::optional<std::int64_t> product(std::int64_t a, std::int64_t b) {
    std::int64_t out = 0;
    if (__builtin_mul_overflow(a, b, &out)) return std::nullopt;
    return out;
}

/// Adds to a sum; where that has no room, the sum becomes the most there is, above every limit.
constexpr void add_count(std::int64_t& sum, std::optional<std::int64_t> more) {
    if (!more || __builtin_add_overflow(sum, *more, &sum))
        sum = std::numeric_limits<std::int64_t>::max();
}

}  // namespace skeinfall::base
