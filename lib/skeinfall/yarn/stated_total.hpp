#pragma once
/// \file
/// How much yarn a pattern or a person says a make takes, as it is said: "380 yd", "728 to 1116
/// yd", "14 oz", "6 balls of 110 yd", "6 balls".

#include <cstdint>
#include <optional>
#include <string_view>

#include "skeinfall/base/result.hpp"
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/yarn.hpp"

namespace skeinfall::yarn {

/// The least and the most of an amount; alike where one figure was given.
template <class Q>
struct Between {
    Q least{};
    Q most{};
};

/// Exactly one of length, mass and skeins alone; lengths and masses of counted skeins are those of
/// all of them, the least being one skein less, since the last may hardly have been begun.
struct StatedTotal {
    std::optional<Between<units::Length>> length;
    std::optional<Between<units::Mass>> mass;
    std::int64_t skeins =
        0;               ///< 0: not counted in skeins; with neither length nor mass: of some put-up
    bool range = false;  ///< the text itself gives two figures
};

/// A count of skeins is told by "ball", "skein", "hank", "cone" or "cake". The first figure of a
/// range takes the unit of the second where it has none of its own.
[[nodiscard]] base::Result<StatedTotal> parse_stated_total(std::string_view text);

/// Skeins alone with the put-up of one; unchanged where it is of no use or not needed.
[[nodiscard]] StatedTotal with_put_up(StatedTotal total, const Label& put_up);

}  // namespace skeinfall::yarn
