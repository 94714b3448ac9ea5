#pragma once
/// \file
/// A gauge that cannot be of its yarn or its tool: of another span, or another unit.

#include "skeinfall/need/need.hpp"
#include "skeinfall/project/finding.hpp"

namespace skeinfall::need::detail {

/// Adds what contradicts it to every yarn that it is about.
void hold_gauge(MakeNeed& make, const project::Project& project);

/// The same as cautions, at the gauge.
[[nodiscard]] project::Findings gauge_far_off(const project::Project& project);

}  // namespace skeinfall::need::detail
