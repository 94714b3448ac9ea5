// What is said of a whole make: rules from the project, comparisons, lots, colours, pairs.

#include "skeinfall/joins/answer.hpp"

#include <algorithm>
#include <cstdint>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/base/problem.hpp"

#include "support/builders.hpp"
#include "support/joins.hpp"
#include "support/says.hpp"

namespace {

using namespace skeinfall;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::SizeIs;
using units::gram;
using units::metre;

/// A strip of 20 stitches and so many rows that take 1 m each, without foundation or bind-off.
project::Project plain_strip(std::int64_t rows) {
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
    project::Project project = plain_strip(100);
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
    project::Project project = plain_strip(20);
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
    const joins::RoleJoins role = answer_of(plain_strip(45), balls).roles.at(0);
    ASSERT_THAT(role.lot_changes, SizeIs(1));
    ASSERT_TRUE(role.lot_changes[0].fade);
    // 30 rows of a: 26 alone, then 8 rows of which a has 4.
    EXPECT_EQ(role.lot_changes[0].fade->begin, 27);
    EXPECT_EQ(role.lot_changes[0].fade->end, 34);
    balls[1].lot = "lot 1";
    EXPECT_THAT(answer_of(plain_strip(45), balls).roles.at(0).lot_changes, IsEmpty());
}

TEST(JoinAnswer, PairsAreJoinedAtTheSameRows) {
    project::Project project = plain_strip(40);
    project.pieces[0].count = project::PerSize<std::int64_t>(2);
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
        (void)answer_of(plain_strip(10), {support::ball("a", 26), support::ball("b", 20)}, request),
        base::InputError);
}

// A piece that is not made twice was dropped, and the yarn lasted.
TEST(JoinAnswer, WhatStandsInNoPairIsPlannedToo) {
    project::Project project = plain_strip(40);
    project.pieces[0].count = project::PerSize<std::int64_t>(2);
    project.pieces.push_back(project.pieces[0]);
    project.pieces[1].name = "band";
    project.pieces[1].count = project::PerSize<std::int64_t>(1);
    project.pieces[1].rows = project::PerSize<std::int64_t>(10);
    joins::Request request;
    request.pairs = true;
    std::vector<joins::Ball> balls{support::ball("a", 45), support::ball("b", 45)};
    const joins::Answer without = answer_of(project, balls, request);
    EXPECT_FALSE(is_sure(without));
    EXPECT_FALSE(without.finishes);
    ASSERT_THAT(without.roles, SizeIs(2));
    EXPECT_EQ(without.roles[1].plan.steps.size(), 10U);
    balls.push_back(support::ball("c", 20));
    const joins::Answer with = answer_of(project, balls, request);
    EXPECT_TRUE(with.finishes);
    ASSERT_THAT(with.roles.at(1).plan.stretches, SizeIs(1));
    EXPECT_EQ(with.roles[1].plan.stretches[0].ball.id, "c");
}

// What the pair leaves of its skeins, 60 less 40 and two tails, works the band of 10.
TEST(JoinAnswer, WhatPairsLeaveIsYarnToo) {
    project::Project project = plain_strip(40);
    project.pieces[0].count = project::PerSize<std::int64_t>(2);
    project.pieces.push_back(project.pieces[0]);
    project.pieces[1].name = "band";
    project.pieces[1].count = project::PerSize<std::int64_t>(1);
    project.pieces[1].rows = project::PerSize<std::int64_t>(10);
    joins::Request request;
    request.pairs = true;
    const joins::Answer answer =
        answer_of(project, {support::ball("a", 60), support::ball("b", 60)}, request);
    EXPECT_TRUE(answer.finishes);
    ASSERT_THAT(answer.roles, SizeIs(2));
    ASSERT_THAT(answer.roles[1].plan.stretches, SizeIs(1));
    EXPECT_NEAR(answer.roles[1].plan.stretches[0].ball.length.centre / metre, 19.7, 0.01);
}

