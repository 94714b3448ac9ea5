#pragma once
/// \file
/// What a piece takes more, each repeat wider and each inch longer: a designer's paragraph as data.

#include <optional>
#include <string>
#include <vector>

#include "skeinfall/materials/section.hpp"

namespace skeinfall::materials {

/// Adds Section::adjust: of the piece with the most stitches where it stretches, in every size.
/// Yarn is what the section prints for the same: its margin or share of makers is in it. The
/// yarns' totals have to be there.
void add_adjustment(Section& section, const project::Project& project);

}  // namespace skeinfall::materials
