// A piece made to measure. Expected counts are worked beside each case.

#include "skeinfall/fit/fit.hpp"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/exchange/project_edit.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/need/sizes.hpp"

namespace {

using namespace skeinfall;
using units::inch;

constexpr const char* head = R"(title = "Reed scarf"
craft = "crochet"
[gauge]
stitches = "3 per in"
rows = "2 per in"
stitch = "sc"
[yarn.MC]
class = 4
grist = "170 yd / 3.5 oz"
)";

project::Project read(const std::string& text) {
    return exchange::parse_project(text, "reed.toml");
}

std::string scarf(const std::string& piece,
                  const std::string& yarn = "rate = \"2.9 in per stitch\"\n",
                  const std::string& top = "") {
    return top + head + yarn + "[[piece]]\nname = \"scarf\"\n" + piece;
}

fit::Wish wide(double inches) {
    fit::Wish wish;
    wish.width = inches * inch;
    return wish;
}

fit::Wish wide_and_long(double width, double length) {
    fit::Wish wish = wide(width);
    wish.length = length * inch;
    return wish;
}

units::Length need_of(const project::Project& project, std::size_t size = 0) {
    return need::need_of(project, size).roles.front().length.centre;
}

// 7 in x 3 = 21 stitches, 50 in x 2 = 100 rows. Of 3 n + 1: 19 (6.33 in) and 22 (7.33 in); of rows
// 2 n + 1: 99 and 101.
TEST(Fit, NearestWholeRepeatsBelowAndAbove) {
    const project::Project project =
        read(scarf("stitches = 19\nrows = 41\nmultiple = \"3 + 1\"\nrow_multiple = \"2 + 1\"\n"));
    const fit::Fitted fitted = fit::fit_piece(project, 0, 0, wide_and_long(7.0, 50.0));
    EXPECT_EQ(fitted.stitches.below, 19);
    EXPECT_EQ(fitted.stitches.above, 22);
    EXPECT_EQ(fitted.stitches.taken, 22);
    EXPECT_EQ(fitted.stitches.repeats(), 7);
    EXPECT_EQ(fitted.rows.below, 99);
    EXPECT_EQ(fitted.rows.above, 101);
    EXPECT_EQ(fitted.rows.taken, 99);  // alike near: the smaller
    EXPECT_EQ(fitted.chains, 23);      // single crochet: one chain to turn
    EXPECT_NEAR(fitted.measures.width / inch, 22.0 / 3.0, 1e-9);
    EXPECT_NEAR(fitted.measures.length / inch, 49.5, 1e-9);
    const fit::Fitted below =
        fit::fit_piece(project, 0, 0, wide_and_long(7.0, 50.0), fit::Take::below);
    EXPECT_EQ(below.stitches.taken, 19);
    const fit::Fitted above =
        fit::fit_piece(project, 0, 0, wide_and_long(7.0, 50.0), fit::Take::above);
    EXPECT_EQ(above.rows.taken, 101);
}

// Worked by a script of its own, from the multiple and 3 stitches to the inch alone: 9.25 in
// are 27.75 stitches; of 3 n + 1 there are 25 and
// 28. Single crochet turns with one chain, where the multiple does not say more.
struct HandWorked {
    const char* multiple;
    double inches;
    std::int64_t below;
    std::int64_t above;
    std::int64_t taken;
    std::int64_t chains;
};

// Stitches that are no whole repeats do not share the step of a repeat.
TEST(Fit, ARepeatMoreIsAWholeOne) {
    const auto of = [](const std::string& stitches) {
        return *fit::each_more(
            read(scarf("stitches = " + stitches + "\nrows = 40\nmultiple = \"7 + 2\"\n")), 0, 0);
    };
    EXPECT_EQ(of("33").stitches, 7);
    EXPECT_NEAR(of("33").wider / inch, of("37").wider / inch, 1e-9);
    EXPECT_NEAR(of("33").roles.at(0).for_width.value(), of("37").roles.at(0).for_width.value(),
                1e-9);
}

