#include "skeinfall/measure/readings_apart.hpp"

#include <algorithm>

namespace skeinfall::measure {

bool of_different_things(const std::vector<ScaleReading>& readings) {
    if (readings.empty()) return false;
    constexpr double apart_share = 0.1;
    constexpr double apart_steps = 5.0;
    const auto [least, most] = std::minmax_element(
        readings.begin(), readings.end(),
        [](const ScaleReading& a, const ScaleReading& b) { return a.shown < b.shown; });
    const units::Mass apart = most->shown - least->shown;
    return apart > apart_share * most->shown && apart > apart_steps * most->resolution;
}

}  // namespace skeinfall::measure