TEST(JoinAnswer, StrandsHeldTogetherAreJoinedApart) {
    project::Project project = plain_strip(40);
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
        return static_cast<std::int64_t>(answer.roles.at(role).plan.stretches.at(0).to.step);
    };
    EXPECT_EQ(row(0), 20);
    EXPECT_GE(std::abs(row(0) - row(1)), 5);
}

TEST(JoinAnswer, ColoursOfAPiece) {
    project::Project project = plain_strip(60);
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
    project::Project project = plain_strip(40);
    project.pieces[0].count = project::PerSize<std::int64_t>(2);
    std::vector<joins::Ball> balls{support::ball("a", 50), support::ball("b", 45),
                                   support::ball("c", 30)};
    balls[0].lot = balls[1].lot = "lot 1";
    balls[2].lot = "lot 2";
    const auto parts = answer_of(project, balls).roles.at(0).lots_of_parts;
    ASSERT_THAT(parts, SizeIs(1));
    EXPECT_THAT(parts[0].parts, SizeIs(2)) << "both copies go together";
    EXPECT_EQ(parts[0].lot, "lot 1");
}

// techknitting.blogspot.com 2007, knitty.com 2010 and dummies.com: a new ball belongs at the edge
// of a piece that is seamed, not at an edge that stays visible, and anywhere in the round. One rule
// once the piece says what its edge is.
TEST(PublishedJoins, EdgeOrInsideDependsOnTheEdge) {
    const std::vector<joins::Ball> balls{support::ball("a", 25.5), support::ball("b", 25.5)};
    const auto notes = [&](const project::Project& project) {
        return answer_of(project, balls).roles.at(0).notes;
    };
    project::Project project = plain_strip(40);
    project.pieces[0].edge = project::Edge::visible;
    EXPECT_THAT(notes(project), ElementsAre(support::Says(HasSubstr("join inside the row"))));
    project.pieces[0].edge = project::Edge::seamed;
    EXPECT_THAT(notes(project), IsEmpty());
    // Where both are permitted, the seam is taken for an end, and the inside of a visible piece.
    project.pieces[0].joins.at = project::JoinAt::anywhere;
    const auto join = [&] { return answer_of(project, balls).roles.at(0).plan.stretches[0].to; };
    EXPECT_EQ(join().share.value(), 0.0);
    project.pieces[0].edge = project::Edge::visible;
    EXPECT_GT(join().share.value(), 0.0);
    project.pieces[0].worked = project::Worked::round;
    EXPECT_THAT(notes(project), IsEmpty());
}

// Worked example of ours: 120 rows of 3.62 m in turns of two take 217.2 m of each; of 260 m and 150
// m the alternation lasts 20 turns of two, and one more of the first. ascatteredcreative.com 2004:
// one row each leaves a yarn at the wrong edge, three yarns find theirs (arithmetic ours).
TEST(ModelLots, WorkedByTurnsAllTheWay) {
    project::Project project = plain_strip(120);
    project.tail = units::Length{};
    project.roles[0].rate = units::YarnPerStitch(3.62 / 20.0 * metre / units::stitch);
    std::vector<joins::Ball> balls{support::ball("a", 260), support::ball("b", 150),
                                   support::ball("c", 100)};
    EXPECT_FALSE(answer_of(project, balls).roles.at(0).by_turns) << "no lots, nothing asked for";
    joins::Request request;
    request.by_turns = 2;
    const auto two = answer_of(project, balls, request).roles.at(0).by_turns;
    ASSERT_TRUE(two);
    EXPECT_THAT(two->without_cuts, ElementsAre(ElementsAre(2, 2), ElementsAre(4, 4)));
    EXPECT_THAT(two->with_cuts, ElementsAre(ElementsAre(1, 1), ElementsAre(3, 3)));
    EXPECT_THAT(two->names, ElementsAre("a", "b"));
    EXPECT_NEAR(two->takes.at(0) / metre, 217.2, 1e-9);
    EXPECT_NEAR(two->takes.at(1) / metre, 217.2, 1e-9);
    EXPECT_FALSE(two->suffices);
    EXPECT_EQ(two->expected.alternated, 82);
    EXPECT_EQ(two->expected.reached, 111);
    EXPECT_LT(two->chance.value.value(), 0.01);
    request.by_turns = 3;
    const auto three = answer_of(project, balls, request).roles.at(0).by_turns;
    EXPECT_THAT(three->without_cuts.front(), ElementsAre(1, 1, 1));
    EXPECT_NEAR(three->takes.at(0) / metre, 40 * 3.62, 1e-9);
    EXPECT_FALSE(three->suffices) << "c has 100 m";
    // Skeins of two lots need not be asked for.
    balls[0].lot = "lot 1";
    balls[1].lot = balls[2].lot = "lot 2";
    const auto lots = answer_of(project, balls).roles.at(0).by_turns;
    ASSERT_TRUE(lots);
    EXPECT_TRUE(lots->suffices) << "260 m and 250 m";
}

