#pragma once
/// \file
/// What contradicts itself in a project that could be read.

#include "skeinfall/need/plausible.hpp"
#include "skeinfall/project/finding.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::need {

/// Figures for one thing that differ by more than this are worth a look, and by more than
/// `contradicts` cannot both be meant (judgements, not published).
inline constexpr units::Ratio worth_a_look = units::Ratio::from_value(0.05);
inline constexpr units::Ratio contradicts = units::Ratio::from_value(0.15);

/// Findings of every size, in the order of the file, none twice: notation that does not add up,
/// rows against length, stitches against width, labels that no yarn has, lengths in two units that
/// differ, colours named twice, totals against whole skeins, equal stitches with unequal totals,
/// implausible yarn, a yarn of which nothing is known. Only cautions and stops, each at the place
/// it is about. Checks of other parts join the list `more_checks` in check.cpp.
[[nodiscard]] project::Findings check(const project::Project& project);

/// The same before figures are worked out: cautions say as well what planning makes of a rate or a
/// size that is far from what it should be, the worse reading. A stop leaves no figure, for the
/// project is not understood or cannot be.
[[nodiscard]] project::Findings check_for_planning(const project::Project& project);

}  // namespace skeinfall::need
