#include "skeinfall/cover/candidates.hpp"

#include <cmath>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::cover {
namespace {

/// Why a skein may not serve; empty when it may.
std::string against(const project::Role& role, const stash::Skein& skein) {
    const yarn::Yarn& yarn = skein.yarn;
    for (const std::string& fibre : role.avoid) {
        if (!yarn.fibre.known()) return "content unknown, and " + fibre + " must be kept out";
        if (yarn::contains(yarn.fibre, fibre))
            return "contains " + fibre + ", which must be kept out";
    }
    if (!role.name.empty() && !base::same_word(role.name, yarn.name))
        return "another yarn than " + role.name;
    if (!role.colour.empty() && !base::same_word(role.colour, skein.colourway))
        return skein.colourway.empty() ? "colour not recorded, " + role.colour + " is wanted"
                                       : "another colour than " + role.colour;
    if (role.weight) {
        if (!yarn.weight) return "class unknown, " + text(*role.weight) + " is wanted";
        if (*yarn.weight != *role.weight)
            return "class " + text(*yarn.weight) + ", " + text(*role.weight) + " is wanted";
    }
    if (const std::string gap = stash::supply_gap(skein); !gap.empty()) return gap;
    const auto grist = yarn::label_grist(yarn.label);
    if (role.name.empty() && role.grist && grist) {
        const double apart = std::log(grist->centre / role.grist->value);
        if (std::abs(apart) > grist_apart_at_most)
            return fmt::format("{} than wanted: {} against {}", apart > 0 ? "thinner" : "thicker",
                               units::text(grist->centre, units::shown::metres_per_100g,
                                           units::Step::one, units::Rounding::nearest),
                               units::text(role.grist->value, units::shown::metres_per_100g,
                                           units::Step::one, units::Rounding::nearest));
    }
    return {};
}

}  // namespace

std::vector<Candidate> candidates_for(const project::Role& role, units::Length tails_of_a_skein,
                                      const std::vector<stash::Skein>& stash) {
    std::vector<Candidate> out;
    out.reserve(stash.size());
    for (const stash::Skein& skein : stash) {
        Candidate candidate{skein, std::nullopt, against(role, skein)};
        if (candidate.reason.empty()) {
            const stash::Supply supply = *stash::supply_of(skein);
            if (supply.length <= tails_of_a_skein)
                candidate.reason = "too short: its two tails would use it up";
            else
                candidate.supply = supply;
        }
        out.push_back(std::move(candidate));
    }
    return out;
}

}  // namespace skeinfall::cover
