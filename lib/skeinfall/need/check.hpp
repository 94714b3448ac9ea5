#pragma once
/// \file
/// What contradicts itself in a project that could be read.

#include "skeinfall/project/finding.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::need {

/// Figures for one thing that differ by more than this are worth a look, and by more than
/// `contradicts` cannot both be meant (judgements, not published).
inline constexpr units::Ratio worth_a_look = units::Ratio::from_value(0.05);
inline constexpr units::Ratio contradicts = units::Ratio::from_value(0.15);

/// Yarn of a row of plain stitches, knit or single crochet, over its width; other kinds count as
/// the stitch table weighs them, so that a mesh of chains is not thought thin. Knitted loops take
/// about 4 widths (Munden's constants, from memory: J. Text. Inst. 50, 1959, T448) and a published
/// lace 6.8; a row of single crochet takes 10.6, one of double crochet 20.4 or 11.8 for each sc
/// that it counts as (one maker's measurements, source S150 in lib/data/sources.csv). The limits
/// lie well outside these.
struct PlausibleYarn {
    units::Ratio least{};
    units::Ratio most{};
};
/// A stitch that the table does not know may be so much taller than single crochet.
inline constexpr units::Ratio tallest_unknown = units::Ratio::from_value(1.6);
[[nodiscard]] PlausibleYarn plausible_yarn(project::Craft craft);

/// Findings of every size, in the order of the file, none twice: notation that does not add up,
/// rows against length, stitches against width, labels that no yarn has, lengths in two units that
/// differ, colours named twice, totals against whole skeins, equal stitches with unequal totals,
/// implausible yarn, a yarn of which nothing is known. Only cautions and stops, each at the place
/// it is about. Checks of other parts join the list `more_checks` in check.cpp.
[[nodiscard]] project::Findings check(const project::Project& project);

/// The same before figures are worked out: a stop leaves no figure, for the project is not
/// understood or cannot be. A rate or a size that is merely far from what it should be is a
/// caution here.
[[nodiscard]] project::Findings check_for_planning(const project::Project& project);

}  // namespace skeinfall::need
