#pragma once
/// \file
/// What a maker says once for all projects. What a project says itself goes before it.

#include <optional>
#include <vector>

#include "skeinfall/project/project.hpp"
#include "skeinfall/project/stitches.hpp"
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::project {

/// Yarn per stitch that a maker usually takes in a craft with yarn of one weight class.
struct UsualRate {
    Craft craft = Craft::crochet;
    yarn::WeightClass weight;
    units::YarnPerStitch rate{};
};

struct Defaults {
    std::optional<Terms> terms;
    std::optional<units::Ratio> margin;
    std::optional<units::Length> tail;
    std::vector<UsualRate> rates;
    std::optional<Hand> hand;  ///< as finished makes taught it
};

/// Gives a usual rate to each yarn of a known class that has neither a swatch, an earlier make, a
/// rate nor a total.
void add_usual_rates(Project& project, const std::vector<UsualRate>& rates);

}  // namespace skeinfall::project
