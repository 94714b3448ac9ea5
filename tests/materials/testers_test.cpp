// What testers hand back, and the total that rests on it.

#include "skeinfall/need/testers.hpp"

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/materials/section.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;
using units::metre;

/// 500 m by the model in a yarn of 200 m per 100 g.
project::Project wrap() {
    project::Project out = support::rectangle(25, 120);
    out.roles[0].total_length = project::PerSize<units::Length>(500.0 * metre);
    out.roles[0].grist = support::grist("200 m / 100 g");
    return out;
}

project::TesterReturn weighed(double before_g, double after_g, double step_g = 0.1) {
    project::TesterReturn out;
    out.role = "MC";
    out.before = support::weighed(before_g, step_g);
    if (after_g > 0.0) out.after = support::weighed(after_g, step_g);
    return out;
}

need::TesterSummary summary(const project::Project& project) {
    return need::summary_of(project, project.roles[0], {500.0 * metre});
}

// 225, 250 and 275 g of 2 m per g are 450, 500 and 550 m: 90, 100 and 110 %. By hand: logarithms
// -.1053605, 0, .0953102, mean -.0033501, squares about it .0201512; with four times .08 squared
// .0457512 over 6 degrees, root .0873224; t of 6 degrees at 90 % is 1.440 (printed tables of
// Student's t); 1.440 x .0873224 x root(4/3) = .145194; e to the .141844 = 1.1524.
TEST(Testers, AHighQuantileAndNotTheMean) {
    project::Project made = wrap();
    made.testers = {weighed(300, 75), weighed(300, 50), weighed(275, 0)};
    const need::TesterSummary found = summary(made);
    ASSERT_THAT(found.taken, SizeIs(3));
    EXPECT_NEAR(found.taken[0].used / metre, 450.0, 1e-9);
    EXPECT_NEAR(found.taken[2].of_model.value(), 1.1, 1e-12);
    EXPECT_NEAR(found.least.value(), 0.9, 1e-12);
    EXPECT_NEAR(found.most.value(), 1.1, 1e-12);
    EXPECT_NEAR(found.middle.value(), std::cbrt(0.9 * 1.0 * 1.1), 1e-12);
    EXPECT_NEAR(found.bound.value(), 1.1524, 2e-4);
}

// One return: .08 with 4 degrees, t 1.533 (printed tables), times root 2: e to the .17344.
TEST(Testers, OneReturnLeavesTheUsualScatter) {
    project::Project made = wrap();
    made.testers = {weighed(300, 50)};
    EXPECT_NEAR(summary(made).bound.value(), std::exp(1.533 * 0.08 * std::sqrt(2.0)), 2e-4);
}

// cozynooksdesigns.com, "calculate yarn yardage": 6.0 oz before, 3.7 oz after: 2.3 oz were used,
// whatever the ball still looks like.
TEST(Testers, UsedIsBeforeLessAfter) {
    project::Project made = wrap();
    project::TesterReturn one;
    one.role = "MC";
    const auto ounces = [](double value, const char* text) {
        return measure::Weighing{{text, value * units::ounce}, {"0.1 oz", 0.1 * units::ounce}, {}};
    };
    one.before = ounces(6.0, "6.0 oz");
    one.after = ounces(3.7, "3.7 oz");
    made.testers = {one};
    // 2.3 x 28.349523125 g x 2 m per g.
    EXPECT_NEAR(summary(made).taken.at(0).used / metre, 130.4078, 1e-3);
}

TEST(Testers, TheBoundIsNeverBelowWhatSomeoneTook) {
    project::Project made = wrap();
    for (int i = 0; i < 30; ++i) made.testers.push_back(weighed(300, 50));
    made.testers.push_back(weighed(400, 50));
    made.testers.back().confirmed = true;
    const need::TesterSummary found = summary(made);
    EXPECT_DOUBLE_EQ(found.most.value(), 1.4);
    EXPECT_GE(found.bound.value(), 1.4);
}

// 250, 245 and 255 g, and one of 400 g: of 2 m per g 100, 98, 102 and 160 % of 500 m. By hand the
// others' logarithms scatter by .0004 about zero in squares; (4 x .0064 + .0004)/6 is .00433, root
// of that by 4/3 .076; the logarithm of 1.6, .47, is 6.2 of these away.
TEST(Testers, OneFarOffTheOthersIsLeftOutUntilConfirmed) {
    project::Project made = wrap();
    made.testers = {weighed(250, 0), weighed(245, 0), weighed(400, 0), weighed(255, 0)};
    const need::TesterSummary without = summary(made);
    EXPECT_THAT(without.taken, SizeIs(3));
    ASSERT_THAT(without.far_off, SizeIs(1));
    EXPECT_EQ(without.far_off[0].index, 2U);
    EXPECT_NEAR(without.far_off[0].of_model.value(), 1.6, 1e-12);
    EXPECT_LT(without.bound.value(), 1.3);
    made.testers[2].confirmed = true;
    const need::TesterSummary with = summary(made);
    EXPECT_THAT(with.taken, SizeIs(4));
    EXPECT_THAT(with.far_off, IsEmpty());
    EXPECT_GE(with.bound.value(), 1.6);
}

TEST(Testers, OfTwoThatDifferNeitherIsLeftOut) {
    project::Project made = wrap();
    made.testers = {weighed(250, 0), weighed(400, 0)};
    EXPECT_THAT(summary(made).taken, SizeIs(2));
}

// 90, 100 and 110 % are makers as they are.
TEST(Testers, UsualScatterIsNotFarOff) {
    project::Project made = wrap();
    made.testers = {weighed(225, 0), weighed(250, 0), weighed(275, 0)};
    EXPECT_THAT(summary(made).far_off, IsEmpty());
}