TEST(Fit, WidthsWorkedByHand) {
    const HandWorked all[] = {
        {"1", 9.25, 27, 28, 28, 29},
        {"2", 6.0, 18, 18, 18, 19},
        {"2 + 1", 13.0, 39, 39, 39, 40},
        {"3", 10.0, 30, 30, 30, 31},
        {"3 + 1", 7.5, 22, 25, 22, 23},
        {"3 + 2", 14.75, 44, 47, 44, 45},
        {"4", 11.0, 32, 36, 32, 33},
        {"4 + 1", 8.0, 21, 25, 25, 26},
        {"4 + 2", 16.0, 46, 50, 46, 47},
        {"4 + 3", 12.5, 35, 39, 39, 40},
        {"5", 9.25, 25, 30, 30, 31},
        {"5 + 2", 6.0, 17, 22, 17, 18},
        {"6 + 1", 13.0, 37, 43, 37, 38},
        {"6 + 3", 10.0, 27, 33, 27, 28},
        {"6 + 5, add 2", 7.5, 17, 23, 23, 25},
        {"7", 14.75, 42, 49, 42, 43},
        {"7 + 3", 11.0, 31, 38, 31, 32},
        {"8 + 1", 8.0, 17, 25, 25, 26},
        {"8 + 5, add 3", 16.0, 45, 53, 45, 48},
        {"9 + 4", 12.5, 31, 40, 40, 41},
        {"10 + 1", 9.25, 21, 31, 31, 32},
        {"10 + 7", 6.0, 17, 27, 17, 18},
        {"11 + 2", 13.0, 35, 46, 35, 36},
        {"12 + 3, add 2", 10.0, 27, 39, 27, 29},
        {"12 + 5", 7.5, 17, 29, 17, 18},
        {"13", 14.75, 39, 52, 39, 40},
        {"14 + 1", 11.0, 29, 43, 29, 30},
        {"14 + 3, add 1", 8.0, 17, 31, 17, 18},
        {"15 + 4", 16.0, 34, 49, 49, 50},
        {"16 + 1", 12.5, 33, 49, 33, 34},
        {"17 + 4", 9.25, 21, 38, 21, 22},
        {"18 + 7", 9.25, 25, 43, 25, 26},
        {"20 + 9", 13.0, 29, 49, 29, 30},
        {"24 + 1", 10.0, 25, 49, 25, 26},
    };
    static_assert(std::size(all) >= 30);
    for (const HandWorked& one : all) {
        const project::Project project = read(scarf(
            "stitches = " + std::to_string(*project::parse_multiple(one.multiple)->at_most(400)) +
            "\nrows = 40\nmultiple = \"" + std::string(one.multiple) + "\"\n"));
        const fit::Fitted fitted = fit::fit_piece(project, 0, 0, wide(one.inches));
        EXPECT_EQ(fitted.stitches.below, one.below) << one.multiple;
        EXPECT_EQ(fitted.stitches.above, one.above) << one.multiple;
        EXPECT_EQ(fitted.stitches.taken, one.taken) << one.multiple;
        EXPECT_EQ(fitted.chains, one.chains) << one.multiple;
        EXPECT_NEAR(fitted.measures.width / inch, static_cast<double>(one.taken) / 3.0, 1e-9);
    }
}

// Stripes of 6 and 4 rows, 2 rows to the inch; 44 rows end after 4 of a repeat. 40 in are 80 rows:
// 74 and 84 end so too. Counted rows are taken as they are.
const char* const stripes_of_ten =
    "stitches = 30\nrows = 44\nstripes = [{ yarn = \"MC\", rows = 6 }, { yarn = \"CC\", rows = 4 "
    "}]\n";
std::string striped(const std::string& piece) {
    std::string text = scarf(piece);
    return text.insert(text.find("[[piece]]"),
                       "[yarn.CC]\nclass = 4\ngrist = \"170 yd / 3.5 oz\"\nrate = \"2.9 in per "
                       "stitch\"\n");
}

TEST(Fit, ALengthKeepsWholeRepeatsOfTheStripes) {
    const project::Project project = read(striped(stripes_of_ten));
    fit::Wish wish;
    wish.length = 40.0 * inch;
    const fit::Fitted fitted = fit::fit_piece(project, 0, 0, wish);
    EXPECT_EQ(fitted.rows.from, fit::MultipleFrom::stripes);
    EXPECT_EQ(fitted.rows.below, 74);
    EXPECT_EQ(fitted.rows.above, 84);
    EXPECT_EQ(fitted.rows.taken, 84);
    EXPECT_FALSE(fitted.rows.stripes_end_anew());
    wish.length.reset();
    wish.rows = 80;
    const fit::Fitted counted = fit::fit_piece(project, 0, 0, wish);
    EXPECT_EQ(counted.rows.taken, 80);
    EXPECT_TRUE(counted.rows.stripes_end_anew());
    // Too short for a repeat of them is short all the same.
    wish.rows.reset();
    wish.length = 3.0 * inch;
    EXPECT_EQ(fit::fit_piece(project, 0, 0, wish).rows.taken, 6);
}

