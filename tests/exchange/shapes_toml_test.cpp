// Shapes and stripes in project files: what is read, and what is refused where.

#include <cstdint>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"

#include "problems_of.hpp"

namespace skeinfall::exchange {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

/// `lines` start in line 9.
project::Project read_shape(const std::string& lines) {
    return parse_project(
        "title = 'T'\nyarn = { MC = {}, CC = {} }\n[gauge]\nstitches = '10 per 10 cm'\n"
        "rows = '10 per 10 cm'\nstitch = 'dc'\n[[piece]]\nname = 'P'\n" +
            lines,
        "p");
}

std::vector<std::string> shape_problems(const std::string& lines) {
    return problems_of([&] { return read_shape("yarn = 'MC'\n" + lines); });
}

std::vector<std::int64_t> widths(const std::string& lines) {
    const project::Project project = read_shape("yarn = 'MC'\n" + lines);
    return project::row_widths(project, project.pieces.at(0), 0);
}

TEST(ShapeKeys, FiguresOfEachShape) {
    EXPECT_THAT(widths("shape = 'trapezoid'\nrows = 3\nstitches = 10\nlast_width = '14 cm'\n"),
                ElementsAre(10, 12, 14));
    EXPECT_THAT(widths("shape = 'polygon'\ncorners = 8\nwidth = '6 cm'\n"), ElementsAre(8, 16, 16));
    EXPECT_THAT(widths("shape = 'crescent'\nrows = 3\n"), ElementsAre(9, 9, 15));
    EXPECT_THAT(widths("shape = 'crescent'\nrows = 3\nstitches = 5\nincrease = 8\nevery = 1\n"),
                ElementsAre(5, 13, 21));
    EXPECT_EQ(widths("shape = 'c2c'\nblocks_wide = 4\nblocks_high = 3\n").size(), 6U);
    EXPECT_THAT(widths("shape = 'Triangle from the long edge'\nwidth = '5 cm'\n"),
                ElementsAre(5, 5, 3, 3, 1));
}

TEST(ShapeKeys, WhatIsMissing) {
    EXPECT_THAT(shape_problems("shape = 'crecent'\nrows = 3\n"),
                ElementsAre(StartsWith("p:10:9: shape: there is no shape called \"crecent\"; "
                                       "expected rectangle, tube")));
    EXPECT_THAT(shape_problems("shape = 5\nrows = 3\n"),
                ElementsAre(StartsWith("p:10:9: shape: 5 is not in quotes")));
    EXPECT_THAT(shape_problems("shape = 'circle'\n"),
                ElementsAre("p:7:1: \"rows\" is missing; expected \"rows\", or \"width\" for the "
                            "way across"));
    EXPECT_THAT(shape_problems("shape = 'trapezoid'\nrows = 3\nstitches = 4\n"),
                ElementsAre("p:7:1: a figure is missing for the shape \"trapezoid\"; expected "
                            "\"last_stitches\" or \"last_width\""));
    EXPECT_THAT(shape_problems("shape = 'triangle from the long edge'\n"),
                ElementsAre(HasSubstr("expected \"stitches\" or \"width\"")));
    EXPECT_THAT(shape_problems("shape = 'corner to corner'\n"),
                ElementsAre("p:7:1: its size is not clear; expected \"blocks_wide\" and "
                            "\"blocks_high\", or \"rows\" for a square"));
}

TEST(ShapeKeys, WhatIsTooMuch) {
    EXPECT_THAT(shape_problems("shape = 'crescent'\nrows = 3\nlength = '3 cm'\n"),
                ElementsAre("p:12:10: length: it is said twice for the shape \"crescent\"; "
                            "expected \"rows\" or \"length\""));
    EXPECT_THAT(
        shape_problems("shape = 'corner to corner'\nrows = 9\nblocks_wide = 3\nblocks_high = 4\n"),
        ElementsAre(HasSubstr("p:11:8: rows: its size is not clear")));
    EXPECT_THAT(
        shape_problems("shape = 'tube'\nrows = 3\nstitches = 4\nlast_stitches = 4\ncorners = 5\n"
                       "blocks_wide = 4\n"),
        ElementsAre(HasSubstr("p:13:17: last_stitches: this shape does not have it; expected it "
                              "with shape = \"trapezoid\""),
                    HasSubstr("p:14:11: corners: this shape does not have it"),
                    HasSubstr("p:15:15: blocks_wide: this shape does not have it")));
    EXPECT_THAT(shape_problems("shape = 'triangle from the long edge'\nstitches = 9\nrows = "
                               "20\nincrease = -2\n"),
                ElementsAre(HasSubstr("no stitches are left in row 20")));
    EXPECT_THAT(shape_problems("shape = 'circle'\nrows = 'Row 1: ch 2, sc in 2nd ch from hook'\n"),
                ElementsAre(HasSubstr("p:10:9: shape: the rows already say this")));
    EXPECT_THAT(shape_problems("shape = 'polygon'\nrows = 3\ncorners = 2\n"),
                ElementsAre(HasSubstr("p:12:11: corners: 2 is too small")));
    EXPECT_THAT(shape_problems("shape = 'circle'\nrows = 1_000_000\nincrease = 1_000_000\n"),
                ElementsAre(HasSubstr("too many stitches in its last row")));
}

// The first round of every granny square has 12 dc: four groups, which is what the shape counts.
TEST(ShapeKeys, StitchesOfAGrannySquareAreNotItsGroups) {
    EXPECT_THAT(shape_problems("shape = 'granny square'\nrows = 6\nstitches = 12\n"),
                ElementsAre("p:12:12: stitches: 12 of these would be groups of 3 stitches each; "
                            "expected 4, the groups in the first round of a granny square\n    "
                            "Leave this line out: "
                            "the shape says it."));
    EXPECT_THAT(shape_problems("shape = 'granny square'\nrows = 6\nstitches = 4\n"),
                ::testing::IsEmpty());
}

TEST(ShapeKeys, WhatKnittingDoesNotHave) {
    EXPECT_THAT(problems_of([] {
                    return parse_project(
                        "title = 'T'\ncraft = 'knit'\nyarn.MC = {}\ngauge = { stitches = '2 per "
                        "cm', rows = '2 per cm', stitch = 'garter' }\n"
                        "[[piece]]\nname = 'P'\nshape = 'granny'\nrows = 3\n",
                        "p");
                }),
                ElementsAre(HasSubstr("p:7:9: shape: this shape is crocheted")));
}

// Blocks have no size that a gauge tells; rounds and rows have.
TEST(ShapeKeys, AnotherGauge) {
    const std::string own =
        "[maker_gauge]\nstitches = '11 per 10 cm'\nrows = '10 per 10 cm'\nkeep = 'size'\n";
    EXPECT_THAT(shape_problems("shape = 'corner to corner'\nrows = 9\n" + own),
                ElementsAre(StartsWith("p:15:8: keep: \"P\" is counted in blocks")));
    EXPECT_THAT(widths("rows = 11\nstitches = 10\nincrease = 2\nevery = 2\n" + own).back(), 22);
}

TEST(StripeKeys, HowFarYarnIsCarried) {
    const std::string stripes =
        "stripes = [{ yarn = 'MC', rows = 2 }, { yarn = 'CC', rows = 4 }]\n"
        "rows = 12\nstitches = 5\n";
    EXPECT_FALSE(read_shape(stripes).pieces.at(0).carry_at_most);
    EXPECT_NEAR(*read_shape(stripes + "carry_at_most = '5 cm'\n").pieces.at(0).carry_at_most /
                    units::centimetre,
                5.0, 1e-12);
    const auto wrong = [&](const std::string& lines) {
        return problems_of([&] { return read_shape(lines); });
    };
    EXPECT_THAT(wrong(stripes + "carry_at_most = '5 g'\n"),
                ElementsAre(StartsWith("p:12:20: carry_at_most: \"5 g\"")));
    EXPECT_THAT(wrong(stripes + "carry_at_most = 5\n"),
                ElementsAre(StartsWith("p:12:17: carry_at_most: 5 has no unit")));
    EXPECT_THAT(shape_problems("rows = 2\nstitches = 5\ncarry_at_most = '5 cm'\n"),
                ElementsAre("p:12:17: carry_at_most: only between stripes a yarn rests; expected "
                            "it beside stripes\n    Leave this line out."));
    EXPECT_THAT(wrong(stripes), IsEmpty());
}

TEST(RowCounts, ATextThatOnlyCountsIsToldHowToBeWritten) {
    for (const std::string rows : {"150 rows", " 150 Rounds ", "150"})
        EXPECT_THAT(shape_problems("stitches = 28\nrows = '" + rows + "'\n"),
                    ElementsAre("p:11:8: rows: this is a number in quotes; expected rows = "
                                "150"));
}

}  // namespace
}  // namespace skeinfall::exchange
