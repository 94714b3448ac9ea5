#include "skeinfall/cover/candidates.hpp"

#include <cmath>
#include <utility>

#include "skeinfall/base/name.hpp"
#include "skeinfall/stash/reserve.hpp"
#include "skeinfall/yarn/avoid.hpp"
#include "skeinfall/yarn/fibre_facts.hpp"
#include "skeinfall/yarn/grist_match.hpp"
#include "skeinfall/yarn/label_check.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::cover {
namespace {

/// By the length per mass on its label; where that is not known either, nothing speaks against it.
bool may_be_of(yarn::WeightClass weight, const yarn::Yarn& yarn) {
    const auto grist = yarn::label_grist(yarn.label);
    const auto usual = yarn::published_grist(weight);
    return !grist || (usual && usual->holds(grist->centre));
}

/// Why a skein may not serve.
Reason against(const project::Role& role, const stash::Skein& skein, std::string_view project,
               project::Recipient made_for) {
    const yarn::Yarn& yarn = skein.yarn;
    if (made_for == project::Recipient::kitchen_heat) {
        if (!yarn.fibre.known()) return ContentUnknownNearHeat{};
        if (auto melting = yarn::melting_fibres(yarn.fibre); !melting.empty())
            return MeltsInHeat{std::move(melting)};
        if (auto strange = yarn::unknown_fibres(yarn.fibre); !strange.empty())
            return UnknownFibreNearHeat{std::move(strange)};
        if (auto unproven = yarn::unproven_in_heat(yarn.fibre); !unproven.empty())
            return NotKnownToStandHeat{std::move(unproven)};
    }
    if (auto objection = yarn::objection_to(yarn.fibre, role.avoid))
        return AvoidedFibre{std::move(*objection)};
    if (!role.name.empty() && !base::same_name(role.name, yarn.name)) return OtherYarn{role.name};
    if (!role.colour.empty() && !base::same_name(role.colour, skein.colourway))
        return OtherColour{role.colour, !skein.colourway.empty()};
    if (role.weight) {
        // The very yarn is of its class, noted or not.
        if (!yarn.weight && role.name.empty() && !may_be_of(*role.weight, yarn))
            return OtherClass{std::nullopt, *role.weight};
        if (yarn.weight && *yarn.weight != *role.weight)
            return OtherClass{yarn.weight, *role.weight};
    }
    if (const auto kept = stash::kept_from(skein, project, role.id)) return KeptForOther{*kept};
    return {};
}

/// A slip of the pen, or of the scale's unit, may not count as enough.
std::optional<MoreThanASkein> too_much(const stash::Skein& skein) {
    const yarn::Label& label = skein.yarn.label;
    if (label.mass && label.mass->value > yarn::heaviest_skein)
        return MoreThanASkein{label.mass->value, {}};
    if (skein.weighing) {
        const units::Mass net = measure::net_mass(skein.weighing->reading()).centre;
        if (net > yarn::heaviest_skein) return MoreThanASkein{net, {}};
    }
    if (label.length && label.length->value > yarn::longest_skein)
        return MoreThanASkein{std::nullopt, label.length->value};
    return std::nullopt;
}

/// Sets the candidate out, or notes that it needs a swatch, by its length per mass.
void compare_grist(const project::Role& role, Candidate& candidate) {
    const auto grist = yarn::label_grist(candidate.skein->yarn.label);
    if (!grist) return;
    // So much yarn in so little: what the label gives may not count as enough.
    if (grist->centre > yarn::most_hand_grist) {
        candidate.reason = FinerThanHandYarn{grist->centre};
        candidate.supply.reset();
        return;
    }
    if (!role.grist) return;
    const double apart = std::log(grist->centre / role.grist->value);
    const auto within = [&](units::Ratio limit) {
        return std::abs(apart) <= limit.value() + yarn::limit_noise.value();
    };
    if (!role.name.empty()) {
        // Labels of one yarn differ by what they round, not by half.
        constexpr double slipped = 1.5;
        if (apart <= std::log(slipped)) return;
        candidate.reason = SlipOfALabel{grist->centre, role.grist->value};
        candidate.supply.reset();
        return;
    }
    if (within(yarn::close_grist)) return;
    const bool swatch_first = within(yarn::swatch_grist);
    candidate.reason = OtherGrist{grist->centre, role.grist->value, swatch_first};
    if (swatch_first)
        candidate.substitution = 1;
    else
        candidate.supply.reset();
}

/// Published weighings of whole skeins end at a fifth above their labels; so far above, something
/// else lay on the scale (a judgement).
void hold_to_label(Candidate& candidate) {
    constexpr double most = 1.3;
    const stash::Skein& skein = *candidate.skein;
    const yarn::Label& label = skein.yarn.label;
    // A part may be what is left of several.
    if (!candidate.supply || skein.part || !skein.weighing || !label.mass || !label.length) return;
    const units::Mass shown = measure::net_mass(skein.weighing->reading()).centre;
    if (shown <= most * label.mass->value) return;
    candidate.reason = HeavierThanItsLabel{shown, label.mass->value};
    candidate.supply->length = std::min(candidate.supply->length, label.length->value);
}

bool lacks_its_label(const stash::Skein& skein) {
    const auto gap = stash::supply_gap(skein);
    return gap == stash::SupplyGap::no_label_length || gap == stash::SupplyGap::no_label_mass;
}

}  // namespace