// Returns that agree to the gram on a coarse scale still leave its step: 20 of them, 250 g each.
TEST(Testers, AgreementToTheStepIsNotCertainty) {
    project::Project fine = wrap();
    project::Project coarse = wrap();
    for (int i = 0; i < 20; ++i) {
        fine.testers.push_back(weighed(300, 50, 0.1));
        coarse.testers.push_back(weighed(300, 50, 50));
    }
    EXPECT_GT(summary(coarse).bound.value(), summary(fine).bound.value() + 0.01);
    EXPECT_GT(summary(fine).bound.value(), 1.01);
}

// A tester at 5.4 sts and 1.8 rows to the inch for 6 and 2: loops are longer by
// root(6/5.4 x 2/1.8) = 1.1111, so 555.6 m are 100 % at the pattern's gauge.
TEST(Testers, AnotherGaugeIsTakenOut) {
    project::Project made = wrap();
    made.testers = {weighed(277.7778, 0)};
    made.testers[0].stitches = 5.4 * units::stitch / units::inch;
    made.testers[0].rows = 1.8 * units::row / units::inch;
    const need::TesterSummary found = summary(made);
    EXPECT_NEAR(found.taken.at(0).of_model.value(), 1.0, 1e-6);
    EXPECT_TRUE(found.taken[0].gauge_corrected);
}

// What makers took of the pattern is what a further one may take: 500 m were worked out, and three
// took 675, 700 and 725.
TEST(Testers, TheirReturnsTellTheNeed) {
    project::Project made = wrap();
    const double alone = need::need_of(made, 0).roles.at(0).length.centre / metre;
    made.testers = {weighed(337.5, 0), weighed(350, 0), weighed(362.5, 0)};
    const need::RoleNeed told = need::need_of(made, 0).roles.at(0);
    EXPECT_NEAR(alone, 500.0, 1e-6);
    EXPECT_GT(told.length.centre / metre, 630.0);
    EXPECT_GT(told.length.centre / metre + 1.645 * (told.length.spread / metre), 725.0);
    const auto returns =
        std::find_if(told.evidence.begin(), told.evidence.end(),
                     [](const need::Evidence& one) { return one.source == need::Source::testers; });
    ASSERT_NE(returns, told.evidence.end());
    EXPECT_NEAR(returns->yarn / metre, 700.0, 1.0);
}

TEST(Testers, AGaugeTooFarOffIsLeftOut) {
    project::Project made = wrap();
    made.testers = {weighed(300, 50), weighed(300, 50)};
    made.testers[1].stitches = 8.0 * units::stitch / units::inch;
    made.testers[1].rows = 2.0 * units::row / units::inch;
    const need::TesterSummary found = summary(made);
    EXPECT_THAT(found.taken, SizeIs(1));
    EXPECT_THAT(found.left_out, ElementsAre(1U));
}

TEST(Testers, TheirOwnYarnCounts) {
    project::Project made = wrap();
    made.testers = {weighed(250, 0)};
    made.testers[0].grist = units::parse_grist("180 m / 100 g").value();
    EXPECT_NEAR(summary(made).taken.at(0).of_model.value(), 0.9, 1e-12);
}

TEST(Testers, OtherYarnsReturnsDoNotCount) {
    project::Project made = wrap();
    made.testers = {weighed(300, 50)};
    made.testers[0].role = "CC";
    EXPECT_THAT(summary(made).taken, IsEmpty());
}

// The policy: what nine in ten stay within, and no margin on that; then whole skeins.
TEST(Totals, RestOnWhatTheProjectSays) {
    project::Project made = wrap();
    made.margin = units::Ratio(0.1);
    made.testers = {weighed(300, 75), weighed(300, 50), weighed(275, 0)};
    const auto line = [&] { return materials::section_of(made).yarns.at(0); };
    const double bound = summary(made).bound.value();
    EXPECT_EQ(line().basis, materials::Basis::testers);
    EXPECT_NEAR(line().total.at(0) / metre, 500.0 * bound, 1e-6);
    // 576.2 m from skeins of 200 m less .3 m each: three.
    EXPECT_THAT(line().skeins, ElementsAre(3));

    made.totals_from = project::TotalsFrom::model;
    EXPECT_EQ(line().basis, materials::Basis::stated_total);
    // e to the 1.28155 x .08 is 1.10795: a figure of other hands holds their scatter already.
    EXPECT_NEAR(line().total.at(0) / metre, 500.0 * 1.10795, 1e-2);
    made.totals_for.of.reset();
    EXPECT_NEAR(line().total.at(0) / metre, 550.0, 1e-9);
    EXPECT_THAT(line().testers.taken, SizeIs(3)) << "they are still told";
}

TEST(Totals, OwnMakeGoesBeforeTheSwatch) {
    project::Project made = wrap();
    project::Swatch swatch;
    swatch.role = "MC";
    swatch.stitches = 20.0 * units::stitch;
    swatch.rows = 20.0 * units::row;
    swatch.yarn = 20.0 * metre;
    made.swatches = {swatch};
    const auto stated = made.roles[0].total_length;
    made.roles[0].total_length = {};
    made.totals_for.of.reset();
    const auto total = [&] { return materials::section_of(made).yarns.at(0).total.at(0) / metre; };
    EXPECT_NEAR(total(), 25 * 120 * 0.05, 1e-9);
    made.roles[0].total_length = stated;
    made.totals_from = project::TotalsFrom::own_make;
    EXPECT_NEAR(total(), 500.0, 1e-9);
    made.roles[0].total_length = {};
    made.roles[0].total_mass = project::PerSize<units::Mass>(240.0 * units::gram);
    EXPECT_NEAR(total(), 480.0, 1e-9);
}

}  // namespace
