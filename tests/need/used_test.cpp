// By which row how much of the yarn is gone: sums over rows against closed forms and published
// shares.

#include "skeinfall/need/used.hpp"

#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/project/shapes.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using project::PerSize;
using units::metre;

/// A piece of a shape at 1 cm a stitch, without foundation or bind-off.
project::Project make_of(const std::string& shape, std::int64_t rows) {
    project::Project out = support::rectangle(1, rows);
    out.roles[0].rate = units::YarnPerStitch(0.01 * metre / units::stitch);
    out.pieces[0].stitches = {};
    out.pieces[0].bind_off_rows = units::Ratio(0.0);
    project::give_shape(out.pieces[0], *project::find_shape(shape));
    return out;
}

double share_after(const project::Project& make, std::size_t rows) {
    return need::used_up(need::need_of(make, 0), "MC").at(rows - 1).share.value();
}

// cromulentknitter.blogspot.com, October 2006: a doily of 8, 8, 16, 16 ... 64, 64 stitches has used
// 160 of 576 after round 8 and half of them after round 11.
TEST(PublishedUsed, Doily) {
    project::Project doily = make_of("circle", 16);
    doily.pieces[0].stitches = PerSize<std::int64_t>(8);
    doily.pieces[0].increase = PerSize<std::int64_t>(8);
    doily.pieces[0].every = 2;
    EXPECT_NEAR(share_after(doily, 8), 160.0 / 576.0, 1e-12);
    EXPECT_NEAR(share_after(doily, 11), 0.5, 1e-12);
}

// Our own sums: s0 = 7 and 4 more every second row are 10 500 stitches in 100 rows, .2619 of them
// in 50 and .5140 in 71; the closed form (r / R)^2 says .25 and .5041.
TEST(Used, ATriangleByItsRowsNotByItsClosedForm) {
    const project::Project shawl = make_of("triangle from the nape", 100);
    EXPECT_NEAR(share_after(shawl, 50), 0.2619, 5e-5);
    EXPECT_NEAR(share_after(shawl, 71), 0.5140, 5e-5);
    const auto used = need::used_up(need::need_of(shawl, 0), "MC");
    EXPECT_NEAR(used.back().yarn / metre, 105.0, 1e-9);
}

// A flat figure of k, 2 k, 3 k ... stitches: r (r + 1) of R (R + 1).
TEST(Used, ACircleGoesWithTheSquareOfItsRounds) {
    const project::Project circle = make_of("circle", 40);
    for (const std::size_t round : {1U, 20U, 28U, 40U}) {
        const auto r = static_cast<double>(round);
        EXPECT_NEAR(share_after(circle, round), r * (r + 1) / (40.0 * 41.0), 1e-12);
    }
}

// Turned round, a triangle uses after r rows what the other has left before R - r.
TEST(Used, ATriangleFromItsLongEdgeIsTheOtherTurnedRound) {
    project::Project edge = make_of("triangle from the long edge", 99);
    edge.pieces[0].stitches = PerSize<std::int64_t>(99);
    const project::Project corner = make_of("triangle from a corner", 99);
    const auto grown = need::used_up(need::need_of(corner, 0), "MC");
    const auto shrunk = need::used_up(need::need_of(edge, 0), "MC");
    ASSERT_EQ(grown.size(), shrunk.size());
    // Both end and begin with one row of their longest or shortest, the others come in pairs.
    EXPECT_NEAR(shrunk.front().yarn / metre, 0.99, 1e-12);
    EXPECT_NEAR(grown.back().yarn / metre, shrunk.back().yarn / metre, 1.0);
    EXPECT_NEAR(shrunk[28].share.value(), 1.0 - grown[69].share.value(), 0.011);
}

TEST(Used, TenthsNameTheRowThatReachesThem) {
    const project::Project wrap = make_of("rectangle", 20);
    project::Project plain = wrap;
    plain.pieces[0].stitches = PerSize<std::int64_t>(10);
    const auto all = need::used_up(need::need_of(plain, 0), "MC");
    const auto tenths = need::tenths_of(all);
    ASSERT_EQ(tenths.size(), 10U);
    for (std::size_t i = 0; i < 10; ++i) EXPECT_EQ(tenths[i].step, 2 * i + 1);
    plain.pieces[0].rows = PerSize<std::int64_t>(3);
    const auto coarse = need::tenths_of(need::used_up(need::need_of(plain, 0), "MC"));
    EXPECT_EQ(coarse.size(), 3U) << "a row that reaches several tenths stands once";
}

RC_GTEST_PROP(Used, GrowsToTheWholeAndEndsAtOne, ()) {
    std::vector<std::string> names;
    for (const project::Shape& shape : project::shapes()) names.emplace_back(shape.name);
    project::Project make =
        make_of(*rc::gen::elementOf(names), *rc::gen::inRange(std::int64_t{1}, std::int64_t{150}));
    project::Piece& piece = make.pieces[0];
    const std::int64_t wide = *rc::gen::inRange(std::int64_t{80}, std::int64_t{200});
    if (!piece.stitches.stated() && !piece.shape->flat)
        piece.stitches = PerSize<std::int64_t>(wide);
    if (piece.shape->law == project::RowLaw::even)
        piece.last_stitches = PerSize<std::int64_t>(wide / 3);
    if (piece.shape->law == project::RowLaw::diagonal) piece.stitches = {};
    const need::MakeNeed need = need::need_of(make, 0);
    const auto used = need::used_up(need, "MC");
    RC_ASSERT(used.size() == project::row_sequence(make, 0).size());
    units::Length before{};
    for (const need::Used& one : used) {
        RC_ASSERT(one.yarn >= before);
        before = one.yarn;
    }
    RC_ASSERT(std::abs(used.back().share.value() - 1.0) < 1e-12);
    units::Length steps{};
    for (const need::Step& step : need.steps) steps += step.yarn;
    RC_ASSERT(std::abs(steps / used.back().yarn - 1.0) < 1e-12);
}

}  // namespace
