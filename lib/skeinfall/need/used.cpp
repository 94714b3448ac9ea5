#include "skeinfall/need/used.hpp"

namespace skeinfall::need {

using units::Length;
using units::Ratio;

std::vector<Used> used_up(const MakeNeed& make, const std::string& role) {
    std::vector<Used> out;
    Length sum{};
    for (std::size_t i = 0; i < make.steps.size(); ++i) {
        const Step& step = make.steps[i];
        if (step.role != role) continue;
        sum += step.yarn;
        if (step.purpose != Purpose::carried) out.push_back({i, sum, {}});
    }
    if (sum > Length{})
        for (Used& one : out) one.share = Ratio(one.yarn / sum);
    return out;
}

std::vector<Used> tenths_of(const std::vector<Used>& used) {
    constexpr double tenths = 10.0;
    constexpr double noise = 1e-9;
    std::vector<Used> out;
    double next = 1.0;
    for (const Used& one : used) {
        if (one.share.value() * tenths + noise < next) continue;
        out.push_back(one);
        while (next <= one.share.value() * tenths + noise) next += 1.0;
    }
    return out;
}

}  // namespace skeinfall::need
