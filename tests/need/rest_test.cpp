// What a make in work still takes. Makes of our own; sums by hand.

#include "skeinfall/need/rest.hpp"

#include <cmath>
#include <cstdint>

#include <gtest/gtest.h>

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using units::metre;
using units::Ratio;

project::Project with_rate() {
    project::Project out = support::rectangle(20, 40);
    out.roles.front().grist = support::grist("100 m / 50 g");
    out.roles.front().rate = 0.1 * metre / units::stitch;
    return out;
}

need::Worked after(std::int64_t row) {
    need::Worked out;
    out.role = "MC";
    out.row = row;
    out.use = Ratio(1.1);
    out.rate_spread = Ratio(0.02);
    out.row_spread = Ratio(0.03);
    out.row_yarn = 2.0 * metre;
    return out;
}

// 20 stitches a row at 0.1 m: 2 m a row, 40 rows; ten are done, so 60 m are planned for the rest,
// and a hand that uses a tenth more takes 66 m.
TEST(Rest, IsWithoutTheRowsThatAreDone) {
    const project::Project project = with_rate();
    const need::MakeNeed all = need::need_of(project, 0);
    const need::MakeNeed rest = need::rest_of(all, project, {after(10)});
    ASSERT_EQ(rest.roles.size(), 1U);
    const double tails = (all.roles[0].length.centre / metre) / 80.0;
    EXPECT_NEAR(rest.roles[0].length.centre / metre, 66.0 * tails, 1e-6);
    ASSERT_EQ(rest.steps.size(), 30U);
    EXPECT_EQ(rest.steps.front().row, 11);
    EXPECT_NEAR(rest.steps.front().yarn / metre, 2.2, 1e-9);
    // 2 % of the rate, and 3 % a row over thirty rows.
    EXPECT_NEAR(rest.roles[0].without_shared().relative().value(),
                std::hypot(0.02, 0.03 / std::sqrt(30.0)), 1e-9);
    EXPECT_TRUE(rest.roles[0].by_mass);
}

TEST(Rest, OfAllRowsIsNothing) {
    const project::Project project = with_rate();
    EXPECT_TRUE(need::rest_of(need::need_of(project, 0), project, {after(40)}).roles.empty());
}

// A piece that was asked for with fewer rows than are done is worked, and its finish is not.
TEST(Rest, OfAShorterPieceIsItsFinish) {
    project::Project project = with_rate();
    project::FinishPart fringe;
    fringe.name = "fringe";
    fringe.role = "MC";
    fringe.yarn = project::PerSize<units::Length>(5.0 * metre);
    project.finish = {fringe};
    project.pieces.front().rows = project::PerSize<std::int64_t>(8);
    const need::MakeNeed rest = need::rest_of(need::need_of(project, 0), project, {after(10)});
    ASSERT_EQ(rest.steps.size(), 1U);
    EXPECT_EQ(rest.steps.front().name, "fringe");
}

TEST(Rest, OtherYarnsStayAsTheyAre) {
    project::Project project = with_rate();
    project.roles.push_back(support::role("CC"));
    project.roles.back().grist = support::grist("100 m / 50 g");
    project.roles.back().rate = project.roles.front().rate;
    project.pieces.push_back(support::piece("cuff", "CC", 10, 10));
    const need::MakeNeed all = need::need_of(project, 0);
    const need::MakeNeed rest = need::rest_of(all, project, {after(40)});
    ASSERT_EQ(rest.roles.size(), 1U);
    EXPECT_EQ(rest.roles.front().role, "CC");
    EXPECT_EQ(rest.roles.front().length.centre, all.roles.back().length.centre);
}

}  // namespace
