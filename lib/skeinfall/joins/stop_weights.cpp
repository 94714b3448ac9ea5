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

namespace {

bool power_of_two(std::size_t number) {
    return (number & (number - 1)) == 0;
}

/// Whether a step (from 1) is the yarn's next row behind another one of the same piece. Rows of
/// other yarns may lie between them, and so may its own strand that is carried up.
bool next_row(const std::vector<need::Step>& steps, std::size_t before, std::size_t done) {
    for (std::size_t between = before + 1; between < done; ++between)
        if (steps[between - 1].purpose != need::Purpose::carried) return false;
    const need::Step& one = steps[before - 1];
    const need::Step& next = steps[done - 1];
    return next.purpose == need::Purpose::body && one.purpose == need::Purpose::body &&
           next.piece == one.piece && next.copy == one.copy && next.row > one.row;
}

}  // namespace

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
        const bool finish = (plan.finishes || plan.against_slip) && i + 1 == plan.stretches.size();
        const std::size_t all = plan.steps.size();
        // Nobody weighs a skein before it is joined, though the one before may end sooner.
        const std::size_t first = i == 0 ? 1 : plan.stretches[i - 1].to.step + 1;
        const std::size_t last = finish ? all - 1 : std::min(stretch.weigh_to, all - 1);
        const std::size_t near = all > lines_at_most ? all - lines_at_most : 1;
        const std::size_t weighed_from = std::max(stretch.weigh_from, std::size_t{1});
        const std::size_t from =
            finish ? std::max(std::min(weighed_from, near), first) : weighed_from;
        const auto carried = [&](std::size_t step) {
            return plan.steps[step].purpose == need::Purpose::carried;
        };
        for (std::size_t done = from; done <= last; ++done) {
            if (carried(done - 1)) continue;
            // Before the last rows, what the rest needs is asked less often the farther it is.
            const bool rest = finish && (done == from || done >= near || power_of_two(near - done));
            if (finish && !rest && done < weighed_from) continue;
            const std::size_t row = carried(done) && done + 1 < all ? done + 1 : done;
            StopWeight line{i, done, done, weight(done, row + 1, rules.tail), Mass{}};
            if (finish) line.rest = weight(done, all, rules.end_tail.value_or(rules.tail));
            // Of rows asked less often the first speaks for all: none of them needs more.
            if (!out.empty() && out.back().stretch == i && out.back().until < done &&
                next_row(plan.steps, out.back().until, done) && out.back().next == line.next &&
                (finish && !rest ? out.back().rest >= line.rest : out.back().rest == line.rest))
                out.back().until = done;
            else
                out.push_back(line);
        }
    }
    return out;
}

Ratio knot_share(Length next_rows, Length finish) {
    return {finish / (finish + next_rows)};
}

}  // namespace skeinfall::joins
