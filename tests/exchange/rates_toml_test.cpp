// Swatches of several kinds, earlier makes and gauges from TOML: values, and every mistake with
// its place.

#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/need/need.hpp"

#include "problems_of.hpp"

namespace skeinfall::exchange {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::StartsWith;

const std::string before =
    "title = 'T'\n[gauge]\nstitches = '10 per 10 cm'\nrows = '10 per 10 cm'\nstitch = 'sc'\n"
    "[yarn.MC]\ngrist = '200 m / 100 g'\n[[piece]]\nname = 'B'\nstitches = 20\nrows = 30\n";

/// `lines` start in line 12.
project::Project read_rates(const std::string& lines) {
    return parse_project(before + lines, "p");
}

std::vector<std::string> rate_problems(const std::string& lines) {
    return problems_of([&] { return read_rates(lines); });
}

// One total for sizes of 20 and 30 stitches is the smaller one's: the larger takes half as much
// again. Where all sizes are of one number of stitches it is everybody's.
TEST(RatesToml, OneTotalPromisesNothingToTheLargerSizes) {
    const auto metres = [](const std::string& stitches) {
        const project::Project found = parse_project(
            "title = 'T'\nsizes = ['S', 'L']\n[gauge]\nstitches = '10 per 10 cm'\n"
            "rows = '10 per 10 cm'\nstitch = 'sc'\n[yarn.MC]\ntotal = '100 m'\n"
            "[[piece]]\nname = 'B'\nrows = 30\nstitches = " +
                stitches + "\n",
            "p");
        return std::pair(found.roles.at(0).total_length.at(0) / units::metre,
                         found.roles.at(0).total_length.at(1) / units::metre);
    };
    EXPECT_NEAR(metres("[20, 30]").first, 100.0, 1e-9);
    EXPECT_NEAR(metres("[20, 30]").second, 150.0, 1e-9);
    EXPECT_NEAR(metres("[30, 20]").first, 150.0, 1e-9);
    EXPECT_NEAR(metres("20").second, 100.0, 1e-9);
}

TEST(RatesToml, SwatchesByKindWrittenAndMarked) {
    const project::Project found = read_rates(
        "[[swatch]]\nstitches = { ch = 21, sc = 200 }\nrows = 10\nmass = '4.4 g'\n"
        "scale = '0.1 g'\nends = '20 cm'\n"
        "[[swatch]]\nrows = ['Ch 11.', 'Row 1: sc in 2nd ch from hook and in each ch across. (10 "
        "sc)', 'Row 2: ch 1, turn, sc in each st across. (10 sc)']\nbefore = '10 yd'\n"
        "after = '3 yd'\n"
        "[[swatch]]\nstitches = 45\nmarked = '1 yd'\nstitch = 'hdc'\n"
        "[[swatch]]\nstitches = 9\nrows = 9\nbefore = '48.4 g'\nafter = '46.8 g'\nscale = '0.1 "
        "g'\n");
    ASSERT_EQ(found.swatches.size(), 4U);
    const project::Swatch& kinds = found.swatches[0];
    EXPECT_THAT(kinds.kinds, ElementsAre(project::KindCount{"ch", 21.0 * units::stitch},
                                         project::KindCount{"sc", 200.0 * units::stitch}));
    EXPECT_NEAR(kinds.ends / units::centimetre, 20.0, 1e-12);
    EXPECT_FALSE(kinds.stitches.has_value());
    const project::Swatch& rows = found.swatches[1];
    // The chain of the foundation and of the turn, and the stitches of both rows.
    EXPECT_THAT(rows.kinds,
                testing::UnorderedElementsAre(project::KindCount{"ch", 12.0 * units::stitch},
                                              project::KindCount{"sc", 20.0 * units::stitch}));
    EXPECT_NEAR(*rows.yarn / units::yard, 7.0, 1e-12);
    EXPECT_TRUE(rows.by_rest);
    EXPECT_EQ(rows.rows->value(), 2.0);
    EXPECT_TRUE(found.swatches[2].marked);
    EXPECT_EQ(found.swatches[2].stitch, "hdc");
    EXPECT_FALSE(found.swatches[2].rows.has_value());
    const auto mass = measure::net_mass(found.swatches[3].weighing->reading());
    EXPECT_NEAR(mass.centre / units::gram, 1.6, 1e-9);
    EXPECT_TRUE(found.swatches[3].by_rest);
    EXPECT_EQ(found.place("swatch.3", "after").line, 30U);
    EXPECT_EQ(found.place("swatch.3", "none").line, 26U);
    EXPECT_EQ(found.place("nothing").line, 0U);
}

TEST(RatesToml, MistakesOfSwatches) {
    EXPECT_THAT(rate_problems("[[swatch]]\nstitches = { scc = 4 }\nlength = '1 m'\n"),
                ElementsAre(StartsWith("p:13:12: stitches: ")));
    EXPECT_THAT(rate_problems("[[swatch]]\nstitches = {}\nlength = '1 m'\n"),
                ElementsAre("p:13:12: stitches: this is empty; expected stitches by kind\n"
                            "    Write it like stitches = { dc = 12, ch = 4 }."));
    EXPECT_THAT(
        rate_problems("[[swatch]]\nstitches = 4\nrows = ['Ch 5.', 'Row 1: sc in 2nd ch from "
                      "hook and in each ch across. (4 sc)']\nlength = '1 m'\n"),
        ElementsAre(StartsWith("p:13:12: stitches: the rows already say this")));
    EXPECT_THAT(
        rate_problems("[[swatch]]\nrows = ['Ch 5.', 'Row 1: sc in 2nd ch from hook and in each "
                      "ch across. (9 sc)']\nlength = '1 m'\n"),
        ElementsAre(StartsWith("p:13:73: rows: row 1: the pattern says 9 sc")));
    EXPECT_THAT(rate_problems("[[swatch]]\nstitches = { sc = 4 }\nstitch = 'dc'\nlength = '1 m'\n"),
                ElementsAre(StartsWith("p:14:10: stitch: its stitches are told by kind already")));
    EXPECT_THAT(rate_problems("[[swatch]]\nstitches = 4\nlength = '1 m'\n"),
                ElementsAre("p:13:12: stitches: it needs \"rows\" as well; expected both "
                            "\"stitches\" and \"rows\", or neither"));
    EXPECT_THAT(rate_problems("[[swatch]]\nstitches = 4\nrows = 4\nmarked = '1 m'\nmass = '4 g'\n"
                              "scale = '1 g'\n"),
                ElementsAre(StartsWith(
                    "p:15:10: marked: the yarn of this swatch is given more than one way")));
    EXPECT_THAT(
        rate_problems("[[swatch]]\nstitches = 4\nrows = 4\nbefore = '4 g'\nscale = '1 g'\n"),
        ElementsAre(StartsWith("p:15:10: before: it needs \"after\" as well"),
                    StartsWith("p:16:9: scale: there is no mass it belongs to")));
    EXPECT_THAT(
        rate_problems("[[swatch]]\nstitches = 4\nrows = 4\nbefore = '4 g'\nafter = '4 g'\n"),
        ElementsAre(StartsWith("p:15:10: before: the step of the scale is missing"),
                    StartsWith("p:16:9: after: nothing was used")));
    EXPECT_THAT(
        rate_problems("[[swatch]]\nstitches = 4\nrows = 4\nbefore = '4 m'\nafter = '5 m'\n"),
        ElementsAre("p:16:9: after: nothing was used: it is not below what there was "
                    "before; expected less than 4 m"));
    EXPECT_THAT(rate_problems("[[swatch]]\nstitches = 4\nrows = 4\nbefore = '9 g'\nafter = '5 g'\n"
                              "scale = '1 g'\ntare = '1 g'\n"),
                ElementsAre(StartsWith("p:18:8: tare: what else was on the scale cancels")));
    EXPECT_THAT(rate_problems("[[swatch]]\nstitches = 4\nrows = 4\nlength = '1 m'\nends = '2 m'\n"),
                ElementsAre(StartsWith("p:16:8: ends: the ends are all the yarn of the swatch")));
    EXPECT_THAT(rate_problems("[[swatch]]\nstitches = 4\nrows = 4\nbefore = 'x'\nafter = '5 g'\n"
                              "scale = '1 g'\n"),
                ElementsAre(StartsWith("p:15:11: before: ")));
}

TEST(RatesToml, EarlierMakes) {
    const project::Project found = read_rates(
        "[[earlier_make]]\nname = 'First'\nwidth = '80 cm'\nheight = '1 m'\nmass = '400 g'\n"
        "scale = '1 g'\ncount = 2\n[[earlier_make]]\narea = '0.62 sq m'\nlength = '610 m'\n"
        "[[earlier_make]]\nstitches = 19321\nlength = '610 m'\n");
    ASSERT_EQ(found.earlier_makes.size(), 3U);
    EXPECT_NEAR(found.earlier_makes[0].area->value(), 0.8, 1e-12);
    EXPECT_NEAR(found.earlier_makes[1].area->value(), 0.62, 1e-12);
    EXPECT_EQ(found.earlier_makes[2].stitches->value(), 19321.0);
    EXPECT_EQ(found.earlier_makes[0].name, "First");
    EXPECT_EQ(found.earlier_makes[0].count, 2);
    EXPECT_EQ(found.earlier_makes[1].count, 1);
}

TEST(RatesToml, MistakesOfEarlierMakes) {
    EXPECT_THAT(rate_problems("[[earlier_make]]\n"),
                ElementsAre(StartsWith("p:12:1: \"stitches\" is missing; expected one of "
                                       "\"stitches\", \"area\", or \"width\" and \"height\""),
                            StartsWith("p:12:1: \"mass\" is missing")));
    EXPECT_THAT(rate_problems("[[earlier_make]]\narea = '4 m'\nstitches = 3\nlength = '1 m'\n"),
                ElementsAre(StartsWith("p:13:11: area: \"4 m\": the area unit is missing"),
                            StartsWith("p:14:12: stitches: its size is given more than one way")));
    EXPECT_THAT(rate_problems("[[earlier_make]]\nwidth = '4 m'\nlength = '1 m'\nmass = '1 g'\n"),
                ElementsAre(StartsWith("p:13:9: width: it needs \"height\" as well"),
                            StartsWith("p:14:10: length: its yarn is given more than one way"),
                            StartsWith("p:15:8: mass: the step of the scale is missing")));
    EXPECT_THAT(
        rate_problems("[[earlier_make]]\nstitches = 4\nlength = '1 m'\nscale = '1 g'\nx = 1\n"),
        ElementsAre(StartsWith("p:15:9: scale: there is no mass it belongs to"),
                    StartsWith("p:16:1: unknown key \"x\"")));
}

TEST(RatesToml, GaugesOfMakerAndPiece) {
    const project::Project found = read_rates(
        "gauge = { stitches = '20 per 10 cm', rows = '20 per 10 cm' }\n[maker_gauge]\n"
        "stitches = '11 per 10 cm'\nrows = '10 per 10 cm'\nkeep = 'size'\n");
    ASSERT_TRUE(found.pattern_gauge.has_value());
    EXPECT_NEAR(found.gauge.stitches.value(), 110.0, 1e-9);
    EXPECT_NEAR(found.pattern_gauge->stitches.value(), 100.0, 1e-9);
    EXPECT_EQ(found.keeping, project::Keeping::size);
    EXPECT_EQ(found.pieces[0].stitches.at(0), 22);
    EXPECT_NEAR(found.pieces[0].gauge->stitches.value(), 220.0, 1e-9);
    EXPECT_EQ(found.pattern_pieces[0].stitches.at(0), 20);
}

TEST(RatesToml, MistakesOfGauges) {
    EXPECT_THAT(
        rate_problems("gauge = { stitches = '20 per 10 cm' }\n[maker_gauge]\n"
                      "stitches = 'x'\nrows = '10 per 10 cm'\nkeep = 'all'\n"),
        ElementsAre(StartsWith("p:12:9: \"rows\" is missing"), StartsWith("p:14:13: stitches: "),
                    StartsWith("p:16:8: keep: unknown word \"all\"")));
    EXPECT_THAT(rate_problems("[maker_gauge]\nstitches = '1 per cm'\nrows = '1 per cm'\n"),
                ElementsAre(StartsWith("p:12:1: \"keep\" is missing; expected \"stitch counts\" "
                                       "or \"size\"")));
    EXPECT_THAT(
        rate_problems("[[piece]]\nname = 'Lace'\nrows = ['Ch 5.', 'Row 1: sc in 2nd ch from "
                      "hook and in each ch across. (4 sc)']\n[maker_gauge]\nstitches = '1 per "
                      "cm'\nrows = '1 per cm'\nkeep = 'size'\n"),
        ElementsAre(StartsWith("p:18:8: keep: the rows of \"Lace\" are written out")));
}

TEST(RatesToml, LengthsInTwoUnits) {
    const project::Project found = parse_project(
        "title = 'T'\n[gauge]\nstitches = '1 per cm'\nrows = '1 per cm'\nstitch = 'sc'\n"
        "[yarn.MC]\ngrist = '200 yd (182 m) / 100 g'\ntotal = '1800 yd (1638 m)'\n",
        "p");
    ASSERT_EQ(found.roles[0].printed_twice.size(), 2U);
    EXPECT_EQ(found.roles[0].printed_twice[1].key, "total");
    EXPECT_EQ(found.roles[0].grist->text, "200 yd / 100 g");
    EXPECT_NEAR(found.roles[0].total_length.at(0) / units::yard, 1800.0, 1e-9);
    EXPECT_THAT(problems_of([&] {
                    return parse_project(
                        "title = 'T'\n[gauge]\nstitches = '1 per cm'\nrows = '1 "
                        "per cm'\nstitch = 'sc'\n[yarn.MC]\ngrist = '200 yd (182 "
                        "m) / 100 pots'\ntotal = '1 m (x)'\n",
                        "p");
                }),
                ElementsAre(StartsWith("p:7:9: grist: "), StartsWith("p:8:")));
}

}  // namespace

