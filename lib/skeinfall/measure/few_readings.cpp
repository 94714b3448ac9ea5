#include "skeinfall/measure/few_readings.hpp"

#include <algorithm>
#include <stdexcept>

#include <boost/math/distributions/students_t.hpp>

namespace skeinfall::measure {

FewReadings<units::Mass> mean_mass(const std::vector<ScaleReading>& readings) {
    if (readings.empty()) throw std::invalid_argument("there is no reading to take a mean of");
    units::Mass sum{};
    units::Mass step{};
    for (const ScaleReading& reading : readings) {
        const auto net = net_mass(reading);
        sum += net.centre;
        step = std::max(step, net.spread);
    }
    const auto count = static_cast<double>(readings.size());
    const units::Mass mean = sum / count;
    if (readings.size() == 1) return {{mean, step}, known_spread};
    double squares = 0.0;
    for (const ScaleReading& reading : readings) {
        const double off = (net_mass(reading).centre - mean).value();
        squares += off * off;
    }
    const units::Mass scatter = units::Mass::from_value(std::sqrt(squares / (count - 1.0) / count));
    return {{mean, in_quadrature(scatter, step)},
            degrees_together<units::Mass>({{scatter, units::Ratio(count - 1.0)}, {step}})};
}

units::Ratio deviations_for(Chance chance, units::Ratio degrees) {
    if (!(degrees.value() >= 1.0))
        throw std::invalid_argument("a spread needs at least one degree of freedom");
    if (!std::isfinite(degrees.value())) return deviations_for(chance);
    const double p = chance.value;
    if (!(p >= 0.5 && p < 1.0))
        throw std::invalid_argument("a confidence lies between 50 % and 100 %");
    return {boost::math::quantile(boost::math::students_t(degrees.value()), p)};
}

}  // namespace skeinfall::measure
