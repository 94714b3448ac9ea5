#pragma once
/// \file
/// Yarns held together.

#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::need {

/// A yarn held together with another through all of its rows is as long as that one. `rest` is what
/// its own total says, or 0; after it what is to be reckoned with: the larger where the two
/// contradict each other.
void follow_partner(const project::Project& project, const MakeNeed& make, RoleNeed& need,
                    units::Length& rest);

}  // namespace skeinfall::need
