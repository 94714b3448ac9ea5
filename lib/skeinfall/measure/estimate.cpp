#include "skeinfall/measure/estimate.hpp"

namespace skeinfall::measure {

Estimate<units::Mass> net_mass(const ScaleReading& reading) {
    if (reading.tare) return {reading.shown - *reading.tare, reading.resolution / std::sqrt(6.0)};
    return {reading.shown, reading.resolution / std::sqrt(12.0)};
}

}  // namespace skeinfall::measure
