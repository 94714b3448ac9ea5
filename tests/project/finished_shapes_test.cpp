// Finished sizes of shapes, the way round a piece, and what a border adds. Worked by hand.

#include <cmath>
#include <cstdint>
#include <string>

#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/need/check.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/project/edging.hpp"

namespace {

using namespace skeinfall;
using units::inch;

project::Project read(const std::string& piece, const std::string& gauge = "\"4 per in\"") {
    return exchange::parse_project(
        "title = \"T\"\ncraft = \"crochet\"\n[gauge]\nstitches = " + gauge +
            "\nrows = \"2 per in\"\nstitch = \"dc\"\n[yarn.MC]\n"
            "rate = \"3 in per stitch\"\n[[piece]]\nname = \"P\"\n" +
            piece,
        "p");
}

project::FinishedSize size_of(const project::Project& project) {
    return project::finished_size(project, project.pieces.at(0), 0);
}

double stitches_of(const project::Project& project) {
    double sum = 0.0;
    for (const std::int64_t row : project::row_widths(project, project.pieces.at(0), 0))
        sum += static_cast<double>(row);
    return sum;
}

// 60 in along the upper edge and 30 in deep is 900 square inches, 8 stitches each: 7 200. A wing is
// half a square of 30 in: 21.2 in high, 42 rows, its last one 2 x 42.4 in long, 339 stitches.
TEST(FinishedShapes, ANapeTriangleHasTheAreaOfItsMeasures) {
    const project::Project both =
        read("shape = \"triangle from the nape\"\nwidth = \"60 in\"\nlength = \"30 in\"\n");
    EXPECT_NEAR(stitches_of(both), 7200.0, 0.03 * 7200.0);
    EXPECT_NEAR(size_of(both).width / inch, 60.0, 1e-9);
    EXPECT_NEAR(size_of(both).length / inch, 30.0, 1e-9);
    const auto rows = project::row_widths(both, both.pieces[0], 0);
    EXPECT_EQ(rows.size(), 42U);
    EXPECT_EQ(rows.front(), 7);
    EXPECT_EQ(rows.back(), 339);
    // One measure stands for both; so does another gauge.
    EXPECT_EQ(stitches_of(read("shape = \"triangle from the nape\"\nwidth = \"60 in\"\n")),
              stitches_of(both));
    EXPECT_EQ(stitches_of(read("shape = \"triangle from the nape\"\nlength = \"30 in\"\n")),
              stitches_of(both));
    const project::Project other =
        read("shape = \"triangle from the nape\"\nwidth = \"60 in\"\nlength = \"30 in\"\n",
             "\"2 per in\"");
    EXPECT_NEAR(stitches_of(other), 3600.0, 0.04 * 3600.0);
}

// Rows alone: the triangle of their area that is twice as wide as deep.
TEST(FinishedShapes, ANapeTriangleByItsRows) {
    const project::Project rows = read("shape = \"triangle from the nape\"\nrows = 60\n");
    const project::FinishedSize size = size_of(rows);
    EXPECT_NEAR(size.width / inch * (size.length / inch) / 2.0, stitches_of(rows) / 8.0, 1e-6);
    EXPECT_NEAR(size.width / size.length, 2.0, 1e-9);
}

// The last row of a triangle from a corner is the width: 40 stitches of 10 in, in 20 rows of 10 in.
TEST(FinishedShapes, AWidthIsThatOfTheFinishedTriangle) {
    const project::Project both =
        read("shape = \"triangle from a corner\"\nwidth = \"10 in\"\nlength = \"10 in\"\n");
    EXPECT_EQ(project::row_widths(both, both.pieces[0], 0).back(), 40);
    EXPECT_EQ(project::row_widths(both, both.pieces[0], 0).size(), 20U);
    EXPECT_NEAR(size_of(both).width / inch, 10.0, 1e-9);
    // Two more every second row: 39 more take 40 rows.
    const project::Project wide = read("shape = \"triangle from a corner\"\nwidth = \"10 in\"\n");
    EXPECT_EQ(project::row_widths(wide, wide.pieces[0], 0).back(), 41);
    EXPECT_EQ(project::row_widths(wide, wide.pieces[0], 0).size(), 41U);
}

// A side of a block is half of 4 stitches (1 in) and a row (0.5 in): 0.75 in.
TEST(FinishedShapes, BlocksAreAsWideAndHighAsTheyAreMany) {
    const project::Project blocks =
        read("shape = \"corner to corner\"\nblocks_wide = 20\nblocks_high = 30\n");
    EXPECT_NEAR(size_of(blocks).width / inch, 15.0, 1e-9);
    EXPECT_NEAR(size_of(blocks).length / inch, 22.5, 1e-9);
    const project::Project square = read("shape = \"corner to corner\"\nrows = 39\n");
    EXPECT_NEAR(size_of(square).width / inch, 15.0, 1e-9);
    EXPECT_NEAR(size_of(square).length / inch, 15.0, 1e-9);
}

// A width beside increases is that of row 1, and the piece is as wide as its widest row.
TEST(FinishedShapes, AGrowingPieceIsAsWideAsItsWidestRow) {
    const project::Project grows = read("width = \"10 in\"\nrows = 11\nincrease = 4\nevery = 1\n");
    EXPECT_NEAR(size_of(grows).width / inch, 20.0, 1e-9);
}

// 40 stitches of 10 in by 40 rows of 20 in: 60 in round. Three rounds of half an inch add 3 in.
TEST(FinishedShapes, TheWayRoundAndItsBorder) {
    const std::string border = "[[finish]]\nkind = \"border\"\nfirst_round = 240\nrounds = 3\n";
    const project::Project plain = read("stitches = 40\nrows = 40\n" + border);
    EXPECT_NEAR(project::way_round(plain, plain.pieces[0], 0) / inch, 60.0, 1e-9);
    const auto whole = project::with_borders(plain, 0, 0);
    ASSERT_TRUE(whole);
    EXPECT_NEAR(whole->width / inch, 13.0, 1e-9);
    EXPECT_NEAR(whole->length / inch, 23.0, 1e-9);
    const project::Project two = read("stitches = 40\nrows = 40\ncount = 2\n" + border);
    EXPECT_FALSE(project::with_borders(two, 0, 0)) << "nobody says round which of them";
    // A triangle of 60 by 30 in: 60 and twice 42.4 in.
    const project::Project wings =
        read("shape = \"triangle from the nape\"\nwidth = \"60 in\"\nlength = \"30 in\"\n");
    EXPECT_NEAR(project::way_round(wings, wings.pieces[0], 0) / inch, 60.0 * (1.0 + std::sqrt(2.0)),
                1e-6);
    // From 41 stitches to 2 in 20 in: 10.25 and 0.5 in, and two slopes of 9.75 / 2 in.
    const project::Project tip = read("stitches = 41\nrows = 40\nincrease = -1\n");
    EXPECT_NEAR(project::way_round(tip, tip.pieces[0], 0) / inch,
                10.75 + 2.0 * std::hypot(20.0, 4.875), 1e-6);
}

// Of a piece made once the edges count, and not its first row four times.
TEST(FinishedShapes, ABorderOfOnePieceGoesRoundIt) {
    const project::Project project =
        read("stitches = 40\nrows = 40\n[[finish]]\nkind = \"border\"\nof = \"P\"\nrounds = 1\n");
    const auto steps = project::finish_steps(project, project.finish.at(0), 0);
    ASSERT_EQ(steps.size(), 1U);
    EXPECT_NEAR(steps[0].stitches / units::stitch, 240.0, 1e-9);
}

// Rounds and rows together cover what they measure: stitches over the 8 of a square inch. n
// tan(pi/n) times the square of half the width between two sides; half a side times a side for
// triangles.
TEST(FinishedShapes, StitchesComeToTheAreaThatIsAskedFor) {
    const auto near = [](const std::string& lines, double square_inches, double within) {
        const project::Project made = read(lines);
        EXPECT_NEAR(stitches_of(made) / 8.0 / square_inches, 1.0, within) << lines;
    };
    for (const int corners : {3, 4, 5, 6, 8, 12}) {
        const double n = corners;
        near("shape = \"polygon\"\ncorners = " + std::to_string(corners) + "\nwidth = \"40 in\"\n",
             n * std::tan(3.14159265 / n) * 20.0 * 20.0, 0.04);
    }
    for (const char* shape : {"triangle from a corner", "triangle side to side",
                              "asymmetric triangle", "triangle from the long edge"})
        near("shape = \"" + std::string(shape) + "\"\nwidth = \"48 in\"\nlength = \"24 in\"\n",
             0.5 * 48.0 * 24.0, 0.03);
    // Down to its tip.
    const project::Project tip =
        read("shape = \"triangle from the long edge\"\nwidth = \"48 in\"\nlength = \"24 in\"\n");
    EXPECT_LE(project::row_widths(tip, tip.pieces[0], 0).back(), 2);
}

// What a shape begins with denies no width, and no figure comes of nothing.
TEST(FinishedShapes, AWidthAloneIsNoContradiction) {
    for (const char* shape :
         {"granny square", "doubling circle", "circle", "triangle from a corner",
          "triangle side to side", "asymmetric triangle"}) {
        const bool round = std::string(shape).find("triangle") == std::string::npos;
        const project::Project made =
            read("shape = \"" + std::string(shape) + "\"\nwidth = \"24 in\"\n" +
                 (round ? "" : "length = \"12 in\"\n"));
        EXPECT_TRUE(need::check(made).empty()) << shape << ": " << need::check(made).at(0).what;
        EXPECT_GT(need::need_of(made, 0).roles.at(0).length.centre / units::metre, 1.0) << shape;
        EXPECT_NEAR(size_of(made).width / inch, 24.0, 1.0) << shape;
    }
    // Rounds beside a width still are held against it.
    EXPECT_FALSE(need::check(read("shape = \"circle\"\nrows = 5\nwidth = \"24 in\"\n")).empty());
}

// 12, 24, 36 and 36 stitches from a ring at 4 to the inch: 9 in round and two of radius, so 4 in
// across. Ten more rounds of 36 make a bag of it.
TEST(FinishedShapes, WrittenRoundsThatLieFlatAreAcross) {
    const std::string disc =
        "worked = \"round\"\nrows = \"\"\"\nCh 4, join with sl st to form ring.\n"
        "Rnd 1: ch 3 (counts as dc), 11 dc in ring, join. (12 dc)\n"
        "Rnd 2: ch 3 (counts as dc), dc in same st, 2 dc in each st around, join. (24 dc)\n"
        "Rnd 3: ch 3 (counts as dc), 2 dc in next st, *dc in next st, 2 dc in next st; rep from * "
        "around, join. (36 dc)\n"
        "Rnd 4: ch 3 (counts as dc), dc in each st around, join. (36 dc)\n";
    const project::Project flat = read(disc + "\"\"\"\n", "\"3.5 per in\"");
    EXPECT_TRUE(project::lies_flat(flat, flat.pieces[0], 0));
    EXPECT_NEAR(size_of(flat).width / inch, 4.0, 1e-9);
    EXPECT_NEAR(size_of(flat).length / inch, 4.0, 1e-9);
    EXPECT_NEAR(project::way_round(flat, flat.pieces[0], 0) / inch, 3.14159265 * 4.0, 1e-6);
    const project::Project bag = read(disc + "Rnds 5-14: rep rnd 4.\n\"\"\"\n", "\"3.5 per in\"");
    EXPECT_FALSE(project::lies_flat(bag, bag.pieces[0], 0));
    EXPECT_NEAR(size_of(bag).length / inch, 7.0, 1e-9);
}

// "BO all sts." is no row of the length, whether it stands there or not.
TEST(FinishedShapes, BindingOffIsNoRow) {
    const auto knitted = [](const std::string& end) {
        return exchange::parse_project(
            "title = \"T\"\ncraft = \"knit\"\n[gauge]\nstitches = \"4 per in\"\nrows = \"4 per "
            "in\"\nstitch = \"stockinette\"\n[yarn.MC]\nrate = \"1 in per "
            "stitch\"\n[[piece]]\nname "
            "= \"P\"\nrows = \"\"\"\nCO 40 sts.\nRows 1-20: Knit. (40 sts)\n" +
                end + "\"\"\"\n",
            "p");
    };
    const project::Project bound = knitted("Row 21: BO all sts.\n");
    EXPECT_EQ(project::counts(bound, bound.pieces[0], 0).rows, 20);
    EXPECT_NEAR(size_of(bound).length / inch, 5.0, 1e-9);
    EXPECT_NEAR(need::need_of(bound, 0).roles.at(0).length.centre / inch,
                need::need_of(knitted(""), 0).roles.at(0).length.centre / inch, 1e-9);
}

}  // namespace