TEST(JoinAnswer, FewerJoinsThanItTakesLeaveSomeUnworked) {
    const project::Project project = plain_strip(40);
    const need::MakeNeed make = need::need_of(project, 0);
    const joins::BallsOfRoles balls{
        {"MC", {support::ball("a", 15.5), support::ball("b", 12.5), support::ball("c", 20.5)}}};
    const joins::Answer answer = joins::answer_joins(project, make, balls, {});
    ASSERT_EQ(answer.joins, 2U);
    EXPECT_EQ(joins::unworked_with(project, make, balls, {}, answer, 2), units::Length{});
    // The two longest work 35 rows; five more want their 5 m and two ends of 15 cm.
    EXPECT_NEAR(joins::unworked_with(project, make, balls, {}, answer, 1) / metre, 5.3, 1e-9);
}

// Weighed in the swatch's own yarn, the label errs in need and skein alike and drops out.
TEST(JoinAnswer, ALabelThatCancelsNarrowsTheInterval) {
    project::Project project = plain_strip(100);
    need::MakeNeed make = need::need_of(project, 0);
    make.roles[0].shared = units::Ratio(0.04);
    make.roles[0].causes = {{"tension", units::Ratio(0.03), ""}};
    make.roles[0].length.spread = make.roles[0].length.centre * 0.05;
    const joins::BallsOfRoles balls{{"MC", {support::ball("a", 80), support::ball("b", 60)}}};
    const auto earliest = [&](const joins::Request& request) {
        return joins::answer_joins(project, make, balls, request)
            .roles.at(0)
            .plan.stretches.at(0)
            .earliest;
    };
    joins::Request same_yarn;
    same_yarn.label_cancels = {"MC"};
    // 79.7 m less 1.645 x 5 % or 3 % of the 79 m worked.
    EXPECT_EQ(earliest({}), 73U);
    EXPECT_EQ(earliest(same_yarn), 75U);
}

// Label errors that all skeins of a yarn share add up along the work, and do not average out.
TEST(JoinAnswer, ASharedLabelErrorAddsUp) {
    const project::Project project = plain_strip(100);
    need::MakeNeed make = need::need_of(project, 0);
    make.roles[0].length.spread = units::Length{};
    const auto third = [&](bool shared) {
        std::vector<joins::Ball> balls;
        for (const char* id : {"a", "b", "c", "d", "e"}) {
            balls.push_back(support::ball(id, 23.3));
            (shared ? balls.back().shared : balls.back().length.spread) = 1.0 * metre;
        }
        return joins::answer_joins(project, make, {{"MC", balls}}, {})
            .roles.at(0)
            .plan.stretches.at(2)
            .earliest;
    };
    // Three skeins: 69 m less 1.645 x 3 m, or 1.645 x 1.73 m, and half a row lost at two joins.
    EXPECT_EQ(third(true), 63U);
    EXPECT_EQ(third(false), 65U);
}

TEST(JoinAnswer, AKnotMayBreakTheOrderOfTheColours) {
    project::Project project = plain_strip(20);
    joins::Ball ball = support::ball("a", 30);
    ball.knots = 1;
    EXPECT_THAT(answer_of(project, {ball}).roles.at(0).notes, IsEmpty());
    project.roles[0].colours = {{"sand", 4.0 * metre, ""}, {"slate", 5.0 * metre, ""}};
    EXPECT_THAT(answer_of(project, {ball}).roles.at(0).notes,
                ElementsAre(support::Says(HasSubstr("may break the order of its colours"))));
}

