#include "skeinfall/plan/left_by.hpp"

#include <algorithm>
#include <cstdint>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "plan/makes.hpp"

namespace {

using namespace skeinfall;

plan::MakePlan planned(const project::Project& project, const std::vector<stash::Skein>& stash) {
    return plan::plan_make(project, 0, stash, {}, {});
}

// Another make of the same rows from what the first leaves is promised no more often than both at
// once are.
RC_GTEST_PROP(LeftBy, TwoInTurnAreNoSurerThanBothAtOnce, ()) {
    const auto rows = *rc::gen::inRange<std::int64_t>(20, 160);
    const auto more = *rc::gen::inRange<std::int64_t>(20, 160);
    const auto count = *rc::gen::inRange(1, 7);
    const std::vector<stash::Skein> stash = support::panel_skeins(count);
    const plan::MakePlan first = planned(support::panel(28, rows), stash);
    RC_PRE(first.cover.verdict == cover::Verdict::covered);
    const std::vector<plan::LeftOf> taken = plan::left_by(first, measure::usual_confidence);
    for (const plan::LeftOf& of : taken) RC_ASSERT(of.left >= units::Length{});
    const std::vector<stash::Skein> left = plan::as_left(stash, taken);
    const plan::MakePlan second = planned(support::panel(28, more), left);
    if (second.cover.verdict == cover::Verdict::covered)
        RC_ASSERT(planned(support::panel(28, rows + more), stash).cover.verdict ==
                  cover::Verdict::covered);
}

TEST(LeftBy, OfABegunSkeinThereIsWhatThePlanSurelyLeaves) {
    const std::vector<stash::Skein> stash = support::panel_skeins(3);
    const plan::MakePlan plan = planned(support::panel(28, 20), stash);
    ASSERT_EQ(plan.cover.verdict, cover::Verdict::covered);
    const std::vector<plan::LeftOf> taken = plan::left_by(plan, measure::usual_confidence);
    ASSERT_EQ(taken.size(), 1U);
    EXPECT_GT(taken[0].left, units::Length{});
    EXPECT_LT(taken[0].left, plan.joins.roles[0].plan.stretches.back().left);
    const std::vector<stash::Skein> left = plan::as_left(stash, taken);
    ASSERT_EQ(left.size(), 3U);
    const auto begun = std::find_if(left.begin(), left.end(),
                                    [&](const stash::Skein& one) { return one.id == taken[0].id; });
    ASSERT_NE(begun, left.end());
    EXPECT_TRUE(begun->part);
    EXPECT_NEAR(stash::supply_of(*begun)->length.value(), taken[0].left.value(), 1e-9);
    // Surer, and less is counted on.
    EXPECT_LT(plan::left_by(plan, {units::Ratio(0.99)})[0].left, taken[0].left);
}

}  // namespace