TEST(Fit, StripesGoWithAMultipleThatTheyHold) {
    const auto rows_of = [](const std::string& multiple, const std::string& stripes) {
        const project::Project project =
            read(striped("stitches = 30\nrows = 48\nrow_multiple = \"" + multiple +
                         "\"\nstripes = [" + stripes + "]\n"));
        return fit::row_multiple(project, project.pieces[0], 0);
    };
    const std::string twelve = "{ yarn = \"MC\", rows = 8 }, { yarn = \"CC\", rows = 4 }";
    EXPECT_EQ(rows_of("4", twelve).multiple, (project::Multiple{12, 0, {}}));
    // 5 n + 3 and repeats of 12 meet only every 60 rows: the rows of the pattern go first.
    EXPECT_EQ(rows_of("5 + 3", twelve).multiple, (project::Multiple{5, 3, {}}));
    // The same repeat written twice is one of six rows.
    const std::string twice =
        "{ yarn = \"MC\", rows = 4 }, { yarn = \"CC\", rows = 2 }, { yarn = \"MC\", rows = 4 }, { "
        "yarn = \"CC\", rows = 2 }";
    EXPECT_EQ(rows_of("2", twice).multiple, (project::Multiple{6, 0, {}}));
    // Laid out over the whole piece they do not repeat.
    const std::string once = "{ yarn = \"MC\", rows = 30 }, { yarn = \"CC\", rows = 18 }";
    EXPECT_EQ(rows_of("2", once).from, fit::MultipleFrom::stated);
}

TEST(Fit, AWishThatCannotBeIsNoFaultOfTheFile) {
    const project::Project project = read(scarf("stitches = 19\nrows = 41\n"));
    for (const bool across : {true, false}) {
        fit::Wish wish;
        (across ? wish.width : wish.length) = 5e6 * units::metre;
        try {
            static_cast<void>(fit::fit_piece(project, 0, 0, wish));
            FAIL();
        } catch (const fit::WishError& error) {
            EXPECT_EQ(error.across(), across);
            EXPECT_EQ(error.problems().front().place, base::Place());
        }
    }
}

TEST(Fit, TheMultipleMaySayTheFoundation) {
    const project::Project project = read(
        scarf("stitches = 27\nrows = 40\nmultiple = \"12 + 3 and 2 for the turning chain\"\n"));
    fit::Wish wish;
    wish.repeats = 4;
    const fit::Fitted fitted = fit::fit_piece(project, 0, 0, wish);
    EXPECT_EQ(fitted.stitches.taken, 51);
    EXPECT_EQ(fitted.chains, 53);
    EXPECT_TRUE(fitted.chains_stated);
}

// A total is for its stitches: half as many rows take half of it, foundation aside.
TEST(Fit, AStatedTotalFollowsTheStitches) {
    const project::Project project =
        read(scarf("stitches = 30\nrows = 100\nfoundation_rows = 0\n", "total = \"300 yd\"\n"));
    fit::Wish wish;
    wish.rows = 50;
    const fit::Fitted fitted = fit::fit_piece(project, 0, 0, wish);
    EXPECT_NEAR(fitted.project.roles[0].total_length.at(0) / units::yard, 150.0, 1e-6);
    ASSERT_EQ(fitted.totals.size(), 1U);
}

// Growing by 2 every other row from 20 over 41 rows: 60 at its widest, 20 in. At 24 in row 1 has 12
// more and the law stays.
TEST(Fit, AShapeKeepsItsLaw) {
    const project::Project project =
        read(scarf("stitches = 20\nrows = 41\nincrease = 2\nevery = 2\n"));
    const fit::Fitted fitted = fit::fit_piece(project, 0, 0, wide(24.0));
    EXPECT_EQ(fitted.stitches.taken, 32);
    const project::Piece& piece = fitted.project.pieces[0];
    EXPECT_EQ(piece.increase.at(0), 2);
    EXPECT_EQ(project::row_widths(fitted.project, piece, 0).back(), 72);
}

