#pragma once
/// \file
/// How a piece grows, as people say it: "2 more every row", "1 fewer every 2nd round", "increasing
/// by 2 sts every other row".

#include <cstdint>
#include <optional>
#include <string>

#include "skeinfall/base/problem.hpp"

namespace skeinfall::exchange::detail {

struct Growth {
    std::int64_t increase = 0;  ///< below zero where it gets narrower
    std::int64_t every = 1;
    std::string stitch;  ///< "dc" of "2 dc more"; empty for "sts"
};

/// Taken off the text wherever it stands: "3 dc, 2 more every row, 60 rows" leaves "3 dc, 60 rows".
[[nodiscard]] std::optional<Growth> take_growth(std::string& text);

/// A problem where sides still speak of more or fewer stitches: that piece is no rectangle, and how
/// it grows is not understood.
[[nodiscard]] std::optional<base::Problem> growth_not_read(const std::string& given,
                                                           const std::string& sides);

}  // namespace skeinfall::exchange::detail
