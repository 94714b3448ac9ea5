#pragma once
/// \file
/// What a piece's shape means for fitting it. Inner header of fit.

#include <optional>

#include "skeinfall/project/project.hpp"

namespace skeinfall::fit {

inline constexpr double rounding_noise = 1e-9;

[[nodiscard]] inline project::RowLaw law_of(const project::Piece& piece) {
    return piece.shape == nullptr ? project::RowLaw::growing : piece.shape->law;
}

[[nodiscard]] inline bool from_centre(const project::Piece& piece) {
    return piece.shape != nullptr && piece.shape->from_centre;
}

[[nodiscard]] inline bool from_few(const project::Piece& piece) {
    return piece.shape != nullptr && piece.shape->from_few() && !piece.pattern.stated();
}

[[nodiscard]] inline units::StitchGauge across(const project::Project& project,
                                               const project::Piece& piece) {
    return project::gauge_of(project, piece).stitches;
}

/// Counts that fit both; nothing where none does.
[[nodiscard]] std::optional<project::Multiple> both_of(const project::Multiple& a,
                                                       const project::Multiple& b);

}  // namespace skeinfall::fit
