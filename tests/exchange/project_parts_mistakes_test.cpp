#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"

#include "problems_of.hpp"
#include "project_problems.hpp"

namespace skeinfall::exchange {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::EndsWith;
using testing::IsEmpty;
using testing::StartsWith;

/// `lines` start in line 8; there are two yarns, MC and CC1, and CC1 has a grist.
std::vector<std::string> behind_yarns(const std::string& lines) {
    return project_problems(
        "title = 'T'\nyarn = { MC = { total = '1 m' }, CC1 = { grist = '2 m/g' } }\n" + hdc_gauge +
        "\n" + lines);
}

// [[swatch]] ----------------------------------------------------------------------------------

TEST(ProjectPartsMistakes, Swatch) {
    EXPECT_THAT(behind_yarns("[[swatch]]\n"),
                ElementsAre("p:8:1: \"yarn\" is missing; expected one of MC, CC1\n"
                            "    Add a line like yarn = \"MC\".",
                            "p:8:1: \"stitches\" is missing; expected stitches and rows, or width "
                            "and height\n"
                            "    Count the swatch, or measure it.",
                            "p:8:1: \"mass\" is missing; expected mass and scale, or length\n"
                            "    Weigh the swatch, or unravel it and measure its yarn."));
    EXPECT_THAT(
        behind_yarns("[[swatch]]\nyarn = 'CC1'\nstitches = 4\nheight = '1 in'\nmass = '4 g'\n"),
        ElementsAre("p:10:12: stitches: it needs \"rows\" as well; expected both "
                    "\"stitches\" and \"rows\", or neither",
                    "p:11:10: height: it needs \"width\" as well; expected both \"width\" "
                    "and \"height\", or neither",
                    "p:12:8: mass: the step of the scale is missing; expected the smallest "
                    "step the scale shows, in the key \"scale\"\n"
                    "    Add a line like scale = \"1 g\"."));
    EXPECT_THAT(
        behind_yarns("[[swatch]]\nyarn = 'MC'\nstitches = 4\nrows = 4\nmass = '4 g'\n"
                     "scale = '1 g'\ntare = '4 g'\n"),
        ElementsAre("p:12:8: mass: the reading is not above the tare; expected more than "
                    "4 g",
                    "p:12:8: mass: the yarn MC has no length per mass; expected a grist for "
                    "that yarn\n"
                    "    Add a line like grist = \"200 yd / 100 g\" to [yarn.MC]."));
    EXPECT_THAT(behind_yarns("[[swatch]]\nyarn = 'CC2'\nstitches = 0\nrows = 1_000_001\n"
                             "length = '4 m'\nscale = '1 g'\n"),
                ElementsAre("p:9:8: yarn: no yarn \"CC2\" is described; expected one of MC, CC1\n"
                            "    Did you mean \"CC1\"?",
                            "p:10:12: stitches: 0 is too small; expected a whole number from 1 to "
                            "1000000",
                            "p:11:8: rows: 1000001 is too large; expected a whole number from 1 to "
                            "1000000",
                            "p:13:9: scale: there is no mass it belongs to; expected \"mass\" as "
                            "well\n"
                            "    Add a line like mass = \"14 g\", or leave this one out."));
}

// [[piece]] -----------------------------------------------------------------------------------

TEST(ProjectPartsMistakes, PieceWithoutItsKeys) {
    EXPECT_THAT(behind_yarns("[[piece]]\nrwos = 3\n"),
                ElementsAre("p:8:1: \"name\" is missing; expected a line like name = \"Body\"",
                            StartsWith("p:8:1: \"yarn\" is missing; expected one of MC, CC1"),
                            "p:8:1: \"stitches\" is missing; expected \"stitches\" or \"width\"",
                            "p:9:1: unknown key \"rwos\"\n"
                            "    Did you mean \"rows\"?"));
}

/// `lines` start in line 11 and follow a name, the yarn CC1 and nothing else.
std::vector<std::string> in_piece(const std::string& lines) {
    return behind_yarns("[[piece]]\nname = 'P'\nyarn = 'CC1'\n" + lines + "\n");
}

TEST(ProjectPartsMistakes, CountsOfAPiece) {
    EXPECT_THAT(
        in_piece("rows = 1.5\nstitches = '9'\ncount = -2\nevery = 0\nincrease = 2e6"),
        ElementsAre("p:11:8: rows: this is a decimal number; expected a whole number from 1 "
                    "to 1000000",
                    "p:12:12: stitches: \"9\" is in quotes; expected stitches = 9\n"
                    "    Write the number without quotes.",
                    "p:13:9: count: -2 is too small; expected a whole number from 1 to "
                    "1000000",
                    "p:14:9: every: 0 is too small; expected a whole number from 1 to "
                    "1000000",
                    "p:15:12: increase: this is a decimal number; expected a whole number "
                    "from -1000000 to 1000000"));
    EXPECT_THAT(
        in_piece("rows = 9223372036854775807\nstitches = -9223372036854775808"),
        ElementsAre("p:11:8: rows: 9223372036854775807 is too large; expected a whole number "
                    "from 1 to 1000000",
                    "p:12:12: stitches: -9223372036854775808 is too small; expected a whole "
                    "number from 1 to 1000000"));
    EXPECT_THAT(in_piece("rows = 1\nstitches = 1\nfoundation_rows = nan"),
                ElementsAre("p:13:19: foundation_rows: nan is out of range; expected a number from "
                            "0 to 1000"));
    EXPECT_THAT(
        in_piece("rows = 1\nstitches = 1\nfoundation_rows = -inf"),
        ElementsAre("p:13:19: foundation_rows: -inf is out of range; expected a number from "
                    "0 to 1000"));
    EXPECT_THAT(
        in_piece("rows = 1\nstitches = 1\nfoundation_rows = -1"),
        ElementsAre("p:13:19: foundation_rows: -1 is out of range; expected a number from 0 "
                    "to 1000"));
    EXPECT_THAT(in_piece("rows = 1\nstitches = 1\nfoundation_rows = '1'"),
                ElementsAre("p:13:19: foundation_rows: this is a text; expected a number from 0 to "
                            "1000"));
}

TEST(ProjectPartsMistakes, CountsAndMeasuresOfAPieceMayStandSideBySide) {
    EXPECT_THAT(in_piece("rows = 1\nlength = '1 m'\nwidth = '1 m'\nstitches = 9"), IsEmpty());
    EXPECT_THAT(in_piece("rows = 1\nwidth = '1 m'"), IsEmpty());
    EXPECT_FALSE(in_piece("rows = 1").empty());
}

TEST(ProjectPartsMistakes, ListsOfTheWrongLength) {
    const std::string head =
        "title = 'T'\nsizes = ['S', 'M']\n" + hdc_gauge + "[yarn.MC]\n[[piece]]\nname = 'P'\n";
    EXPECT_THAT(project_problems(head + "rows = [1, 2, 3]\nstitches = []\n"),
                ElementsAre("p:10:8: rows: the number of values is 3, the number of sizes 2; "
                            "expected one value a size, or one value for all",
                            "p:11:12: stitches: the number of values is 0, the number of sizes 2; "
                            "expected one value a size, or one value for all"));
    EXPECT_THAT(project_problems(head + "rows = [1, 'x']\nwidth = ['1 m', '2 mx']\n"),
                ElementsAre(StartsWith("p:10:9: rows: 1 is not in quotes"),
                            StartsWith("p:11:20: width: \"2 mx\": unknown unit \"mx\"")));
    EXPECT_THAT(project_problems(head + "rows = [1, 2]\nwidth = ['1 m', '2 m']\n"), IsEmpty());
}

// The gauge is 100 stitches and 100 rows a metre.
TEST(ProjectPartsMistakes, CountsThatFollowFromMeasuresAndIncreases) {
    const std::string rest = "; expected at most 1000000\n    Check the figure and its unit.";
    EXPECT_THAT(in_piece("length = '2 km'\nwidth = '10 km'"), IsEmpty());
    EXPECT_THAT(in_piece("length = '10.1 km'\nwidth = '1 m'"),
                ElementsAre("p:11:10: length: this makes too many rows" + rest));
    EXPECT_THAT(in_piece("length = '1 m'\nwidth = '999999999999 km'"),
                ElementsAre("p:12:9: width: this makes too many stitches" + rest));
    // 1 + 1001 x 999 is a million, 1 + 1002 x 999 is more.
    EXPECT_THAT(in_piece("rows = 1000\nstitches = 1\nincrease = 1001"), IsEmpty());
    EXPECT_THAT(
        in_piece("rows = 1000\nstitches = 1\nincrease = 1002"),
        ElementsAre("p:13:12: increase: this makes too many stitches in its last row" + rest));
    EXPECT_THAT(in_piece("rows = 1000\nstitches = 1\nincrease = 1002\nevery = 2"), IsEmpty());
    EXPECT_THAT(in_piece("rows = 121\nstitches = 121\nincrease = -1"), IsEmpty());
    EXPECT_THAT(in_piece("rows = 122\nstitches = 121\nincrease = -1"),
                ElementsAre("p:13:12: increase: no stitches are left in row 122; expected at least "
                            "one stitch in the last row\n"
                            "    Take away fewer stitches, or work fewer rows."));
}

TEST(ProjectPartsMistakes, RowsOfTheWholeProject) {
    const std::string half =
        "[[piece]]\nname = 'P'\nyarn = 'CC1'\nrows = 100\ncount = 1000\n"
        "stitches = 1\n";
    EXPECT_THAT(behind_yarns(half + half), IsEmpty());
    EXPECT_THAT(behind_yarns(half + half + half),
                ElementsAre("p:23:8: rows: this makes too many rows in the project up to here, all "
                            "sizes together; expected at most 200000\n"
                            "    Check the figure and its unit."));
    EXPECT_THAT(in_piece("rows = 1000000\ncount = 1000000\nstitches = 1"),
                ElementsAre(StartsWith("p:11:8: rows: this makes too many rows in the project")));
}

TEST(ProjectPartsMistakes, Stripes) {
    const std::string head = "[[piece]]\nname = 'P'\nrows = 9\nstitches = 9\n";
    EXPECT_THAT(behind_yarns(head + "stripes = [{ yarn = 'MX', rows = 4 }, { yarn = 'MC' }, 5]\n"),
                ElementsAre("p:12:21: yarn: no yarn \"MX\" is described; expected one of MC, CC1\n"
                            "    Did you mean \"MC\"?",
                            "p:12:39: \"rows\" is missing; expected a whole number\n"
                            "    Write it like { yarn = \"MC\", rows = 4 }.",
                            "p:12:56: stripes: this is a whole number; expected a table"));
    EXPECT_THAT(behind_yarns(head + "stripes = []\nyarn = 'MC'\n"),
                ElementsAre("p:12:11: stripes: there is no stripe in it; expected at least one "
                            "stripe\n"
                            "    Write it like stripes = [{ yarn = \"MC\", rows = 4 }].",
                            "p:13:8: yarn: both a yarn and stripes; expected one of them\n"
                            "    Give the yarns in the stripes only."));
    EXPECT_THAT(behind_yarns(head + "stripes = [{ yarn = 'MC', rows = 0, row = 1 }]\n"),
                ElementsAre(StartsWith("p:12:34: rows: 0 is too small; "),
                            "p:12:37: unknown key \"row\"\n"
                            "    Did you mean \"rows\"?"));
}

// [[finish]] ----------------------------------------------------------------------------------

TEST(ProjectPartsMistakes, Finish) {
    EXPECT_THAT(
        behind_yarns("[[finish]]\nyarn = 'MC'\n"),
        ElementsAre(
            "p:8:1: \"kind\" is missing; expected \"border\", \"neckband\", \"seam\", "
            "\"joining\", \"fringe\", \"tassel\", \"pompom\", \"swatch\" or "
            "\"other\"\n"
            "    Add a line like kind = \"border\".",
            "p:8:1: \"takes\" is missing; expected one of takes = \"30 yd\", stitches = 120, "
            "or along = \"1.2 m\" with way = \"mattress\""));
    EXPECT_THAT(behind_yarns("[[finish]]\nyarn = 'MC'\nkind = 'frnge'\nalong = '2 m'\n"),
                ElementsAre("p:8:1: \"way\" is missing; expected how it is sewn, as in way = "
                            "\"mattress\", or factor = 3",
                            "p:10:8: kind: unknown word \"frnge\"; expected \"border\", "
                            "\"neckband\", \"seam\", \"joining\", \"fringe\", \"tassel\", "
                            "\"pompom\", \"swatch\" or \"other\"\n"
                            "    Did you mean \"fringe\"?"));
    EXPECT_THAT(
        behind_yarns("[[finish]]\nyarn = 'MC'\nkind = 'seam'\nfactor = 0\n"),
        ElementsAre(
            "p:8:1: \"along\" is missing; expected \"along\" as well",
            "p:8:1: \"takes\" is missing; expected one of takes = \"30 yd\", stitches = 120, "
            "or along = \"1.2 m\" with way = \"mattress\"",
            "p:11:10: factor: 0 is out of range; expected a number from 0.001 to "
            "1000"));
    EXPECT_THAT(
        behind_yarns("[[finish]]\nyarn = 'MC'\nkind = 'other'\ntakes = '2 m'\n"
                     "stitches = 4\n"),
        ElementsAre(
            "p:12:12: stitches: the yarn of this part is given more than one way; "
            "expected one of takes = \"30 yd\", stitches = 120, or along = \"1.2 m\" with way = "
            "\"mattress\"\n"
            "    Leave the others out, so that they cannot disagree."));
}

TEST(ProjectPartsMistakes, FinishByName) {
    const std::string finish = "[[finish]]\nyarn = 'MC'\nkind = ";
    EXPECT_THAT(behind_yarns(finish + "'seam'\nalong = '2 m'\nway = 'matress'\n"),
                ElementsAre(AllOf(StartsWith("p:12:7: way: there is no seam called \"matress\""),
                                  EndsWith("Did you mean \"mattress\"?"))));
    EXPECT_THAT(behind_yarns(finish + "'fringe'\nstrands = 80\n"),
                ElementsAre(StartsWith("p:8:1: \"cut\" is missing")));
    EXPECT_THAT(behind_yarns(finish + "'seam'\ntakes = '2 m'\nstrands = 80\ncut = '30 cm'\n"),
                ElementsAre(StartsWith("p:12:11: strands: only a fringe is cut so"),
                            StartsWith("p:12:11: strands: the yarn of this part is given more"),
                            StartsWith("p:13:7: cut: only a fringe is cut so")));
    EXPECT_THAT(behind_yarns(finish + "'border'\nfirst_round = 10\nrounds = 4\nincrease = -4\n"),
                ElementsAre(StartsWith("p:13:12: increase: no stitches are left")));
    EXPECT_THAT(behind_yarns(finish + "'joining'\nof = 'square'\n"),
                ElementsAre(StartsWith("p:11:6: of: there is no piece called \"square\"")));
}

}  // namespace
}  // namespace skeinfall::exchange
