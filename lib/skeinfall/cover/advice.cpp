#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include <fmt/format.h>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/covering.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::cover {
namespace {

using units::Length;

constexpr double noise = 1e-9;  // of a skein

/// The first of many; nobody reads hundreds.
std::string listed(std::vector<std::string> ids) {
    constexpr std::size_t at_most = 12;
    const std::size_t more = ids.size() > at_most ? ids.size() - at_most : 0;
    if (more > 0) ids.resize(at_most);
    return base::join(ids, ", ") + (more > 0 ? fmt::format(" and {} more", more) : "");
}

void note_lots(RoleCover& cover) {
    std::set<std::string> lots;
    std::map<std::string, std::string> yarns;  // as compared and as typed
    std::vector<std::string> unknown;
    for (const stash::Skein& skein : cover.chosen) {
        yarns.emplace(base::name_key(skein.yarn.name) + "\x1f" + base::name_key(skein.colourway),
                      skein.yarn.name + (skein.colourway.empty() ? "" : " in " + skein.colourway));
        lots.insert(stash::lot_key(skein));
        if (!skein.dye_lot && !skein.shade_group) unknown.push_back(skein.id);
    }
    std::vector<std::string> names;
    for (const auto& [key, name] : yarns) names.push_back(name);
    if (yarns.size() > 1)
        cover.notes.push_back(fmt::format(
            "{} yarns or colours ({}): lay them side by side and swatch them together first",
            yarns.size(), listed(names)));
    else if (lots.size() > 1)
        cover.notes.push_back(
            fmt::format("{} lots: alternate them every two rows where they meet, and look at "
                        "them side by side in daylight first",
                        lots.size()));
    else if (!unknown.empty())
        cover.notes.push_back("lot unknown: " + listed(unknown));
    if (cover.wound_off > Length{})
        cover.notes.emplace_back(
            "see that the colours of every skein run the same way before it is joined; a skein "
            "wound the other way is worked from its other end (skeinfall joins plans it)");
}

/// A measurement, the part of the band it bears on now, and what is left of that after it.
struct Measurement {
    Length now{};
    Length after{};
    bool of_need = false;
    std::string what;
};

/// Steps of scales a maker may have or get.
constexpr std::array<units::Mass, 3> scale_steps{1.0 * units::gram, 0.1 * units::gram,
                                                 0.01 * units::gram};
constexpr double hides = 0.3;  // a part below this share of the rest changes the band by 5 %

std::string scale_text(units::Mass step) {
    return units::plain_number(units::Ratio(step / units::gram), units::Step::hundredth,
                               units::Rounding::nearest) +
           " g";
}

/// What is left of a skein's own spread when it is weighed on such a scale.
Length when_weighed(const stash::Skein& skein, units::Mass step) {
    const auto grist = yarn::label_grist(skein.yarn.label);
    return grist ? step / std::sqrt(12.0) * grist->centre : Length{};
}

std::vector<Measurement> of_the_need(const RoleCover& cover) {
    std::vector<Measurement> all;
    const Length need = cover.need.length.centre;
    Length widest{};
    for (const need::Cause& cause : cover.need.causes)
        widest = std::max(widest, need * cause.relative);
    for (const need::Cause& cause : cover.need.causes) {
        Measurement one{need * cause.relative, Length{}, true, cause.what_narrows_it};
        if (cover.need.source != need::Source::swatch) {
            // Then the maker's own swatch speaks, which is no piece either.
            one.after = std::min(one.now, need * need::usual::swatch_to_piece);
        } else if (cause.falls.value() > 0.0) {
            // So much larger that it hides behind the rest.
            constexpr std::array<int, 3> sizes{2, 3, 4};
            int size = sizes.back();
            for (const int each : sizes) {
                one.after = one.now / std::pow(each, cause.falls.value());
                size = each;
                if (one.after <= hides * widest) break;
            }
            one.what += fmt::format(" One {} times as wide and high would do.", size);
        }
        all.push_back(std::move(one));
    }
    if (cover.need.by_mass && !cover.label_cancels)
        all.push_back({need * cover.need.shared, Length{}, true,
                       "Measure 10 yd of the swatch's yarn and weigh it: its label's length "
                       "per mass is only known to a few per cent."});
    return all;
}

/// Weighing those whose own spread counts, on the coarsest scale that would do.
void add_weighing(const std::vector<const stash::Skein*>& skeins, bool weighed, Length damp,
                  Length rest, std::vector<Measurement>& all) {
    Length now = damp;
    Length widest{};
    for (const stash::Skein* skein : skeins) {
        const Length own = stash::supply_of(*skein)->own;
        now = measure::in_quadrature(now, own);
        widest = std::max(widest, own);
    }
    std::vector<std::string> ids;
    for (const units::Mass& step : scale_steps) {
        Length after{};
        ids.clear();
        for (const stash::Skein* skein : skeins) {
            const Length own = stash::supply_of(*skein)->own;
            const Length finer = when_weighed(*skein, step);
            const bool worth_it = own >= hides * widest && finer > Length{} && finer < own;
            if (worth_it) ids.push_back(skein->id);
            after = measure::in_quadrature(after, worth_it ? finer : own);
        }
        if (ids.empty()) continue;
        if (after > hides * std::max(rest, now) && step != scale_steps.back()) continue;
        const std::string which = weighed ? "Weigh {} again, on a scale of {} steps."
                                          : "Weigh {} (a scale of {} steps will do): never "
                                            "weighed, so only the label speaks for them.";
        all.push_back(
            {now, after, false, fmt::format(fmt::runtime(which), listed(ids), scale_text(step))});
        return;
    }
}

std::vector<Measurement> of_the_supply(const RoleCover& cover) {
    std::vector<Measurement> all;
    std::vector<const stash::Skein*> unweighed;
    std::vector<const stash::Skein*> weighed;
    Length shared{};
    for (const stash::Skein& skein : cover.chosen) {
        const stash::Supply supply = *stash::supply_of(skein);
        (supply.basis == stash::SupplyBasis::label ? unweighed : weighed).push_back(&skein);
        shared += supply.shared;
    }
    const Length need = cover.compared.spread;
    add_weighing(unweighed, false, cover.damp, need, all);
    add_weighing(weighed, true, Length{}, need, all);
    if (!cover.label_cancels)
        all.push_back({shared, Length{}, false,
                       "Measure 10 yd from one of the skeins and weigh it: the label's length "
                       "per mass is only known to a few per cent."});
    return all;
}

/// How likely it is that the verdict is clear after it: what it shows moves the spare length, and
/// what it leaves open is the new band.
measure::Chance chance_to_settle(const Measurement& by, Length spare, Length band,
                                 measure::Chance confidence) {
    const auto squared = [](Length length) {
        return (length / units::metre) * (length / units::metre);
    };
    const double shown = squared(by.now) - squared(by.after);
    const double left = std::max(0.0, squared(band) - shown);
    const Length clear = measure::deviations_for(confidence) * std::sqrt(left) * units::metre;
    const measure::Estimate<Length> seen{spare, std::sqrt(shown) * units::metre};
    const double covered = measure::chance_enough(seen, {clear, Length{}}).value.value();
    const double not_short = measure::chance_enough(seen, {-clear, Length{}}).value.value();
    return {units::Ratio(covered + 1.0 - not_short)};
}

/// The measurements that narrow the band most.
void say_what_settles(RoleCover& cover, measure::Chance confidence) {
    std::vector<Measurement> all = of_the_need(cover);
    for (Measurement& one : of_the_supply(cover)) all.push_back(std::move(one));
    std::stable_sort(all.begin(), all.end(), [](const Measurement& a, const Measurement& b) {
        const auto gain = [](const Measurement& one) {
            const double now = one.now / units::metre;
            const double after = one.after / units::metre;
            return now * now - after * after;
        };
        return gain(a) > gain(b);
    });
    constexpr std::size_t worth_saying = 2;
    constexpr double too_little = 0.003;  // of the need: no measurement would change much
    const Length band = measure::in_quadrature(cover.supply.spread, cover.compared.spread);
    for (Measurement& one : all) {
        if (cover.settles.size() == worth_saying) return;
        if (one.now <= cover.need.length.centre * too_little || one.after >= one.now) continue;
        // One measurement may narrow several causes: it is said once, for the one it narrows most.
        const bool said =
            std::any_of(cover.settles.begin(), cover.settles.end(),
                        [&](const Settling& before) { return before.what == one.what; });
        if (said) continue;
        const measure::Chance chance = chance_to_settle(one, cover.spare, band, confidence);
        cover.settles.push_back({std::move(one.what), chance});
    }
}

void say_what_to_buy(RoleCover& cover, const Rules& rules) {
    if (!cover.chosen.empty()) {
        const stash::Skein& like = cover.chosen.front();
        if (like.yarn.label.length) {
            const Length usable = like.yarn.label.length->value - 2.0 * rules.tail;
            if (usable > Length{}) {
                const double count = std::ceil(cover.to_be_sure / usable - noise);
                cover.settles.push_back({fmt::format(
                    "Buy {:.0f} more skein{} of {} ({}){}.", count, count == 1.0 ? "" : "s",
                    like.yarn.name, like.yarn.label.length->text,
                    cover.role.one_lot ? " and match " + stash::lot_text(like) : "")});
            }
        }
        return;
    }
    cover.settles.push_back(
        {"Buy " +
         units::yards_and_metres(measure::supply_needed(cover.compared, Length{}, rules.confidence),
                                 units::Rounding::up) +
         " of a suitable yarn, all of one lot."});
}

}  // namespace

void advise(RoleCover& cover, const Rules& rules) {
    note_lots(cover);
    if (!cover.weigh_first.empty())
        cover.settles.push_back({fmt::format(
            "Weigh {} first: begun and never weighed, {} may hold what is missing.",
            listed(cover.weigh_first), cover.weigh_first.size() == 1 ? "it" : "they")});
    if (cover.verdict == Verdict::too_close_to_call) say_what_settles(cover, rules.confidence);
    if (cover.verdict != Verdict::covered) say_what_to_buy(cover, rules);
}

}  // namespace skeinfall::cover
