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

/// Which way a piece grows.
enum class Grows { wider, longer };
/// Figures of all sizes as they are printed. Of a grid what is more for each repeat wider hangs on
/// the length, and for each inch longer on the width: one figure for each of these, the most that
/// any of its sizes takes. Of other sizes one for each.
[[nodiscard]] std::vector<units::Length> printed_figures(const Section& section,
                                                         const std::vector<units::Length>& of_sizes,
                                                         Grows way);

}  // namespace skeinfall::materials
