#include "skeinfall/project/hand.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace skeinfall::project {

Hand hand_from(const std::vector<TaughtByMake>& makes) {
    double precision = 1.0 / (unknown_hand.value() * unknown_hand.value());
    double weighted = 0.0;
    std::vector<std::string> titles;
    for (const TaughtByMake& make : makes) {
        const double each = 1.0 / (make.noise.value() * make.noise.value());
        precision += each;
        weighted += each * std::log(make.times.value());
        if (std::find(titles.begin(), titles.end(), make.make) == titles.end())
            titles.push_back(make.make);
    }
    Hand out;
    out.times = units::Ratio(std::exp(weighted / precision));
    out.spread = units::Ratio(std::sqrt(1.0 / precision));
    out.makes = static_cast<std::int64_t>(titles.size());
    return out;
}

units::Ratio off_from(const Hand& others, const TaughtByMake& make) {
    const double apart = std::log(make.times.value() / others.times.value());
    return units::Ratio(std::abs(apart) / std::hypot(others.spread.value(), make.noise.value()));
}

}  // namespace skeinfall::project