TEST(JoinAnswer, TwoAlikeFromTwoSkeinsBeginAtOneColour) {
    project::Project project = plain_strip(20);
    project.pieces[0].count = project::PerSize<std::int64_t>(2);
    project.roles[0].colours = {{"sand", 4.0 * metre, ""}, {"slate", 5.0 * metre, ""}};
    std::vector<joins::Ball> balls{support::ball("a", 30), support::ball("b", 30)};
    const auto unknown = answer_of(project, balls).roles.at(0).colours;
    ASSERT_TRUE(unknown && unknown->pair_from_two);
    EXPECT_NEAR(unknown->pair_from_two->expected / metre, 4.5, 1e-9);
    EXPECT_NEAR(unknown->pair_from_two->at_most / metre, 9.0, 1e-9);
    balls[0].phase = 2.0 * metre;
    balls[1].phase = 6.0 * metre;
    const auto known = answer_of(project, balls).roles.at(0).colours;
    ASSERT_TRUE(known && known->pair_from_two);
    EXPECT_NEAR(known->pair_from_two->expected / metre, 5.0, 1e-9) << "6 + 5 = 11 is 2 again";
    // Every copy is laid out where it really begins.
    ASSERT_THAT(known->pieces, SizeIs(2));
    EXPECT_EQ(known->pieces[1].copy, 2);
    EXPECT_NE(known->pieces[0].start, known->pieces[1].start);
}

using Way = joins::Nearest::Way;
auto is_way(Way way) {
    return Field(&joins::Nearest::way, way);
}

// Too little yarn, a row too long, a distance too great, a pair too unequal: each is told what
// would work.
// One skein that holds just what is wanted lasts as often as not: half of a normal distribution.
TEST(JoinAnswer, ASkeinThatIsOnlyExpectedToLastHasASpare) {
    const project::Project wrap = plain_strip(30);
    const auto alone = answer_of(wrap, {support::ball("a", 30.3)});
    EXPECT_TRUE(alone.finishes);
    EXPECT_FALSE(is_sure(alone));
    EXPECT_NEAR(alone.lasts.value, 0.5, 0.02);
    EXPECT_EQ(alone.perhaps, 0U);
    EXPECT_THAT(alone.roles.at(0).nearest, Contains(is_way(Way::ended_earlier)));

    const std::vector<joins::Ball> two{support::ball("a", 30.3), support::ball("b", 25)};
    const auto with = answer_of(wrap, two);
    // The slip would not let the last row be begun with so little, so the other is joined before.
    EXPECT_EQ(with.joins, 1U);
    EXPECT_EQ(with.roles.at(0).plan.stretches.at(1).ball.id, "b");
    EXPECT_TRUE(is_sure(with));
    EXPECT_THAT(with.roles.at(0).notes, Not(Contains(support::Says(HasSubstr("nearest")))));

    // A spare of no use: what is cut off before it is joined, a row of 1 m, is more than it holds.
    EXPECT_EQ(answer_of(wrap, {support::ball("a", 30.3), support::ball("b", 1.2)}).perhaps, 0U);
    // Enough without: no spare.
    EXPECT_EQ(answer_of(wrap, {support::ball("a", 60), support::ball("b", 25)}).perhaps, 0U);
}

