#pragma once
/// \file
/// The skeins of projects whose stripes are planned one after the other.

#include <vector>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/plan/left_by.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/stash/skein.hpp"

#include "make_options.hpp"
#include "options.hpp"

namespace skeinfall::cli {

/// The skeins that one of these projects finds. What is told of yarn that only another of them has
/// is not its.
[[nodiscard]] std::vector<stash::Skein> skeins_in_turn(const Values& values, const World& world,
                                                       const std::vector<Told>& named,
                                                       const project::Project& project);

/// Skeins that the makes before it begun and left something of.
void tell_of_begun(const std::vector<plan::LeftOf>& taken, const World& world);

/// Balls of the weights that the project has, of yarns that it does not name.
void tell_of_other_balls(const project::Project& project, const cover::Rules& rules,
                         const std::vector<stash::Skein>& skeins, const World& world);

}  // namespace skeinfall::cli
