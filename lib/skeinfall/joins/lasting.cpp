#include "skeinfall/joins/lasting.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/need/need.hpp"

namespace skeinfall::joins {
namespace {

using measure::Chance;
using measure::Estimate;
using units::Ratio;

/// Chances are told of lengths; a mass is told in the same way.
template <class Q>
Chance enough(const Estimate<Q>& supply, const Estimate<Q>& need) {
    const auto as_length = [](const Estimate<Q>& of) {
        return Estimate<units::Length>{units::Length::from_value(of.centre.value()),
                                       units::Length::from_value(of.spread.value())};
    };
    return measure::chance_enough(as_length(supply), as_length(need));
}

template <class Q>
Q needed(const Estimate<Q>& need, Q supply_spread, Chance confidence) {
    return Q::from_value(measure::supply_needed({units::Length::from_value(need.centre.value()),
                                                 units::Length::from_value(need.spread.value())},
                                                units::Length::from_value(supply_spread.value()),
                                                confidence)
                             .value());
}

}  // namespace

template <class Q>
Lasting<Q> lasting(const WorkLeft& work, const YarnLeft<Q>& yarn, Chance confidence) {
    if (!(work.done.value() > 0.0) || !(yarn.used.centre > Q{}))
        throw base::InputError(base::Problem{
            "nothing was used or done yet", {}, "some work and the yarn it took", ""});
    Lasting<Q> out;
    const double done = work.done.value();
    out.per_unit.centre = yarn.used.centre / done;
    // What the rows done were is measured; what the next will be drifts from it.
    const double drift = need::usual::swatch_to_piece.value();
    const double rows = need::usual::row_to_row.value() / std::sqrt(std::max(1.0, done));
    const double rate = std::hypot(std::hypot(yarn.used.relative().value(), drift),
                                   std::hypot(rows, yarn.per_unit_spread.value()));
    out.per_unit.spread = out.per_unit.centre * rate;
    const auto rest_after = [&](double units) {
        const double come = units * out.per_unit.centre.value();
        const double of_rows = work.rows ? need::usual::row_to_row.value() *
                                               out.per_unit.centre.value() * std::sqrt(units)
                                         : 0.0;
        const double guess = work.spread.value() * yarn.used.centre.value();
        const double spread = std::hypot(std::hypot(come * rate, of_rows),
                                         std::hypot(guess, yarn.finish.spread.value()));
        return Estimate<Q>{Q::from_value(come) + yarn.finish.centre, Q::from_value(spread)};
    };
    const Estimate<Q> have{yarn.have.centre - yarn.tail, yarn.have.spread};
    out.have = have.centre;
    out.rest = rest_after(work.to_come.value());
    out.lasts = enough(have, out.rest);
    Estimate<Q> one = rest_after(1.0);
    one.centre -= yarn.finish.centre;
    out.next = enough(have, one);
    out.to_be_sure = std::max(Q{}, Q(needed(out.rest, have.spread, confidence) - have.centre));
    const std::int64_t most = static_cast<std::int64_t>(std::ceil(work.to_come.value()));
    const Chance half{Ratio(0.5)};
    for (std::int64_t units = 0; work.rows && units <= most; ++units) {
        const Chance chance =
            enough(have, rest_after(std::min(static_cast<double>(units), work.to_come.value())));
        if (chance >= confidence) out.certain = units;
        if (chance >= half) out.likely = units;
        if (chance < half) break;
    }
    const double share = work.to_come.value() / done;
    out.rest_least =
        std::max(Q{}, Q(yarn.used.centre - yarn.used_off)) * share + yarn.finish.centre;
    out.rest_most = (yarn.used.centre + yarn.used_off) * share + yarn.finish.centre;
    out.have_least = have.centre - yarn.have_off;
    out.have_most = have.centre + yarn.have_off;
    return out;
}

template Lasting<units::Mass> lasting(const WorkLeft&, const YarnLeft<units::Mass>&, Chance);
template Lasting<units::Length> lasting(const WorkLeft&, const YarnLeft<units::Length>&, Chance);

}  // namespace skeinfall::joins