// Two yarns, each of which lasts at the confidence, do not last together at it (.96 x .96 < .95).
TEST(JoinAnswer, AllYarnsTogetherLastAtTheConfidence) {
    project::Project wrap = plain_strip(30);
    wrap.roles.push_back(wrap.roles[0]);
    wrap.roles[1].id = "CC";
    wrap.pieces.push_back(wrap.pieces[0]);
    wrap.pieces[1].role = "CC";
    wrap.pieces[1].name = "other";
    const need::MakeNeed make = need::need_of(wrap, 0);
    const double spread = make.roles.at(0).length.relative();
    // 1.751 deviations: the quantile of .96 of the normal distribution (published tables).
    const double holds = 30.0 * (1.0 + 1.751 * spread) + 0.3;
    joins::BallsOfRoles balls;
    for (const char* role : {"MC", "CC"}) balls[role] = {support::ball("a", holds)};
    const auto close = joins::answer_joins(wrap, make, balls, {});
    EXPECT_NEAR(close.lasts.value,
                close.roles[0].plan.lasts.value * close.roles[1].plan.lasts.value, 1e-12);
    EXPECT_GE(close.roles[0].plan.lasts, measure::usual_confidence);
    EXPECT_FALSE(is_sure(close));
    balls["CC"].push_back(support::ball("b", 20));
    const auto with = joins::answer_joins(wrap, make, balls, {});
    EXPECT_EQ(with.perhaps, 1U);
    EXPECT_TRUE(is_sure(with));
}

TEST(NearestPlan, ThePieceEndsEarlierOrJoinsMove) {
    // 30 rows of 1 m and two skeins of 9.5 m of use: 18 rows at the edges, 19 inside rows; fewer
    // are sure, for the rate is not.
    const std::vector<joins::Ball> two{support::ball("a", 9.8), support::ball("b", 9.8)};
    const auto short_of = answer_of(plain_strip(30), two);
    std::int64_t sure = 0;
    for (std::int64_t rows = 1; rows <= 18; ++rows)
        if (is_sure(answer_of(plain_strip(rows), two))) sure = rows;
    ASSERT_GT(sure, 9);
    ASSERT_LT(sure, 18);
    EXPECT_THAT(short_of.roles.at(0).nearest,
                Contains(AllOf(is_way(Way::ended_earlier), Field(&joins::Nearest::rows, sure),
                               Field(&joins::Nearest::of, 30))));
    const auto inside =
        answer_of(plain_strip(19), {support::ball("a", 9.8), support::ball("b", 9.8)});
    EXPECT_THAT(inside.roles.at(0).nearest,
                Contains(AllOf(is_way(Way::inside_rows), Field(&joins::Nearest::works, false))));
    const auto enough = answer_of(plain_strip(sure), two);
    EXPECT_THAT(enough.roles.at(0).nearest, IsEmpty());
}

TEST(NearestPlan, TheBindOffIsAsWideAsTheRowBeforeIt) {
    project::Project shawl = plain_strip(19);
    shawl.pieces[0].increase = project::PerSize<std::int64_t>(-1);
    shawl.pieces[0].bind_off_rows = units::Ratio(3.0);
    // Rows of 20, 19 ... 2 stitches, 5 cm each; the bind-off takes three times the last row.
    const auto widths = project::row_widths(shawl, shawl.pieces[0], 0);
    const auto used = [&](std::size_t rows) {
        double stitches = 0.0;
        for (std::size_t i = 0; i < rows; ++i) stitches += static_cast<double>(widths[i]);
        return 0.05 * (stitches + 3.0 * static_cast<double>(widths[rows - 1]));
    };
    ASSERT_LT(widths[9], widths[0]);
    const double have = 9.0;
    std::size_t rows = 0;
    const auto relative = need::need_of(shawl, 0).roles.at(0).length.relative();
    for (std::size_t i = 1; i <= widths.size(); ++i)
        if (measure::chance_enough({have * metre, {}},
                                   {used(i) * metre, used(i) * metre * relative.value()}) >=
            measure::usual_confidence)
            rows = i;
    ASSERT_GT(rows, 0U);
    ASSERT_LT(rows, widths.size());
    const auto answer = answer_of(shawl, {support::ball("a", have + 0.3)});
    EXPECT_THAT(answer.roles.at(0).nearest,
                Contains(AllOf(is_way(Way::ended_earlier),
                               Field(&joins::Nearest::rows, static_cast<std::int64_t>(rows)),
                               Field(&joins::Nearest::of, 19))));
}

