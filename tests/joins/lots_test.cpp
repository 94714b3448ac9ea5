// Lots in turn, pairs of skeins, stripes, odd balls and stop weights.

#include "skeinfall/joins/lots.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <optional>
#include <random>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/cover/lot_mixing.hpp"
#include "skeinfall/joins/stop_weights.hpp"
#include "skeinfall/joins/stripes.hpp"

#include "support/builders.hpp"
#include "support/joins.hpp"

namespace {

using namespace skeinfall;
using cover::carried_without_cutting;
using project::Worked;
using ::testing::ElementsAre;
using units::gram;
using units::Length;
using units::metre;
using units::Ratio;

// ascatteredcreative.com 2004 and cabinfeverknittingdesigns.blogspot.com 2013: which alternations
// find every yarn waiting at the right edge (arithmetic ours).
TEST(PublishedLots, AlternationsThatNeverNeedACut) {
    EXPECT_FALSE(carried_without_cutting({1, 1}, Worked::flat));
    EXPECT_TRUE(carried_without_cutting({2, 2}, Worked::flat));
    EXPECT_TRUE(carried_without_cutting({1, 1, 1}, Worked::flat));
    EXPECT_TRUE(carried_without_cutting({2, 2, 2}, Worked::flat));
    EXPECT_TRUE(carried_without_cutting({3, 3, 3}, Worked::flat));
    EXPECT_FALSE(carried_without_cutting({1, 1, 1, 1}, Worked::flat));
    for (const joins::Turns& turns : {joins::Turns{1, 1}, {1, 1, 1, 1}, {3, 2}})
        EXPECT_TRUE(carried_without_cutting(turns, Worked::round));
    EXPECT_THAT(joins::turns_without_cuts(2, Worked::flat),
                ElementsAre(ElementsAre(2, 2), ElementsAre(4, 4)));
    EXPECT_THAT(joins::turns_without_cuts(3, Worked::flat, 2),
                ElementsAre(ElementsAre(1, 1, 1), ElementsAre(2, 2, 2)));
}

/// Walks row by row and looks where each resting yarn is.
bool waits_at_hand(const joins::Turns& turns) {
    std::vector<int> side(turns.size(), 0);
    int now = 0;  // the edge at which the next row begins
    for (int round = 0; round < 4; ++round)
        for (std::size_t yarn = 0; yarn < turns.size(); ++yarn) {
            if (round > 0 && side[yarn] != now) return false;
            if (turns[yarn] % 2 == 1) now = 1 - now;
            side[yarn] = now;
        }
    return true;
}

TEST(Lots, TheParityRuleIsWhatTheEdgesShow) {
    for (std::int64_t a = 1; a <= 4; ++a)
        for (std::int64_t b = 1; b <= 4; ++b)
            for (std::int64_t c = 0; c <= 4; ++c) {
                const joins::Turns turns = c == 0 ? joins::Turns{a, b} : joins::Turns{a, b, c};
                EXPECT_EQ(carried_without_cutting(turns, Worked::flat), waits_at_hand(turns))
                    << a << b << c;
            }
}

// schoolhousepress.com, "dealing with dye-lots": alternate for about an inch before the first lot
// ends; at 7 rounds to the inch 3 to 4 rounds' worth must be held back (arithmetic ours).
TEST(PublishedLots, TheTransitionBeginsBeforeTheLotEnds) {
    const std::vector<Length> rounds(60, 5.0 * metre);
    const auto fade = joins::fade(rounds, 150.0 * metre, 7, Worked::round);
    ASSERT_TRUE(fade);
    EXPECT_NEAR(fade->held / metre, 20.0, 1e-9) << "four rounds";
    EXPECT_EQ(fade->begin, 27) << "30 rounds in all: 26 alone, 4 of the 8 alternated";
    EXPECT_EQ(fade->end, 34);
    const auto flat = joins::fade(rounds, 150.0 * metre, 7, Worked::flat);
    ASSERT_TRUE(flat);
    EXPECT_THAT(flat->turns, ElementsAre(2, 2));
    EXPECT_EQ(flat->begin % 2, 1) << "at the right edge";
    EXPECT_FALSE(joins::fade(rounds, 10.0 * metre, 7, Worked::round));
}

// Worked example of ours: rows of 3.62 m, 150 m hold 41 of them, so 20 turns of two; 260 m hold 71.
TEST(ModelLots, UnequalStocks) {
    const std::vector<Length> rows(200, 3.62 * metre);
    const auto flat = joins::work_in_turns(rows, {2, 2}, {260.0 * metre, 150.0 * metre});
    EXPECT_EQ(flat.alternated, 82) << "20 turns of each, and one more of the first";
    EXPECT_EQ(flat.then, 0U);
    EXPECT_EQ(flat.reached, 111) << "71 of the first, 40 of the second";
    const auto round = joins::work_in_turns(rows, {1, 1}, {260.0 * metre, 150.0 * metre});
    EXPECT_EQ(round.alternated, 83);
    EXPECT_EQ(round.reached, 112);
}

// Worked example of ours; and all ways to pair them.
TEST(ModelLots, PairsOfSkeins) {
    const auto sum_of = [](const std::vector<Length>& lengths) {
        Length sum{};
        for (const joins::Pair& pair : joins::pair_skeins(lengths)) sum += lengths[pair.shorter];
        return sum / metre;
    };
    std::vector<Length> lengths;
    for (const double length : {64, 198, 210, 120, 205, 190}) lengths.push_back(length * metre);
    EXPECT_NEAR(sum_of(lengths), 459.0, 1e-9);
    std::vector<std::size_t> order(6);
    std::iota(order.begin(), order.end(), std::size_t{0});
    double best = 0.0;
    do {
        Length sum{};
        for (std::size_t i = 0; i < 6; i += 2)
            sum += std::min(lengths[order[i]], lengths[order[i + 1]]);
        best = std::max<double>(best, sum / metre);
    } while (std::next_permutation(order.begin(), order.end()));
    EXPECT_NEAR(best, 459.0, 1e-9);
}

TEST(Lots, MatchingPartsGetOneLot) {
    const std::vector<joins::MatchedPart> parts{{"left sleeve", "sleeves", 60.0 * metre},
                                                {"right sleeve", "sleeves", 60.0 * metre},
                                                {"back", "back", 150.0 * metre},
                                                {"hood", "hood", 90.0 * metre}};
    const auto found = joins::match_parts(parts, {{"A", 200.0 * metre}, {"B", 220.0 * metre}});
    ASSERT_EQ(found.size(), 3U);
    EXPECT_EQ(found[0].match, "back");
    EXPECT_EQ(found[0].lot, "A");
    EXPECT_EQ(found[1].match, "sleeves");
    EXPECT_EQ(found[1].lot, "B");
    EXPECT_EQ(found[2].lot, "B") << "120 + 90 of 220";
    const auto tight = joins::match_parts(parts, {{"A", 155.0 * metre}, {"B", 125.0 * metre}});
    EXPECT_EQ(tight[0].lot, "A");
    EXPECT_EQ(tight[1].lot, "B");
    EXPECT_FALSE(tight[2].lot);
}

/// What the need counts of stripes in two yarns.
joins::Ends ends_of_stripes(project::Project scarf, std::int64_t rows) {
    scarf.roles.clear();
    for (const char* id : {"MC", "CC"}) {
        project::Role role;
        role.id = id;
        role.rate = units::YarnPerStitch(0.05 * metre / units::stitch);
        scarf.roles.push_back(role);
    }
    scarf.pieces[0].role.clear();
    scarf.pieces[0].stripes = {{"MC", rows}, {"CC", rows}};
    return joins::stripe_ends(need::need_of(scarf, 0), scarf.tail);
}

// Worked example of ours: rows of .35 cm: gaps of up to 7 rows are carried (2.5 cm); worked flat
// only even gaps wait at the right edge.
TEST(ModelStripes, CarriedOrCut) {
    const auto ends_of = [](std::int64_t rows, Worked worked) {
        project::Project scarf = support::rectangle(20, 4 * rows);
        scarf.gauge.rows = 1.0 * units::row / (0.0035 * metre);
        scarf.pieces[0].worked = worked;
        return ends_of_stripes(scarf, rows);
    };
    const auto carried = ends_of(6, Worked::flat);
    EXPECT_EQ(carried.carried, 2);
    EXPECT_EQ(carried.cut, 4) << "each colour begins once";
    EXPECT_NEAR(carried.changes[2].strand / metre, 6 * 0.0035 * 1.2, 1e-12);
    EXPECT_EQ(ends_of(8, Worked::flat).carried, 0) << "2.8 cm";
    EXPECT_EQ(ends_of(7, Worked::flat).carried, 0) << "2.45 cm, but at the other edge";
    EXPECT_EQ(ends_of(7, Worked::round).carried, 2);
    EXPECT_TRUE(carried.changes[1].right_edge);
    EXPECT_FALSE(ends_of(7, Worked::flat).changes[1].right_edge);
}

// The piece's own limit and its own gauge count: 4 rows of .7 cm are 2.8 cm.
TEST(Stripes, APieceSaysHowFarItsYarnIsCarried) {
    project::Project scarf = support::rectangle(20, 40);
    scarf.gauge.rows = 1.0 * units::row / (0.0035 * metre);
    EXPECT_EQ(ends_of_stripes(scarf, 4).carried, 8);
    scarf.pieces[0].gauge = scarf.gauge;
    scarf.pieces[0].gauge->rows = 1.0 * units::row / (0.007 * metre);
    EXPECT_EQ(ends_of_stripes(scarf, 4).carried, 0);
    scarf.pieces[0].carry_at_most = 0.03 * metre;
    EXPECT_EQ(ends_of_stripes(scarf, 4).carried, 8);
    scarf.pieces[0].carry_at_most = Length{};
    EXPECT_EQ(ends_of_stripes(scarf, 2).cut, 40) << "nothing is carried at all";
}

// creatingbusylizzy.blogspot.com 2012: two ends of 6 in at every change: 30 changes, 10 yd
// (arithmetic ours).
TEST(PublishedStripes, EndsAddUp) {
    project::Project scarf = support::rectangle(20, 300);
    scarf.tail = 6.0 * units::inch;
    scarf.gauge.rows = 1.0 * units::row / (0.01 * metre);
    const auto ends = ends_of_stripes(scarf, 10);
    EXPECT_EQ(ends.cut, 60);
    EXPECT_NEAR(ends.tails / units::yard, 10.0, 1e-9);
}

// louisetilbrookdesigns.net 2017, "maths fail": corner to corner from 20 g balls, a stripe's yarn
// grows with the side; 15 g at 50 cm reaches 20 g at 66.7 cm (arithmetic ours). Stripes of 1 cm.
TEST(PublishedStripes, AMiniSkeinAStripe) {
    std::vector<Length> stripes;
    for (int side = 1; side <= 80; ++side) stripes.push_back(15.0 / 50.0 * side * metre);
    std::vector<joins::Ball> balls;
    for (int i = 0; i < 80; ++i) balls.push_back(support::ball("m" + std::to_string(i), 20.0));
    const auto found = joins::odd_balls(stripes, balls, Length{});
    EXPECT_EQ(found.covered, 66U) << "66.7 cm";
    EXPECT_TRUE(found.ball[65]);
    EXPECT_FALSE(found.ball[66]);
}

/// Two rows of a metre each, in stripes of one row.
joins::StripeBalls two_stripes(const std::vector<joins::Ball>& balls, double relative) {
    need::RoleNeed role;
    role.role = "MC";
    role.length = {2.0 * metre, 2.0 * relative * metre};
    std::vector<need::Step> steps(2);
    for (std::size_t i = 0; i < steps.size(); ++i) {
        steps[i].role = "MC";
        steps[i].row = static_cast<std::int64_t>(i) + 1;
        steps[i].yarn = 1.0 * metre;
    }
    return joins::stripe_balls(role, steps, balls, 1, Length{});
}

// A ball that holds just what a stripe takes lasts as often as not. What is common to both stripes
// makes them last together: one half, not one quarter (arithmetic ours).
TEST(Stripes, ABallIsNoneForCertainByItsLikelyLengthAlone) {
    const auto just = two_stripes({support::ball("a", 1.0), support::ball("b", 1.0)}, 0.05);
    EXPECT_EQ(just.odd.covered, 2U);
    EXPECT_NEAR(just.chances[0].value.value(), 0.5, 0.09);
    EXPECT_NEAR(just.lasts.value.value(), 0.5, 0.09);
    // Larger ones are there: they are taken.
    const auto larger = two_stripes({support::ball("a", 1.0), support::ball("b", 1.0),
                                     support::ball("c", 1.2), support::ball("d", 1.2)},
                                    0.05);
    EXPECT_GT(larger.lasts.value.value(), 0.99);
    for (const auto& ball : larger.odd.ball) EXPECT_GE(ball.value_or(0), 2U);
    EXPECT_EQ(two_stripes({support::ball("a", 1.0)}, 0.05).lasts.value.value(), 0.0);
}

TEST(Stripes, OddBallsCoverAsManyStripesAsAnyChoice) {
    constexpr unsigned seed = 60'401;
    std::mt19937 random(seed);
    for (int number = 0; number < 500; ++number) {
        SCOPED_TRACE("seed " + std::to_string(seed) + ", instance " + std::to_string(number));
        std::vector<Length> stripes;
        std::vector<joins::Ball> balls;
        for (unsigned i = 0; i < 1 + random() % 5; ++i)
            stripes.push_back(static_cast<double>(1 + random() % 9) * metre);
        for (unsigned i = 0; i < 1 + random() % 5; ++i)
            balls.push_back(support::ball("b", static_cast<double>(1 + random() % 11)));
        const auto found = joins::odd_balls(stripes, balls, 0.5 * metre);
        std::vector<std::size_t> order(balls.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::size_t best = 0;
        do {
            std::size_t taken = 0;
            std::vector<bool> done(stripes.size(), false);
            for (const std::size_t b : order)
                for (std::size_t s = 0; s < stripes.size(); ++s)
                    if (!done[s] && stripes[s] + 1.0 * metre <= balls[b].length.centre) {
                        done[s] = true;
                        ++taken;
                        break;
                    }
            best = std::max(best, taken);
        } while (std::next_permutation(order.begin(), order.end()));
        ASSERT_GE(found.covered, best);
        std::set<std::size_t> used;
        for (std::size_t s = 0; s < stripes.size(); ++s) {
            if (!found.ball[s]) continue;
            ASSERT_TRUE(used.insert(*found.ball[s]).second);
            ASSERT_LE(stripes[s] + 1.0 * metre, balls[*found.ball[s]].length.centre);
        }
        ASSERT_EQ(used.size(), found.covered);
    }
}

// Worked example of ours: T .47619 g/m, row 3.62 m, bind-off 5.43 m, tail .30 m, u 4 %.
TEST(ModelStopWeights, RoundedUpToTheScale) {
    const units::Grist grist = 210.0 * metre / (100.0 * gram);
    const auto at = [&](double yarn, double step) {
        joins::Scale scale;
        scale.step = step * gram;
        return joins::stop_weight(yarn * metre, Ratio(0.04), 0.3 * metre, grist, scale,
                                  {Ratio(0.95)}) /
               gram;
    };
    EXPECT_NEAR(at(3.62 + 5.43, 1.0), 6.0, 1e-9);
    EXPECT_NEAR(at(3.62 + 5.43, 0.1), 4.8, 1e-9);
    EXPECT_NEAR(at(7.24 + 10.86, 1.0), 10.0, 1e-9) << "9.829";
}

TEST(StopWeights, TheSlipCoversJoinsAndFinish) {
    const auto work = support::rows_of(std::vector<double>(20, 10.0));
    need::RoleNeed role = work.need;
    role.length.spread = 0.03 * role.length.centre;
    const joins::Rules rules = support::rules_with_tail(0.15);
    const auto plan = joins::plan_joins(
        role, work.steps, {support::ball("a", 110, 2), support::ball("b", 120, 2)}, rules);
    joins::Scale scale;
    scale.tare = 12.0 * gram;
    const auto lines =
        joins::stop_weights(plan, role, 200.0 * metre / (100.0 * gram), scale, rules);
    ASSERT_FALSE(lines.empty());
    EXPECT_EQ(lines.back().steps_done, 19U);
    std::size_t before = 0;
    for (const joins::StopWeight& line : lines) {
        EXPECT_GT(line.next / gram, 12.0 + 5.0) << "the row itself is 5 g, the tare 12 g";
        EXPECT_EQ(std::fmod(line.next / gram, 1.0), 0.0);
        EXPECT_GE(line.steps_done, before);
        before = line.steps_done;
        if (line.stretch == 1) {
            EXPECT_GE(line.rest, line.next);
        }
    }
    EXPECT_EQ(lines.front().stretch, 0U);
}

// A row without a weight to finish by is one after which a maker does not know whether she can.
TEST(StopWeights, EveryLineOfTheLastSkeinSaysWhatTheRestNeeds) {
    const auto work = support::rows_of(std::vector<double>(300, 1.0));
    need::RoleNeed role = work.need;
    role.length.spread = 0.05 * role.length.centre;
    const joins::Rules rules = support::rules_with_tail(0.15);
    const auto plan = joins::plan_joins(
        role, work.steps, {support::ball("a", 200, 4), support::ball("b", 110, 3)}, rules);
    ASSERT_TRUE(plan.finishes);
    for (const double step : {1.0, 0.1}) {
        joins::Scale scale;
        scale.step = step * gram;
        std::optional<units::Mass> before;
        for (const joins::StopWeight& line :
             joins::stop_weights(plan, role, 200.0 * metre / (100.0 * gram), scale, rules)) {
            if (line.stretch != 1) continue;
            EXPECT_GT(line.rest / gram, 0.0) << line.steps_done << " to " << line.until;
            if (before) {
                EXPECT_LE(line.rest / gram, *before / gram);
            }
            before = line.rest;
        }
        EXPECT_TRUE(before);
    }
}

// Three stripes and two balls: work begins with the first, though it takes a little more.
TEST(Stripes, BallsGoToTheFirstStripesWhereTheyCan) {
    const std::vector<Length> stripes{2.2 * metre, 2.0 * metre, 2.0 * metre};
    const auto found =
        joins::odd_balls(stripes, {support::ball("a", 9), support::ball("b", 9)}, Length{});
    EXPECT_EQ(found.covered, 2U);
    EXPECT_TRUE(found.ball[0]);
    EXPECT_TRUE(found.ball[1]);
    EXPECT_FALSE(found.ball[2]);
    EXPECT_NEAR(found.missing / metre, 2.0, 1e-9);
    // Where the first does not fit, others are worked.
    const auto short_of =
        joins::odd_balls(stripes, {support::ball("a", 2.1), support::ball("b", 2.1)}, Length{});
    EXPECT_EQ(short_of.covered, 2U);
    EXPECT_FALSE(short_of.ball[0]);
}

// Although the first may end some rows sooner, the last is in nobody's hands before it is joined.
TEST(StopWeights, ASkeinIsWeighedAfterItWasJoined) {
    const auto work = support::rows_of(std::vector<double>(40, 10.0));
    need::RoleNeed role = work.need;
    role.length.spread = 0.2 * role.length.centre;
    const joins::Rules rules = support::rules_with_tail(0.15);
    const auto plan = joins::plan_joins(
        role, work.steps, {support::ball("a", 220, 2), support::ball("b", 260, 2)}, rules);
    ASSERT_EQ(plan.stretches.size(), 2U);
    ASSERT_LT(plan.stretches[0].weigh_from + 1, plan.stretches[0].to.step);
    for (const joins::StopWeight& line :
         joins::stop_weights(plan, role, 200.0 * metre / (100.0 * gram), joins::Scale{}, rules))
        if (line.stretch == 1) {
            EXPECT_GT(line.steps_done, plan.stretches[0].to.step);
        }
}

// A maker who begins to weigh at the safe row runs out unwarned one time in twenty: weighing begins
// where a skein all but surely gets, and ends where it all but surely does not.
TEST(StopWeights, FromWhereASkeinSurelyGetsAndTheLastSkeinFromItsOwn) {
    const auto work = support::rows_of(std::vector<double>(300, 1.0));
    need::RoleNeed role = work.need;
    role.length.spread = 0.05 * role.length.centre;
    const joins::Rules rules = support::rules_with_tail(0.15);
    const auto plan = joins::plan_joins(
        role, work.steps, {support::ball("a", 200, 4), support::ball("b", 110, 3)}, rules);
    ASSERT_TRUE(plan.finishes);
    ASSERT_GT(plan.stretches[0].latest, plan.stretches[0].earliest + 20);
    ASSERT_LT(plan.stretches[1].earliest, 294U);
    const auto lines =
        joins::stop_weights(plan, role, 200.0 * metre / (100.0 * gram), joins::Scale{}, rules);
    for (const std::size_t stretch : {0U, 1U}) {
        const auto first =
            std::find_if(lines.begin(), lines.end(),
                         [&](const joins::StopWeight& line) { return line.stretch == stretch; });
        ASSERT_NE(first, lines.end());
        EXPECT_EQ(first->steps_done, plan.stretches[stretch].weigh_from);
        EXPECT_LT(first->steps_done, plan.stretches[stretch].earliest);
        std::size_t told = first->steps_done - 1;
        for (auto line = first; line != lines.end() && line->stretch == stretch; ++line) {
            EXPECT_EQ(line->steps_done, told + 1) << "every row";
            told = line->until;
        }
        EXPECT_EQ(told,
                  stretch == 0 ? std::min<std::size_t>(plan.stretches[0].weigh_to, 299U) : 299U);
    }
    EXPECT_LE(lines.size(), 30U) << "rows with the same weight are one line";
}

// The rows of a striped yarn have others between them: with one weight they are one line all the
// same.
TEST(StopWeights, RowsOfAStripedYarnAreOneLineToo) {
    const auto lines_of = [](std::int64_t apart) {
        auto work = support::rows_of(std::vector<double>(100, 1.0));
        for (need::Step& step : work.steps) step.row *= apart;
        need::RoleNeed role = work.need;
        role.length.spread = 0.05 * role.length.centre;
        const joins::Rules rules = support::rules_with_tail(0.15);
        const auto plan = joins::plan_joins(
            role, work.steps, {support::ball("a", 60, 2), support::ball("b", 60, 2)}, rules);
        return joins::stop_weights(plan, role, 200.0 * metre / (100.0 * gram), joins::Scale{},
                                   rules);
    };
    const auto plain = lines_of(1);
    const auto striped = lines_of(4);
    ASSERT_EQ(striped.size(), plain.size());
    for (std::size_t i = 0; i < plain.size(); ++i) {
        EXPECT_EQ(striped[i].steps_done, plain[i].steps_done);
        EXPECT_EQ(striped[i].until, plain[i].until);
        EXPECT_EQ(striped[i].next, plain[i].next);
    }
    EXPECT_GT(plain.front().until, plain.front().steps_done + 3);
}

// actechniques.co.uk 2020: a loose knot half way along says nothing when the finish takes more
// than the next rows: two rows of 3 widths, then a row and a bind-off of 9 together: the knot
// belongs at 9/15 from the far end (arithmetic ours).
TEST(PublishedStopWeights, WhereTheKnotBelongs) {
    EXPECT_NEAR(joins::knot_share(6.0 * metre, 9.0 * metre).value(), 0.6, 1e-12);
    EXPECT_NEAR(joins::knot_share(6.0 * metre, 6.0 * metre).value(), 0.5, 1e-12);
}

// A ball of L 209.7 m, u 4.242 m, rows of 3.62 m, rate known to 3 %, rows to 4 % each (models
// E6): how often it reaches the row called safe.
TEST(MonteCarloJoins, TheSafeRowIsSafeAndNotTooCautious) {
    constexpr unsigned seed = 60'402;
    constexpr int runs = 20'000;
    auto work = support::rows_of(std::vector<double>(100, 3.62));
    work.need.length.spread = work.need.length.centre * std::hypot(0.03, 0.04 / std::sqrt(57.93));
    joins::Rules rules = support::rules_with_tail(0.0);
    const auto stretch =
        joins::plan_joins(work.need, work.steps,
                          {support::ball("a", 209.7, 4.242), support::ball("b", 209.7, 4.242)},
                          rules)
            .stretches.at(0);
    std::mt19937 random(seed);
    std::normal_distribution<double> normal;
    int safe = 0;
    int two_more = 0;
    int past_latest = 0;
    std::vector<std::size_t> reached;
    for (int run = 0; run < runs; ++run) {
        double left = 209.7 + 4.242 * normal(random);
        const double rate = 1.0 + 0.03 * normal(random);
        std::size_t rows = 0;
        while (true) {
            left -= 3.62 * rate * (1.0 + 0.04 * normal(random));
            if (left < 0.0) break;
            ++rows;
        }
        safe += rows >= stretch.earliest ? 1 : 0;
        two_more += rows >= stretch.earliest + 2 ? 1 : 0;
        past_latest += rows > stretch.latest ? 1 : 0;
        reached.push_back(rows);
    }
    // The interval beside that of one who knows how the rows really fall.
    std::sort(reached.begin(), reached.end());
    const auto ideal = [&](double share) {
        return static_cast<double>(reached[static_cast<std::size_t>(share * runs)]);
    };
    EXPECT_LE(static_cast<double>(stretch.latest - stretch.earliest),
              1.5 * (ideal(0.95) - ideal(0.05)));
    SCOPED_TRACE("seed " + std::to_string(seed));
    const double slack = 3.0 * std::sqrt(0.95 * 0.05 / runs);
    EXPECT_GE(static_cast<double>(safe) / runs, 0.95 - slack);
    EXPECT_LT(static_cast<double>(two_more) / runs, 0.95);
    EXPECT_LE(static_cast<double>(past_latest) / runs, 0.05 + slack);
}

}  // namespace
