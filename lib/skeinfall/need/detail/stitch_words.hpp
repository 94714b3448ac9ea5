#pragma once
/// \file
/// Stitches that a project names outside of its rows.

#include "skeinfall/project/finding.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::need {

/// Stops: the stitch of a gauge, a swatch or an earlier make is a word of the other terms alone, or
/// but a slip away from a stitch there is. A name of one's own goes by its swatch.
[[nodiscard]] project::Findings stitches_misnamed(const project::Project& project);

/// Stops: a gauge by whose stitch alone a yarn would go, and nobody knows it.
[[nodiscard]] project::Findings unknown_gauge_stitch(const project::Project& project);

}  // namespace skeinfall::need
