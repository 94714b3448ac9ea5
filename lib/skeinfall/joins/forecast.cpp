#include "skeinfall/joins/forecast.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <numeric>
#include <utility>

#include <boost/math/distributions/students_t.hpp>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/yarn.hpp"

namespace skeinfall::joins {
namespace {

using units::Length;
using units::Mass;
using units::Ratio;

/// Degrees of freedom of the row-to-row variation before any weighing: half of it a judgement.
constexpr double prior_shape = 3.0;

boost::math::students_t student(Ratio degrees) {
    return boost::math::students_t(degrees.value());
}

std::string grams(Mass mass) {
    return units::plain_number(Ratio(mass / units::gram), units::Step::hundredth,
                               units::Rounding::nearest) +
           " g";
}

[[noreturn]] void ask(const std::string& what, const std::string& expected,
                      const std::string& remedy) {
    throw base::InputError(base::Problem{what, {}, expected, remedy});
}

Mass net(const Reading& reading) {
    const Mass mass = measure::net_mass(reading.scale).centre;
    if (mass.value() <= 0.0)
        ask("a reading of " + grams(reading.scale.shown) + " is not above its tare",
            "more than the needles, hook or bag weigh", "Weigh them alone again.");
    return mass;
}

}  // namespace

std::optional<Use> learn(const std::optional<Prior>& prior,
                         const std::vector<Increment>& increments, Mass scale_step,
                         std::size_t skeins) {
    Length work{};
    Mass used{};
    for (const Increment& one : increments) {
        work += one.work;
        used += one.used;
    }
    const auto count = static_cast<double>(increments.size());
    if (!prior && increments.size() < 2) return std::nullopt;
    // Without a prior: k0 = 0, a0 = -1/2, B0 = 0 give the plain estimate with K - 1 degrees.
    const double k0 = prior ? prior->worth.value() : 0.0;
    const double b0 = prior ? prior->rate.value() : 0.0;
    const double a0 = prior ? prior->shape.value() : -0.5;
    const double variance0 =
        prior ? prior->row_spread.value() * prior->row_spread.value() / prior->row.value() : 0.0;
    const double w = work.value();
    const double k = k0 + w;
    const double rate = (k0 * b0 + used.value()) / k;
    double squares = 0.0;
    if (w > 0.0) {
        const double mean = used.value() / w;
        for (const Increment& one : increments) {
            const double off = one.used.value() - mean * one.work.value();
            squares += off * off / one.work.value();
        }
        squares += k0 * w * (mean - b0) * (mean - b0) / k;
    }
    const double a = a0 + count / 2.0;
    double variance = ((prior ? a0 * variance0 : 0.0) + squares / 2.0) / a;
    if (!increments.empty()) {
        // Rounded readings that agree are no certainty.
        const double step = scale_step.value();
        variance = std::max(variance, step * step / (6.0 * w / count));
    }
    Use use;
    use.rate = units::LinearDensity::from_value(rate);
    use.row = prior ? prior->row : work / count;
    use.row_spread = Mass::from_value(std::sqrt(variance * use.row.value()));
    use.worth = Length::from_value(k);
    use.degrees = Ratio(2.0 * a);
    if (prior && !increments.empty())
        use.scale_spread = units::LinearDensity::from_value(
            scale_step.value() * std::sqrt(static_cast<double>(skeins) / 6.0) / k);
    return use;
}

Prediction predict(const Use& use, Length work, Mass scale_step) {
    const double variance = use.row_spread.value() * use.row_spread.value() / use.row.value();
    const double w = work.value();
    const double step = scale_step.value();
    const double by_scale = w * use.scale_spread.value();
    const double spread = std::sqrt(variance * (w + w * w / use.worth.value()) +
                                    by_scale * by_scale + step * step / 12.0);
    return {work * use.rate, Mass::from_value(spread), use.degrees};
}

measure::Chance chance_within(const Prediction& prediction, Mass have) {
    const Mass spare = have - prediction.centre;
    if (prediction.scale.value() <= 0.0) return {Ratio(spare.value() >= 0.0 ? 1.0 : 0.0)};
    return {Ratio(boost::math::cdf(student(prediction.degrees), spare / prediction.scale))};
}

Mass upper(const Prediction& prediction, measure::Chance confidence) {
    return prediction.centre + prediction.scale * boost::math::quantile(student(prediction.degrees),
                                                                        confidence.value.value());
}

ScaleBounds bounds_by_scale(const Increment& so_far, Length work, Mass scale_step) {
    const double ratio = work / so_far.work;
    return {std::max(Mass{}, so_far.used - scale_step) * ratio, (so_far.used + scale_step) * ratio};
}

ByReadings by_readings(const Use& use, const Increment& so_far, Length work, Mass scale_step,
                       std::size_t skeins, measure::Chance confidence) {
    const double variance = use.row_spread.value() * use.row_spread.value() / use.row.value();
    const double before = so_far.work.value();
    const double rest = work.value();
    const double step = scale_step.value();
    // Both readings of every skein, and the last one once more from which the rest is counted.
    const double by_scale = static_cast<double>(skeins) * step * step / 6.0;
    const double ratio = rest / before;
    const double spread =
        std::sqrt(variance * (rest + rest * ratio) + ratio * ratio * by_scale + step * step / 12.0);
    const Mass centre = so_far.used * ratio;
    const Mass half = Mass::from_value(
        spread * boost::math::quantile(student(use.degrees), 0.5 + 0.5 * confidence.value.value()));
    return {std::max(Mass{}, centre - half), centre + half};
}

namespace {

struct Worked {
    std::vector<Increment> increments;
    Mass step{};    ///< the coarsest scale used
    Increment sum;  ///< of all increments
    std::size_t skeins = 0;
};

Worked worked_between(const std::vector<Length>& work, const std::vector<Reading>& readings) {
    Worked out;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const Reading& now = readings[i];
        if (now.steps_done >= work.size())
            ask("a reading after the last row", "a row of the piece", "");
        out.step = std::max(out.step, now.scale.resolution);
        if (i == 0) {
            out.skeins = 1;
            continue;
        }
        const Reading& before = readings[i - 1];
        if (now.steps_done < before.steps_done)
            ask("this row comes before the row of the last weighing",
                "readings in the order they were taken",
                "Leave out readings of rows that were undone since.");
        if (now.skein != before.skein) {
            ++out.skeins;
            continue;
        }
        const Mass used = net(before) - net(now);
        const Mass slack = 0.5 * (now.scale.resolution + before.scale.resolution);
        if (used < -slack)
            ask("a skein grew heavier: " + grams(net(before)) + ", then " + grams(net(now)),
                "less of it after more rows",
                "Was another skein on the scale? Then name it, like \"row 40: 98 g of "
                "NAME\". Damp yarn also weighs more.");
        const Length between = work[now.steps_done] - work[before.steps_done];
        if (between.value() <= 0.0) {
            if (used > slack)
                ask("yarn was used although no row was worked: " + grams(net(before)) + ", then " +
                        grams(net(now)),
                    "the same mass, or another row", "");
            continue;
        }
        out.increments.push_back({between, std::max(Mass{}, used)});
        out.sum.work += between;
        out.sum.used += out.increments.back().used;
    }
    return out;
}

/// The two rates that lie farthest apart, of the plan and of all readings, where no hand works so
/// unevenly; beyond what the scale's step leaves open.
std::optional<OddUse> odd_among(const std::vector<Increment>& increments, Mass step,
                                const Prior& prior) {
    const Mass slack = drift_in_steps * step;
    std::optional<OddUse> out;
    Ratio farthest = most_apart;
    const auto compare = [&](const Increment& one, Mass least, Mass expected, Mass most,
                             bool by_plan) {
        const Mass low = one.used + slack;
        const Mass high = one.used - slack;
        const Ratio apart =
            std::max(Ratio(least / low), most > Mass{} ? Ratio(high / most) : Ratio());
        if (apart <= farthest) return;
        farthest = apart;
        out = OddUse{one.used, expected, by_plan};
    };
    for (const Increment& one : increments) {
        const Mass planned = one.work * prior.rate;
        compare(one, planned, planned, planned, true);
    }
    if (out) return out;
    for (const Increment& one : increments)
        for (const Increment& other : increments) {
            const double ratio = one.work / other.work;
            compare(one, (other.used - slack) * ratio, other.used * ratio,
                    (other.used + slack) * ratio, false);
        }
    return out;
}

}  // namespace

