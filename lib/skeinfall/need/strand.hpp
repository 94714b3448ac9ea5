#pragma once
/// \file
/// The strand a row takes, told by its width and the stitch alone.

#include <optional>
#include <string_view>

#include "skeinfall/measure/estimate.hpp"
#include "skeinfall/project/stitches.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::need {

/// Yarn of one row over its width, for other hands and yarn than the ones it was measured in.
/// Crochet: one maker's single, half double and double crochet (source S150 in
/// lib/data/sources.csv), other stitches from these by relative_yarn(). Knitting: rules of 3 to 4
/// widths (sources S151 to S154). Nothing for a stitch that is not known.
[[nodiscard]] std::optional<measure::Estimate<units::Ratio>> strand_per_width(
    std::string_view stitch, project::Terms terms);

}  // namespace skeinfall::need
