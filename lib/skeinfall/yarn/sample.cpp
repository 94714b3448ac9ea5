#include "skeinfall/yarn/sample.hpp"

#include <algorithm>
#include <cmath>

namespace skeinfall::yarn {

SampleGrist grist_of(const MeasuredSample& sample) {
    const auto mass = measure::mean_mass(sample.weighings).estimate;
    units::Mass step{};
    for (const measure::ScaleReading& reading : sample.weighings)
        step = std::max(step, reading.resolution);
    const units::Mass needed = step * least_scale_steps.value();
    // A reading of exactly 20 steps may come out a hair lower in binary.
    if (mass.centre < needed * (1.0 - 1e-9)) {
        TooLight answer{needed, mass.centre - step / 2.0, mass.centre + step / 2.0, std::nullopt};
        if (answer.least.value() > 0.0) answer.measure = sample.length * (needed / answer.least);
        return answer;
    }
    const measure::Estimate<units::Length> length{
        sample.length, measure::within(units::Length(sample.length * tape_half_width.value()))};
    return measure::over(length, mass);
}

measure::Estimate<units::Grist> grist_by_balance(units::Length strand, units::Mass against) {
    const measure::Estimate<units::Length> cut{strand, measure::within(cut_half_width)};
    return measure::over(cut, measure::Estimate<units::Mass>{against, {}});
}

units::Mass yarn_balance_mass() {
    return units::inch / (100.0 * units::yard / units::pound);
}

measure::Estimate<units::Length> length_left(const measure::Estimate<units::Grist>& grist,
                                             const measure::ScaleReading& have) {
    const double apart = std::hypot(unevenness.value(), air_between_weighings.value());
    const measure::Estimate<units::Grist> of_the_rest{
        grist.centre, measure::in_quadrature(grist.spread, units::Grist(grist.centre * apart))};
    return measure::times(measure::net_mass(have), of_the_rest);
}

}  // namespace skeinfall::yarn
