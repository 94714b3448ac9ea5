#pragma once
/// \file
/// How many skeins more of a yarn that was chosen, joined as the project says.

#include <vector>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::cover {

/// The counts of `BuyMore` in an answer of cover_make() come from sums of lengths, which leave out
/// what each further skein loses at its join. Raises each to the fewest with which its yarn is
/// covered, as it would be with skeins of one lot; where half as many again do not cover it, that
/// is said instead.
void count_what_to_buy(const project::Project& project, const need::MakeNeed& make,
                       const Rules& rules, MakeCover& cover);

}  // namespace skeinfall::cover
