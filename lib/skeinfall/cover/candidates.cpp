#include "skeinfall/cover/candidates.hpp"

#include <cmath>

#include <fmt/format.h>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/stash/reserve.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/avoid.hpp"
#include "skeinfall/yarn/fibre_facts.hpp"
#include "skeinfall/yarn/grist_match.hpp"
#include "skeinfall/yarn/label_check.hpp"

namespace skeinfall::cover {
namespace {

/// Why a skein may not serve; empty when it may.
std::string against(const project::Role& role, const stash::Skein& skein, std::string_view project,
                    project::Recipient made_for) {
    const yarn::Yarn& yarn = skein.yarn;
    if (made_for == project::Recipient::kitchen_heat) {
        if (!yarn.fibre.known()) return "content unknown, and heat melts some fibres";
        if (const auto melting = yarn::melting_fibres(yarn.fibre); !melting.empty())
            return "contains " + base::join(melting, ", ") + ", which heat melts";
        if (const auto strange = yarn::unknown_fibres(yarn.fibre); !strange.empty())
            return base::join(strange, ", ") + " is no known fibre, and heat melts some";
        if (const auto unproven = yarn::unproven_in_heat(yarn.fibre); !unproven.empty())
            return base::join(unproven, ", ") + " is not known to stand heat";
    }
    if (const auto objection = yarn::objection_to(yarn.fibre, role.avoid)) return text(*objection);
    if (!role.name.empty() && !base::same_name(role.name, yarn.name))
        return "a different yarn from " + role.name;
    if (!role.colour.empty() && !base::same_name(role.colour, skein.colourway))
        return skein.colourway.empty() ? "colour not recorded, " + role.colour + " is wanted"
                                       : "another colour than " + role.colour;
    if (role.weight) {
        // The very yarn is of its class, noted or not.
        if (!yarn.weight && role.name.empty())
            return "class unknown, " + text(*role.weight) + " is wanted";
        if (yarn.weight && *yarn.weight != *role.weight)
            return "class " + text(*yarn.weight) + ", " + text(*role.weight) + " is wanted";
    }
    return stash::kept_from(skein, project, role.id);
}

/// Sets the candidate out, or notes that it needs a swatch, by its length per mass.
void compare_grist(const project::Role& role, Candidate& candidate) {
    const auto grist = yarn::label_grist(candidate.skein->yarn.label);
    if (!grist) return;
    const auto shown = [](units::Grist value) {
        return units::text(value, units::shown::metres_per_100g, units::Step::one,
                           units::Rounding::nearest);
    };
    // So much yarn in so little: what the label gives may not count as enough.
    if (grist->centre > yarn::most_hand_grist) {
        candidate.reason = shown(grist->centre) + " by its label, finer than any hand yarn";
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
        candidate.reason = fmt::format("{} by its label, {} by the project: one is a slip",
                                       shown(grist->centre), shown(role.grist->value));
        candidate.supply.reset();
        return;
    }
    if (within(yarn::close_grist)) return;
    candidate.reason =
        fmt::format("{} than wanted: {} against {}", apart > 0 ? "thinner" : "thicker",
                    shown(grist->centre), shown(role.grist->value));
    if (!within(yarn::swatch_grist)) {
        candidate.supply.reset();
    } else {
        candidate.reason += ", so work a swatch first";
        candidate.substitution = 1;
    }
}

}  // namespace

Candidate candidate_for(const project::Role& role, units::Length tails_of_a_skein,
                        const stash::Skein& skein, std::string_view project,
                        project::Recipient made_for) {
    Candidate candidate{&skein, std::nullopt, against(role, skein, project, made_for)};
    if (candidate.reason.empty()) {
        candidate.reason = stash::supply_gap(skein);
        candidate.only_unweighed = stash::never_weighed_part(skein) && !candidate.reason.empty();
    }
    if (candidate.reason.empty()) {
        candidate.supply = stash::supply_of(skein);
        if (candidate.supply && role.label_tolerance)
            candidate.supply->shared *=
                (*role.label_tolerance / yarn::label_grist_half_width).value();
        compare_grist(role, candidate);
    }
    if (candidate.supply && candidate.supply->length <= tails_of_a_skein) {
        candidate.reason = "too short: its two tails would use it up";
        candidate.supply.reset();
    }
    return candidate;
}

std::vector<Candidate> candidates_for(const project::Role& role, units::Length tails_of_a_skein,
                                      const std::vector<stash::Skein>& stash,
                                      std::string_view project, project::Recipient made_for) {
    std::vector<Candidate> out;
    out.reserve(stash.size());
    for (const stash::Skein& skein : stash)
        out.push_back(candidate_for(role, tails_of_a_skein, skein, project, made_for));
    return out;
}

}  // namespace skeinfall::cover
