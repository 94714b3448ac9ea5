#pragma once
/// \file
/// The fabric of a colour-changing yarn, pixel by pixel. Inner header of report.

#include <cstdint>
#include <vector>

#include "skeinfall/joins/answer.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::report {

/// `across` times `down` pixels for Canvas::image(), row 1 at the foot; nothing where a narrow row
/// leaves the box empty.
[[nodiscard]] std::vector<std::uint32_t> fabric_pixels(const project::Project& project,
                                                       const project::Role& role,
                                                       const joins::PieceColours& piece, int across,
                                                       int down);

}  // namespace skeinfall::report