// A panel alike in both sizes and a trim that doubles: 510 yd stay, 170 yd become 340. A fringe of
// 20 yd, the same for both, is taken outright: 150 yd double, and 20 come on top.
TEST(RatesToml, ATotalIsSharedByTheStitchesOfItsOwnYarn) {
    const auto of = [](const std::string& more, const std::string& finish) {
        return parse_project(
            "title = 'T'\nsizes = ['M', 'L']\n[gauge]\nstitches = '10 per 10 cm'\n"
            "rows = '10 per 10 cm'\nstitch = 'sc'\n[yarn.MC]\ntotal = '510 yd'\n"
            "total_for_size = 'M'\n[yarn.CC1]\ntotal = '170 yd'\n" +
                more +
                "[[piece]]\nname = 'panel'\nyarn = 'MC'\nstitches = 80\nrows = 60\n"
                "[[piece]]\nname = 'trim'\nyarn = 'CC1'\nstitches = 80\nrows = [20, 40]\n" +
                finish,
            "p");
    };
    const auto yards = [](const project::Project& found, std::size_t role, std::size_t size) {
        return found.roles.at(role).total_length.at(size) / units::yard;
    };
    const project::Project plain = of("total_for_size = 'M'\n", "");
    EXPECT_NEAR(yards(plain, 0, 0), 510.0, 1e-9);
    EXPECT_NEAR(yards(plain, 0, 1), 510.0, 1e-9);
    EXPECT_NEAR(yards(plain, 1, 0), 170.0, 1e-9);
    EXPECT_NEAR(yards(plain, 1, 1), 340.0, 1e-9);
    EXPECT_NEAR(yards(of("total_for_size = 'L'\n", ""), 1, 0), 85.0, 1e-9);
    const project::Project fringed =
        of("total_for_size = 'M'\n",
           "[[finish]]\nkind = 'other'\nname = 'ties'\nyarn = 'CC1'\ntakes = '20 yd'\n");
    EXPECT_NEAR(yards(fringed, 1, 1), 320.0, 1e-9);
}