// From a point the width is a matter of rows: 1 + 2 x (90 - 3) / 2 = 88 rows to 90 stitches.
TEST(Fit, AShapeFromAPointWidensByItsRows) {
    const project::Project project =
        read(scarf("stitches = 3\nrows = 41\nincrease = 2\nevery = 2\n"));
    const fit::Fitted fitted = fit::fit_piece(project, 0, 0, wide(30.0));
    EXPECT_EQ(fitted.stitches.taken, 3);
    EXPECT_EQ(fitted.rows.taken, 88);
}

// 3 stitches and 2 rounds an inch: 9 more a round lie flat (2 pi 3 / 2 = 9.4). 24 in across are a
// radius of 12 in, 24 rounds, 9 + 18 + ... + 216 = 9 x 24 x 25 / 2 stitches of 2.9 in.
TEST(Fit, RoundsThatGrowFlatAreFittedAcross) {
    const std::string rug =
        "worked = \"round\"\nstitches = 9\nrows = 10\nincrease = 9\nevery = 1\n";
    const fit::Fitted fitted = fit::fit_piece(read(scarf(rug)), 0, 0, wide(24.0));
    EXPECT_EQ(fitted.stitches.taken, 9);
    EXPECT_EQ(fitted.rows.taken, 24);
    EXPECT_NEAR((fitted.measures.width / inch), 24.0, 1e-9);
    EXPECT_NEAR(need_of(fitted.project) / inch, 9.0 * 24 * 25 / 2 * 2.9, 60.0);
    EXPECT_FALSE(fitted.chains);
    // A yoke is open in the middle, and a tube grows but little: both are measured around.
    for (const char* const around :
         {"worked = \"round\"\nstitches = 90\nrows = 40\nincrease = 6\nevery = 1\n",
          "worked = \"round\"\nstitches = 30\nrows = 40\nincrease = 1\nevery = 4\n"}) {
        const project::Project tube = read(scarf(around));
        EXPECT_FALSE(project::grows_from_centre(tube, tube.pieces.front(), 0)) << around;
        EXPECT_EQ(fit::fit_piece(tube, 0, 0, wide(120.0)).rows.taken, 40) << around;
    }
}

TEST(Fit, GaugeBeforeWashingIsAnotherFigure) {
    std::string text = scarf("stitches = 30\nrows = 100\n");
    text.replace(text.find("stitch = \"sc\""), 13,
                 "stitch = \"sc\"\nunwashed_rows = \"2.5 per in\"");
    const fit::Fitted fitted = fit::fit_piece(read(text), 0, 0, {});
    ASSERT_TRUE(fitted.unwashed.has_value());
    EXPECT_NEAR(fitted.unwashed->length / inch, 40.0, 1e-9);
    EXPECT_NEAR(fitted.measures.length / inch, 50.0, 1e-9);
}

TEST(Fit, WhatCannotBeIsRefusedWithWhatCan) {
    const project::Project project =
        read(scarf("stitches = 19\nrows = 41\nmultiple = \"3 + 1\"\n"));
    try {
        static_cast<void>(fit::fit_piece(project, 0, 0, wide(1.0)));
        FAIL();
    } catch (const fit::WishError& error) {
        EXPECT_NE(std::string(error.what()).find("expected 4 stitches (1.3 in"), std::string::npos)
            << error.what();
    }
    const project::Project blocks =
        read(scarf("shape = \"corner to corner\"\nblocks_wide = 10\nblocks_high = 12\n"));
    fit::Wish twelve;
    twelve.stitches = 12;
    EXPECT_THROW(static_cast<void>(fit::fit_piece(blocks, 0, 0, twelve)), base::InputError);
    const project::Project counted = read(scarf("rows = [{ rows = 5, stitches = { sc = 12 } }]\n"));
    EXPECT_THROW(static_cast<void>(fit::fit_piece(counted, 0, 0, wide(10.0))), base::InputError);
}