ProgressRules with_more(ProgressRules rules, Mass one, std::int64_t count) {
    const auto skeins = static_cast<double>(count);
    rules.more.centre += skeins * one;
    rules.more.spread =
        measure::in_quadrature(rules.more.spread, std::sqrt(skeins) * yarn::label_mass_spread(one));
    rules.more_skeins += static_cast<std::size_t>(count);
    return rules;
}

Prior prior_of(const std::vector<need::Step>& steps, units::Grist grist, Ratio relative) {
    Length work{};
    for (const need::Step& step : steps) work += step.yarn;
    Prior prior;
    prior.rate = 1.0 / grist;
    prior.row = work / static_cast<double>(steps.size());
    prior.row_spread = need::usual::row_to_row.value() * prior.row * prior.rate;
    prior.shape = Ratio(prior_shape);
    // The rate's own spread b0 u equals sigma / sqrt(k0).
    const double rate_spread = std::max(relative.value(), 1e-6);
    const double per_row = need::usual::row_to_row.value() / rate_spread;
    prior.worth = prior.row * per_row * per_row;
    return prior;
}

std::vector<std::optional<Length>> held_after(const std::vector<need::Step>& steps) {
    const auto is_row = [](const need::Step& step) {
        return step.purpose == need::Purpose::body && step.row > 0 && step.name.empty();
    };
    std::vector<std::optional<Length>> out(steps.size() + 1);
    std::map<std::pair<std::size_t, std::int64_t>, Length> of_piece;
    Length after{};
    out.back() = after;
    for (std::size_t i = steps.size(); i-- > 0;) {
        if (is_row(steps[i]))
            out[i + 1] = of_piece.try_emplace({steps[i].piece, steps[i].copy}, after).first->second;
        after += steps[i].yarn;
    }
    out.back() = Length{};
    return out;
}

