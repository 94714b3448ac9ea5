#pragma once
/// \file
/// The need of a make for planning: where a figure cannot be meant, the worse reading.

#include <cstddef>

#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::need {

/// Figures for one thing that are so many times apart are no noise: one of them is a slip (a
/// judgement).
inline constexpr units::Ratio far_apart = units::Ratio::from_value(2.0);

/// Names in RoleNeed::contradictions what cannot both be true, and takes the worse of the two.
/// Takes roles whose rows would be less than any fabric takes (PlausibleYarn::too_little()) at what
/// is usual, with its spread: a unit or a weight was slipped, and so little may not count as
/// enough. Roles held together with one follow it. Sizes that the gauge denies are in the need
/// already. A second call changes nothing.
[[nodiscard]] MakeNeed at_worst(MakeNeed make, const project::Project& project);

/// Whether it rests on what was weighed or measured of such a fabric more than on what was said:
/// PlausibleYarn::doubt_of() believes that farther down.
[[nodiscard]] bool rests_on_measures(const RoleNeed& need);

/// at_worst(need_of()): what every plan reckons with. Throws as need_of() does.
[[nodiscard]] MakeNeed need_to_plan(const project::Project& project, std::size_t size);

}  // namespace skeinfall::need