TEST(Fit, WrittenRowsAreRewritten) {
    const project::Project project = read(scarf(
        "rows = [\n\"Ch 23.\",\n\"Row 1: sc in 2nd ch from hook, *ch 2, skip 2 ch, sc in next ch; "
        "rep from * across. (8 sc, 7 ch-2 sps)\",\n\"Rows 2-10: ch 1, turn, sc in first st, *ch 2, "
        "skip next ch-2 sp, sc in next sc; rep from * across. (8 sc, 7 ch-2 sps)\",\n]\n"));
    const fit::Found found = fit::stitch_multiple(project, project.pieces[0], 0);
    EXPECT_EQ(found.from, fit::MultipleFrom::written_rows);
    // One sc and then a space of two and an sc again and again: 3 n + 1 across, one chain more.
    EXPECT_EQ(found.multiple, (project::Multiple{3, 1, 1}));
    fit::Wish wish;
    wish.rows = 20;
    const fit::Fitted fitted = fit::fit_piece(project, 0, 0, wish);
    EXPECT_EQ(fitted.project.pieces[0].written[2].substr(0, 10), "Rows 2-20:");
    fit::Wish wider;
    wider.repeats = 10;
    EXPECT_EQ(fit::fit_piece(project, 0, 0, wider).chains, 32);
}

// A count beside the rows does not double the repeat: the longer row might be read otherwise so
// that its old count still fits. Of a filet of 3 n + 1 any n comes out, of a plain row any number.
TEST(Fit, CountsBesideTheRowsAreCountedAnew) {
    const auto multiple = [](const std::string& rows) {
        const project::Project project = read(scarf("rows = [\n" + rows + "]\n"));
        return fit::stitch_multiple(project, project.pieces[0], 0).multiple;
    };
    EXPECT_EQ(
        multiple("\"Ch 87.\",\n\"Row 1: dc in 4th ch from hook and in next 2 ch, *ch 2, skip "
                 "next 2 ch, dc in next ch; rep from * across to last 3 ch, dc in last 3 ch. "
                 "(33 dc)\",\n\"Row 2: ch 3 (counts as dc), turn, dc in next 3 dc, *ch 2, skip "
                 "next ch-2 sp, dc in next dc; rep from * to last 3 dc, dc in last 3 dc.\",\n"),
        (project::Multiple{3, 1, 2}));
    EXPECT_EQ(multiple("\"Ch 46.\",\n\"Row 1: dc in 6th ch from hook, *ch 1, skip next ch, dc in "
                       "next ch; rep from * across. (22 dc)\",\n"),
              (project::Multiple{2, 1, 3}));
    EXPECT_EQ(multiple("\"Ch 27.\",\n\"Row 1: dc in 4th ch from hook and in each ch across. (25 "
                       "dc)\",\n\"Row 2: ch 3 (counts as dc), turn, dc in each dc across. (25 "
                       "dc)\",\n"),
              (project::Multiple{1, 0, 2}));
}

// "Until piece measures 10 in" is so many rows: 20, of which more are 12 in.
TEST(Fit, RowsThatEndByALengthAreFittedToo) {
    const project::Project project = read(
        scarf("rows = [\n\"Ch 27.\",\n\"Row 1: hdc in 3rd ch from hook and in each ch across. (25 "
              "hdc)\",\n\"Row 2: ch 2, turn, hdc in each st across. (25 hdc)\",\n\"Rep row 2 until "
              "piece measures 10 in.\",\n]\n"));
    EXPECT_EQ(fit::fit_piece(project, 0, 0, wide(10.0)).stitches.taken, 30);
}

// Rounds 2 to 20 are the body and rounds 22 to 24 the top: 31 rounds are 7 more of the body, and
// the decreases move behind them.
TEST(Fit, TheLongestRepeatGrows) {
    const project::Project project = read(scarf(
        "worked = \"round\"\nrows = [\n\"Ch 24, join with sl st to form a ring.\",\n\"Rnd 1: ch 1, "
        "sc in each ch around, join. (24 sc)\",\n\"Rnds 2-20: ch 1, sc in each st around, join. "
        "(24 sc)\",\n\"Rnd 21: ch 1, *sc in next 2 sts, sc2tog; rep from * around, join. (18 "
        "sc)\",\n\"Rnds 22-24: ch 1, sc in each st around, join. (18 sc)\",\n]\n"));
    fit::Wish wish;
    wish.rows = 31;
    const fit::Fitted fitted = fit::fit_piece(project, 0, 0, wish);
    const std::vector<std::string>& written = fitted.project.pieces[0].written;
    EXPECT_EQ(written[2].substr(0, 10), "Rnds 2-27:");
    EXPECT_EQ(written[3].substr(0, 7), "Rnd 28:");
    EXPECT_EQ(written[4].substr(0, 11), "Rnds 29-31:");
}

