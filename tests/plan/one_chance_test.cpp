// One question has one chance: cover, joins, what to buy and the largest size read the same plan.
// Random makes and stashes of our own.

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/cover/buy.hpp"
#include "skeinfall/cover/largest.hpp"
#include "skeinfall/cover/remedies.hpp"
#include "skeinfall/materials/section.hpp"

#include "plan/random_makes.hpp"

namespace {

using namespace skeinfall;
using cover::Verdict;

RC_GTEST_PROP(OneChance, CoverAndJoinsSayTheSame, ()) {
    const support::RandomMake make = support::random_make();
    const plan::MakePlan plan = support::planned(make.project, make.stash);
    const double by_cover = plan.cover.chance.value.value();
    const double by_joins = plan.joins.lasts.value.value();
    // What is hopeless by sums alone is not planned for cover.
    RC_ASSERT(std::abs(by_cover - by_joins) < (std::min(by_cover, by_joins) < 1e-4 ? 2e-4 : 1e-9));
    RC_ASSERT((plan.cover.verdict == Verdict::covered) == joins::is_sure(plan.joins));
    // Who never tries a row that may not fit loses more at every join.
    RC_ASSERT(plan.joins.by_slip.value.value() <= plan.joins.lasts.value.value() + 1e-6);
}

RC_GTEST_PROP(OneChance, WhatIsBoughtCovers, ()) {
    support::RandomMake make = support::random_make();
    const need::MakeNeed need = need::need_of(make.project, 0);
    const cover::Make one{&make.project, &need, support::rules_for(make.project)};
    const auto covers = cover::cover_makes({one}, make.stash, cover::Sharing::joint);
    const auto lines = cover::buying_list({one}, covers, make.stash, {});
    RC_ASSERT(lines.empty() == (covers.front().verdict == Verdict::covered));
    if (lines.empty()) return;
    RC_ASSERT(lines.front().skeins.has_value());
    RC_PRE(lines.front().chance->value.value() >= 0.95);
    const auto buy = [&](std::int64_t count) {
        std::vector<stash::Skein> all = make.stash;
        for (std::int64_t i = 0; i < count; ++i)
            all.push_back(support::panel_skein("bought" + std::to_string(i)));
        return support::planned(make.project, all).cover;
    };
    const cover::MakeCover now = buy(*lines.front().skeins);
    RC_ASSERT(now.verdict == Verdict::covered);
    RC_ASSERT(std::abs(now.chance.value.value() - lines.front().chance->value.value()) < 1e-9);
    RC_ASSERT(buy(*lines.front().skeins - 1).verdict != Verdict::covered);
}

RC_GTEST_PROP(OneChance, TheLargestIsCoveredAndOneMoreIsNot, ()) {
    const support::RandomMake make = support::random_make();
    const auto most =
        cover::largest(make.project, 0, make.stash, support::rules_for(make.project), {});
    const auto of = [&](std::int64_t rows) {
        project::Project grown = make.project;
        grown.pieces.front().rows = project::PerSize<std::int64_t>(rows);
        return support::planned(grown, make.stash);
    };
    if (most.sure) {
        const plan::MakePlan plan = of(most.sure->value);
        RC_ASSERT(plan.cover.verdict == Verdict::covered);
        RC_ASSERT(joins::is_sure(plan.joins));
        RC_ASSERT(std::abs(plan.cover.chance.value.value() - most.sure->chance.value.value()) <
                  1e-9);
    }
    RC_ASSERT(of(most.sure ? most.sure->value + 1 : 1).cover.verdict != Verdict::covered);
}

RC_GTEST_PROP(OneChance, APrintedCountIsThatOfThePlan, ()) {
    support::RandomMake make = support::random_make();
    make.project.totals_for = {};
    const materials::Section section = materials::section_of(make.project);
    RC_ASSERT(section.yarns.size() == 1U);
    RC_ASSERT(section.yarns.front().skeins.size() == 1U);
    const std::int64_t count = section.yarns.front().skeins.front();
    // Rows that take what the section prints, and exact skeins.
    const need::MakeNeed need = need::need_of(make.project, 0);
    need::RoleNeed role = need.roles.front();
    role.length = {section.yarns.front().total.front(), units::Length{}};
    chain::Rules rules =
        chain::rules_of(make.project, make.project.roles.front(), 0, measure::usual_confidence);
    rules.keep_to_slip = false;
    const auto finishes = [&](std::int64_t skeins) {
        std::vector<chain::Ball> balls;
        for (std::int64_t i = 0; i < skeins; ++i)
            balls.push_back({std::to_string(i), {100.0 * units::metre, units::Length{}}});
        return chain::plan_joins(role, need.steps, balls, rules, &make.project).finishes;
    };
    RC_ASSERT(finishes(count));
    RC_ASSERT(count == 1 || !finishes(count - 1));
}

}  // namespace
