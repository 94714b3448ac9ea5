#include "skeinfall/need/gauge.hpp"

#include <cmath>

namespace skeinfall::need {

GaugeChange gauge_change(const project::Gauge& pattern, const project::Gauge& maker,
                         Keeping keeping) {
    const double wider = pattern.stitches / maker.stitches;
    const double higher = pattern.rows / maker.rows;
    const double loop = std::sqrt(wider * higher);
    GaugeChange change;
    change.keeping = keeping;
    if (keeping == Keeping::stitch_counts) {
        change.width = units::Ratio(wider);
        change.height = units::Ratio(higher);
        change.yarn = units::Ratio(loop);
    } else {
        change.width = units::Ratio(1.0);
        change.height = units::Ratio(1.0);
        change.yarn = units::Ratio(1.0 / loop);
    }
    return change;
}

}  // namespace skeinfall::need
