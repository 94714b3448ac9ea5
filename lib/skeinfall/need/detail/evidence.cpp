#include "skeinfall/need/detail/evidence.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "skeinfall/need/reckoning.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::need {
namespace {

using units::Length;
using units::Ratio;

bool of_own_hand(const Rate& rate) {
    return rate.source == Source::swatch || rate.source == Source::earlier_make;
}

/// Which of the evidence weighs most.
std::size_t heaviest(const Reckoned& reckoned) {
    const auto most =
        std::max_element(reckoned.weights.begin(), reckoned.weights.end(),
                         [](const Ratio& a, const Ratio& b) { return a.value() < b.value(); });
    return static_cast<std::size_t>(most - reckoned.weights.begin());
}

std::string times_text(double off) {
    return units::number_text(Ratio(std::abs(off)), units::Step::tenth, units::Rounding::nearest);
}

void note_discord(RoleNeed& need, const Told& told, const Reckoned& reckoned) {
    if (!reckoned.discord) return;
    const std::size_t at = *reckoned.discord;
    const double ratio = told.yarn[at] / need.length.centre;
    need.notes.push_back(
        fmt::format("{} contradicts the rest: alone it gives {} of this amount ({} times its own "
                    "give or take). Both count, so the range is {} times as wide. Check both",
                    told.rates[at].short_name,
                    units::percent_text(Ratio(ratio), units::Step::one, units::Rounding::nearest),
                    times_text(reckoned.off[at].value()), times_text(reckoned.widened.value())));
}

/// The causes of the mean: each source's by its weight, so that their squares still add up.
void weigh_causes(RoleNeed& need, const Told& told, const Reckoned& reckoned, std::size_t main) {
    need.causes.clear();
    need.shared = Ratio(0.0);
    const double widened = reckoned.widened.value();
    for (std::size_t i = 0; i < told.rates.size(); ++i) {
        const Rate& rate = told.rates[i];
        const double weight = reckoned.weights[i].value() * widened;
        for (const Cause& cause : rate.causes) {
            Cause own = cause;
            own.relative = Ratio(weight * cause.relative.value());
            need.causes.push_back(std::move(own));
        }
        if (!(rate.shared.value() > 0.0)) continue;
        // The label's part of what was weighed is common to all of it.
        if (told.rates[main].by_mass)
            need.shared = Ratio(need.shared.value() + weight * rate.shared.value());
        else
            need.causes.push_back({"the label's length per weight",
                                   Ratio(weight * rate.shared.value()),
                                   "Measure 10 yd of the yarn and weigh it."});
    }
    // Heavy tails took weight from a source, not from its noise: what is left over is the mean's.
    const double all = reckoned.spread.value();
    double sum = std::hypot(combined(need.causes).value(), need.shared.value());
    if (sum > 0.0 && sum < all)
        need.causes.push_back({"evidence of different kinds that do not quite agree",
                               Ratio(std::sqrt(all * all - sum * sum)),
                               "Work a larger swatch in this yarn and weigh it."});
}

}  // namespace

void add_own_hand(RoleNeed& need, const std::vector<Rate>& rates) {
    for (const Rate& rate : rates)
        if (rate.source == Source::testers)
            need.causes.push_back({"people whose tension differs, as testers' does",
                                   rate.between_hands, "Work a swatch in this yarn and weigh it."});
}

void leave_pattern_alone(Told& told) {
    const std::size_t last = told.rates.size() - 1;
    if (told.rates[last].source != Source::makes_like_it) return;
    double least = 0.0;
    for (std::size_t i = 0; i < last; ++i) {
        if (!told.rates[i].other_hand) return;
        const double band =
            std::hypot(combined(told.rates[i].causes).value(), usual::another_hand.value(),
                       combined(told.rates[last].causes).value());
        const double off = std::abs(std::log(told.yarn[i] / told.yarn[last])) / band;
        least = i == 0 ? off : std::min(least, off);
    }
    if (least > discord_limit.value()) return;
    told.rates.pop_back();
    told.yarn.pop_back();
}

Discordant discordant(const RoleNeed& need) {
    const bool own =
        std::any_of(need.evidence.begin(), need.evidence.end(), [](const Evidence& one) {
            return one.source == Source::swatch || one.source == Source::earlier_make;
        });
    Discordant out;
    for (const Evidence& one : need.evidence) {
        if (own && one.source == Source::makes_like_it) continue;
        if (out.least == nullptr || one.yarn < out.least->yarn) out.least = &one;
        if (out.most == nullptr || one.yarn > out.most->yarn) out.most = &one;
    }
    if (out.least == nullptr || !(out.most->yarn > out.least->yarn)) return {};
    const double apart = std::log(out.most->yarn / out.least->yarn);
    const double noise = std::hypot(out.least->spread.value(), out.most->spread.value());
    return apart < discord_limit.value() * noise ? Discordant{} : out;
}

Length reckon(RoleNeed& need, Told told) {
    const bool own = std::any_of(told.rates.begin(), told.rates.end(), of_own_hand);
    std::vector<Observation> observations;
    for (std::size_t i = 0; i < told.rates.size(); ++i) {
        Rate& rate = told.rates[i];
        if (own && rate.other_hand)
            rate.causes.push_back({"a pattern's figure, from someone else's tension",
                                   usual::another_hand, "Work a larger swatch and weigh it."});
        const double spread = std::hypot(combined(rate.causes).value(), rate.shared.value());
        observations.push_back({told.yarn[i], Ratio(spread), rate.heavy});
    }
    const Reckoned all = reckoned(observations);
    const std::size_t main = heaviest(all);
    const Rate& first = told.rates[main];
    need.source = first.source;
    need.how = first.how;
    need.by_mass = first.by_mass;
    need.grist = first.grist;
    need.length.centre = all.yarn;
    for (const Rate& rate : told.rates) {
        if (rate.calibration) need.calibration = rate.calibration;
        for (const std::string& note : rate.notes) need.notes.push_back(note);
        for (const std::string& one : rate.cautions) need.cautions.push_back(one);
    }
    weigh_causes(need, told, all, main);
    if (!own) add_own_hand(need, told.rates);
    note_discord(need, told, all);
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < told.rates.size(); ++i) order.push_back(i);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return all.weights[a].value() > all.weights[b].value();
    });
    for (const std::size_t i : order)
        need.evidence.push_back({told.rates[i].source, told.rates[i].short_name, told.yarn[i],
                                 observations[i].spread, all.weights[i], all.off[i],
                                 all.discord == i});
    for (std::size_t i = 0; i < told.rates.size(); ++i)
        if (i != main)
            need.passed_over.push_back(
                {told.rates[i].short_name, told.yarn[i], observations[i].spread});
    return all.yarn;
}

}  // namespace skeinfall::need
