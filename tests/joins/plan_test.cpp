// Join plans of models, published cases and corners.

#include "skeinfall/joins/plan.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/builders.hpp"
#include "support/joins.hpp"

namespace {

using namespace skeinfall;
using joins::Where;
using support::ball;
using support::rows_of;
using support::rules_with_tail;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;
using units::metre;

std::vector<std::string> order_of(const joins::JoinPlan& plan) {
    std::vector<std::string> out;
    for (const joins::Stretch& stretch : plan.stretches) out.push_back(stretch.ball.id);
    return out;
}

std::vector<std::size_t> breaks_of(const joins::JoinPlan& plan) {
    std::vector<std::size_t> out;
    for (const joins::Stretch& stretch : plan.stretches) out.push_back(stretch.to.step);
    return out;
}

double left_of(const joins::JoinPlan& plan) {
    double sum = 0.0;
    for (const joins::Stretch& stretch : plan.stretches) sum += stretch.left / metre;
    return sum;
}

// Worked example of ours (brute force over all orders): twelve rows taking 14, 18 ... 58, skeins
// of 120, 110, 90, 80, 70, tails of 2: one order of 120 finishes.
TEST(ModelJoins, TheOnlyOrderThatFinishes) {
    std::vector<double> rows;
    for (int i = 0; i < 12; ++i) rows.push_back(14.0 + 4.0 * i);
    const auto work = rows_of(rows);
    const std::vector<joins::Ball> balls{ball("120", 120), ball("110", 110), ball("90", 90),
                                         ball("80", 80), ball("70", 70)};
    const joins::JoinPlan plan =
        joins::plan_joins(work.need, work.steps, balls, rules_with_tail(1.0));
    EXPECT_TRUE(plan.finishes);
    EXPECT_TRUE(plan.proven);
    EXPECT_THAT(order_of(plan), ElementsAre("120", "80", "90", "110", "70"));
    EXPECT_THAT(breaks_of(plan), ElementsAre(5, 7, 9, 11, 12));
    EXPECT_NEAR(left_of(plan), 28.0, 1e-9);
    EXPECT_EQ(plan.missing, units::Length{});
}

// The skein in hand is used before all others, though only the order above finishes; of those
// left the order that gets farthest follows.
TEST(ModelJoins, TheSkeinInHandGoesFirst) {
    std::vector<double> rows;
    for (int i = 0; i < 12; ++i) rows.push_back(14.0 + 4.0 * i);
    const auto work = rows_of(rows);
    const std::vector<joins::Ball> balls{ball("120", 120), ball("110", 110), ball("90", 90),
                                         ball("80", 80), ball("70", 70)};
    joins::Rules rules = rules_with_tail(1.0);
    rules.first = "70";
    const joins::JoinPlan plan = joins::plan_joins(work.need, work.steps, balls, rules);
    EXPECT_FALSE(plan.finishes);
    EXPECT_EQ(order_of(plan).front(), "70");
    EXPECT_EQ(breaks_of(plan).front(), 3U);  // 14 + 18 + 22, the next takes 26
    rules.first = "120";
    const auto easy = joins::plan_joins(work.need, work.steps, balls, rules);
    EXPECT_THAT(order_of(easy), ElementsAre("120", "80", "90", "110", "70"));
    rules.rows_between = 2;
    EXPECT_EQ(order_of(joins::plan_joins(work.need, work.steps, balls, rules)).front(), "120");
    rules.first = "none";
    rules.rows_between = 0;
    EXPECT_TRUE(joins::plan_joins(work.need, work.steps, balls, rules).finishes);
}

// The second example there: rows taking 3 .. 14 (102 together), skeins 40, 35, 30, 20, tails of 1;
// most orders finish, all of them with four pieces and a waste of 125 - 102 - 4 = 19.
TEST(ModelJoins, MostOrdersFinish) {
    std::vector<double> rows;
    for (int i = 3; i <= 14; ++i) rows.push_back(i);
    const auto work = rows_of(rows);
    const joins::JoinPlan plan = joins::plan_joins(
        work.need, work.steps, {ball("a", 40), ball("b", 35), ball("c", 30), ball("d", 20)},
        rules_with_tail(0.5));
    EXPECT_TRUE(plan.finishes);
    EXPECT_THAT(plan.stretches, SizeIs(4));
    EXPECT_NEAR(left_of(plan), 19.0, 1e-9);
}

// The third: eight rows of 7, skeins 22, 15, 29, 8, tails of 1: three pieces, no waste.
TEST(ModelJoins, ThreePiecesWithoutWaste) {
    const auto work = rows_of(std::vector<double>(8, 7.0));
    const joins::JoinPlan plan = joins::plan_joins(
        work.need, work.steps, {ball("a", 22), ball("b", 15), ball("c", 29), ball("d", 8)},
        rules_with_tail(0.5));
    EXPECT_TRUE(plan.finishes);
    EXPECT_THAT(order_of(plan), ElementsAre("c", "a", "d")) << "the longer skein first";
    EXPECT_NEAR(left_of(plan), 0.0, 1e-9);
}

// madebyanouchka.com, "crochet maths": balls of 100 g, 15 g a row, 15 balls. Joined at the edges
// six rows a ball with 10 g over, 90 rows in all; anywhere 1500 / 15 = 100 rows (arithmetic ours;
// a metre here stands for a gram).
TEST(PublishedJoins, WhatJoiningAtTheEdgeCosts) {
    std::vector<joins::Ball> balls;
    for (int i = 0; i < 15; ++i) balls.push_back(ball("b" + std::to_string(10 + i), 100));
    const auto plan = [&](std::size_t rows, Where where) {
        const auto work = rows_of(std::vector<double>(rows, 15.0));
        joins::Rules rules = rules_with_tail(0.0);
        rules.where = where;
        return joins::plan_joins(work.need, work.steps, balls, rules);
    };
    const joins::JoinPlan edges = plan(90, Where::row_ends);
    EXPECT_TRUE(edges.finishes);
    EXPECT_THAT(edges.stretches, SizeIs(15));
    for (const joins::Stretch& stretch : edges.stretches) {
        EXPECT_NEAR(stretch.left / metre, 10.0, 1e-9);
        EXPECT_EQ(stretch.to.step - stretch.from.step, 6U);
    }
    EXPECT_FALSE(plan(91, Where::row_ends).finishes);
    const joins::JoinPlan anywhere = plan(100, Where::anywhere);
    EXPECT_TRUE(anywhere.finishes);
    EXPECT_NEAR(left_of(anywhere), 0.0, 1e-9);
    EXPECT_FALSE(plan(101, Where::anywhere).finishes);
}

// A wrap of 25 sts x 120 rows from two skeins of 170 yd: the join falls near row 60 (common
// practice, no source).
TEST(PublishedJoins, TheWrapIsJoinedNearItsMiddle) {
    project::Project wrap = support::rectangle(25, 120);
    wrap.pieces[0].foundation_rows.reset();
    wrap.roles[0].total_length = project::PerSize<units::Length>(336.0 * units::yard);
    const need::MakeNeed need = need::need_of(wrap, 0);
    const double skein = 170 * 0.9144;
    const joins::JoinPlan plan =
        joins::plan_joins(need.roles[0], need.steps, {ball("s1", skein), ball("s2", skein)}, {});
    EXPECT_TRUE(plan.finishes);
    ASSERT_THAT(plan.stretches, SizeIs(2));
    const std::size_t join = plan.stretches[0].to.step;
    EXPECT_NEAR(static_cast<double>(plan.steps[join - 1].row), 60.0, 1.0);
}

/// Where one ball of L 209.7 m, u 4.242 m, ends in rows of 3.62 m, joins anywhere.
joins::Stretch first_stretch(const std::vector<double>& rows, double need_relative,
                             double confidence) {
    auto work = rows_of(rows);
    work.need.length.spread = work.need.length.centre * need_relative;
    joins::Rules rules = rules_with_tail(0.0);
    rules.where = Where::anywhere;
    rules.confidence = {units::Ratio(confidence)};
    return joins::plan_joins(work.need, work.steps,
                             {ball("a", 209.7, 4.242), ball("b", 209.7, 4.242)}, rules)
        .stretches.at(0);
}

// Worked example of ours (own, confirmed by Monte Carlo): the rate known to 3 %, rows to 4 %
// each: K 57.93, u 2.12, 95 % of it between 53.8 and 62.1, the 5 % quantile of the last whole row
// 54. Rows of a triangle taking .031 (2 r - 1): K 82.25, u 1.49.
TEST(ModelJoins, TheJoinRowIsAnInterval) {
    const std::vector<double> rows(100, 3.62);
    const double relative = std::hypot(0.03, 0.04 / std::sqrt(57.93));
    const joins::Stretch two_sided = first_stretch(rows, relative, 0.975);
    EXPECT_NEAR(static_cast<double>(two_sided.to.step) + two_sided.to.share.value(), 57.93, 0.01);
    EXPECT_EQ(two_sided.earliest, 53U);
    EXPECT_EQ(two_sided.latest, 62U);
    EXPECT_EQ(first_stretch(rows, relative, 0.95).earliest, 54U);

    std::vector<double> triangle;
    for (int row = 1; row <= 110; ++row) triangle.push_back(0.031 * (2 * row - 1));
    const joins::Stretch growing = first_stretch(triangle, 0.03, 0.95);
    EXPECT_EQ(growing.to.step, 82U);
    // 82.25 -+ 1.645 x 1.49 = 79.8 and 84.7.
    EXPECT_EQ(growing.earliest, 79U);
    EXPECT_EQ(growing.latest, 84U);
}

// 40 m hold four rows of 10 m exactly: as often as not the fourth is a little too long.
TEST(Joins, WithoutOtherSpreadRowsAloneVary) {
    const joins::Stretch sure = [] {
        const auto work = rows_of(std::vector<double>(10, 10.0));
        return joins::plan_joins(work.need, work.steps, {ball("a", 40), ball("b", 60)},
                                 rules_with_tail(0.0))
            .stretches.at(0);
    }();
    EXPECT_EQ(sure.earliest, sure.to.step - 1);
    EXPECT_EQ(sure.latest, sure.to.step);
}

TEST(Joins, ARowLongerThanEverySkein) {
    const auto work = rows_of({10, 50, 10});
    const std::vector<joins::Ball> balls{ball("a", 40), ball("b", 45)};
    const joins::JoinPlan edges =
        joins::plan_joins(work.need, work.steps, balls, rules_with_tail(1.0));
    EXPECT_FALSE(edges.finishes);
    EXPECT_THAT(breaks_of(edges), ElementsAre(1));
    EXPECT_NEAR(edges.missing / metre, 60.0 + 2.0, 1e-9) << "with the tails of one more skein";
    joins::Rules anywhere = rules_with_tail(1.0);
    anywhere.where = Where::anywhere;
    const joins::JoinPlan inside = joins::plan_joins(work.need, work.steps, balls, anywhere);
    EXPECT_TRUE(inside.finishes);
    EXPECT_NEAR(inside.stretches[0].to.share.value(), 33.0 / 50.0, 1e-9);
}

TEST(Joins, TooLittleYarnNamesWhatIsMissing) {
    const auto work = rows_of(std::vector<double>(10, 10.0));
    const joins::JoinPlan plan = joins::plan_joins(
        work.need, work.steps, {ball("a", 35), ball("b", 33), ball("c", 2)}, rules_with_tail(1.0));
    EXPECT_FALSE(plan.finishes);
    EXPECT_THAT(order_of(plan), ElementsAre("a", "b")) << "c is all tails";
    EXPECT_NEAR(plan.missing / metre, 100.0 - 60.0 + 2.0, 1e-9);
    const joins::JoinPlan none = joins::plan_joins(work.need, work.steps, {}, rules_with_tail(1.0));
    EXPECT_FALSE(none.finishes);
    EXPECT_THAT(none.stretches, IsEmpty());
    EXPECT_NEAR(none.missing / metre, 102.0, 1e-9);
}

TEST(Joins, TiesGoToTheLongerSkeinThenToTheId) {
    const auto work = rows_of(std::vector<double>(9, 10.0));
    EXPECT_THAT(order_of(joins::plan_joins(
                    work.need, work.steps,
                    {ball("s9", 30), ball("s10", 30), ball("s5", 30), ball("s2", 30)},
                    rules_with_tail(0.0))),
                ElementsAre("s2", "s5", "s9"));
    EXPECT_THAT(order_of(joins::plan_joins(work.need, work.steps, {ball("s1", 30), ball("s2", 60)},
                                           rules_with_tail(0.0))),
                ElementsAre("s2", "s1"));
}

TEST(Joins, FewestPiecesThenLeastWaste) {
    const auto work = rows_of(std::vector<double>(9, 10.0));
    EXPECT_THAT(order_of(joins::plan_joins(
                    work.need, work.steps,
                    {ball("a", 45), ball("b", 45), ball("c", 50), ball("d", 90), ball("e", 95)},
                    rules_with_tail(0.0))),
                ElementsAre("d"));
    EXPECT_THAT(order_of(joins::plan_joins(work.need, work.steps,
                                           {ball("a", 80), ball("b", 42), ball("c", 55)},
                                           rules_with_tail(0.0))),
                ElementsAre("c", "b"))
        << "50 + 40 rows are enough; 80 would leave more";
}

// A skein never ends below nothing, not even by half a millimetre.
TEST(Joins, NothingIsLeftBelowNothing) {
    const auto work = rows_of({10.0, 10.0});
    joins::Rules rules = rules_with_tail(0.0);
    rules.where = Where::anywhere;
    const joins::JoinPlan plan = joins::plan_joins(
        work.need, work.steps, {ball("a", 9.9996), ball("b", 9.9996), ball("c", 9.9996)}, rules);
    for (const joins::Stretch& stretch : plan.stretches)
        EXPECT_GE(stretch.left / metre, -1e-9) << stretch.ball.id;
}

// Ends of further runs are spread over the steps, so that the plan's yarn is the need's.
TEST(Joins, FurtherRunsAreSpreadOverTheSteps) {
    project::Project scarf = support::rectangle(20, 40);
    scarf.pieces[0].role.clear();
    scarf.pieces[0].stripes = {{"MC", 10}, {"CC", 10}};
    scarf.roles.push_back(support::role("CC"));
    for (project::Role& role : scarf.roles)
        role.rate = units::YarnPerStitch(0.05 * metre / units::stitch);
    const need::MakeNeed need = need::need_of(scarf, 0);
    const joins::JoinPlan plan = joins::plan_joins(need.roles[0], need.steps, {ball("a", 100)}, {});
    EXPECT_EQ(plan.steps.size(), 20U);
    for (const need::Step& step : plan.steps) EXPECT_EQ(step.role, "MC");
    EXPECT_NEAR(plan.stretches.at(0).used / metre, need.roles[0].length.centre / metre, 0.0006)
        << "to the half millimetre, however many rows";
    EXPECT_NEAR(need.roles[0].length.centre / metre, 20.0 + 0.3, 1e-9);
}

TEST(Joins, TooManyDifferentSkeinsAreSaidToBeUnproven) {
    const auto work = rows_of(std::vector<double>(40, 10.0));
    std::vector<joins::Ball> balls;
    for (int i = 0; i < 25; ++i) balls.push_back(ball("b" + std::to_string(i), 20.0 + i));
    const joins::JoinPlan plan =
        joins::plan_joins(work.need, work.steps, balls, rules_with_tail(0.0));
    EXPECT_FALSE(plan.proven);
    EXPECT_TRUE(plan.finishes);
    EXPECT_EQ(plan.stretches.front().ball.id, "b24");
}

}  // namespace
