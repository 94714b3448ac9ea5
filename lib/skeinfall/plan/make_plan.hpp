#pragma once
/// \file
/// The one answer for a make and a stash: which skeins, in which order, joined where the project
/// permits, and with what chance the whole lasts. Every command that plans reads it from here.

#include <vector>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/joins/answer.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/stash/skein.hpp"

namespace skeinfall::plan {

struct MakePlan {
    need::MakeNeed need;
    cover::MakeCover cover;
    joins::Answer joins;  ///< of the skeins that cover chose
};

/// `request` takes its size and confidence from `size` and the rules. The stash must outlive the
/// answer, whose candidates point into it. Throws base::InputError as need_of() does.
[[nodiscard]] MakePlan plan_make(const project::Project& project, std::size_t size,
                                 const std::vector<stash::Skein>& stash, const cover::Rules& rules,
                                 joins::Request request);

/// The skeins that cover chose, for joins; marks in the request where the label cancels.
[[nodiscard]] joins::BallsOfRoles balls_of(const cover::MakeCover& cover, joins::Request& request);

}  // namespace skeinfall::plan