// Row 3 of 22 stitches takes two at a time, so any even number: 9 n + 4 is even for 22 and 40, not
// for 31; 4 n + 1 never is.
TEST(Fit, AStatedMultipleThatTheRowsHaveNot) {
    const auto refused = [](const std::string& multiple) {
        const project::Project project = read(
            scarf("multiple = \"" + multiple +
                  "\"\nrows = [\n\"Ch 23.\",\n\"Row 1: sc in 2nd ch from hook and in each ch "
                  "across. (22 sc)\",\n\"Row 2: ch 1, turn, *2 sc in next st, skip next st; rep "
                  "from * across. (22 sc)\",\n\"Rows 3-10: rep row 2.\",\n]\n"));
        try {
            fit::Wish wish;
            wish.stitches = 30;
            static_cast<void>(fit::fit_piece(project, 0, 0, wish));
        } catch (const base::InputError& error) {
            return std::string(error.what());
        }
        return std::string("not refused");
    };
    const std::string odd = refused("9 + 4");
    EXPECT_NE(odd.find("a multiple of 2, and 9 + 4 is stated; expected 22 or 40 stitches"),
              std::string::npos)
        << odd;
    EXPECT_NE(odd.find("multiple = \"18 + 4\""), std::string::npos) << odd;
    const std::string never = refused("4 + 1");
    EXPECT_NE(never.find("4 + 1 is none of them; expected a multiple of 2"), std::string::npos)
        << never;
}

// A file keeps all else, and says what was fitted.
TEST(Fit, TheSavedFileIsTheFittedProject) {
    const std::string text =
        scarf("width = \"6 in\"  # narrow\nlength = \"40 in\"\nmultiple = \"3 + 1\"\n",
              "# of last year\ntotal = \"200 yd\"\n");
    const project::Project project = read(text);
    const fit::Fitted fitted = fit::fit_piece(project, 0, 0, wide_and_long(9.0, 50.0));
    const fit::Change& change = fitted.change;
    const std::string saved = exchange::edited_project(
        text, "reed.toml",
        {{change.piece, change.stitches, change.rows, change.last_stitches, change.written}},
        {{"MC", fitted.totals.at(0).length, {}}});
    EXPECT_NE(saved.find("stitches = 28  # narrow\nrows = 100\n"), std::string::npos) << saved;
    EXPECT_NE(saved.find("# of last year"), std::string::npos);
    const project::Project again = read(saved);
    EXPECT_NEAR(need_of(again) / need_of(fitted.project), 1.0, 1e-3);
}

TEST(Grid, EveryWidthWithEveryLength) {
    const std::string top =
        "widths = [\"6 in\", \"8 in\"]\nlengths = [\"30 in\", \"40 in\", \"50 in\"]\n";
    const project::Project project =
        read(scarf("multiple = \"3 + 1\"\n", "rate = \"2.9 in per stitch\"\n", top));
    ASSERT_EQ(project.sizes.size(), 6U);
    EXPECT_EQ(project.sizes[4], "8 in x 40 in");
    // A size of the grid is the project with that width and length.
    for (std::size_t size = 0; size < 6; ++size) {
        const std::string x = project.sizes[size];
        const std::size_t by = x.find(" x ");
        const project::Project single =
            read(scarf("multiple = \"3 + 1\"\nwidth = \"" + x.substr(0, by) + "\"\nlength = \"" +
                       x.substr(by + 3) + "\"\n"));
        EXPECT_DOUBLE_EQ(need_of(project, size).value(), need_of(single).value()) << x;
    }
    EXPECT_THROW(static_cast<void>(read(scarf("", "", "sizes = [\"S\"]\n" + top))),
                 base::InputError);
    EXPECT_THROW(static_cast<void>(read(scarf("", "", "widths = []\n"))), base::InputError);
}

// A short wide size may take less than a long narrow one: nothing is wrong with it.
TEST(Grid, SizesAreComparedWithinAWidth) {
    const std::string top =
        "widths = [\"6 in\", \"8 in\"]\nlengths = [\"20 in\", \"40 in\", \"60 in\"]\n";
    const project::Project project = read(scarf("", "rate = \"2.9 in per stitch\"\n", top));
    const need::SizesNeed need = need::need_of_sizes(project);
    EXPECT_TRUE(need.roles.at(0).out_of_line.empty());
    EXPECT_LT(need.roles[0].printed.at(3), need.roles[0].printed.at(2));
}

