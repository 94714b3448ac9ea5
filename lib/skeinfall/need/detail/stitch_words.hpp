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

/// A crochet stitch that the table does not hold would count as one single crochet, where a
/// popcorn takes the yarn of five tall stitches. Only a swatch in it says what it takes. Knitted
/// fabrics are all of loops, and go by the room of a stitch.
[[nodiscard]] project::Findings stitches_without_yarn(const project::Project& project);

/// A weighed swatch that is far heavier or lighter than any fabric made by hand.
[[nodiscard]] project::Findings swatches_off_all_fabrics(const project::Project& project);

}  // namespace skeinfall::need
