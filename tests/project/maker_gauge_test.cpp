// Shapes at another gauge: the same counts in another size, or the same outline in other counts.

#include "skeinfall/project/maker_gauge.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/project/shapes.hpp"

#include "widths.hpp"

namespace {

using namespace skeinfall;
using project::Keeping;
using project::PerSize;
using units::centimetre;
using units::stitch;

project::Gauge gauge(double stitches, double rows) {
    project::Gauge out;
    out.stitches = stitches * stitch / (10.0 * centimetre);
    out.rows = rows * units::row / (10.0 * centimetre);
    out.stitch = "sc";
    return out;
}

project::Project make(const std::string& shape, std::int64_t rows) {
    project::Project out;
    out.gauge = gauge(20, 28);
    out.roles.resize(1);
    out.pieces.resize(1);
    out.pieces[0].rows = PerSize<std::int64_t>(rows);
    if (!shape.empty()) project::give_shape(out.pieces[0], *project::find_shape(shape));
    return out;
}

project::Project worked(project::Project made, const project::Gauge& own, Keeping keeping) {
    project::work_at(made, own, keeping);
    return made;
}

std::int64_t total(const project::Project& made) {
    std::int64_t sum = 0;
    for (const std::int64_t width : project_tests::widths(made)) sum += width;
    return sum;
}

// A sleeve of 40 stitches, 2 more every 6th row, 120 rows: 78 at the top. At 22 x 35 to 10 cm the
// same sleeve has 44 stitches, 150 rows and 85.8 at the top (arithmetic ours).
TEST(MakersGauge, ASleeveKeepsItsOutline) {
    project::Project sleeve = make("", 120);
    sleeve.pieces[0].stitches = PerSize<std::int64_t>(40);
    sleeve.pieces[0].increase = PerSize<std::int64_t>(2);
    sleeve.pieces[0].every = 6;
    ASSERT_EQ(project_tests::widths(sleeve).back(), 78);
    const std::vector<std::int64_t> own =
        project_tests::widths(worked(sleeve, gauge(22, 35), Keeping::size));
    ASSERT_EQ(own.size(), 150U);
    EXPECT_EQ(own.front(), 44);
    EXPECT_EQ(own.back(), 86);
    EXPECT_NEAR(static_cast<double>(own[75]), 0.5 * (44 + 86), 1.0);
    // Down to a tip as well.
    project::Project wedge = make("", 19);
    wedge.pieces[0].stitches = PerSize<std::int64_t>(20);
    wedge.pieces[0].increase = PerSize<std::int64_t>(-1);
    EXPECT_EQ(project_tests::widths(worked(wedge, gauge(30, 28), Keeping::size)).back(), 3);
}

// Hexagon: 6 more each round stay whole corners; a taller stitch wants more of them.
TEST(MakersGauge, ARoundFigureKeepsWholeCorners) {
    project::Project motif = make("polygon", 10);
    motif.pieces[0].stitches = PerSize<std::int64_t>(6);
    motif.pieces[0].increase = PerSize<std::int64_t>(6);
    const std::vector<std::int64_t> own =
        project_tests::widths(worked(motif, gauge(20, 14), Keeping::size));
    ASSERT_EQ(own.size(), 5U) << "rounds are a radius";
    EXPECT_EQ(own[0], 12);
    EXPECT_EQ(own[1] - own[0], 12);
}

// A round of 280 stitches at 20 to 10 cm is 1.4 m; at 25 to 10 cm that is 350.
TEST(MakersGauge, ABorderGoesRoundTheSameSize) {
    project::Project throw_ = make("", 100);
    throw_.pieces[0].stitches = PerSize<std::int64_t>(70);
    project::FinishPart border;
    border.kind = project::PartKind::border;
    border.first_round = PerSize<std::int64_t>(280);
    throw_.finish = {border};
    const auto first = [&](Keeping keeping) {
        return worked(throw_, gauge(25, 28), keeping).finish.at(0).first_round.at(0);
    };
    EXPECT_EQ(first(Keeping::size), 350);
    EXPECT_EQ(first(Keeping::stitch_counts), 280);
}

TEST(MakersGauge, AGrannySquareKeepsItsClusters) {
    const project::Project square = make("granny square", 10);
    const std::vector<std::int64_t> own =
        project_tests::widths(worked(square, gauge(24, 56), Keeping::size));
    ASSERT_EQ(own.size(), 20U);
    EXPECT_EQ(own[0], project_tests::widths(square)[0]);
}

TEST(MakersGauge, TwoSizesKeepTheirOwnOutlines) {
    project::Project sleeve = make("", 100);
    sleeve.sizes = {"S", "M"};
    sleeve.pieces[0].stitches.values = {40, 50};
    sleeve.pieces[0].increase.values = {1, 0};
    sleeve.pieces[0].every = 10;
    project::work_at(sleeve, gauge(40, 28), Keeping::size);
    EXPECT_EQ(project::row_widths(sleeve, sleeve.pieces[0], 0).back(), 98);
    EXPECT_EQ(project::row_widths(sleeve, sleeve.pieces[0], 1).back(), 100);
}

const std::vector<std::string>& names() {
    static const std::vector<std::string> all = [] {
        std::vector<std::string> out;
        for (const project::Shape& shape : project::shapes()) out.emplace_back(shape.name);
        return out;
    }();
    return all;
}

/// A shape with what it needs besides its usual figures.
project::Project any_shaped_make() {
    project::Project made =
        make(*rc::gen::elementOf(names()), *rc::gen::inRange(std::int64_t{20}, std::int64_t{120}));
    project::Piece& piece = made.pieces[0];
    if (!piece.stitches.stated() && !piece.shape->flat &&
        piece.shape->law != project::RowLaw::diagonal)
        piece.stitches = PerSize<std::int64_t>(
            *rc::gen::inRange(std::int64_t{121}, std::int64_t{200}));  // more than it loses
    if (piece.shape->law == project::RowLaw::even)
        piece.last_stitches =
            PerSize<std::int64_t>(*rc::gen::inRange(std::int64_t{1}, std::int64_t{150}));
    return made;
}

RC_GTEST_PROP(MakersGauge, KeepsEveryCount, ()) {
    const project::Project made = any_shaped_make();
    const auto own = gauge(*rc::gen::inRange(15, 26), *rc::gen::inRange(20, 36));
    RC_ASSERT(project_tests::widths(worked(made, own, Keeping::stitch_counts)) ==
              project_tests::widths(made));
}

RC_GTEST_PROP(MakersGauge, KeepsEverySize, ()) {
    const project::Project made = any_shaped_make();
    const project::Shape& shape = *made.pieces[0].shape;
    RC_PRE(shape.law != project::RowLaw::diagonal);
    const double closer = *rc::gen::inRange(80, 125) / 100.0;
    const double lower = *rc::gen::inRange(80, 125) / 100.0;
    const project::Project own = worked(made, gauge(20 * closer, 28 * lower), Keeping::size);
    const auto before = project_tests::widths(made);
    const auto after = project_tests::widths(own);
    RC_ASSERT(std::abs(static_cast<double>(after.size()) -
                       static_cast<double>(before.size()) * lower) <= 0.5 + 1e-9);
    // Whole clusters and doublings have steps of their own.
    if (shape.from_centre) return;
    const auto widest = [](const std::vector<std::int64_t>& all) {
        return static_cast<double>(*std::max_element(all.begin(), all.end()));
    };
    RC_ASSERT(std::abs(widest(after) - widest(before) * closer) <= 2.0);
    // A stitch and a half in each row, and half a row, are rounding.
    const double fabric = static_cast<double>(total(made)) * closer * lower;
    const double rounding = 1.5 * static_cast<double>(after.size()) + 0.5 * widest(after);
    RC_ASSERT(std::abs(static_cast<double>(total(own)) - fabric) <= rounding);
}

}  // namespace
