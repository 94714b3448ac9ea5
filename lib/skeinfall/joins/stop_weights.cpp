#include "skeinfall/joins/stop_weights.hpp"

#include <algorithm>
#include <cmath>

namespace skeinfall::joins {

using units::Length;
using units::Mass;
using units::Ratio;

Mass stop_weight(Length yarn, Ratio relative, Length tail, units::Grist grist, const Scale& scale,
                 measure::Chance confidence) {
    const double z = measure::deviations_for(confidence);
    const Length wanted = yarn * (1.0 + z * relative.value()) + tail;
    const Mass least = wanted / grist + 0.5 * scale.step + scale.tare;
    constexpr double noise = 1e-9;
    return std::ceil(least / scale.step - noise) * scale.step;
}

std::vector<StopWeight> stop_weights(const JoinPlan& plan, const need::RoleNeed& role,
                                     units::Grist grist, const Scale& scale, const Rules& rules) {
    std::vector<StopWeight> out;
    const auto weight = [&](std::size_t from, std::size_t to, Length tail) {
        Length yarn{};
        for (std::size_t i = from; i < to; ++i) yarn += plan.steps[i].yarn;
        const double rows = static_cast<double>(std::max<std::size_t>(1, to - from));
        const Ratio relative(std::hypot(role.length.relative().value(),
                                        need::usual::row_to_row.value() / std::sqrt(rows)));
        return stop_weight(yarn, relative, tail, grist, scale, rules.confidence);
    };
    for (std::size_t i = 0; i < plan.stretches.size(); ++i) {
        const Stretch& stretch = plan.stretches[i];
        const bool finish = plan.finishes && i + 1 == plan.stretches.size();
        const std::size_t all = plan.steps.size();
        const std::size_t first = stretch.from.step + 1;
        std::size_t last = finish ? all - 1 : std::min(stretch.latest, all - 1);
        std::size_t from = finish ? (all > lines_at_most ? all - lines_at_most : 1)
                                  : std::max(stretch.earliest, first);
        from = std::max(from, first);
        if (!finish && last >= from + lines_at_most) {
            // Many rows between: those about the likely one.
            from = std::max(from, stretch.to.step - std::min(stretch.to.step, lines_at_most / 2));
            last = std::min(last, from + lines_at_most - 1);
        }
        const auto carried = [&](std::size_t step) {
            return plan.steps[step].purpose == need::Purpose::carried;
        };
        for (std::size_t done = from; done <= last; ++done) {
            if (carried(done - 1)) continue;
            const std::size_t row = carried(done) && done + 1 < all ? done + 1 : done;
            StopWeight line{i, done, weight(done, row + 1, rules.tail), Mass{}};
            if (finish) line.rest = weight(done, all, rules.end_tail.value_or(rules.tail));
            out.push_back(line);
        }
    }
    return out;
}

Ratio knot_share(Length next_rows, Length finish) {
    return {finish / (finish + next_rows)};
}

}  // namespace skeinfall::joins