yarn::FibreContent fibre_that_serves(const project::Role& role, project::Recipient made_for) {
    stash::Skein skein;
    project::Role free = role;
    free.name.clear();
    free.colour.clear();
    free.weight.reset();
    for (const yarn::Fibre& fibre : yarn::known_fibres()) {
        skein.yarn.fibre.shares = {{std::string(fibre.name), units::Ratio(1.0)}};
        if (!stated(against(free, skein, {}, made_for))) return skein.yarn.fibre;
    }
    return {};
}

Candidate candidate_for(const project::Role& role, units::Length tails_of_a_skein,
                        const stash::Skein& skein, std::string_view project,
                        project::Recipient made_for) {
    Candidate candidate{&skein, std::nullopt, against(role, skein, project, made_for)};
    if (!stated(candidate.reason)) {
        if (const auto gap = stash::supply_gap(skein)) candidate.reason = LengthUnknown{*gap};
        candidate.only_unweighed = stash::never_weighed_part(skein) && stated(candidate.reason);
        candidate.only_unmeasured =
            stated(candidate.reason) && !candidate.only_unweighed && lacks_its_label(skein);
    }
    if (!stated(candidate.reason)) {
        if (auto much = too_much(skein)) candidate.reason = std::move(*much);
    }
    if (!stated(candidate.reason)) {
        candidate.supply = stash::supply_of(skein);
        if (candidate.supply && role.label_tolerance)
            candidate.supply->shared *=
                (*role.label_tolerance / yarn::label_grist_half_width).value();
        hold_to_label(candidate);
        compare_grist(role, candidate);
        if (role.weight && role.name.empty() && !skein.yarn.weight && candidate.supply) {
            candidate.substitution = 1;
            if (!stated(candidate.reason)) candidate.reason = ClassNotNoted{*role.weight};
        }
    }
    if (candidate.supply && candidate.supply->length <= tails_of_a_skein) {
        candidate.reason = NoMoreThanItsTails{};
        candidate.supply.reset();
    }
    return candidate;
}

std::vector<Candidate> candidates_for(const project::Role& role, units::Length tails_of_a_skein,
                                      const Shelf& shelf, std::string_view project,
                                      project::Recipient made_for) {
    std::vector<Candidate> out;
    for (const stash::Skein* skein : shelf.that_may_serve(role)) {
        Candidate one = candidate_for(role, tails_of_a_skein, *skein, project, made_for);
        if (one.supply || one.only_unweighed || one.only_unmeasured) out.push_back(std::move(one));
    }
    return out;
}

}  // namespace skeinfall::cover