RC_GTEST_PROP(FitProperties, FitsItsMultipleAndNeverFallsAsItGrows, ()) {
    const std::int64_t repeat = *rc::gen::inRange(std::int64_t{1}, std::int64_t{20});
    const std::int64_t plus = *rc::gen::inRange(std::int64_t{0}, std::int64_t{20});
    const std::int64_t row_repeat = *rc::gen::inRange(std::int64_t{1}, std::int64_t{8});
    const std::int64_t stitches =
        repeat * *rc::gen::inRange(std::int64_t{1}, std::int64_t{10}) + plus;
    const std::int64_t rows = row_repeat * *rc::gen::inRange(std::int64_t{1}, std::int64_t{40});
    const std::string multiple = std::to_string(repeat) + " + " + std::to_string(plus);
    const project::Project project =
        read(scarf("stitches = " + std::to_string(stitches) + "\nrows = " + std::to_string(rows) +
                   "\nmultiple = \"" + multiple + "\"\nrow_multiple = \"" +
                   std::to_string(row_repeat) + "\"\n"));
    // The size it has changes nothing.
    const fit::Fitted same = fit::fit_piece(
        project, 0, 0,
        wide_and_long(static_cast<double>(stitches) / 3.0, static_cast<double>(rows) / 2.0));
    RC_ASSERT(same.stitches.taken == stitches);
    RC_ASSERT(same.rows.taken == rows);
    RC_ASSERT(need_of(same.project).value() == need_of(project).value());
    // Wider and longer never takes less.
    const double least_wide = static_cast<double>(repeat + plus) / 3.0;
    const double least_long = static_cast<double>(row_repeat) / 2.0;
    const double width = least_wide + 0.1 * static_cast<double>(*rc::gen::inRange(0, 200));
    const double length = least_long + 0.1 * static_cast<double>(*rc::gen::inRange(0, 400));
    const double more = 0.1 * static_cast<double>(*rc::gen::inRange(0, 100));
    const fit::Fitted small = fit::fit_piece(project, 0, 0, wide_and_long(width, length));
    const fit::Fitted large =
        fit::fit_piece(project, 0, 0, wide_and_long(width + more, length + more));
    RC_ASSERT(small.stitches.multiple.fits(small.stitches.taken));
    RC_ASSERT(small.rows.multiple.fits(small.rows.taken));
    RC_ASSERT(large.stitches.taken >= small.stitches.taken);
    RC_ASSERT(large.rows.taken >= small.rows.taken);
    RC_ASSERT(need_of(large.project) >= need_of(small.project));
}

// A total for 50 rows, an edging of 10 yd in it and a fringe beyond it. 100 rows take what the need
// says of a total for 50 of 100 rows, whichever way they are asked for.
TEST(FitTotals, WhatLiesBeyondATotalIsNotTakenTwice) {
    const std::string parts =
        "[[finish]]\nkind = \"other\"\nname = \"edging\"\ntakes = \"10 yd\"\n"
        "[[finish]]\nkind = \"fringe\"\nname = \"fringe\"\nstrands = 80\ncut = \"16 in\"\n"
        "beyond_total = true\n";
    const auto of = [&](int rows, const std::string& for_rows) {
        return read(scarf("stitches = 30\nrows = " + std::to_string(rows) + "\n" + parts,
                          "total = \"150 yd\"\n" + for_rows));
    };
    const double wanted = need_of(of(100, "total_for_rows = 50\n")) / units::yard;
    fit::Wish wish;
    for (const std::int64_t rows : {std::int64_t{100}, std::int64_t{5}}) {
        wish.rows = rows;
        const double by_fit = need_of(fit::fit_piece(of(50, ""), 0, 0, wish).project) / units::yard;
        const double from_more =
            need_of(fit::fit_piece(of(200, "total_for_rows = 50\n"), 0, 0, wish).project) /
            units::yard;
        EXPECT_NEAR(by_fit, from_more, 0.1);
        if (rows == 100) {
            EXPECT_NEAR(by_fit, wanted, 0.1);
        }
    }
    // The fringe is 80 x 16 in = 35.6 yd, the edging 10 yd, and rows of 30 sc about 2.8 yd each.
    EXPECT_GT(wanted, 300.0);
    EXPECT_LT(wanted, 340.0);
}

}  // namespace
