// Finishing parts and growth in several sizes: lists, and figures given once. Sums by hand.

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/need/need.hpp"

#include "problems_of.hpp"

namespace skeinfall::exchange {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr const char* sized_head =
    "title = 'T'\nsizes = ['A', 'B']\nyarn = { MC = { rate = '4 cm per stitch' } }\n[gauge]\n"
    "stitches = '10 per 10 cm'\nrows = '10 per 10 cm'\nstitch = 'dc'\n";

project::Project two_sizes(const std::string& rest) {
    return parse_project(sized_head + rest, "p");
}

// 10 x 10 and 20 x 40 stitches of 1 cm: 40 cm and 120 cm round about.
const std::string rug = "[[piece]]\nname = 'rug'\nstitches = [10, 20]\nrows = [10, 40]\n";

double finish_of(const project::Project& project, std::size_t size) {
    double stitches = 0.0;
    double metres = 0.0;
    for (const project::FinishStep& step :
         project::finish_steps(project, project.finish.at(0), size)) {
        stitches += step.stitches / units::stitch;
        metres += step.yarn / units::metre;
    }
    return stitches + metres;
}

TEST(FinishSizes, ABorderGivenOnceGrowsWithTheWayRound) {
    const project::Project made =
        two_sizes(rug + "[[finish]]\nkind = 'border'\nfirst_round = 40\n");
    EXPECT_TRUE(made.finish.at(0).grown);
    EXPECT_THAT(made.finish[0].first_round.values, ElementsAre(40, 120));
    EXPECT_EQ(finish_of(made, 0), 40.0);
    EXPECT_EQ(finish_of(made, 1), 120.0);
    // Said for each it is as said.
    const project::Project told =
        two_sizes(rug + "[[finish]]\nkind = 'border'\nfirst_round = [40, 40]\n");
    EXPECT_FALSE(told.finish.at(0).grown);
    EXPECT_EQ(finish_of(told, 1), 40.0);
}

TEST(FinishSizes, TheSmallestSizeNeedNotBeTheFirst) {
    const project::Project made = two_sizes(
        "[[piece]]\nname = 'rug'\nstitches = [20, 10]\nrows = [40, 10]\n"
        "[[finish]]\nkind = 'border'\nfirst_round = 41\n");
    EXPECT_THAT(made.finish.at(0).first_round.values, ElementsAre(123, 41));
}

TEST(FinishSizes, OneBorderOfSeveralPiecesGrowsWithThatWhichGrowsMost) {
    const project::Project made = two_sizes(rug +
                                            "[[piece]]\nname = 'flap'\nstitches = 10\nrows = 10\n"
                                            "[[finish]]\nkind = 'neckband'\nfirst_round = 50\n");
    EXPECT_THAT(made.finish.at(0).first_round.values, ElementsAre(50, 150));
}

TEST(FinishSizes, SeamsAndFringesGrowTooAndTasselsDoNot) {
    EXPECT_NEAR(
        finish_of(two_sizes(rug + "[[finish]]\nkind = 'seam'\nalong = '1 m'\nfactor = 2\n"), 1),
        6.0, 1e-9);
    // With the width alone.
    const std::string fringe = "[[finish]]\nkind = 'fringe'\nstrands = 10\ncut = '20 cm'\n";
    EXPECT_NEAR(finish_of(two_sizes(rug + fringe), 0), 2.0, 1e-9);
    EXPECT_NEAR(finish_of(two_sizes(rug + fringe), 1), 4.0, 1e-9);
    const project::Project tassel =
        two_sizes(rug + "[[finish]]\nkind = 'tassel'\nwraps = 10\nacross = '10 cm'\n");
    EXPECT_FALSE(tassel.finish.at(0).grown);
    EXPECT_DOUBLE_EQ(finish_of(tassel, 0), finish_of(tassel, 1));
}

TEST(FinishSizes, ASizeThatIsAsLargeChangesNothing) {
    const project::Project made = two_sizes(
        "[[piece]]\nname = 'rug'\nstitches = 10\nrows = 10\n"
        "[[finish]]\nkind = 'border'\nfirst_round = 40\n");
    EXPECT_FALSE(made.finish.at(0).grown);
}

TEST(FinishSizes, EveryFigureOfAPartMayBeAList) {
    const project::Project border =
        two_sizes(rug +
                  "[[finish]]\nkind = 'border'\nfirst_round = [40, 120]\nrounds = [1, 3]\n"
                  "increase = 8\n");
    EXPECT_EQ(finish_of(border, 0), 40.0);
    EXPECT_EQ(finish_of(border, 1), 120.0 + 128.0 + 136.0);
    const project::Project fringe = two_sizes(
        rug + "[[finish]]\nkind = 'fringe'\nstrands = [20, 30]\ncut = ['20 cm', '30 cm']\n");
    EXPECT_NEAR(finish_of(fringe, 0), 4.0, 1e-9);
    EXPECT_NEAR(finish_of(fringe, 1), 9.0, 1e-9);
    const project::Project tassels = two_sizes(
        rug + "[[finish]]\nkind = 'tassel'\ncount = [2, 4]\nwraps = 30\nacross = '8 cm'\n");
    EXPECT_NEAR(finish_of(tassels, 1), 2.0 * finish_of(tassels, 0), 1e-9);
    const project::Project ties =
        two_sizes(rug + "[[finish]]\nkind = 'other'\ntakes = '2 m'\ncount = [1, 3]\n");
    EXPECT_NEAR(finish_of(ties, 1), 6.0, 1e-9);
    EXPECT_THAT(problems_of([] {
                    return two_sizes(rug +
                                     "[[finish]]\nkind = 'fringe'\nstrands = [20, 30, 40]\n"
                                     "cut = '20 cm'\n");
                }),
                testing::Contains(HasSubstr("the number of values is 3")));
}

// 5 stitches, and 2 more every 2nd or every 3rd row: 5 5 7 7 9 and 5 5 5 7 7.
TEST(FinishSizes, RowsBetweenIncreasesMayBeAList) {
    const project::Project made = two_sizes(
        "[[piece]]\nname = 'wing'\nstitches = 5\nrows = 5\nincrease = 2\nevery = [2, 3]\n");
    EXPECT_THAT(project::row_widths(made, made.pieces.at(0), 0), ElementsAre(5, 5, 7, 7, 9));
    EXPECT_THAT(project::row_widths(made, made.pieces[0], 1), ElementsAre(5, 5, 5, 7, 7));
}

// One mistake, told once.
TEST(FinishSizes, SizesBesideAGridAreOneMistake) {
    EXPECT_THAT(problems_of([] {
                    return parse_project(
                        "title = 'T'\nsizes = ['S', 'L']\nwidths = ['5 in']\n"
                        "yarn = { MC = { class = 4 } }\n[gauge]\nstitch = 'dc'\n"
                        "[[piece]]\nname = 'P'\nstitches = 4\nrows = [2, 3]\n",
                        "p");
                }),
                ElementsAre(HasSubstr("both sizes and a grid")));
}

}  // namespace
}  // namespace skeinfall::exchange
