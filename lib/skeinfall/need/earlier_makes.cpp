#include "skeinfall/need/earlier_makes.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace skeinfall::need {
namespace {

struct Line {
    double slope = 0.0;
    double fixed = 0.0;
    double leverage = 0.0;  ///< variance of the line at the size, over that of one make
    double degrees = 0.0;
};

void widen_outside(FromEarlier& out, double size, double smallest, double largest) {
    auto& estimate = out.yarn.estimate;
    out.beyond_largest = units::Ratio(size / largest);
    const double outside = std::max(size / largest, smallest / size);
    out.widened = outside > alike_up_to.value();
    if (!out.widened) return;
    const double steps = std::log(outside) / std::log(alike_up_to.value());
    estimate.spread = measure::in_quadrature(
        estimate.spread, units::Length(estimate.centre * (widening_a_step.value() * steps)));
}

FromEarlier judged(const std::vector<SizedMake>& makes, units::Ratio size, const Line& line) {
    double squares = 0.0;
    double smallest = makes.front().size.value();
    double largest = smallest;
    for (const SizedMake& make : makes) {
        const double says = line.fixed + line.slope * make.size.value();
        squares += std::pow(make.yarn / units::metre - says, 2);
        smallest = std::min(smallest, make.size.value());
        largest = std::max(largest, make.size.value());
    }
    FromEarlier out;
    out.per_size = line.slope * units::metre;
    out.fixed = line.fixed * units::metre;
    auto& estimate = out.yarn.estimate;
    out.yarn.degrees = units::Ratio(line.degrees);
    estimate.centre = (line.fixed + line.slope * size.value()) * units::metre;
    estimate.spread = std::sqrt(squares / line.degrees * (1.0 + line.leverage)) * units::metre;
    widen_outside(out, size.value(), smallest, largest);
    return out;
}

void check(const std::vector<SizedMake>& makes, units::Ratio size, std::size_t least) {
    if (makes.size() < least) throw std::invalid_argument("too few makes to tell a spread");
    const bool fine = std::all_of(makes.begin(), makes.end(), [](const SizedMake& make) {
        return make.size.value() > 0.0 && make.yarn > units::Length{};
    });
    if (!fine || !(size.value() > 0.0))
        throw std::invalid_argument("sizes and yarn of makes must be above 0");
}

}  // namespace

FromEarlier from_earlier(const std::vector<SizedMake>& makes, units::Ratio size) {
    check(makes, size, 2);
    double products = 0.0;
    double squares = 0.0;
    for (const SizedMake& make : makes) {
        products += make.size.value() * (make.yarn / units::metre);
        squares += make.size.value() * make.size.value();
    }
    Line line;
    line.slope = products / squares;
    line.leverage = size.value() * size.value() / squares;
    line.degrees = static_cast<double>(makes.size()) - 1.0;
    return judged(makes, size, line);
}

FromEarlier from_one_make(const SizedMake& make, units::Ratio size, units::Ratio spread) {
    check({make}, size, 1);
    FromEarlier out;
    out.per_size = make.yarn / make.size.value();
    out.yarn.estimate.centre = out.per_size * size.value();
    out.yarn.estimate.spread = out.yarn.estimate.centre * spread;
    widen_outside(out, size.value(), make.size.value(), make.size.value());
    return out;
}

units::Length upper_half_width(const FromEarlier& found) {
    const auto& yarn = found.yarn;
    if (std::isinf(yarn.degrees.value())) return yarn.estimate.spread;
    return yarn.estimate.spread *
           (measure::deviations_for(measure::usual_confidence, yarn.degrees) /
            measure::deviations_for(measure::usual_confidence));
}

FromEarlier from_earlier_with_fixed(const std::vector<SizedMake>& makes, units::Ratio size) {
    check(makes, size, 3);
    const auto count = static_cast<double>(makes.size());
    double mean_size = 0.0;
    double mean_yarn = 0.0;
    for (const SizedMake& make : makes) {
        mean_size += make.size.value() / count;
        mean_yarn += make.yarn / units::metre / count;
    }
    double products = 0.0;
    double squares = 0.0;
    for (const SizedMake& make : makes) {
        const double off = make.size.value() - mean_size;
        products += off * (make.yarn / units::metre - mean_yarn);
        squares += off * off;
    }
    constexpr double noise = 1e-12;
    if (!(squares > noise * mean_size * mean_size))
        throw std::invalid_argument("makes of one size do not tell a fixed part");
    Line line;
    line.slope = products / squares;
    line.fixed = mean_yarn - line.slope * mean_size;
    line.leverage = 1.0 / count + std::pow(size.value() - mean_size, 2) / squares;
    line.degrees = count - 2.0;
    return judged(makes, size, line);
}

}  // namespace skeinfall::need
