// What is said of a whole make: rules from the project, comparisons, lots, colours, pairs.

#include "skeinfall/joins/answer.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/base/problem.hpp"

#include "support/builders.hpp"
#include "support/joins.hpp"

namespace {

using namespace skeinfall;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;
using units::gram;
using units::metre;

/// A strip of 20 stitches and so many rows that take 1 m each, without foundation or bind-off.
project::Project strip(long rows) {
    project::Project out = support::rectangle(20, rows);
    out.roles[0].rate = units::YarnPerStitch(0.05 * metre / units::stitch);
    out.pieces[0].foundation_rows = units::Ratio(0.0);
    out.pieces[0].bind_off_rows = units::Ratio(0.0);
    return out;
}

joins::Answer answer_of(const project::Project& project, const std::vector<joins::Ball>& balls,
                        const joins::Request& request = {}) {
    return joins::answer_joins(project, need::need_of(project, 0), {{"MC", balls}}, request);
}

// madebyanouchka.com, "crochet maths": 15 balls of 100 g at 15 g a row, joined at the edges, give
// 90 rows and leave 10 g each; joined anywhere 100 rows (arithmetic ours; 15 m stands for 15 g).
TEST(JoinAnswer, ShowsWhatOtherPlacesGive) {
    project::Project project = strip(100);
    project.roles[0].rate = units::YarnPerStitch(0.75 * metre / units::stitch);
    project.tail = units::Length{};
    std::vector<joins::Ball> balls;
    for (int i = 0; i < 15; ++i) balls.push_back(support::ball("b" + std::to_string(i), 100));
    const joins::RoleJoins role = answer_of(project, balls).roles.at(0);
    EXPECT_FALSE(role.row_ends.finishes);
    EXPECT_EQ(role.row_ends.stretches.back().to.step, 90U);
    EXPECT_NEAR(left_over(role.row_ends) / metre, 150.0, 1e-6);
    EXPECT_NEAR(role.row_ends.missing / metre, 150.0, 1e-6);
    EXPECT_TRUE(role.anywhere.finishes);
    EXPECT_NEAR(left_over(role.anywhere) / metre, 0.0, 1e-6);
}

TEST(JoinAnswer, TailsFollowTheJoinKind) {
    project::Project project = strip(20);
    project.roles[0].join_kind = project::find_join_kind("Russian join");
    ASSERT_NE(project.roles[0].join_kind, nullptr);
    const joins::Rules rules = joins::rules_of(project, project.roles[0], {});
    EXPECT_NEAR(rules.tail / units::centimetre, 9.0, 1e-9);
    EXPECT_NEAR(*rules.end_tail / units::centimetre, 15.0, 1e-9);
}

TEST(JoinKinds, FeltedSplicesNeedWoolThatFelts) {
    const project::JoinKind* splice = project::find_join_kind("spit splice");
    ASSERT_NE(splice, nullptr);
    EXPECT_EQ(splice->name, "felted splice");
    const auto objection = [&](const char* fibre) {
        return project::join_kind_objection(*splice, support::fibre(fibre));
    };
    EXPECT_THAT(objection("100% wool"), IsEmpty());
    EXPECT_THAT(objection("80% merino 20% nylon"), IsEmpty());
    EXPECT_FALSE(objection("100% superwash wool").empty());
    EXPECT_FALSE(objection("75% wool 25% nylon").empty());
    EXPECT_FALSE(objection("100% cotton").empty());
    EXPECT_THAT(project::join_kind_objection(*splice, {}), IsEmpty()) << "content not known";
    for (const project::JoinKind& kind : project::join_kinds())
        EXPECT_GT(kind.tail.value(), 0.0) << kind.name;
}

TEST(JoinAnswer, ALotChangeIsFaded) {
    std::vector<joins::Ball> balls{support::ball("a", 30.5), support::ball("b", 20.5)};
    balls[0].lot = "lot 1";
    balls[1].lot = "lot 2";
    const joins::RoleJoins role = answer_of(strip(45), balls).roles.at(0);
    ASSERT_THAT(role.lot_changes, SizeIs(1));
    ASSERT_TRUE(role.lot_changes[0].fade);
    // 30 rows of a: 26 alone, then 8 rows of which a has 4.
    EXPECT_EQ(role.lot_changes[0].fade->begin, 27);
    EXPECT_EQ(role.lot_changes[0].fade->end, 34);
    balls[1].lot = "lot 1";
    EXPECT_THAT(answer_of(strip(45), balls).roles.at(0).lot_changes, IsEmpty());
}

TEST(JoinAnswer, PairsAreJoinedAtTheSameRows) {
    project::Project project = strip(40);
    project.pieces[0].count = project::PerSize<long>(2);
    joins::Request request;
    request.pairs = true;
    const joins::Answer answer = answer_of(project,
                                           {support::ball("a", 26), support::ball("b", 18),
                                            support::ball("c", 25), support::ball("d", 17)},
                                           request);
    EXPECT_TRUE(answer.finishes);
    const joins::JoinPlan& plan = answer.roles.at(0).plan;
    EXPECT_EQ(plan.steps.size(), 40U) << "of one piece";
    ASSERT_THAT(plan.stretches, SizeIs(2));
    EXPECT_EQ(plan.stretches[0].ball.id, "a + c");
    EXPECT_EQ(plan.stretches[0].to.step, 24U);
    EXPECT_THROW((void)answer_of(project, {support::ball("a", 26)}, request), base::InputError);
    EXPECT_THROW(
        (void)answer_of(strip(10), {support::ball("a", 26), support::ball("b", 20)}, request),
        base::InputError);
}

TEST(JoinAnswer, StrandsHeldTogetherAreJoinedApart) {
    project::Project project = strip(40);
    project.rows_between_joins = 5;
    project::Role beside = support::role("CC");
    beside.held_with = "MC";
    beside.total_length = project::PerSize<units::Length>(80.0 * metre);
    project.roles.push_back(beside);
    const joins::Answer answer =
        joins::answer_joins(project, need::need_of(project, 0),
                            {{"MC", {support::ball("a", 21), support::ball("b", 21)}},
                             {"CC", {support::ball("c", 52), support::ball("d", 44)}}},
                            {});
    EXPECT_TRUE(answer.finishes);
    EXPECT_TRUE(answer.rules_kept);
    const auto row = [&](std::size_t role) {
        return static_cast<long>(answer.roles.at(role).plan.stretches.at(0).to.step);
    };
    EXPECT_EQ(row(0), 20);
    EXPECT_GE(std::abs(row(0) - row(1)), 5);
}

TEST(JoinAnswer, ColoursOfAPiece) {
    project::Project project = strip(60);
    project.gauge.rows = 1.0 * units::row / (0.005 * metre);
    project.roles[0].colours = {{"sand", 0.5 * metre, ""}, {"slate", 0.5 * metre, ""}};
    const joins::RoleJoins role = answer_of(project, {support::ball("a", 80)}).roles.at(0);
    ASSERT_TRUE(role.colours);
    ASSERT_THAT(role.colours->pieces, SizeIs(1));
    const joins::PieceColours& piece = role.colours->pieces[0];
    EXPECT_TRUE(piece.pools);
    EXPECT_EQ(piece.width, 20);
    EXPECT_EQ(piece.pooling.pattern, joins::Pattern::stacks) << "a row is one repeat";
    EXPECT_THAT(piece.stack.front(), ElementsAre(20));
    ASSERT_TRUE(piece.avoid);
    const units::Length row = static_cast<double>(*piece.avoid) * 0.05 * metre;
    EXPECT_EQ(joins::pooling_of(row, metre, project::Worked::flat).pattern,
              joins::Pattern::breaks_up);
    EXPECT_FALSE(role.colours->pair) << "made once";
}

TEST(JoinAnswer, MatchingPartsOfSeveralLots) {
    project::Project project = strip(40);
    project.pieces[0].count = project::PerSize<long>(2);
    std::vector<joins::Ball> balls{support::ball("a", 50), support::ball("b", 45),
                                   support::ball("c", 30)};
    balls[0].lot = balls[1].lot = "lot 1";
    balls[2].lot = "lot 2";
    const auto parts = answer_of(project, balls).roles.at(0).lots_of_parts;
    ASSERT_THAT(parts, SizeIs(1));
    EXPECT_THAT(parts[0].parts, SizeIs(2)) << "both copies go together";
    EXPECT_EQ(parts[0].lot, "lot 1");
}

}  // namespace
