#pragma once
/// \file
/// What a project tells in two ways, or of two things in one.

#include "skeinfall/project/finding.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::need {

/// Stops: a swatch of more strands than are held together here, or of fewer: its weight is that of
/// another fabric.
[[nodiscard]] project::Findings swatches_of_other_strands(const project::Project& project);

/// Pieces of one name, or of the name that a piece made several times has: "sleeve 2".
[[nodiscard]] project::Findings pieces_of_one_name(const project::Project& project);

/// "mittens", "sleeves", "side (make 2)" without a count.
[[nodiscard]] project::Findings pieces_that_may_be_two(const project::Project& project);

/// A yarn that takes nothing, since no written row is worked in it.
[[nodiscard]] project::Findings yarns_that_nothing_uses(const project::Project& project);

}  // namespace skeinfall::need