// 280 to 320 m for 90 of 120 rows: what lies beyond is in the need's range as well. The total holds
// the tails of the fringe, 0.3 m.
TEST(RatesToml, ARangeHasWhatLiesBeyondItsTotal) {
    const project::Project made = parse_project(
        "title = 'T'\n[gauge]\nstitches = '16 per 10 cm'\nrows = '12 per 10 cm'\n"
        "stitch = 'hdc'\n[yarn.MC]\nclass = 4\ngrist = '170 m / 100 g'\n"
        "total = '280 to 320 m'\ntotal_for_rows = 90\n[[piece]]\nname = 'scarf'\n"
        "stitches = 40\nrows = 120\n[[finish]]\nkind = 'fringe'\nstrands = 60\n"
        "cut = '40 cm'\nbeyond_total = true\n",
        "p");
    const need::RoleNeed role = need::need_of(made, 0).roles.at(0);
    ASSERT_TRUE(role.stated_between);
    const double least = role.stated_between->least / units::metre - 24.3;
    const double most = role.stated_between->most / units::metre - 24.3;
    EXPECT_NEAR(most / least, 319.7 / 279.7, 1e-9);
    EXPECT_NEAR(least + most + 2 * 24.3, 2.0 * role.length.centre.value(), 1e-6);
    EXPECT_GT(least, 360.0);
}

TEST(RatesToml, ASwatchIsWeighedOrMeasuredNotBoth) {
    EXPECT_THAT(rate_problems("[[swatch]]\nwidth = '10 cm'\nheight = '10 cm'\nmass = '5 g'\n"
                              "scale = '1 g'\nlength = '20 m'\n"),
                ElementsAre(StartsWith("p:17:10: length: the yarn of this swatch is given more "
                                       "than one way")));
}

}  // namespace skeinfall::exchange
