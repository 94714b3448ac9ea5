#include "skeinfall/joins/lasting.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>
#include <vector>

#include <boost/math/distributions/normal.hpp>

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

struct Amount {
    double centre = 0.0;
    double spread = 0.0;
};

/// The chance that an amount holds so many units, each of `rate` with `row` of its own.
double holds_units(const Amount& amount, double units, double rate, double row) {
    const double spread = std::hypot(amount.spread, row * std::sqrt(units));
    const double spare = amount.centre - units * rate;
    if (!(spread > 0.0)) return spare >= 0.0 ? 1.0 : 0.0;
    return boost::math::cdf(boost::math::normal(), spare / spread);
}

/// Balls joined between units: each holds whole ones. What a unit takes is common to all of them
/// and not known well.
class BallByBall {
  public:
    BallByBall(const std::vector<Amount>& balls, Amount rate, double row, std::size_t most)
        : row_(row) {
        constexpr int steps = 81;
        constexpr double widest = 4.0;
        // Few balls of few units are counted out; of many the loss lies anywhere in a unit.
        constexpr double few = 20'000.0;
        const bool counted =
            static_cast<double>(balls.size()) * static_cast<double>(most + 1) <= few;
        double all = 0.0;
        for (int i = 0; i < steps; ++i) {
            const double z = widest * (2.0 * i / (steps - 1) - 1.0);
            AtRate at;
            at.weight = std::exp(-0.5 * z * z);
            at.rate = std::max(rate.centre + z * rate.spread, 0.05 * rate.centre);
            if (counted)
                at.reached = counted_out(balls, at.rate, most);
            else
                at.sum = sum_of(balls, at.rate);
            all += at.weight;
            rates_.push_back(std::move(at));
        }
        for (AtRate& at : rates_) at.weight /= all;
    }

    /// The chance of so many units or more.
    [[nodiscard]] Chance of(std::size_t units) const {
        double out = 0.0;
        for (const AtRate& at : rates_)
            out += at.weight * (at.reached.empty()
                                    ? holds_units(at.sum, static_cast<double>(units), at.rate, row_)
                                    : at.reached[units]);
        return {Ratio(std::clamp(out, 0.0, 1.0))};
    }

  private:
    struct AtRate {
        double weight = 0.0;
        double rate = 0.0;
        std::vector<double> reached;  ///< chances of so many units or more; else by the sum
        Amount sum;
    };

    [[nodiscard]] std::vector<double> counted_out(const std::vector<Amount>& balls, double rate,
                                                  std::size_t most) const {
        std::vector<double> exactly(most + 1, 0.0);
        exactly[0] = 1.0;
        for (const Amount& ball : balls) {
            std::vector<double> next(most + 1, 0.0);
            double at_least = 1.0;
            for (std::size_t units = 0; units <= most && at_least > 0.0; ++units) {
                const double more = std::min(
                    at_least, holds_units(ball, static_cast<double>(units) + 1.0, rate, row_));
                const double here = units == most ? at_least : at_least - more;
                at_least = more;
                for (std::size_t done = 0; here > 0.0 && done <= most; ++done)
                    next[std::min(most, done + units)] += exactly[done] * here;
            }
            exactly = std::move(next);
        }
        for (std::size_t units = most; units-- > 0;) exactly[units] += exactly[units + 1];
        return exactly;
    }

    static Amount sum_of(const std::vector<Amount>& balls, double rate) {
        Amount out;
        double variance = 0.0;
        for (const Amount& ball : balls) {
            if (ball.centre < rate) continue;
            out.centre += ball.centre - 0.5 * rate;
            variance += ball.spread * ball.spread + rate * rate / 12.0;
        }
        out.spread = std::sqrt(variance);
        return out;
    }

    std::vector<AtRate> rates_;
    double row_;
};

/// What each ball gives to the rows: without its ends, and without the finish, which the largest
/// gives first. What no ball has for the finish is missing.
template <class Q>
std::vector<Amount> for_rows(const YarnLeft<Q>& yarn) {
    std::vector<Amount> out{{(yarn.have.centre - yarn.tail).value(), yarn.have.spread.value()}};
    for (const Estimate<Q>& ball : yarn.more)
        out.push_back({(ball.centre - yarn.ends).value(), ball.spread.value()});
    std::sort(out.begin(), out.end(),
              [](const Amount& a, const Amount& b) { return a.centre > b.centre; });
    double finish = yarn.finish.centre.value();
    out.front().spread = std::hypot(out.front().spread, yarn.finish.spread.value());
    for (Amount& ball : out) {
        const double taken = std::clamp(finish, 0.0, std::max(0.0, ball.centre));
        ball.centre -= taken;
        finish -= taken;
    }
    out.front().centre -= finish;
    return out;
}

/// Replaces what a pool of all balls would give by what they give one by one.
template <class Q>
void join_between_units(const WorkLeft& work, const YarnLeft<Q>& yarn, Chance confidence,
                        Lasting<Q>& out) {
    const double rate = out.per_unit.centre.value();
    const double row = need::usual::row_to_row.value() * rate;
    const auto most = static_cast<std::size_t>(std::ceil(work.to_come.value()));
    const std::vector<Amount> rows = for_rows(yarn);
    const BallByBall balls(rows, {rate, out.per_unit.spread.value()}, row, most);
    const auto reached = [&](std::size_t units) { return std::min(out.anywhere, balls.of(units)); };
    /// Fewer are never less likely.
    const auto last = [&](Chance least) {
        std::size_t low = 0;
        std::size_t high = most + 1;
        while (high - low > 1) {
            const std::size_t middle = low + (high - low) / 2;
            (balls.of(middle) >= least ? low : high) = middle;
        }
        return static_cast<std::int64_t>(low);
    };
    out.lasts = reached(most);
    double none = 1.0;
    for (const Amount& ball : rows)
        none *= 1.0 - holds_units(ball, 1.0, rate, std::hypot(row, out.per_unit.spread.value()));
    out.next = std::min(out.next, Chance{Ratio(1.0 - none)});
    out.certain = std::min(out.certain, last(confidence));
    out.likely = std::min(out.likely, last(Chance{Ratio(0.5)}));
    if (out.lasts >= confidence) return;
    // One more ball that holds the units that are not sure, whole.
    const double missing =
        std::max(1.0, static_cast<double>(most) - static_cast<double>(out.certain));
    const Estimate<Q> units{
        Q::from_value(missing * rate),
        Q::from_value(std::hypot(missing * out.per_unit.spread.value(), row * std::sqrt(missing)))};
    out.to_be_sure = std::max(out.to_be_sure, Q(needed(units, Q{}, confidence) + yarn.ends));
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
    Estimate<Q> have{yarn.have.centre - yarn.tail, yarn.have.spread};
    for (const Estimate<Q>& ball : yarn.more) {
        have.centre += ball.centre - yarn.ends;
        have.spread = measure::in_quadrature(have.spread, ball.spread);
    }
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
    out.anywhere = out.lasts;
    if (work.rows && work.whole && !yarn.more.empty())
        join_between_units(work, yarn, confidence, out);
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
