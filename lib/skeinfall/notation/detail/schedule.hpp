#pragma once
/// \file
/// When a change comes again: "every other row 12 times, then every 4th row 5 times". Inner part of
/// the notation.

#include <cstddef>
#include <cstdint>
#include <vector>

#include "skeinfall/notation/detail/tokens.hpp"

namespace skeinfall::notation {

/// A change in the last of every `period` rows, `times` over or until so many stitches are left.
struct Turns {
    std::int64_t period = 1;
    std::int64_t times = 0;
    std::int64_t until = 0;  ///< 0: `times` says it
    std::int64_t after = 0;  ///< rows worked even behind them
};

/// Reads from token `at` on and moves it behind. Nothing where it is not a schedule.
[[nodiscard]] std::vector<Turns> schedule_of(const std::vector<Token>& tokens, std::size_t& at);

}  // namespace skeinfall::notation
