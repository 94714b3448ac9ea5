#pragma once
/// \file
/// How much of a role's yarn is used up by which row: in a triangle the half is gone at seven
/// tenths of the rows.

#include <cstddef>
#include <string>
#include <vector>

#include "skeinfall/need/need.hpp"

namespace skeinfall::need {

/// Where a role's work stands after a step.
struct Used {
    std::size_t step = 0;  ///< index into MakeNeed::steps
    units::Length yarn{};  ///< worked up to its end, without tails
    units::Ratio share{};  ///< of all the role's steps take; 1 after the last
};

/// After every row, foundation, bind-off and finishing part that the role works, in working order;
/// a strand carried up goes with its row. The sums are those of the rows, not of a closed form.
[[nodiscard]] std::vector<Used> used_up(const MakeNeed& make, const std::string& role);

/// Of these, the first at which each tenth is used up; one that reaches several stands once.
[[nodiscard]] std::vector<Used> tenths_of(const std::vector<Used>& used);

}  // namespace skeinfall::need
