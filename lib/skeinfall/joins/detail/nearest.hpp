#pragma once
/// \file
/// What would work when the plan that was asked for does not.

#include <vector>

#include "skeinfall/joins/answer.hpp"

namespace skeinfall::joins {

/// Other places, a piece ended earlier, skeins wound into halves for a pair (`balls` are those
/// before pairing), a smaller distance between joins. Empty when the plan works.
[[nodiscard]] std::vector<Nearest> nearest_that_works(
    const project::Project& project, const need::RoleNeed& role,
    const std::vector<need::Step>& steps, const std::vector<Ball>& balls,
    const std::vector<Ball>& paired, const Rules& rules, const RoleJoins& found, bool pairs);

}  // namespace skeinfall::joins
