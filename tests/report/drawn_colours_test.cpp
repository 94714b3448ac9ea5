// Colours as they are drawn: where they lie in a row, and by which words they are known.

#include <algorithm>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/joins/answer.hpp"
#include "skeinfall/report/detail/dyes.hpp"
#include "skeinfall/report/detail/make_drawing.hpp"

namespace {

using namespace skeinfall;
using ::testing::IsEmpty;
using ::testing::SizeIs;

report::DrawnPiece drawn_rows(const std::string& worked, const std::string& rows) {
    const project::Project project = exchange::parse_project(
        "title = 'Fell hat'\ncraft = 'knit'\n[gauge]\nstitches = '22 per 10 cm'\n"
        "rows = '24 per 10 cm'\nstitch = 'stockinette'\n[yarn.MC]\nrate = '2 cm per stitch'\n"
        "[yarn.CC1]\nrate = '2 cm per stitch'\n[[piece]]\nname = 'hat'\nyarn = 'MC'\n"
        "worked = '" +
            worked + "'\nrows = [" + rows + "]\n",
        "hat.toml");
    const need::MakeNeed need = need::need_of(project, 0);
    return report::drawn_make(project, need, joins::answer_joins(project, need, {}, {}))
        .pieces.at(0);
}

// Upright stripes of four: of the half that faces us, 56 stitches, seven are CC1. The round begins
// at the right.
TEST(DrawnColours, LieWhereTheRowsSay) {
    const report::DrawnPiece hat =
        drawn_rows("round",
                   "'CO 112 sts and join.', 'Rnds 1-3: k around.', "
                   "'Rnds 4-9: [k5 in MC, k3 in CC1] around. (112 sts)', 'Rnd 10: k around.'");
    ASSERT_THAT(hat.colour_blocks, SizeIs(10));
    EXPECT_THAT(hat.colour_blocks[2], IsEmpty());
    ASSERT_THAT(hat.colour_blocks[3], SizeIs(7));
    const report::DrawnBlock& last = hat.colour_blocks[3].back();
    EXPECT_NEAR(last.from, 1.0 - 8.0 / 56.0, 1e-9);
    EXPECT_NEAR(last.to, 1.0 - 5.0 / 56.0, 1e-9);
    for (std::size_t row = 4; row < 9; ++row)
        EXPECT_EQ(hat.colour_blocks[row], hat.colour_blocks[3]) << row;
}

// Worked flat every second row comes back from the left.
TEST(DrawnColours, OfAFlatPieceTurnWithTheWork) {
    const report::DrawnPiece flat =
        drawn_rows("flat",
                   "'CO 20 sts.', 'Row 1: k15 in MC, k5 in CC1. (20 sts)', "
                   "'Row 2: p5 in CC1, p15 in MC. (20 sts)'");
    for (const std::size_t row : {0U, 1U}) {
        ASSERT_THAT(flat.colour_blocks.at(row), SizeIs(1)) << row;
        EXPECT_NEAR(flat.colour_blocks[row][0].from, 0.0, 1e-9);
        EXPECT_NEAR(flat.colour_blocks[row][0].to, 0.25, 1e-9);
    }
}

TEST(DrawnColours, AreKnownByTheirWords) {
    const auto shade = [](const char* word) { return *report::shade_by_words(word); };
    ASSERT_TRUE(report::shade_by_words("kelp"));
    EXPECT_GT(shade("kelp").green, shade("kelp").red);
    EXPECT_GT(shade("kelp").green, shade("kelp").blue);
    for (const char* light : {"chalk", "bone"}) {
        ASSERT_TRUE(report::shade_by_words(light)) << light;
        EXPECT_GT(std::min({shade(light).red, shade(light).green, shade(light).blue}), 0.7);
    }
    EXPECT_FALSE(report::shade_by_words("zzyx"));
}

}  // namespace
