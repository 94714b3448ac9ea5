#pragma once
/// \file
/// Finishing parts of pieces that are made several times.

#include "skeinfall/project/finding.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::need {

/// Cautions: a part that counts once though all there is to edge is made several times, and nobody
/// says how often the part is.
[[nodiscard]] project::Findings parts_counted_once(const project::Project& project);

}  // namespace skeinfall::need
