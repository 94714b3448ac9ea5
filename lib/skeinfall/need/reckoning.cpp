#include "skeinfall/need/reckoning.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace skeinfall::need {
namespace {

using units::Ratio;

struct Mean {
    double value = 0.0;
    double variance = 0.0;
};

/// Of all but one.
Mean mean_of(const std::vector<double>& values, const std::vector<double>& variances,
             std::size_t without) {
    double precision = 0.0;
    double sum = 0.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (i == without) continue;
        precision += 1.0 / variances[i];
        sum += values[i] / variances[i];
    }
    return {sum / precision, 1.0 / precision};
}

void refuse_bad(const std::vector<Observation>& observations) {
    if (observations.empty()) throw std::invalid_argument("nothing observed");
    for (const Observation& each : observations)
        if (!(each.yarn > units::Length{}) || !(each.spread.value() > 0.0))
            throw std::invalid_argument("an observation needs yarn and a spread above 0");
}

}  // namespace

Reckoned reckoned(const std::vector<Observation>& observations) {
    refuse_bad(observations);
    const std::size_t count = observations.size();
    std::vector<double> values;
    std::vector<double> variances;
    for (const Observation& each : observations) {
        values.push_back(std::log(each.yarn.value()));
        variances.push_back(each.spread.value() * each.spread.value());
    }
    const auto off = [&](std::size_t i) {
        const Mean rest = mean_of(values, variances, i);
        return (values[i] - rest.value) / std::sqrt(variances[i] + rest.variance);
    };
    Reckoned out;
    for (std::size_t i = 0; i < count; ++i) out.off.emplace_back(count > 1 ? off(i) : 0.0);
    // The weight of an error with heavy tails, as the rest sees it.
    for (std::size_t i = 0; i < count; ++i)
        if (observations[i].heavy && count > 1) {
            const double z = out.off[i].value();
            const double tail = heavy_tail.value();
            variances[i] *= std::max(1.0, (tail + z * z) / (tail + 1.0));
        }
    const Mean all = mean_of(values, variances, count);
    out.yarn = std::exp(all.value) * units::metre;
    for (const double variance : variances) out.weights.emplace_back(all.variance / variance);
    double widened = 1.0;
    for (std::size_t i = 0; i < count; ++i) {
        const double z = std::abs(out.off[i].value());
        if (z <= discord_limit.value() || z / discord_left.value() <= widened) continue;
        // Of two that differ each is as far from the other; the weaker one is named.
        widened = z / discord_left.value();
        out.discord = i;
    }
    if (out.discord && count == 2 && out.weights[0] != out.weights[1])
        out.discord = out.weights[0] < out.weights[1] ? 0U : 1U;
    out.widened = Ratio(widened);
    out.spread = Ratio(widened * std::sqrt(all.variance));
    return out;
}

Ratio spread_between(const std::vector<Observation>& observations) {
    refuse_bad(observations);
    if (observations.size() < 2) return Ratio(0.0);
    double weights = 0.0;
    double squared = 0.0;
    double sum = 0.0;
    for (const Observation& each : observations) {
        const double weight = 1.0 / (each.spread.value() * each.spread.value());
        weights += weight;
        squared += weight * weight;
        sum += weight * std::log(each.yarn.value());
    }
    const double mean = sum / weights;
    double misfit = 0.0;
    for (const Observation& each : observations) {
        const double rest = std::log(each.yarn.value()) - mean;
        misfit += rest * rest / (each.spread.value() * each.spread.value());
    }
    const double free = static_cast<double>(observations.size()) - 1.0;
    return Ratio(std::sqrt(std::max(0.0, (misfit - free) / (weights - squared / weights))));
}

}  // namespace skeinfall::need
