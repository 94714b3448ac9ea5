#pragma once
/// \file
/// What published charts say of a weight class, each chart kept apart because they disagree.
///
/// Tables: yarn_weight_classes.csv and yarn_weight_variants.csv (gauges and tools of the Craft
/// Yarn Council and its differing printings), length_per_mass_by_class.csv (eight charts),
/// wpi_by_class.csv (seven charts), all in lib/data.

#include <optional>
#include <string_view>
#include <vector>

#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::yarn {

/// What a chart measures a class by.
enum class Measure { grist, knit_gauge, crochet_gauge, wraps, hook, needle };

/// One row of one chart. Ends are multiples of the measure's unit: 1 m per 100 g, 1 stitch per
/// 4 in, 1 wrap per inch, 1 mm; an end left out is open.
struct ChartRange {
    std::string_view chart;  ///< number in lib/data/sources.csv, "S27"
    WeightClass weight;
    std::optional<units::Ratio> least;
    std::optional<units::Ratio> most;
    bool double_crochet = false;  ///< of a crochet gauge: lace's counts double crochet
};

/// Every row that charts print for a measure, in the order of the tables.
[[nodiscard]] const std::vector<ChartRange>& charts_of(Measure measure);

}  // namespace skeinfall::yarn
