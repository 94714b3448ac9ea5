// How many stitches the rows of each shape have: discrete sums against closed forms and published
// totals.

#include "skeinfall/project/shapes.hpp"

#include <cstdint>
#include <numeric>

#include <gtest/gtest.h>

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using project::PerSize;

project::Project make_named(std::string_view name, std::int64_t rows) {
    project::Project out = support::rectangle(1, 1);
    project::Piece piece;
    piece.name = "piece";
    piece.role = "MC";
    if (rows > 0) piece.rows = PerSize<std::int64_t>(rows);
    const project::Shape* shape = project::find_shape(name);
    EXPECT_NE(shape, nullptr) << name;
    if (shape != nullptr) project::give_shape(piece, *shape);
    out.pieces = {piece};
    return out;
}

std::int64_t total_of(const project::Project& make) {
    std::int64_t sum = 0;
    for (const std::int64_t width : project::row_widths(make, make.pieces[0], 0)) sum += width;
    return sum;
}

// sheeptoshawl.com/happy-pi-day: 9, 18 x (1 + 3), 36 x (1 + 6) ... 576 x (1 + 96): sections of 9,
// 72, 252, 936, 3600, 14112 and 55872 stitches, 74 853 together.
TEST(PublishedShapes, DoublingCircle) {
    EXPECT_EQ(total_of(make_named("doubling circle", 196)), 74'853);
    EXPECT_EQ(total_of(make_named("doubling circle", 99)), 74'853 - 55'872);
    EXPECT_EQ(total_of(make_named("pi shawl", 1)), 9);
}

// cromulentknitter.blogspot.com, October 2006: 8, 8, 16, 16 ... 64, 64: 576; 160 after round 8,
// 288 after round 11.
TEST(PublishedShapes, Doily) {
    for (const auto& [rounds, stitches] :
         std::vector<std::pair<std::int64_t, std::int64_t>>{{16, 576}, {8, 160}, {11, 288}}) {
        project::Project doily = make_named("circle", rounds);
        doily.pieces[0].stitches = PerSize<std::int64_t>(8);
        doily.pieces[0].increase = PerSize<std::int64_t>(8);
        doily.pieces[0].every = 2;
        EXPECT_EQ(total_of(doily), stitches);
    }
}

// kateatherley.blogspot.com, October 2013: from one stitch, one more every second row, to the first
// row of 139: 139 squared, 19 321.
TEST(PublishedShapes, HalfTriangle) {
    project::Project half = make_named("asymmetric triangle", 277);
    half.pieces[0].stitches = PerSize<std::int64_t>(1);
    EXPECT_EQ(total_of(half), 19'321);
}

// Closed forms, by hand: s R + a floor((R - 1)^2 / 4).
TEST(Shapes, TrianglesAndCrescentsHaveTheirClosedForms) {
    for (const std::int64_t rows :
         {std::int64_t{1}, std::int64_t{2}, std::int64_t{99}, std::int64_t{100}}) {
        EXPECT_EQ(total_of(make_named("triangle from the nape", rows)),
                  7 * rows + 4 * ((rows - 1) * (rows - 1) / 4));
        EXPECT_EQ(total_of(make_named("crescent", rows)),
                  9 * rows + 6 * ((rows - 1) * (rows - 1) / 4));
        EXPECT_EQ(total_of(make_named("triangle from a corner", rows)),
                  rows + 2 * ((rows - 1) * (rows - 1) / 4));
    }
}

// 9, 9, 7, 7, 5, 5, 3, 3, 1: down to the tip by itself.
TEST(Shapes, TheLongEdgeEndsAtTheTip) {
    project::Project make = make_named("triangle from the long edge", 0);
    make.pieces[0].stitches = PerSize<std::int64_t>(9);
    EXPECT_EQ(project::row_widths(make, make.pieces[0], 0),
              (std::vector<std::int64_t>{9, 9, 7, 7, 5, 5, 3, 3, 1}));
}

TEST(Shapes, ThereAndBackIsTheSameFromBothEnds) {
    for (const std::int64_t rows :
         {std::int64_t{1}, std::int64_t{2}, std::int64_t{7}, std::int64_t{60}}) {
        const project::Project make = make_named("triangle side to side", rows);
        const std::vector<std::int64_t> widths = project::row_widths(make, make.pieces[0], 0);
        EXPECT_EQ(widths, std::vector<std::int64_t>(widths.rbegin(), widths.rend()));
    }
}

TEST(Shapes, ATrapezoidReachesItsLastRowByEvenSteps) {
    project::Project make = make_named("trapezoid", 7);
    make.pieces[0].stitches = PerSize<std::int64_t>(40);
    make.pieces[0].last_stitches = PerSize<std::int64_t>(46);
    EXPECT_EQ(project::row_widths(make, make.pieces[0], 0),
              (std::vector<std::int64_t>{40, 40, 42, 42, 44, 44, 46}));
    make.pieces[0].last_stitches = PerSize<std::int64_t>(37);
    EXPECT_EQ(project::row_widths(make, make.pieces[0], 0),
              (std::vector<std::int64_t>{40, 40, 39, 39, 38, 38, 37}));
}

// One shaping row in ten gaps falls into their middle, up and down alike: rounded down, all rows
// but the last of a growing piece had the stitches of the first (arithmetic ours).
TEST(Shapes, ATrapezoidTakesTheNearestCountInEveryRow) {
    project::Project make = make_named("trapezoid", 11);
    make.pieces[0].stitches = PerSize<std::int64_t>(20);
    make.pieces[0].last_stitches = PerSize<std::int64_t>(22);
    EXPECT_EQ(project::row_widths(make, make.pieces[0], 0),
              (std::vector<std::int64_t>{20, 20, 20, 20, 20, 20, 22, 22, 22, 22, 22}));
    make.pieces[0].last_stitches = PerSize<std::int64_t>(18);
    EXPECT_EQ(project::row_widths(make, make.pieces[0], 0),
              (std::vector<std::int64_t>{20, 20, 20, 20, 20, 20, 18, 18, 18, 18, 18}));
}

// 2 n tan(pi / n) for 3, 4, 6, 8 corners: 10.3923, 8, 6.9282, 6.6274; a circle 2 pi. At a height
// over width of .88 single crochet takes 6 a round, at 1.82 double crochet 12 (5.53 and 11.4).
TEST(Shapes, FlatRounds) {
    project::Gauge gauge;
    gauge.stitches = 1.0 * units::stitch / units::centimetre;
    gauge.rows = 1.0 * units::row / units::centimetre;
    EXPECT_NEAR(project::flat_increase(3, gauge).value(), 10.3923, 1e-4);
    EXPECT_NEAR(project::flat_increase(4, gauge).value(), 8.0, 1e-9);
    EXPECT_NEAR(project::flat_increase(6, gauge).value(), 6.9282, 1e-4);
    EXPECT_NEAR(project::flat_increase(8, gauge).value(), 6.6274, 1e-4);
    gauge.stitches = 0.88 * units::stitch / units::centimetre;
    EXPECT_EQ(project::whole_flat_increase(0, gauge), 6);
    gauge.stitches = 1.82 * units::stitch / units::centimetre;
    EXPECT_EQ(project::whole_flat_increase(0, gauge), 12);
    EXPECT_EQ(project::whole_flat_increase(6, gauge), 12);
}

// Clusters of 3 dc: 4, 8, 12 ... a round; chains 1 between them and 2 in the four corners.
TEST(Shapes, AGrannySquareByKinds) {
    const project::Project make = make_named("granny square", 3);
    const std::vector<project::Row> rows = project::row_sequence(make, 0);
    ASSERT_EQ(rows.size(), 3U);
    EXPECT_EQ(rows[2].kinds[0], (project::KindCount{"dc", 36.0 * units::stitch}));
    EXPECT_EQ(rows[2].kinds[1], (project::KindCount{"ch", 16.0 * units::stitch}));
}

// Blocks across times blocks up, counted block by block along the diagonals.
TEST(Shapes, CornerToCornerHasItsBlocks) {
    for (const auto& [wide, high] :
         std::vector<std::pair<std::int64_t, std::int64_t>>{{1, 1}, {4, 4}, {5, 3}, {3, 8}}) {
        project::Project make = make_named("corner to corner", 0);
        make.pieces[0].stitches = PerSize<std::int64_t>(wide);
        make.pieces[0].blocks_high = PerSize<std::int64_t>(high);
        double treble_posts = 0.0;
        for (const project::Row& row : project::row_sequence(make, 0))
            for (const project::KindCount& kind : row.kinds)
                if (kind.kind == "dc") treble_posts += kind.count / units::stitch;
        EXPECT_EQ(treble_posts, static_cast<double>(3 * wide * high));
    }
}

// By hand: a disc of 60 cm at 16 x 10 to 10 cm is 2827 sq cm of 1 sq cm / 1.6 a stitch: 4524
// stitches. Doubling from one comes to 301 in 30 rows (1, 4 of 2, 7 of 4, 13 of 8, 5 of 16), so
// that 16 are needed.
TEST(FinishedShapes, ADoublingCircleFillsTheDiscAskedFor) {
    project::Project make;
    make.gauge.stitches = 16.0 * units::shown::per_10cm.one;
    make.gauge.rows = 10.0 * units::shown::rows_per_10cm.one;
    make.gauge.stitch = "dc";
    make.pieces.push_back({});
    project::Piece& mat = make.pieces[0];
    mat.shape = project::find_shape("doubling circle");
    mat.worked = project::Worked::round;
    mat.width = PerSize<units::Length>(60.0 * units::centimetre);
    const auto rows = project::row_widths(make, mat, 0);
    ASSERT_EQ(rows.size(), 30U);
    EXPECT_EQ(rows.front(), 21);
    EXPECT_GE(std::accumulate(rows.begin(), rows.end(), std::int64_t{0}), 4524);
}

// By hand: five strips of 20 cm x 120 cm side by side are 1 m x 1.2 m. Four seams of 120 cm, 4.4 m
// round them; at 16 sts to 10 cm that is 704.
TEST(Motifs, StripsAreJoinedAlongTheirLength) {
    project::Project make;
    make.gauge.stitches = 16.0 * units::shown::per_10cm.one;
    make.gauge.rows = 10.0 * units::shown::rows_per_10cm.one;
    make.gauge.stitch = "dc";
    make.roles.push_back({});
    make.roles[0].id = "MC";
    make.pieces.push_back({});
    make.pieces[0].name = "strip";
    make.pieces[0].role = "MC";
    make.pieces[0].stitches = PerSize<std::int64_t>(32);
    make.pieces[0].rows = PerSize<std::int64_t>(120);
    make.pieces[0].count = PerSize<std::int64_t>(5);
    project::FinishPart joining;
    joining.kind = project::PartKind::joining;
    joining.of = "strip";
    joining.role = "MC";
    joining.factor = units::Ratio::from_value(2.0);
    const auto seams = project::finish_steps(make, joining, 0);
    ASSERT_EQ(seams.size(), 1U);
    EXPECT_NEAR(seams[0].yarn.value(), 2.0 * 4.8, 1e-9);
    EXPECT_EQ(project::laid_motifs(make, joining, 0).columns, 5) << "as square as can be";
    EXPECT_NEAR(project::laid_motifs(make, joining, 0).way_round.value(), 4.4, 1e-9);
    project::FinishPart border;
    border.kind = project::PartKind::border;
    border.of = "strip";
    border.role = "MC";
    border.rounds = PerSize<std::int64_t>(1);
    make.finish = {joining, border};
    EXPECT_EQ(project::finish_steps(make, border, 0)[0].stitches / units::stitch, 704.0);
}

// By hand: a placemat of 40 x 30 cm is 140 cm round, 224 stitches at 16 to 10 cm; nothing joins
// them.
TEST(Motifs, PiecesThatAreNotJoinedHaveABorderEach) {
    project::Project make;
    make.gauge.stitches = 16.0 * units::shown::per_10cm.one;
    make.gauge.rows = 10.0 * units::shown::rows_per_10cm.one;
    make.pieces.push_back({});
    make.pieces[0].name = "placemat";
    make.pieces[0].stitches = PerSize<std::int64_t>(64);
    make.pieces[0].rows = PerSize<std::int64_t>(30);
    make.pieces[0].count = PerSize<std::int64_t>(6);
    project::FinishPart border;
    border.kind = project::PartKind::border;
    border.of = "placemat";
    border.rounds = PerSize<std::int64_t>(2);
    make.finish = {border};
    const auto steps = project::finish_steps(make, border, 0);
    ASSERT_EQ(steps.size(), 12U);
    for (const project::FinishStep& step : steps) EXPECT_EQ(step.stitches / units::stitch, 224.0);
}

// By hand: 2 x 3 squares meet in 7 pairs of sides and have 10 outside.
TEST(Motifs, SidesThatMeet) {
    EXPECT_EQ(project::motif_sides(6, 2, 4).joined, 7);
    EXPECT_EQ(project::motif_sides(6, 2, 4).outer, 10);
    EXPECT_EQ(project::motif_sides(6, 2, 4).beside, 3);
    EXPECT_EQ(project::motif_sides(6, 2, 4).outer_high, 6);
    EXPECT_EQ(project::motif_sides(3, 2, 6).joined, 3) << "three hexagons about one point";
    EXPECT_EQ(project::motif_sides(3, 2, 6).outer, 12);
    EXPECT_EQ(project::motif_sides(1, 9, 4).outer, 4);
    EXPECT_EQ(project::square_columns(100), 10);
}

// mathemaknitter.com, November 2018: a plain bind-off makes 1 stitch for each bound, a tubular one
// 4; knittinghelp.com: the plain one takes one and a half rows.
TEST(PublishedFinishing, BindOffsByType) {
    const auto rows = [](std::string_view name) {
        return project::find_finish_way("bind-off", name, project::Craft::knit)->rows.value();
    };
    EXPECT_EQ(rows("plain"), 1.5);
    EXPECT_EQ(rows("tubular") / rows("plain"), 4.0);
    EXPECT_EQ(rows("yarn over") / rows("plain"), 2.5);
    EXPECT_EQ(project::find_finish_way("bind-off", "tubular", project::Craft::crochet), nullptr);
}

TEST(Finishing, TasselsAndPompoms) {
    EXPECT_NEAR(project::tassel_yarn(4, 30, 8.0 * units::centimetre) / units::metre,
                4 * (2 * 30 * 0.08 + 0.6), 1e-9);
    EXPECT_NEAR(project::pompom_yarn(2, 100, 6.0 * units::centimetre) / units::metre,
                2 * (2 * 100 * 0.06 + 0.61), 1e-9);
}

}  // namespace