TEST(NearestPlan, AShorterDistanceAndHalvesForAPair) {
    joins::Request request;
    request.rows_between = 20;
    const std::vector<joins::Ball> three(3, support::ball("a", 12.3));
    const auto apart = answer_of(plain_strip(30), three, request);
    ASSERT_FALSE(apart.rules_kept);
    // Its chance is that of keeping them; what is planned lasts more surely.
    EXPECT_LT(apart.lasts.value.value(), 0.01);
    EXPECT_GT(apart.lasts_as_planned.value.value(), 0.3);
    EXPECT_DOUBLE_EQ(apart.roles.at(0).kept_to_rules->value.value(), apart.lasts.value.value());
    // A skein's 12 m are 12 rows, of which its slip forbids the last.
    EXPECT_THAT(apart.roles.at(0).nearest,
                Contains(AllOf(is_way(Way::closer), Field(&joins::Nearest::rows, 11),
                               Field(&joins::Nearest::of, 20))));
    request = {};
    request.pairs = true;
    project::Project pair = plain_strip(20);
    pair.pieces[0].count = project::PerSize<std::int64_t>(2);
    const auto halves =
        answer_of(pair, {support::ball("a", 24.3), support::ball("b", 17.3)}, request);
    ASSERT_FALSE(halves.finishes);
    ASSERT_THAT(halves.roles.at(0).nearest, Contains(is_way(Way::halves)));
    const joins::Nearest& half = halves.roles[0].nearest.front();
    // (24.3 + 17.3 - 4 tails of 0.15) / 2 for each, which takes 20 rows of 1 m.
    EXPECT_NEAR(half.has / metre, 20.5, 1e-9);
    EXPECT_NEAR(half.takes / metre, 20.0, 1e-9);
    EXPECT_TRUE(half.works);
    const auto never =
        answer_of(pair, {support::ball("a", 20.3), support::ball("b", 17.3)}, request);
    ASSERT_THAT(never.roles.at(0).nearest, Contains(is_way(Way::halves)));
    EXPECT_FALSE(never.roles[0].nearest.front().works);
}

// A strand carried up to a stripe is worked with there: the new skein begins in its stead.
TEST(JoinAnswer, NoSkeinEndsOnAStrandThatWasCarriedUp) {
    project::Project scarf = plain_strip(60);
    scarf.roles.push_back(scarf.roles[0]);
    scarf.roles[1].id = "CC";
    scarf.pieces[0].role.clear();
    scarf.pieces[0].edge = project::Edge::seamed;
    scarf.pieces[0].stripes = {{"MC", 4}, {"CC", 2}};
    scarf.gauge.rows = 1.0 * units::row / (0.0035 * metre);
    const need::MakeNeed make = need::need_of(scarf, 0);
    const auto carried = [](const joins::JoinPlan& plan, std::size_t step) {
        return step > 0 && plan.steps[step - 1].purpose == need::Purpose::carried;
    };
    // Two rows of 1 m and a strand: skeins that end just after a strand, were they allowed to.
    for (int tenths = 20; tenths <= 90; ++tenths) {
        std::vector<joins::Ball> balls;
        for (int i = 0; i < 20; ++i)
            balls.push_back(support::ball("c" + std::to_string(i), 0.3 + tenths / 10.0, 0.2));
        const auto answer = joins::answer_joins(
            scarf, make, {{"MC", {support::ball("m", 100)}}, {"CC", balls}}, {});
        const joins::RoleJoins& role = answer.roles.at(1);
        ASSERT_TRUE(std::any_of(role.plan.steps.begin(), role.plan.steps.end(),
                                [](const auto& s) { return s.purpose == need::Purpose::carried; }));
        for (const joins::Stretch& stretch : role.plan.stretches) {
            EXPECT_FALSE(carried(role.plan, stretch.to.step)) << tenths;
            EXPECT_FALSE(carried(role.plan, stretch.earliest)) << tenths;
            EXPECT_FALSE(carried(role.plan, stretch.latest)) << tenths;
        }
        for (const joins::StopWeight& line : role.stops)
            EXPECT_FALSE(carried(role.plan, line.steps_done)) << tenths;
    }
}

}  // namespace
