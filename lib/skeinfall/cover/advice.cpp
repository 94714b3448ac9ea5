#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>
#include <set>
#include <utility>

#include "skeinfall/base/name.hpp"
#include "skeinfall/cover/covering.hpp"
#include "skeinfall/yarn/fibre.hpp"

namespace skeinfall::cover {
namespace {

using units::Length;

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
        cover.notes.emplace_back(SeveralYarns{std::move(names)});
    else if (lots.size() > 1)
        cover.notes.emplace_back(SeveralLots{lots.size()});
    else if (!unknown.empty())
        cover.notes.emplace_back(LotNotKnown{std::move(unknown)});
    if (cover.wound_off > Length{}) cover.notes.emplace_back(ColoursMustRunOneWay{});
}

/// Skeins that came home together and whose lot nobody wrote down.
void note_lots_that_may_be_one(RoleCover& cover) {
    if (!cover.role.one_lot || cover.verdict == Verdict::covered || cover.chosen.empty()) return;
    const stash::Skein& first = cover.chosen.front();
    const auto unknown = [](const stash::Skein& skein) {
        return !skein.dye_lot && !skein.shade_group;
    };
    if (!unknown(first)) return;
    LotsMayBeOne note;
    for (const Candidate& one : cover.candidates) {
        const stash::Skein& skein = *one.skein;
        const bool chosen =
            std::any_of(cover.chosen.begin(), cover.chosen.end(),
                        [&](const stash::Skein& other) { return other.id == skein.id; });
        if (one.supply && !chosen && unknown(skein) &&
            base::same_name(skein.yarn.name, first.yarn.name) &&
            base::same_name(skein.colourway, first.colourway))
            note.skeins.push_back(skein.id);
    }
    if (!note.skeins.empty()) cover.notes.emplace_back(std::move(note));
}

/// Fibres that are asked for without a name of the yarn: what the skeins are of has to be looked
/// at.
void note_fibres(RoleCover& cover) {
    if (!cover.role.fibre.known()) return;
    FibresNotKnown unknown{{}, text(cover.role.fibre)};
    OtherFibres other{{}, text(cover.role.fibre)};
    for (const stash::Skein& skein : cover.chosen) {
        if (!skein.yarn.fibre.known())
            unknown.skeins.push_back(skein.id);
        else if (std::any_of(cover.role.fibre.shares.begin(), cover.role.fibre.shares.end(),
                             [&](const yarn::FibreShare& wanted) {
                                 return !yarn::contains(skein.yarn.fibre, wanted.fibre);
                             }))
            other.skeins.push_back(skein.id);
    }
    if (!unknown.skeins.empty()) cover.notes.emplace_back(std::move(unknown));
    if (!other.skeins.empty()) cover.notes.emplace_back(std::move(other));
}

/// A measurement, the part of the band it bears on now, and what is left of that after it.
struct Measurement {
    Length now{};
    Length after{};
    Step what;
};

/// Steps of scales a maker may have or get.
constexpr std::array<units::Mass, 3> scale_steps{1.0 * units::gram, 0.1 * units::gram,
                                                 0.01 * units::gram};
constexpr double hides = 0.3;  // a part below this share of the rest changes the band by 5 %

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
        NarrowTheNeed how{cause.what_narrows_it, 0};
        Measurement one{need * cause.relative, Length{}, {}};
        if (cover.need.source != need::Source::swatch) {
            // Then the maker's own swatch speaks, which is no piece either.
            one.after = std::min(one.now, need * need::usual::swatch_to_piece);
        } else if (cause.falls.value() > 0.0) {
            // So much larger that it hides behind the rest.
            constexpr std::array<int, 3> sizes{2, 3, 4};
            for (const int each : sizes) {
                one.after = one.now / std::pow(each, cause.falls.value());
                how.larger = each;
                if (one.after <= hides * widest) break;
            }
        }
        one.what = std::move(how);
        all.push_back(std::move(one));
    }
    if (cover.need.by_mass && !cover.label_cancels)
        all.push_back({need * cover.need.shared, Length{}, MeasureGrist{true}});
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
        all.push_back({now, after, WeighSkeins{std::move(ids), step, weighed}});
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
    if (!cover.label_cancels) all.push_back({shared, Length{}, MeasureGrist{false}});
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
    // No length is what is wanting, or joins where the project wants none: remedies try those.
    if (!(cover.to_be_sure > Length{}) || cover.against_rules) return;
    // What was weighed without a label has no put-up to buy more of.
    const bool weighed_alone =
        cover.role.metre_is_a_gram &&
        std::all_of(cover.chosen.begin(), cover.chosen.end(), stash::is_part);
    if (weighed_alone && !cover.chosen.empty()) {
        cover.settles.push_back({BuyLength{cover.to_be_sure}});
        return;
    }
    if (!cover.chosen.empty()) {
        const stash::Skein& like = cover.chosen.front();
        if (like.yarn.label.length) {
            const Length usable = like.yarn.label.length->value - 2.0 * rules.tail;
            if (usable > Length{}) {
                const double count = std::ceil(cover.to_be_sure / usable - count_noise);
                BuyMore more{static_cast<std::int64_t>(count), like.yarn.name,
                             like.yarn.label.length->text, std::nullopt};
                if (cover.role.one_lot)
                    more.match = like.shade_group || like.dye_lot
                                     ? stash::lot_text(like)
                                     : "the colour of " + like.id + ", whose lot is not known";
                cover.settles.push_back({std::move(more)});
            }
        }
        return;
    }
    cover.settles.push_back(
        {BuyLength{measure::supply_needed(cover.compared, Length{}, rules.confidence)}});
}

}  // namespace

void advise(RoleCover& cover, const Rules& rules) {
    note_lots(cover);
    note_lots_that_may_be_one(cover);
    if (!cover.weigh_first.empty()) cover.settles.push_back({WeighFirst{cover.weigh_first}});
    if (!cover.measure_first.empty()) cover.settles.push_back({MeasureFirst{cover.measure_first}});
    note_fibres(cover);
    // Which of two figures is the slip no measurement of the yarn tells, and buying even less.
    const bool enough_but_for_a_slip =
        !cover.need.contradictions.empty() && !(cover.to_be_sure > Length{});
    if (enough_but_for_a_slip) return;
    if (cover.verdict == Verdict::too_close_to_call && !cover.chosen.empty())
        say_what_settles(cover, rules.confidence);
    if (cover.verdict != Verdict::covered) say_what_to_buy(cover, rules);
}

}  // namespace skeinfall::cover
