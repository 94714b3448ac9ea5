// Join plans with distances, zones and permitted edges, against every order and every break row.

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <optional>
#include <random>
#include <tuple>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/joins/plan.hpp"

#include "support/joins.hpp"

namespace {

using namespace skeinfall;
using joins::Where;
using project::JoinAt;
using ::testing::ElementsAre;
using ::testing::SizeIs;
using units::metre;

struct PlacedInstance {
    std::vector<std::int64_t> rows;  // whole metres
    std::vector<std::int64_t> balls;
    std::int64_t distance = 0;
    JoinAt at = JoinAt::edges;
    std::optional<project::RowZone> free;
    std::optional<project::RowZone> prefer;
};

project::Project project_of(const PlacedInstance& instance) {
    project::Project out;
    project::Piece piece;
    piece.name = "strip";
    piece.joins.at = instance.at;
    if (instance.free) piece.joins.keep_free = {*instance.free};
    if (instance.prefer) piece.joins.prefer = {*instance.prefer};
    out.pieces = {piece};
    return out;
}

joins::JoinPlan plan(const PlacedInstance& instance) {
    const support::Work work =
        support::rows_of(std::vector<double>(instance.rows.begin(), instance.rows.end()));
    std::vector<joins::Ball> balls;
    for (std::size_t i = 0; i < instance.balls.size(); ++i)
        balls.push_back(
            support::ball("b" + std::to_string(i), static_cast<double>(instance.balls[i])));
    joins::Rules rules = support::rules_with_tail(0.0);
    rules.where = Where::as_pieces_say;
    rules.rows_between = instance.distance;
    const project::Project project = project_of(instance);
    return joins::plan_joins(work.need, work.steps, balls, rules, &project);
}

/// Whether new yarn may begin when so many rows are done, and the wishes that does not meet.
bool permitted(const PlacedInstance& instance, std::int64_t row) {
    if (instance.at == JoinAt::left_edge && row % 2 == 0) return false;
    if (instance.at == JoinAt::right_edge && row % 2 == 1) return false;
    return !instance.free || row < instance.free->first || row >= instance.free->last;
}

int marks(const PlacedInstance& instance, std::int64_t row) {
    if (!instance.prefer) return 0;
    return row >= instance.prefer->first - 1 && row <= instance.prefer->last ? 0 : 2;
}

using Cost = std::tuple<std::size_t, std::int64_t, int>;  // pieces, length begun, marks

/// Every choice of the next ball and of the row at which it ends.
class EveryPlan {
  public:
    explicit EveryPlan(const PlacedInstance& instance)
        : instance_(instance), used_(instance.balls.size(), false) {
        next(0, 0, 0, 0, 0);
    }
    std::optional<Cost> best;

  private:
    void next(std::int64_t row, std::int64_t last_join, std::size_t pieces, std::int64_t length,
              int marks_so_far) {
        const auto rows = static_cast<std::int64_t>(instance_.rows.size());
        for (std::size_t b = 0; b < used_.size(); ++b) {
            if (used_[b]) continue;
            used_[b] = true;
            std::int64_t yarn = 0;
            for (std::int64_t to = row + 1; to <= rows; ++to) {
                yarn += instance_.rows[static_cast<std::size_t>(to - 1)];
                if (yarn > instance_.balls[b]) break;
                const std::int64_t begun = length + instance_.balls[b];
                if (to == rows) {
                    const Cost cost{pieces + 1, begun, marks_so_far};
                    if (!best || cost < *best) best = cost;
                } else if (permitted(instance_, to) &&
                           (row == 0 || to - last_join >= instance_.distance)) {
                    next(to, to, pieces + 1, begun, marks_so_far + marks(instance_, to));
                }
            }
            used_[b] = false;
        }
    }