LeftOpen left_open(const Use& use, measure::Chance confidence) {
    const double wider = boost::math::quantile(student(use.degrees), confidence.value.value()) /
                         measure::deviations_for(confidence).value();
    const double row = use.row_spread.value();
    const double by_rows = row / std::sqrt(use.row.value() * use.worth.value());
    const double rate = use.rate.value();
    return {Ratio(wider * std::hypot(by_rows, use.scale_spread.value()) / rate),
            Ratio(wider * row / (rate * use.row.value()))};
}

Progress progress(const std::vector<need::Step>& steps, units::Grist grist, Ratio relative,
                  const std::vector<Reading>& readings, const ProgressRules& rules) {
    if (readings.empty()) ask("no reading is given", "at least one", "");
    std::vector<Length> work{Length{}};
    for (const need::Step& step : steps) work.push_back(work.back() + step.yarn);
    const Worked worked = worked_between(work, readings);

    const Prior prior = prior_of(steps, grist, relative);
    Progress out;
    out.use = *learn(prior, worked.increments, worked.step, worked.skeins);
    out.odd = odd_among(worked.increments, worked.step, prior);
    // Most often another ball was begun between two weighings, and more went than they show.
    if (out.odd && out.use.rate < prior.rate) out.use = *learn(prior, {}, worked.step);
    out.increments = worked.increments.size();
    const Reading& last = readings.back();
    out.in_hand = net(last);
    const Mass tail = rules.tail / grist;
    const auto joins = static_cast<double>(rules.more_skeins);
    const Mass link = rules.link * out.use.rate;
    out.have = out.in_hand + rules.more.centre - (1.0 + 2.0 * joins) * tail - joins * link / 2.0;
    constexpr double rectangular = 1.0 / 12.0;  // variance of a place anywhere in a length
    const Mass unsure =
        measure::in_quadrature(rules.more.spread, std::sqrt(joins * rectangular) * link);
    const Length done = work[last.steps_done];
    const Length rest = work.back() - done;
    const auto predicted = [&](Length more_work, bool all) {
        Prediction out_of = predict(out.use, more_work, last.scale.resolution);
        if (all) out_of.scale = measure::in_quadrature(out_of.scale, unsure);
        return out_of;
    };
    out.need = predicted(rest, true);
    out.lasts = chance_within(out.need, out.have);
    out.to_be_sure = std::max(Mass{}, upper(out.need, rules.confidence) - out.have);

    /// The last step that still fits by `enough`, from the reading's step on.
    const auto last_step = [&](auto enough) {
        std::size_t step = last.steps_done;
        while (step + 1 < work.size() && enough(work[step + 1] - done)) ++step;
        // A strand that is carried up is not a row.
        if (step > last.steps_done && steps[step - 1].purpose == need::Purpose::carried) --step;
        return step;
    };
    const auto sure = [&](Mass have, bool all) {
        return last_step(
            [&](Length w) { return upper(predicted(w, all), rules.confidence) <= have; });
    };
    const auto likely = [&](Mass have) {
        return last_step([&](Length w) { return predicted(w, true).centre <= have; });
    };
    /// The same with all that comes after that row held back; nothing when none does.
    const std::vector<std::optional<Length>> held = held_after(steps);
    const auto last_row = [&](auto enough) -> std::optional<std::size_t> {
        for (std::size_t step = steps.size(); step + 1 > last.steps_done; --step) {
            if (held[step] && enough(work[step] - done + *held[step])) return step;
            if (step == 0) break;
        }
        return std::nullopt;
    };
    const auto certain =
        last_row([&](Length w) { return upper(predicted(w, true), rules.confidence) <= out.have; });
    out.can_finish = certain.has_value();
    out.certain = certain.value_or(last.steps_done);
    if (held[out.certain]) out.held_back = *held[out.certain] * out.use.rate;
    out.likely = last_row([&](Length w) {
                     return predicted(w, true).centre <= out.have;
                 }).value_or(last.steps_done);
    const Mass alone = out.in_hand - tail;
    out.join_certain = sure(alone, false);
    out.join_likely = likely(alone);
    const measure::Chance other{Ratio(1.0 - rules.confidence.value.value())};
    out.join_latest =
        last_step([&](Length w) { return upper(predicted(w, false), other) <= alone; });
    if (worked.sum.work.value() > 0.0)
        out.by_scale =
            by_readings(out.use, worked.sum, rest, worked.step, worked.skeins, rules.confidence);

    const double t =
        boost::math::quantile(student(out.use.degrees), 0.5 + 0.5 * rules.confidence.value.value());
    const double by_rows =
        out.use.row_spread / std::sqrt(out.use.row.value() * out.use.worth.value()) / units::gram;
    // Readings rounded to the scale's step leave the rate open besides.
    const double spread = std::hypot(by_rows, out.use.scale_spread.value());
    const double rate = out.use.rate.value();
    const double planned = prior.rate.value();
    out.drift = Ratio(rate / planned);
    out.drift_low = Ratio((rate - t * spread) / planned);
    out.drift_high = Ratio((rate + t * spread) / planned);
    return out;
}

}  // namespace skeinfall::joins
