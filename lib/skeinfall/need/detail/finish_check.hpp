#pragma once
/// \file
/// Finishing parts of pieces that are made several times.

#include <cstddef>

#include "skeinfall/project/finding.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::need {

/// Cautions: a part that counts once though all there is to edge is made several times, and nobody
/// says how often the part is.
[[nodiscard]] project::Findings parts_counted_once(const project::Project& project);

/// Cautions: a figure given once for sizes of different extent.
[[nodiscard]] project::Findings parts_grown(const project::Project& project);

/// Cautions: widths or lengths of a grid that come out as one, or far from what they are called,
/// because the piece comes in whole repeats.
[[nodiscard]] project::Findings grid_in_repeats(const project::Project& project);

/// How many stitches more every round of a border has by the worse of two readings: its first round
/// as it is stated, and the way round its piece by the gauge. None where the two are not far_apart.
[[nodiscard]] units::StitchCount border_at_worst(const project::Project& project,
                                                 const project::FinishPart& part, std::size_t size);
/// Cautions: a first round that does not go round its piece, or more than once.
[[nodiscard]] project::Findings borders_off_their_piece(const project::Project& project);

}  // namespace skeinfall::need