    const PlacedInstance& instance_;
    std::vector<bool> used_;
};

constexpr unsigned places_seed = 60'221;

TEST(PlacedJoins, AsGoodAsEveryOrderAndBreakRow) {
    std::mt19937 random(places_seed);
    const auto between = [&](std::int64_t least, std::int64_t most) {
        return least +
               static_cast<std::int64_t>(random() % static_cast<unsigned>(most - least + 1));
    };
    int finished = 0;
    int wished = 0;
    for (int number = 0; number < 800; ++number) {
        SCOPED_TRACE("seed " + std::to_string(places_seed) + ", instance " +
                     std::to_string(number));
        PlacedInstance instance;
        const std::int64_t rows = between(3, 10);
        for (std::int64_t i = 0; i < rows; ++i) instance.rows.push_back(between(1, 9));
        const std::int64_t total =
            std::accumulate(instance.rows.begin(), instance.rows.end(), std::int64_t{0});
        const std::int64_t balls = between(2, 5);
        for (std::int64_t i = 0; i < balls; ++i)
            instance.balls.push_back(i > 0 && between(0, 2) == 0
                                         ? instance.balls.back()
                                         : between(2, 2 * total / balls + 3));
        instance.distance = between(0, 3);
        const std::int64_t side = between(0, 4);
        if (side == 0) instance.at = JoinAt::left_edge;
        if (side == 1) instance.at = JoinAt::right_edge;
        if (between(0, 2) == 0) {
            const std::int64_t first = between(1, rows);
            instance.free = project::RowZone{first, between(first, rows)};
        }
        if (between(0, 1) == 0) {
            const std::int64_t first = between(1, rows);
            instance.prefer = project::RowZone{first, between(first, rows)};
        }
        const EveryPlan every(instance);
        const joins::JoinPlan found = plan(instance);
        ASSERT_EQ(found.finishes && found.rules_kept, every.best.has_value());
        if (!every.best) continue;
        ++finished;
        ASSERT_TRUE(found.proven);
        ASSERT_LE(found.pieces_at_least, found.stretches.size());
        Cost cost{found.stretches.size(), 0, 0};
        std::int64_t last = 0;
        for (std::size_t i = 0; i < found.stretches.size(); ++i) {
            const joins::Stretch& stretch = found.stretches[i];
            ASSERT_GE(stretch.left / metre, -1e-9);
            std::get<1>(cost) += std::llround(stretch.ball.length.centre / metre);
            if (i + 1 == found.stretches.size()) break;
            const auto row = static_cast<std::int64_t>(stretch.to.step);
            ASSERT_TRUE(permitted(instance, row));
            if (i > 0) {
                ASSERT_GE(row - last, instance.distance);
            }
            std::get<2>(cost) += marks(instance, row);
            last = row;
        }
        ASSERT_EQ(cost, *every.best);
        wished += std::get<2>(cost) > 0 ? 1 : 0;
    }
    EXPECT_GT(finished, 300);
    EXPECT_GT(wished, 20);
}

TEST(PlacedJoins, ZonesThatCannotBeKeptAreSaidToBeBroken) {
    PlacedInstance instance;
    instance.rows = std::vector<std::int64_t>(10, 10);
    instance.balls = {50, 60};
    instance.free = project::RowZone{3, 9};
    const joins::JoinPlan found = plan(instance);
    EXPECT_TRUE(found.finishes);
    EXPECT_FALSE(found.rules_kept);
    instance.free = project::RowZone{1, 4};
    EXPECT_TRUE(plan(instance).rules_kept);
}

TEST(PlacedJoins, TheSeamedSideOfAPieceWithOneSeam) {
    PlacedInstance instance;
    instance.rows = std::vector<std::int64_t>(10, 10);
    instance.balls = {55, 60};
    instance.at = JoinAt::seamed_side;
    const auto join_with = [&](project::Edge edge) {
        project::Project project = project_of(instance);
        project.pieces[0].edge = edge;
        joins::Rules rules = support::rules_with_tail(0.0);
        rules.where = Where::as_pieces_say;
        const auto work = support::rows_of(std::vector<double>(10, 10.0));
        return joins::plan_joins(work.need, work.steps,
                                 {support::ball("a", 55), support::ball("b", 60)}, rules, &project)
            .stretches.at(0)
            .to.step;
    };
    // Row 1 begins at the right edge, so odd rows end at the left.
    EXPECT_EQ(join_with(project::Edge::seamed), 6U);
    EXPECT_EQ(join_with(project::Edge::right_seamed), 6U);
    EXPECT_EQ(join_with(project::Edge::left_seamed), 5U);
}

TEST(PlacedJoins, ListedStitchesAreCountedFromTheRightEdge) {
    PlacedInstance instance;
    instance.rows = {10, 10, 10};
    project::Project project = project_of(instance);
    project.gauge.stitches = 10.0 * units::stitch / metre;
    project.pieces[0].stitches = project::PerSize<std::int64_t>(20);
    project.pieces[0].rows = project::PerSize<std::int64_t>(3);
    project.pieces[0].joins.at = JoinAt::stitches;
    project.pieces[0].joins.stitches = {5};
    const auto work = support::rows_of({10, 10, 10});
    joins::Rules rules = support::rules_with_tail(0.0);
    rules.where = Where::as_pieces_say;
    const joins::JoinPlan found = joins::plan_joins(
        work.need, work.steps, {support::ball("a", 19), support::ball("b", 19)}, rules, &project);
    ASSERT_TRUE(found.finishes);
    // Row 2 goes back: stitch 5 from the right is reached after 15 of its 20 stitches.
    EXPECT_EQ(found.stretches[0].to.step, 1U);
    EXPECT_NEAR(found.stretches[0].to.share.value(), 0.75, 1e-9);
}

TEST(PlacedJoins, SpreadJoinsDoNotLieAboveOneAnother) {
    PlacedInstance instance;
    project::Project project = project_of(instance);
    project.pieces[0].worked = project::Worked::round;
    project.pieces[0].joins.at = JoinAt::spread;
    const auto work = support::rows_of(std::vector<double>(12, 10.0));
    joins::Rules rules = support::rules_with_tail(0.0);
    rules.where = Where::as_pieces_say;
    std::vector<joins::Ball> balls;
    for (int i = 0; i < 4; ++i) balls.push_back(support::ball("b" + std::to_string(i), 36));
    const joins::JoinPlan found = joins::plan_joins(work.need, work.steps, balls, rules, &project);
    ASSERT_TRUE(found.finishes);
    ASSERT_THAT(found.stretches, SizeIs(4));
    for (std::size_t i = 1; i + 1 < found.stretches.size(); ++i) {
        double apart =
            found.stretches[i].to.share.value() - found.stretches[i - 1].to.share.value();
        apart -= std::floor(apart);
        EXPECT_GE(std::min(apart, 1.0 - apart), 0.25 - 1e-3);
    }
}

// A border of four rounds may be joined between any two of them; a border of one round may not.
TEST(PlacedJoins, ABorderIsDividedByItsRounds) {
    project::Project project;
    project.roles.resize(1);
    project.roles[0].id = "MC";
    project.roles[0].rate = units::YarnPerStitch(0.05 * metre / units::stitch);
    project::FinishPart part;
    part.kind = project::PartKind::border;
    part.name = "edging";
    part.role = "MC";
    part.stitches = project::PerSize<std::int64_t>(800);
    part.rounds = 4;
    project.finish = {part};
    const auto with = [&](const project::Project& one) {
        const need::MakeNeed make = need::need_of(one, 0);
        return joins::plan_joins(make.roles[0], make.steps,
                                 {support::ball("a", 32), support::ball("b", 12)},
                                 support::rules_with_tail(0.0), &one);
    };
    ASSERT_TRUE(with(project).finishes);
    EXPECT_EQ(with(project).stretches[0].to.step, 3U) << "30 of 40 m";
    // Rounds that grow: 100, 160, 220 and 280 stitches with 40 more to bind off.
    project.finish[0].stitches = {};
    project.finish[0].first_round = project::PerSize<std::int64_t>(100);
    project.finish[0].increase = project::PerSize<std::int64_t>(60);
    project.finish[0].bind_off_rows = units::Ratio(1.0 / 7.0);
    const joins::JoinPlan growing = with(project);
    ASSERT_EQ(growing.steps.size(), 4U);
    EXPECT_NEAR(growing.steps[3].yarn / metre, 16.0, 1e-9);
    EXPECT_FALSE(growing.finishes) << "after round 3, 24 m, the other ball is too short";
    project.finish[0] = part;
    project.finish[0].rounds = 1;
    EXPECT_FALSE(with(project).finishes);
}

// Strands held together: the second keeps away from the joins of the first.
TEST(PlacedJoins, AStrandKeepsAwayFromTheOthersJoins) {
    const auto work = support::rows_of(std::vector<double>(20, 10.0));
    joins::Rules rules = support::rules_with_tail(0.0);
    rules.rows_between = 4;
    const std::vector<joins::Ball> balls{support::ball("a", 109), support::ball("b", 105)};
    const joins::JoinPlan first = joins::plan_joins(work.need, work.steps, balls, rules);
    EXPECT_EQ(first.stretches.at(0).to.step, 10U);
    rules.keep_away = {first.stretches[0].to};
    const joins::JoinPlan near = joins::plan_joins(work.need, work.steps, balls, rules);
    EXPECT_FALSE(near.rules_kept) << "both would be joined after row 10";
    const joins::JoinPlan apart = joins::plan_joins(
        work.need, work.steps, {support::ball("a", 145), support::ball("b", 125)}, rules);
    EXPECT_TRUE(apart.rules_kept);
    EXPECT_GE(apart.stretches.at(0).to.step, 14U);
}

// A knot inside is cut out and joined anew: two more tails (woolnstuff.co.uk and others tell of
// about 12 in lost a knot; arithmetic ours).
TEST(PlacedJoins, KnotsCostTheirTails) {
    const auto work = support::rows_of(std::vector<double>(9, 10.0));
    joins::Ball knotty = support::ball("a", 91.0);
    const auto finishes = [&] {
        return joins::plan_joins(work.need, work.steps, {knotty}, support::rules_with_tail(0.15))
            .finishes;
    };
    EXPECT_TRUE(finishes());
    knotty.knots = 2;
    EXPECT_TRUE(finishes()) << "90 m and six ends of 15 cm";
    knotty.knots = 3;
    EXPECT_FALSE(finishes());
}

// Worked example of ours: L 209.7 m, u 4.242 m, rate known to 3 %: 197.706 m, 54 rows of
// 3.62 m.
TEST(ModelJoins, TheLengthThatASkeinSurelyGives) {
    const units::Length sure = joins::sure_length({209.7 * metre, 4.242 * metre},
                                                  units::Ratio(0.03), {units::Ratio(0.95)});
    EXPECT_NEAR(sure / metre, 197.706, 0.002);
    EXPECT_EQ(std::floor(sure / (3.62 * metre)), 54.0);
}

TEST(ModelJoins, TheSureLengthIsMonotone) {
    units::Length before{};
    for (int length = 0; length <= 400; ++length) {
        const units::Length sure =
            joins::sure_length({static_cast<double>(length) * metre, 4.242 * metre},
                               units::Ratio(0.03), {units::Ratio(0.95)});
        ASSERT_GE(sure, before);
        ASSERT_LE(sure, static_cast<double>(std::max(1, length)) * metre);
        before = sure;
    }
}

// Splices take less than woven ends, but the first and the last end are woven in all the same.
TEST(PlacedJoins, TheFirstAndTheLastEndAreWoven) {
    const auto work = support::rows_of(std::vector<double>(9, 10.0));
    joins::Rules rules = support::rules_with_tail(0.05);
    rules.end_tail = 0.15 * metre;
    const auto finishes = [&](double metres) {
        return joins::plan_joins(work.need, work.steps, {support::ball("a", metres)}, rules)
            .finishes;
    };
    EXPECT_TRUE(finishes(90.3));
    EXPECT_FALSE(finishes(90.29));
}

}  // namespace
