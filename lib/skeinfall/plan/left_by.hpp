#pragma once
/// \file
/// What a make that is worked as planned leaves of a stash, for a make after it.

#include <string>
#include <vector>

#include "skeinfall/measure/chance.hpp"
#include "skeinfall/plan/make_plan.hpp"
#include "skeinfall/stash/skein.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::plan {

/// A skein that a plan takes, and what is surely left of it.
struct LeftOf {
    std::string id;
    units::Length left{};  ///< 0: nothing to count on
};

/// Every skein that cover chose. Those worked up, and spares, count as gone; of the last of each
/// yarn's chain there is what the plan leaves, less what its need may turn out larger at this
/// confidence. Hands that take more for one make take more for the next, so what is counted on is
/// never too much.
[[nodiscard]] std::vector<LeftOf> left_by(const MakePlan& plan, measure::Chance confidence);

/// The stash with these skeins begun, or without them.
[[nodiscard]] std::vector<stash::Skein> as_left(std::vector<stash::Skein> stash,
                                                const std::vector<LeftOf>& taken);

}  // namespace skeinfall::plan
