#include "skeinfall/measure/estimate.hpp"

namespace skeinfall::measure {

Estimate<units::Mass> net_mass(const ScaleReading& reading) {
    const units::Mass once = reading.resolution / std::sqrt(12.0);
    if (!reading.tare) return {reading.shown, once};
    const bool weighed = reading.tare_spread.value() == 0.0;
    return {reading.shown - *reading.tare,
            in_quadrature(once, weighed ? once : reading.tare_spread)};
}

}  // namespace skeinfall::measure
