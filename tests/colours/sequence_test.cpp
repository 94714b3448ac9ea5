#include "skeinfall/colours/sequence.hpp"

#include <cmath>
#include <cstdint>
#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/colours/layout.hpp"
#include "skeinfall/joins/answer.hpp"

#include "support/builders.hpp"
#include "support/joins.hpp"

namespace {

using namespace skeinfall;
using namespace skeinfall::colours;
using units::Length;
using units::metre;

joins::Runs runs_of(const std::vector<std::pair<std::string, double>>& runs) {
    joins::Runs out;
    for (const auto& [colour, length] : runs) out.push_back({colour, length * metre, {}});
    return out;
}

/// A tube of 20 stitches, 1 m a round, in a yarn of three colours.
project::Project tube(std::int64_t rounds) {
    project::Project out = support::rectangle(20, rounds);
    out.pieces.front().worked = project::Worked::round;
    out.roles.front().rate = 0.05 * metre / units::stitch;
    out.roles.front().colours = runs_of({{"teal", 5.0}, {"sand", 3.0}, {"foam", 2.0}});
    return out;
}

SequenceWish sequence_wish(const project::Project& project) {
    SequenceWish out;
    out.role = "MC";
    out.repeat = stated_repeat(project::repeat_of(project.roles.front().colours));
    out.tail = 0.15 * metre;
    return out;
}

// "Why choose to work with stripes in 3" (Cabin Fever's page, 2013) and "Knitting with hand-dyed
// yarns" (2004): worked flat, one row each of two colours leaves yarns at the wrong edge, one row
// each of three does not; two rows each never do. In the round all can be carried.
TEST(Sequence, WhichStripesNeverNeedACut) {
    const auto cut = [](const std::vector<std::int64_t>& heights, project::Worked worked) {
        project::Project project = support::rectangle(20, 24);
        project.roles.clear();
        project.pieces.front().worked = worked;
        for (std::size_t i = 0; i < heights.size(); ++i) {
            const std::string id(1, static_cast<char>('A' + i));
            project.roles.push_back(support::role(id));
            project.roles.back().rate = 0.05 * metre / units::stitch;
            project.pieces.front().stripes.push_back({id, heights[i]});
        }
        project.pieces.front().carry_at_most = 1.0 * metre;
        std::int64_t begun = 0;
        for (const need::Change& change : need::need_of(project, 0).changes)
            begun += change.carried ? 0 : 1;
        return begun - static_cast<std::int64_t>(heights.size());
    };
    EXPECT_GT(cut({1, 1}, project::Worked::flat), 0);
    EXPECT_EQ(cut({2, 2}, project::Worked::flat), 0);
    EXPECT_EQ(cut({1, 1, 1}, project::Worked::flat), 0);
    EXPECT_EQ(cut({3, 3, 3}, project::Worked::flat), 0);
    EXPECT_GT(cut({1, 1, 1, 1}, project::Worked::flat), 0);
    EXPECT_EQ(cut({1, 1}, project::Worked::round), 0);
}

TEST(Sequence, PiecesBeginWithTheColourAskedFor) {
    project::Project project = tube(23);
    project.pieces.front().count = project::PerSize<std::int64_t>(2);
    SequenceWish wish = sequence_wish(project);
    wish.colour = "sand";
    wish.begins = 1.0 * metre;
    const SequencePlan plan = plan_sequence(project, wish);
    ASSERT_EQ(plan.pieces.size(), 2u);
    for (const SequencePiece& piece : plan.pieces) {
        EXPECT_NEAR(piece.start / metre, 5.0, 1e-9);
        EXPECT_EQ(plan.runs[piece.stripes.front().run].colour, "sand");
    }
    // The outer end is 1 m into teal and 0.15 m are the tail: 3.85 m to where sand begins. 23 m on
    // the phase is 8 m: 7 m more to sand again.
    EXPECT_NEAR(plan.pieces[0].wound_off / metre, 3.85, 1e-9);
    EXPECT_NEAR(plan.pieces[1].wound_off / metre, 7.0, 1e-9);
    EXPECT_NEAR(plan.takes / metre, 46.0 + 10.85 + 0.3, 1e-9);
}

// Kept in the project, the 7 m between the two of them are a step of their own before the second,
// and its joins see both begin alike, over a join as well.
TEST(Sequence, WhatTheProjectKeepsBeginsEveryPieceAlike) {
    project::Project project = tube(23);
    project.pieces.front().count = project::PerSize<std::int64_t>(2);
    const units::Length apart = need::need_of(project, 0).roles.front().length.centre;
    project.roles.front().pieces_begin_with = "sand";
    // Where the ball begins nobody knows: up to a repeat before the first of them.
    EXPECT_NEAR((need::need_of(project, 0).roles.front().length.centre - apart) / metre, 17.0,
                1e-9);
    project.roles.front().first_wound_off = 4.0 * metre;
    const need::MakeNeed make = need::need_of(project, 0);
    EXPECT_NEAR((make.roles.front().length.centre - apart) / metre, 11.0, 1e-9);
    std::vector<const need::Step*> between;
    for (const need::Step& step : make.steps)
        if (!step.name.empty()) between.push_back(&step);
    ASSERT_EQ(between.size(), 2U);
    EXPECT_EQ(between[0]->name, "winding off to sand before wrap");
    EXPECT_EQ(between[0], make.steps.data()) << "before the first row, not behind the last";
    EXPECT_NEAR(between[1]->yarn / metre, 7.0, 1e-9);
    EXPECT_EQ(between[1]->name, "winding off to sand before wrap 2");
    EXPECT_EQ((between[1] + 1)->copy, 2);
    for (const double first : {30.0, 100.0}) {
        const joins::Answer answer = joins::answer_joins(
            project, make,
            {{project.roles.front().id, {support::ball("a", first), support::ball("b", 100.0)}}},
            {});
        ASSERT_TRUE(answer.roles.front().colours);
        const auto& pieces = answer.roles.front().colours->pieces;
        ASSERT_EQ(pieces.size(), 2U);
        EXPECT_NEAR(pieces[0].start / metre, pieces[1].start / metre, 1e-6);
        EXPECT_NEAR(pieces[0].start / metre,
                    *joins::phase_of_colour(project.roles.front().colours, "sand") / metre, 1e-6);
    }
}

TEST(Sequence, AMeasuredRepeatStandsBeforeTheStatedOne) {
    const project::Project project = tube(20);
    SequenceWish wish = sequence_wish(project);
    wish.repeat = measured_repeat({10.9 * metre, 11.1 * metre, 11.0 * metre});
    const SequencePlan plan = plan_sequence(project, wish);
    EXPECT_NEAR(project::repeat_of(plan.runs) / metre, 11.0, 1e-9);
    EXPECT_NEAR(plan.runs[0].length / metre, 5.5, 1e-9);
    EXPECT_NEAR(wish.repeat.spread / metre, 0.1, 1e-9);
    EXPECT_NEAR(wish.repeat.spread_of_mean / metre, 0.1 / std::sqrt(3.0), 1e-9);
}

// Simulated: 4000 balls whose repeats and yarn use are drawn; before the row named the colour is
// still right 19 times in 20, well behind it no longer.
TEST(Sequence, TheRowUpToWhichAColourIsKnownIsWhatBallsShow) {
    const Length run = 2.0 * metre;
    const Repeat repeat{10.0 * metre, 0.3 * metre, 0.1 * metre, 9};
    const double use = 0.02;
    const std::vector<Length> rows(400, 1.0 * metre);
    const auto known =
        unknown_after(run, rows, units::Ratio(use), repeat, {units::Ratio::from_value(0.95)});
    ASSERT_TRUE(known);
    std::mt19937 random(7);
    std::normal_distribution<double> normal;
    const auto right_at = [&](std::int64_t row) {
        int right = 0;
        constexpr int balls = 4000;
        for (int ball = 0; ball < balls; ++ball) {
            const double mean = 10.0 + 0.1 * normal(random);
            const double yarn = static_cast<double>(row) * (1.0 + use * normal(random));
            double off = yarn - static_cast<double>(row);
            double upto = 0.0;
            while (upto + 10.0 <= static_cast<double>(row)) {
                off -= mean + 0.3 * normal(random) - 10.0;
                upto += 10.0;
            }
            right += std::abs(off) <= 1.0 ? 1 : 0;
        }
        return static_cast<double>(right) / balls;
    };
    EXPECT_GE(right_at(*known), 0.94);
    EXPECT_LT(right_at(2 * *known), 0.85);
    EXPECT_FALSE(unknown_after(run, std::vector<Length>(3, 1.0 * metre), units::Ratio(use), repeat,
                               {units::Ratio::from_value(0.95)}));
}

// A body of 1 m a round and a sleeve of 0.6 m: bands on the sleeve would be 1 / 0.6 as high. Of a
// repeat of 10 m the sleeve keeps 6 m; 30 rounds take 18 m, three repeats of 6 m.
TEST(Sequence, BandsAreMadeAlikeByCuttingYarnOut) {
    const joins::Runs runs = runs_of({{"teal", 5.0}, {"sand", 3.0}, {"foam", 2.0}});
    const AlikeBands sleeve = alike_bands(runs, 1.0 * metre, std::vector<Length>(30, 0.6 * metre));
    EXPECT_NEAR(sleeve.each_repeat / metre, 4.0, 1e-9);
    EXPECT_NEAR(sleeve.in_all / metre, 12.0, 1e-9);
    EXPECT_EQ(sleeve.joins, 9);
    const AlikeBands body = alike_bands(runs, 1.0 * metre, std::vector<Length>(30, 1.0 * metre));
    EXPECT_EQ(body.in_all, Length{});
}

TEST(Sequence, WarnsOfPoolingAndSaysByHowManyStitchesToDiffer) {
    project::Project project = tube(30);
    project.roles.front().colours = runs_of({{"teal", 0.5}, {"sand", 0.3}, {"foam", 0.2}});
    SequenceWish wish = sequence_wish(project);
    const SequencePlan plan = plan_sequence(project, wish);
    const SequencePiece& piece = plan.pieces.front();
    EXPECT_TRUE(piece.pools);  // a round takes just one repeat
    ASSERT_TRUE(piece.differ_by);
    const Length row = 0.05 * static_cast<double>(20 + *piece.differ_by) * metre;
    EXPECT_EQ(joins::pooling_of(row, 1.0 * metre, project::Worked::round).pattern,
              joins::Pattern::breaks_up);
}

TEST(Sequence, RefusesAColourThatIsNotThere) {
    const project::Project project = tube(20);
    SequenceWish wish = sequence_wish(project);
    wish.colour = "plum";
    EXPECT_THROW(static_cast<void>(plan_sequence(project, wish)), base::InputError);
    project::Project plain = tube(20);
    plain.roles.front().colours.clear();
    wish.colour.reset();
    EXPECT_THROW(static_cast<void>(plan_sequence(plain, wish)), base::InputError);
}

// One shape alone has no other piece to be like, however its rows widen.
TEST(Sequence, AShapeIsNotHeldAgainstItsOwnWidestRow) {
    project::Project project = tube(30);
    project.pieces.front().increase = project::PerSize<std::int64_t>(2);
    project.pieces.front().every = 2;
    const SequencePlan plan = plan_sequence(project, sequence_wish(project));
    EXPECT_EQ(plan.pieces.front().alike.in_all, Length{});
}

}  // namespace
