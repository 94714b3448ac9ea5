// Colour-changing yarn: worked examples, published cases, and a plan joined in phase.

#include "skeinfall/joins/colour.hpp"

#include <cmath>
#include <cstdint>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/joins/plan.hpp"

#include "support/joins.hpp"

namespace {

using namespace skeinfall;
using joins::Pattern;
using project::Worked;
using ::testing::Contains;
using ::testing::ElementsAre;
using units::centimetre;
using units::Length;
using units::metre;

joins::Runs runs_of(const std::vector<double>& metres) {
    joins::Runs out;
    for (std::size_t i = 0; i < metres.size(); ++i)
        out.push_back({"colour " + std::to_string(i), metres[i] * metre, ""});
    return out;
}

// Worked example of ours.
TEST(ModelColour, WindOff) {
    EXPECT_NEAR(joins::wind_off(7.35 * metre, 2.1 * metre, 0.15 * metre, 12.0 * metre) / metre,
                5.10, 1e-9);
    EXPECT_NEAR(joins::wind_off(1.0 * metre, 9.0 * metre, 0.15 * metre, 12.0 * metre) / metre, 3.85,
                1e-9);
}

// Worked example of ours: two alike pieces of 95 m from one ball.
TEST(ModelColour, PairFromOneBall) {
    const auto pair = joins::pair_from_one(95.0 * metre, 0.3 * metre, 12.0 * metre);
    EXPECT_NEAR(pair.wind_off / metre, 0.70, 1e-9);
    EXPECT_NEAR(pair.total / metre, 191.3, 1e-9);
}

TEST(Colour, PhasesSnapToWholeRepeats) {
    const Length repeat = 0.1 * metre;
    Length at{};
    for (int i = 0; i < 1000; ++i) at += 0.1 * metre;
    EXPECT_EQ(joins::phase_of(at, repeat), Length{});
    EXPECT_NEAR(joins::phase_of(-0.03 * metre, repeat) / metre, 0.07, 1e-12);
}

// slisen.blogspot.com 2014, "match those striped socks": cut at the same colour point nearest to
// half (arithmetic ours): at most half a repeat is lost on each sock.
TEST(PublishedColour, TheLargestEqualPair) {
    for (int total = 40; total <= 420; ++total) {
        const Length all = static_cast<double>(total) * metre;
        const auto pair = joins::largest_pair(all, 0.3 * metre, 9.0 * metre);
        ASSERT_LE(all / 2.0 - 0.3 * metre - pair.each, (4.5 + 1e-9) * metre) << total;
        const auto takes = joins::pair_from_one(pair.each, 0.3 * metre, 9.0 * metre);
        ASSERT_LE(takes.total / metre, total + 1e-9);
        // A little more for each would not fit.
        const auto more = joins::pair_from_one(pair.each + 0.01 * metre, 0.3 * metre, 9.0 * metre);
        ASSERT_GT(more.total / metre, total) << total;
    }
}

// A published leaflet asks to join every ball where it matches the last colour: half a repeat a
// join must be bought (arithmetic ours; cdn.shopify.com, CAC0502-029057M).
TEST(PublishedColour, JoiningInPhaseTakesHalfARepeat) {
    const auto off = joins::wind_off_for(3, 8.0 * metre);
    EXPECT_NEAR(off.expected / metre, 12.0, 1e-12);
    EXPECT_NEAR(off.at_most / metre, 24.0, 1e-12);
}

// pennylane.blogspot.com 2006: the third ball was wound the other way. Rewound, its inner end
// comes first; rewinding twice changes nothing.
TEST(PublishedColour, ABallThatRunsBackwards) {
    const Length repeat = 9.0 * metre;
    const Length phase = joins::phase_when_rewound(2.0 * metre, 100.0 * metre, repeat);
    EXPECT_NEAR(phase / metre, 1.0, 1e-9) << "2 - 100 + 11 repeats of 9";
    EXPECT_NEAR(joins::phase_of(phase + 100.0 * metre, repeat) / metre, 2.0, 1e-9);
}

// Worked example of ours: P 12, c .8: 15 rows a repeat; a run of 3 m: 3.75 rows, 1.3125 cm.
TEST(ModelColour, StripesOfEvenRows) {
    const auto stripes = joins::colour_stripes(
        runs_of({3, 3, 3, 3}), Length{}, std::vector<Length>(30, 0.8 * metre), 0.35 * centimetre);
    ASSERT_EQ(stripes.size(), 8U);
    for (const auto& stripe : stripes) {
        EXPECT_NEAR((stripe.to - stripe.from) / units::row, 3.75, 1e-9);
        EXPECT_NEAR(stripe.height / centimetre, 1.3125, 1e-9);
    }
    EXPECT_NEAR(stripes[4].from / units::row, 15.0, 1e-9);
    EXPECT_EQ(stripes[4].run, 0U);
}

// The same with growing rows .10 + .04 r: 9.61, 4.97, 3.85, 3.25, 2.87, 2.60 rows. The model
// takes the use as continuous; a row at a time differs by less than a tenth of a row.
TEST(ModelColour, StripesOfGrowingRows) {
    std::vector<Length> rows;
    for (int r = 1; r <= 40; ++r) rows.push_back((0.10 + 0.04 * r) * metre);
    const auto stripes = joins::colour_stripes(runs_of({3, 3}), Length{}, rows, 0.35 * centimetre);
    const std::vector<double> expected{9.61, 4.97, 3.85, 3.25, 2.87, 2.60};
    for (std::size_t i = 0; i < expected.size(); ++i)
        EXPECT_NEAR((stripes[i].to - stripes[i].from) / units::row, expected[i], 0.1) << i;
}

// almostrandom.com 2006: 72 stitches where 18 take 8 in: 32 in a row, 128 in for a 4-row stripe.
TEST(PublishedColour, RowsOfARun) {
    const Length row = 72.0 / 18.0 * 8.0 * units::inch;
    EXPECT_NEAR(row / units::inch, 32.0, 1e-12);
    const auto stripes =
        joins::colour_stripes({{"a", 128.0 * units::inch, ""}, {"b", 128.0 * units::inch, ""}},
                              Length{}, std::vector<Length>(8, row), centimetre);
    ASSERT_EQ(stripes.size(), 2U);
    EXPECT_NEAR(stripes[0].to / units::row, 4.0, 1e-9);
}

/// Rows of so many stitches that take a metre each.
std::vector<joins::ColourRow> colour_rows_of(const std::vector<std::int64_t>& widths) {
    std::vector<joins::ColourRow> out;
    for (const std::int64_t width : widths)
        out.push_back({width, static_cast<double>(width) * metre});
    return out;
}

/// A repeat of so many stitches, each its own run, so that a run's number is the phase.
joins::Fabric counted(std::int64_t repeat, const std::vector<std::int64_t>& widths, Worked worked) {
    joins::Runs runs;
    for (std::int64_t i = 0; i < repeat; ++i) runs.push_back({"s", metre, ""});
    return joins::fabric_of(runs, Length{}, colour_rows_of(widths), worked);
}

int at(const joins::Fabric& fabric, std::size_t row, std::size_t stitch) {
    return fabric.run[fabric.row_begin[row] + stitch];
}

// Worked example of ours (own simulation): repeat 34, rows of 35: row 2 less row 0 is 2
// everywhere, row 0 plus row 1 is 69 mod 34 = 1.
TEST(ModelColour, PoolingBySimulation) {
    const auto flat = counted(34, std::vector<std::int64_t>(40, 35), Worked::flat);
    for (std::size_t j = 0; j < 35; ++j) {
        EXPECT_EQ((at(flat, 2, j) - at(flat, 0, j) + 34) % 34, 2);
        EXPECT_EQ((at(flat, 0, j) + at(flat, 1, j)) % 34, 1);
        EXPECT_EQ(at(flat, 34, j), at(flat, 0, j)) << "the period is 34 rows";
    }
    const auto shift = [](double row, double repeat, Worked worked) {
        return joins::pooling_of(row * metre, repeat * metre, worked).shift / metre;
    };
    EXPECT_NEAR(shift(34, 34, Worked::flat), 0.0, 1e-9);
    EXPECT_NEAR(shift(17, 34, Worked::flat), 0.0, 1e-9);
    EXPECT_NEAR(shift(35, 34, Worked::flat), 2.0, 1e-9);
    EXPECT_NEAR(shift(36, 34, Worked::flat), 4.0, 1e-9);
    EXPECT_NEAR(shift(21, 40, Worked::flat), 2.0, 1e-9);
    EXPECT_NEAR(shift(35, 34, Worked::round), 1.0, 1e-9);
}

TEST(ModelColour, PatternsByTheShift) {
    const auto pattern = [](double row, Worked worked) {
        return joins::pooling_of(row * metre, 100.0 * metre, worked).pattern;
    };
    EXPECT_EQ(pattern(50, Worked::flat), Pattern::stacks);
    EXPECT_EQ(pattern(52, Worked::flat), Pattern::diagonals);
    EXPECT_EQ(pattern(62, Worked::flat), Pattern::breaks_up);
    EXPECT_EQ(pattern(75, Worked::flat), Pattern::alternates);
    EXPECT_EQ(pattern(100, Worked::round), Pattern::stacks);
    EXPECT_EQ(pattern(110, Worked::round), Pattern::diagonals);
}

// kristendia.blogspot.com 2025, "planned pooling": repeat 18, rows of 17 shifted by two; one
// stitch each second row needs rows of 17 and 18 in turn (her own fix; arithmetic ours). With an
// even repeat no single width gives an odd shift.
TEST(PublishedColour, WhyTheArgyleMovedTwoStitches) {
    EXPECT_NEAR(joins::pooling_of(17.0 * metre, 18.0 * metre, Worked::flat).shift / metre, -2.0,
                1e-9);
    const auto one = joins::widths_for(18, 1, Worked::flat, 17);
    EXPECT_THAT(one, Contains(ElementsAre(17, 18)));
    for (const auto& widths : one) EXPECT_EQ(widths.size(), 2U);
    EXPECT_THAT(joins::widths_for(18, 2, Worked::flat, 17), Contains(ElementsAre(17)));
    EXPECT_THAT(joins::widths_for(18, 1, Worked::round, 17), Contains(ElementsAre(17)));
    EXPECT_THAT(joins::widths_for(18, 1, Worked::round, 17), Contains(ElementsAre(19)));
    // The simulation agrees: rows of 17 and 18 in turn, 35 stitches on.
    std::vector<std::int64_t> widths;
    for (int i = 0; i < 10; ++i) widths.insert(widths.end(), {17, 18});
    const auto fabric = counted(18, widths, Worked::flat);
    for (std::size_t j = 0; j < 17; ++j)
        EXPECT_EQ((at(fabric, 0, j) - at(fabric, 2, j) + 18) % 18, 1);
}

// Worked example of ours: P 12, segment 3, c .8 m, 2 %: a quarter segment after 47 rows (46.9).
TEST(ModelColour, DriftMustBeLookedAt) {
    EXPECT_EQ(joins::rows_until_drift(3.0 * metre, 0.8 * metre, units::Ratio(0.02)), 46);
}

TEST(Colour, TheFabricBeginsAtItsPhaseAndTurns) {
    const auto fabric =
        joins::fabric_of(runs_of({2, 3}), 1.0 * metre, colour_rows_of({4, 4}), Worked::flat);
    EXPECT_THAT(fabric.run, ElementsAre(0, 1, 1, 1, /* back */ 1, 1, 0, 0));
    const auto round =
        joins::fabric_of(runs_of({2, 3}), 1.0 * metre, colour_rows_of({4, 4}), Worked::round);
    EXPECT_THAT(round.run, ElementsAre(0, 1, 1, 1, 0, 0, 1, 1));
}

// Every join of a plan in phase goes on in the colour where the old yarn ended.
TEST(Colour, APlanInPhaseGoesOnInOrder) {
    const auto work = support::rows_of(std::vector<double>(30, 5.0));
    joins::Rules rules = support::rules_with_tail(0.15);
    rules.colour_repeat = 9.0 * metre;
    std::vector<joins::Ball> balls{support::ball("a", 60), support::ball("b", 60),
                                   support::ball("c", 66)};
    balls[0].phase = 2.0 * metre;
    balls[1].phase = 7.5 * metre;
    balls[2].phase = 0.5 * metre;
    const joins::JoinPlan plan = joins::plan_joins(work.need, work.steps, balls, rules);
    ASSERT_TRUE(plan.finishes);
    Length done{};
    const Length begin = *balls[0].phase + 0.15 * metre;
    for (const joins::Stretch& stretch : plan.stretches) {
        EXPECT_GE(stretch.left / metre, -1e-9);
        const Length first = *stretch.ball.phase + stretch.wound_off + 0.15 * metre;
        const Length off = joins::phase_of(begin + done - first + 0.001 * metre, 9.0 * metre);
        EXPECT_LE(off / metre, 0.002) << stretch.ball.id;
        done += stretch.used;
    }
}

// A free leaflet (CAC0502-029057M.pdf, 2020): each new ball begins where the old colour ended. The
// plan counts half a repeat for every ball whose beginning is not known (arithmetic ours), but
// not for a ball that holds no whole repeat.
TEST(PublishedColour, AnUnknownBeginningCostsHalfARepeat) {
    const auto work = support::rows_of(std::vector<double>(30, 5.0));
    joins::Rules rules = support::rules_with_tail(0.15);
    rules.colour_repeat = 9.0 * metre;
    const std::vector<joins::Ball> balls{support::ball("a", 60.3), support::ball("b", 60.3),
                                         support::ball("c", 60.3)};
    const joins::JoinPlan plan = joins::plan_joins(work.need, work.steps, balls, rules);
    ASSERT_TRUE(plan.finishes);
    EXPECT_NEAR(plan.stretches.at(0).wound_off / metre, 0.0, 1e-9);
    EXPECT_NEAR(plan.stretches.at(1).wound_off / metre, 4.5, 1e-9);
    EXPECT_EQ(plan.stretches[1].to.step, 23U) << "12 rows, then (60 - 4.5) / 5";
    rules.colour_repeat = 70.0 * metre;
    EXPECT_NEAR(
        joins::plan_joins(work.need, work.steps, balls, rules).stretches.at(1).wound_off / metre,
        0.0, 1e-9);
}

}  // namespace
