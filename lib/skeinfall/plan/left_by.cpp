#include "skeinfall/plan/left_by.hpp"

#include <algorithm>

namespace skeinfall::plan {
namespace {

using units::Length;

/// The last skein of a chain and what is surely left of it.
LeftOf last_of(const cover::RoleCover& role, const joins::JoinPlan& plan,
               measure::Chance confidence) {
    if (plan.stretches.empty() || !plan.finishes) return {};
    const joins::Stretch& last = plan.stretches.back();
    // What those before it hold less comes out of it too.
    Length spread = role.compared.spread;
    for (std::size_t i = 0; i + 1 < plan.stretches.size(); ++i)
        spread = measure::in_quadrature(spread, plan.stretches[i].ball.length.spread);
    const Length left = last.left - measure::deviations_for(confidence).value() * spread;
    return {last.ball.id, std::max(Length{}, left)};
}

}  // namespace

std::vector<LeftOf> left_by(const MakePlan& plan, measure::Chance confidence) {
    std::vector<LeftOf> out;
    for (const cover::RoleCover& role : plan.cover.roles) {
        LeftOf last;
        for (const joins::RoleJoins& one : plan.joins.roles)
            if (one.plan.role == role.role.id) last = last_of(role, one.plan, confidence);
        for (const stash::Skein& skein : role.chosen)
            out.push_back({skein.id, skein.id == last.id ? last.left : Length{}});
    }
    return out;
}

std::vector<stash::Skein> as_left(std::vector<stash::Skein> stash,
                                  const std::vector<LeftOf>& taken) {
    for (const LeftOf& of : taken) {
        const auto found = std::find_if(stash.begin(), stash.end(),
                                        [&](const stash::Skein& one) { return one.id == of.id; });
        if (found == stash.end()) continue;
        const auto has = stash::supply_of(*found);
        if (!has || of.left <= Length{}) {
            stash.erase(found);
            continue;
        }
        if (!found->since) found->since.emplace();
        found->since->length -= std::max(Length{}, has->length - of.left);
        found->part = true;
    }
    return stash;
}

}  // namespace skeinfall::plan
