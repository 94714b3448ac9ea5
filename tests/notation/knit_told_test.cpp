// Knitting as makers tell it on their own pages: leads with a length, patterns told behind the
// piece, parts within a paragraph. Patterns are of our own; counts are worked out by hand, 20 rows
// in 10 cm.

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "page_reading.hpp"

namespace skeinfall::notation::knit_told {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

std::vector<std::int64_t> first_rows(const Document& document) {
    std::vector<std::int64_t> out;
    for (const Section& section : document.sections)
        for (const RowReading& reading : section.readings) out.push_back(reading.first_row);
    return out;
}

std::string problems_of(const Document& document) {
    std::string out;
    for (const Section& section : document.sections)
        for (const RowReading& reading : section.readings) {
            if (reading.problem) out += reading.problem->what + "\n";
            for (const Finding& finding : reading.findings) out += finding.what + "\n";
        }
    return out;
}

// 6 + 34 rows of one more to 40; the row behind them is row 36, not row 3.
TEST(KnitTold, RowsRepeatedUntilSoManyStitchesCount) {
    const Document cloth = knit_page(
        "Cloth\n\nCast on 5 sts.\nRow 1: K2, yo, k to end.\nRepeat row 1 until you have 40 sts.\n"
        "Row 2: K1, k2tog, k to end.\nBind off.\n");
    EXPECT_THAT(rows_told(cloth), ElementsAre("0 x 5", "1 x 6", "34 x 40", "1 x 39", "1 x 0"));
    EXPECT_THAT(first_rows(cloth), ElementsAre(0, 1, 2, 36, 37));
    const Document strap = knit_page(
        "Strap\n\nCast on 5 sts.\nNext row: Increase in the 2nd stitch of each row until you have "
        "20 sts on the needle\nDecrease 1 st at the beginning of each row until there are 8 sts "
        "left.\n");
    EXPECT_THAT(rows_told(strap), ElementsAre("0 x 5", "15 x 20", "12 x 8"));
}

// The bind-off behind a row with a label is a row of its own.
TEST(KnitTold, ABindOffBehindALabelledRowIsARow) {
    const Document doll = knit_page(
        "Doll\n\nCast on 20 sts.\nRow 1: K10, k2tog, k to end. (19 sts) Bind (cast) off pwise.\n");
    EXPECT_THAT(rows_told(doll), ElementsAre("0 x 20", "1 x 19", "1 x 0"));
    const Document cowl =
        knit_page("Cowl\n\nCast on 20 sts.\nRow 1: Knit.\nKnit next 8 rows, bind off.\n");
    EXPECT_THAT(rows_told(cowl), ElementsAre("0 x 20", "1 x 20", "8 x 20", "1 x 0"));
}

// Each piece as often as its own line says; seams make no rounds.
TEST(KnitTold, PiecesOfOneLineAreCountedEach) {
    const Document doll = knit_page(
        "Doll\n\nHEAD: (MAKE 1) Cast on 10 sts. Work 8 rows in st st. Bind off.\n"
        "ARMS: (MAKE 2) Cast on 10 sts. Work 8 rows in st st. Bind off.\n"
        "FEET: (MAKE 4) Cast on 12 sts. Work 8 rows in st st. Bind off.\n"
        "TO MAKE UP DOLL: Join sole of foot seam and back of arm seams.\n");
    ASSERT_EQ(doll.sections.size(), 3U);
    EXPECT_EQ(doll.sections[0].times, 1);
    EXPECT_EQ(doll.sections[1].times, 2);
    EXPECT_EQ(doll.sections[2].times, 4);
    EXPECT_FALSE(doll.sections[2].round);
    EXPECT_THAT(lines_that_may_work(doll), IsEmpty());
}

// 7 in 2 in and 5 in 1 in: 14 and 20 in 4 in.
TEST(KnitTold, EachCountOfAGaugeHasItsOwnLength) {
    DocumentOptions options;
    options.craft = Craft::knit;
    const auto rows_in_4 = [&](const std::string& text) {
        const Document read = read_document(text, options);
        return read.row_gauge ? std::llround(*read.row_gauge * (0.1016 * units::metre) / units::row)
                              : 0;
    };
    EXPECT_EQ(rows_in_4("Hat\n\nGauge: 7 sts = 2\" 5 rows = 1\"\n\nCast on 10 sts.\n"), 20);
    EXPECT_EQ(
        rows_in_4("Hat\n\nGauge: 6 stitches per inch and 10 rows per inch\n\nCast on 9 sts.\n"),
        40);
    EXPECT_EQ(rows_in_4("Hat\n\nGauge: 4.5 sts = 1\"; 6.5 rows = 1\"\n\nCast on 9 sts.\n"), 26);
    EXPECT_EQ(
        rows_in_4(
            "Hat\n\nGauge: 5\xc2\xbd sts and 7\xc2\xbd rows make 1 inch.\n\nCast on 9 sts.\n"),
        30);
    EXPECT_EQ(rows_in_4("Hat\n\nGauge: 18 sts and 33 1/2 rows = 8\"\n\nCast on 9 sts.\n"), 17);
    EXPECT_EQ(rows_in_4("Hat\n\n14 sts and 18 rows = 4\" in St st\n\nCast on 10 sts.\n"), 18);
}

// 10 cm are 20 rows: 2 and 18 more. 6 cm are 12: 4 and 8.
TEST(KnitTold, TheLengthOfALeadIsThatOfItsRepeat) {
    const Document hat = knit_page(
        "Hat\n\nCO 16 sts.\nWork in k1, p1 ribbing 10 cm as follows:\n*k1, p1; rep from *\n"
        "Rep this row.\n\nWork in Step Pattern 6 more cm (end with RS completed):\n"
        "Row 1: K.\nRow 2: P.\nRow 3: K8, p8.\nRow 4: K.\nRep Rows 1-4.\nBind off.\n");
    EXPECT_THAT(rows_told(hat), ElementsAre("0 x 16", "1 x 16", "19 x 16", "1 x 16", "1 x 16",
                                            "1 x 16", "1 x 16", "8 x 16", "1 x 0"));
    const Document shawl = knit_page(
        "Shawl\n\nCO 2 sts.Row 1: K1f&b, k1--3 sts.Row 2: K1, kfb, knit to end--1 st inc'd.\n"
        "Repeat Row 2 for pattern.\nContinue knitting until you have about 30 sts, or until it is "
        "large enough. BO loosely.\n");
    EXPECT_THAT(rows_told(shawl), ElementsAre("0 x 2", "1 x 3", "1 x 4", "26 x 30", "1 x 0"));
}

// 12 times 4, the last one to row 3: 47.
TEST(KnitTold, RepeatsThatEndEarly) {
    const Document cloth = knit_page(
        "Cloth\n\nCast on 12 sts.\nKnit 5 rows.\nRow 1: K.\nRow 2: P.\nRow 3: K.\nRow 4: rep. row "
        "2\n"
        "These 4 rows form the pattern. Work them 12 more times, ending on a 3rd row.\n"
        "Repeat the above rows 2 times.\nBind off.\n");
    EXPECT_THAT(rows_told(cloth), ElementsAre("0 x 12", "5 x 12", "1 x 12", "1 x 12", "1 x 12",
                                              "1 x 12", "47 x 12", "8 x 12", "1 x 0"));
}

// Rows told behind the bind-off, where the piece works them: 4, and 16 to 10 cm.
TEST(KnitTold, APatternToldBehindThePiece) {
    const Document scarf = knit_page(
        "Scarf\n\nCast on 12 st\nWork wave lace pattern until scarf is desired length\nCast off\n\n"
        "Wave lace pattern\nR1: k\nR2: p\nR3: k2, yo, k2tog, k8\nR4: p\n");
    EXPECT_THAT(rows_told(scarf),
                ElementsAre("0 x 12", "1 x 12", "1 x 12", "1 x 12", "1 x 12", "16 x 12", "1 x 0"));
    // "Knit in pattern 5 times" is no row of plain stitches.
    const Document sock =
        knit_page("Sock\n\nCast on 12 sts.\nKnit 2 rows.\nKnit in pattern 5 times.\n");
    EXPECT_THAT(rows_told(sock), ElementsAre("0 x 12", "2 x 12", "0 x ?"));
}

// "Rows 4, 6" are not rows 4 and 5; rows of a lead name follow it.
TEST(KnitTold, RowsThatLieApartAreToldSo) {
    const Document boot = knit_page(
        "Boot\n\nCast on 12 sts.\nBegin seed stitch.\nRow 1: K1, p1.\nRow 2: P1, k1.\n"
        "Row 3: K.\nRows 4, 6: purl\nRow 5: knit\nRows 7 & 9: Repeat row 5.\nRows 8 & 10: Rep row "
        "4.\n");
    ASSERT_EQ(boot.sections.size(), 1U);
    const auto& readings = boot.sections.front().readings;
    ASSERT_EQ(readings.size(), 8U);
    EXPECT_THAT(readings[4].apart, ElementsAre(4, 6));
    EXPECT_THAT(readings[5].apart, IsEmpty());
    EXPECT_THAT(readings[6].apart, ElementsAre(7, 9));
    EXPECT_THAT(readings[7].apart, ElementsAre(8, 10));
}

// 36 = 17 + 2 + 17; between the markers 4, 6 .. 12; 34 without them.
TEST(KnitTold, StitchesBetweenMarkersGrow) {
    const Document mitten = knit_page(
        "Mitten\n\nCast on 36 sts.\n1. K 17, place stitch marker, K2, place stitch marker, K 17\n"
        "2. P 1 row\n3. K 17, slip marker, M1, K2, M1, slip marker, K17\n4. P 1 row\n"
        "5. Rep last 2 rows until 12 sts between markers.\n"
        "6. K 17, slip next 12 sts onto stitch holder, K 17. (34 sts)\n"
        "7. St st until it measures 10 cm.\n");
    const auto rows = rows_told(mitten);
    ASSERT_EQ(rows.size(), 8U);
    EXPECT_EQ(rows[3], "1 x 38");
    EXPECT_EQ(rows[5], "8 x 46");
    EXPECT_EQ(rows[6], "1 x 34");
    EXPECT_THAT(rows[7], HasSubstr(" x 34"));
}

// Where a row turns, "until 3 sts remain" may be 3 of many.
TEST(KnitTold, RowsThatTurnAreNotRepeatedToACount) {
    const Document boot = knit_page(
        "Boot\n\nCast on 29 sts.\nRow 1: Knit 2, k2tog, turn\nRow 2: Knit 3, turn\n"
        "Repeat rows 1 and 2 until 3 sts remain.\n");
    EXPECT_THAT(problems_of(boot), HasSubstr("turn before the end"));
    // The thumb alone: 6 of 30, 3, 6; the others wait.
    const Document mitten = knit_page(
        "Mitten\n\nCast on 30 sts.\nRow 1: K.\nRow 2: P 6, turn. (You will be working on these sts "
        "for the thumb.)\nRows 3-6: St st, turn.\nRow 7: K2tog across.\n");
    EXPECT_THAT(rows_told(mitten), ElementsAre("0 x 30", "1 x 30", "1 x 6", "4 x 6", "1 x 3"));
}

// 18 = 9 and 9 that wait; 8 rows on 9.
TEST(KnitTold, StitchesHeldWithinARow) {
    const Document boot = knit_page(
        "Boot\n\nCast on 27 sts.\nK 18, place last 9 stitches just knit on holder, knit to end of "
        "row.\nWork 8 rows on center 9 stitches, ending with a purl row. Cut yarn, turn.\n");
    EXPECT_THAT(rows_told(boot), ElementsAre("0 x 27", "1 x 18", "8 x 9"));
}

// None to bind off in the first size: no rows; 4 times 2 rows, 50 - 8.
TEST(KnitTold, NoStitchesForASize) {
    DocumentOptions options;
    options.craft = Craft::knit;
    const std::string vest =
        "Vest\n\nBack\nCast on 50 (56, 60) sts.\nKnit 2 (4, 4) rows.\n"
        "Bind off 0 (2, 3) stitches at beginning of next 2 rows,then dec 1 st each end every right "
        "side row 4 (3, 4) times - 42 (46, 46) sts.\n";
    EXPECT_THAT(rows_told(read_document(vest, options)), ElementsAre("0 x 50", "2 x 50", "8 x 42"));
    options.size = 1;
    EXPECT_THAT(rows_told(read_document(vest, options)),
                ElementsAre("0 x 56", "4 x 56", "2 x 52", "6 x 46"));
}

// 10 cm are 20 rows, the one with a label among them; lengths behind their unit.
TEST(KnitTold, ALabelledRowToALength) {
    const Document boot = knit_page(
        "Boot\n\nCast on 26 (28, 30) sts\nRow 1: K2, p2 for 10 cm.\nRow 2: K.\n"
        "K1 P1 rib for 5 cm [6, 7]\n");
    EXPECT_THAT(rows_told(boot), ElementsAre("0 x 26", "20 x 26", "1 x 26", "10 x 26"));
    const Document tie = knit_page(
        "Band\n\nTie\n\nCast on 6 sts.\nRow 1: K.\nRow 2: P.\nRepeat rows 1 and 2 until tie "
        "measures "
        "10 cm.\n");
    EXPECT_THAT(rows_told(tie), ElementsAre("0 x 6", "1 x 6", "1 x 6", "18 x 6"));
}

// Parts named within a paragraph, and rows below "Next 2 rows:".
TEST(KnitTold, PartsWithinAParagraph) {
    const Document sock = knit_page(
        "Sock\n\nCuff: Cast on 40 sts, join in the round and knit 12 rounds in 2/2 ribbing Leg: "
        "Knit "
        "30 rounds. Foot: Knit 20 rounds.\n");
    EXPECT_THAT(rows_told(sock), ElementsAre("0 x 40", "12 x 40", "30 x 40", "20 x 40"));
    const Document slipper = knit_page(
        "Slipper\n\nCast on 8 sts\nKnit 2 rows.\nNext 2 rows:\nCast on 10 sts at the beginning of "
        "the "
        "row..Knit to the end\nCast on 10 sts..Knit to the end..28 stitches after 2nd row cast "
        "on.\n"
        "Knit 4 rows.\n");
    EXPECT_THAT(rows_told(slipper), ElementsAre("0 x 8", "2 x 8", "1 x 18", "1 x 28", "4 x 28"));
}

// What was listed as a remark, or read as one row.
TEST(KnitTold, NothingIsLostBesideTheRows) {
    // Misspelt, and on holders; lengths with a number of a step.
    const Document pants = knit_page(
        "Pants\n\nCast on 40 sts.\nKnit 4 rows.\nIncreace 1 stitch at each end of each row 3 "
        "times.\n"
        "Legs: On right side place next 8 sts on holder.\n");
    EXPECT_THAT(rows_told(pants), ElementsAre("0 x 40", "4 x 40", "3 x 46"));
    EXPECT_THAT(lines_that_may_work(pants), testing::SizeIs(1));
    // How long is not said; one row or two?
    EXPECT_THAT(
        rows_told(knit_page("Hat\n\nCast on 40 sts.\nKnit 4 rows.\nWork in stockinette.\n")),
        ElementsAre("0 x 40", "4 x 40", "0 x ?"));
    EXPECT_THAT(
        rows_told(knit_page("Hat\n\nCast on 40 sts.\nRow 1: P.\nRow 2: Knit 2 more rounds.\n")),
        ElementsAre("0 x 40", "1 x 40", "0 x ?"));
    // "16 inc in next 2 sts": not 16 in each of 2.
    EXPECT_THAT(
        rows_told(knit_page(
            "Hat\n\nCast on 20 sts.\nKnit 2 rows.\nRow 1: 16 inc in next 2 sts, k to end.\n")),
        ElementsAre("0 x 20", "2 x 20", "0 x ?"));
    EXPECT_THAT(rows_told(knit_page("Dog\n\nCast on 20 sts.\nRow 1: pattern 6 inc in next 2 sts "
                                    "pattern to last 8 sts k8.\n")),
                ElementsAre("0 x 20", "1 x 22"));
    // A lead is no row of increases; the cast-on is none either.
    EXPECT_THAT(rows_told(knit_page(
                    "Flap\n\nCast on 3 sts. (K1, p1) once, k1. Begin increase.\nKnit 2 rows.\n")),
                ElementsAre("0 x 3", "1 x 3", "2 x 3"));
    // "Make two." among the materials.
    const Document cuffs =
        knit_page("Cuffs\n\nMaterials\nSmooth yarn\nMake two.\n\nCast on 47\nRow 1: K.\n");
    ASSERT_EQ(cuffs.sections.size(), 1U);
    EXPECT_EQ(cuffs.sections.front().times, 2);
}

// Rows 4 and 5 are written out; row 6 is told by all even rows. The piece twice, and its flaps.
TEST(KnitTold, RowsWrittenOutAreTheOnesRepeated) {
    const Document cloth = knit_page(
        "Cloth\n\nCast on 12 sts.\nRow 1: K.\nRow 2 and all even rows: P.\nRow 3: K2, p8, k2.\n"
        "Row 4: K3, p6, k3.\nRow 5: K\nRepeat these 2 rows 4 more times.\nBind off evenly in k.\n");
    EXPECT_THAT(rows_told(cloth), ElementsAre("0 x 12", "1 x 12", "1 x 12", "1 x 12", "1 x 12",
                                              "1 x 12", "8 x 12", "1 x 0"));
    const Document poncho = knit_page(
        "Poncho\n\nUsing 8 mm needles cast on 12 sts.\n1st row: K\n2nd row: P\n"
        "These 2 rows form the pattern and are repeated.\nRepeat the pattern twice, ending on row "
        "1, or "
        "until it is long enough.\nCast off.  Knit another piece the same\n");
    ASSERT_EQ(poncho.sections.size(), 1U);
    EXPECT_EQ(poncho.sections.front().times, 2);
    EXPECT_THAT(rows_told(poncho), ElementsAre("0 x 12", "1 x 12", "1 x 12", "3 x 12", "1 x 0"));
    const Document flap = knit_page(
        "Hat\n\nMaterials\nSmooth yarn\nEar Flaps\nCO 7 stitches.\nRow 1: K1, yo needle around, k "
        "to end.\nKnit 6 rows.\nRepeat for second ear flap.\n");
    ASSERT_EQ(flap.sections.size(), 1U);
    EXPECT_EQ(flap.sections.front().name, "Ear Flaps");
    EXPECT_EQ(flap.sections.front().times, 2);
    EXPECT_FALSE(flap.sections.front().round);
}

// 19 rows of 32 on either side, not of 64; 32 + 2 + 32.
TEST(KnitTold, SidesWorkedOneAfterTheOther) {
    const Document cosy = knit_page(
        "Cosy\n\nCast on 66 sts.\nNext row: k32, cast off 2 sts, k to end.\n"
        "On these 32 stitches, work in st st for 19 rows, then break off yarn and slip these sts "
        "onto "
        "a stitch holder.\nWith wrong side facing rejoin wool to other 32 sts and work 19 rows st "
        "st.\n"
        "Next row: k32, cast on 2 sts, k32 from stitch holder.\nOn these 66 sts work 6 rows in "
        "garter "
        "st.\n");
    EXPECT_THAT(rows_told(cosy),
                ElementsAre("0 x 66", "1 x 64", "19 x 32", "19 x 32", "1 x 66", "6 x 66"));
}

// Stars behind brackets, edges of two rows, a label behind its remark.
TEST(KnitTold, ShortFormsOfToys) {
    const Document bunny = knit_page(
        "Bunny\n\nCast on 6 sts, join in the round\nRnd 1: (Kfb)* [12]\nRnd 2: (K1, Kfb)* [18]\n"
        "(Decrease) Rnd 3: *K4, K2tog*\nRnd 4: k all stitches*\n"
        "Rnd 5: (K1, k2tog)* [10]. Stuff, first placing a little bag in the bottom.\n");
    EXPECT_THAT(rows_told(bunny),
                ElementsAre("0 x 6", "1 x 12", "1 x 18", "1 x 15", "1 x 15", "1 x 10"));
    const Document cozy = knit_page(
        "Cozy\n\nCast on 26 sts.\nRow 1-2: Bind off 5 sts. at the beginning of each row.\n"
        "Row 3: Knit 4, Bind off 8 center sts., K4.\nRow 4: Bind off each side separately.\n");
    EXPECT_THAT(rows_told(cozy), ElementsAre("0 x 26", "2 x 16", "1 x 8", "1 x 0"));
}

// 44 + 24 + 18 + 24 - 5, in 4 rows a time where one is taken every 4.
TEST(KnitTold, RowsRepeatedAnotherTimes) {
    const Document poncho = knit_page(
        "Poncho\n\nFRONT\nCast on 44 sts.\nIncrease 1 st every 2 rows on RS:\n"
        "Row 1 (RS): K1, m1, K to the end.\nRow 2 (WS): P\n"
        "Repeat Rows 1 and 2 another 23 times (68 sts)\nIncrease 1 st every 4 rows on RS:\n"
        "Row 1 (RS): K1, m1, K to the end.\nRow 2 (WS): P\nRow 3 (RS): K\nRow 4 (WS): P\n"
        "Repeat from Row 1 to Row 4 another 17 times (86 sts)\n");
    EXPECT_THAT(rows_told(poncho), ElementsAre("0 x 44", "1 x 45", "1 x 45", "46 x 68", "1 x 69",
                                               "1 x 69", "1 x 69", "1 x 69", "68 x 86"));
}

// A second yarn joined, sides joined and stitches run around the top make no round.
TEST(KnitTold, JoinedSidesAndYarnsAreNoRound) {
    const Document cosy = knit_page(
        "Cosy\n\nCast on 34 stitches in white yarn\nRow 1: * k1, p1 repeat from * to end\n"
        "Row 2: * p1, k1 repeat from * to end\nRepeat the 2 rows twice more\nCast off\n"
        "Join sides leave gap for handle\nSew running stitches around top of cosy.\n");
    ASSERT_EQ(cosy.sections.size(), 1U);
    EXPECT_FALSE(cosy.sections.front().round);
    EXPECT_THAT(rows_told(cosy), ElementsAre("0 x 34", "1 x 34", "1 x 34", "4 x 34", "1 x 0"));
    const Document egg = knit_page(
        "Egg cosy\n\nCast on 32 sts. Join in contrast (C) and work as follows:\n"
        "Row 1: k to end.\nRow 2: p to end.\nRepeat these 2 rows 3 times more.\n");
    ASSERT_EQ(egg.sections.size(), 1U);
    EXPECT_FALSE(egg.sections.front().round);
    EXPECT_THAT(rows_told(egg), ElementsAre("0 x 32", "1 x 32", "1 x 32", "6 x 32"));
}

// Shaping in a length: 49 rows hold 12 every 4th and 8 every 6th; 10 of 4 rows make 40.
TEST(KnitTold, ShapingWithinALength) {
    const std::string head =
        "Scarf\n\nGauge: 5 sts and 7 rows = 1 inch.\n\nCast on 40 sts.\nRow 1: K1, p1 across.\n"
        "Row 2: K1, p1 across.\n";
    const auto last = [&](const std::string& text) {
        return rows_told(knit_page(head + text + "\n")).back();
    };
    EXPECT_EQ(last("Continue in pattern, increasing at both ends every 4th row until piece "
                   "measures 10 in."),
              "49 x 64");
    EXPECT_EQ(last("Work in stockinette until piece measures 10 in., at the same time inc 1 st at "
                   "each end of every 6th row."),
              "49 x 56");
    EXPECT_EQ(last("Continue in pattern and dec 1 st at each end of every 4th row until 20 sts "
                   "remain."),
              "40 x 20");
    EXPECT_EQ(last("Continue, increasing 1 stitch at beginning and end of every 6th row, until "
                   "there are 60 sts."),
              "60 x 60");
    EXPECT_EQ(last("Row 3: *P4 K4 * repeat"), "1 x 40");
}

// What a maker tells beside the rows of a whole piece.
TEST(KnitTold, AdviceBesideTheRows) {
    const Document hat = knit_page(
        "Hat\n\nCast on 52 stitches in 1x1 rib.\nRow 1: K1, p1 across.\n"
        "Row 2: *K6, M1, K7* repeat until end of row.\n(note: 8 rows = 4 ridges)\nBind off.\n"
        "Join seam, from top to end of garter st band, leaving the rest open.\n\n"
        "To make a bigger hat, increase by multiples of 8.\n");
    EXPECT_THAT(rows_told(hat), ElementsAre("0 x 52", "1 x 52", "1 x 56", "1 x 0"));
    for (const DocumentPart& part : hat.parts)
        EXPECT_NE(part.what, DocumentPart::What::may_work) << part.text;
}

// A piece told by another one is that piece once more, or it is told; never only a remark.
TEST(KnitTold, APieceToldByAnotherIsNeverDropped) {
    for (const std::string told :
         {"Work as Back.", "Work like back.", "Knit exactly like the back."}) {
        const Document vest =
            knit_page("Vest\n\nBACK:\nCast on 40 sts.\nK 10 rows.\n\nFRONT:\n" + told);
        ASSERT_EQ(vest.sections.size(), 2U) << told;
        EXPECT_EQ(vest.sections[1].name, "FRONT") << told;
    }
    const Document vest =
        knit_page("Vest\n\nBACK:\nCast on 40 sts.\nK 10 rows.\n\nFRONT:\nWork as for sleeve.\n");
    EXPECT_THAT(lines_that_may_work(vest), testing::SizeIs(1));
}

// Two lengths in what a page printed as one sentence: 10 and 10 more at 20 rows in 10 cm.
TEST(KnitTold, ALengthEndsItsSentence) {
    const Document strip = knit_page(
        "Strip\n\nCast on 20 sts.\nWork in garter st until piece measures 5 cm, continue in "
        "stockinette until piece measures 10 cm.\n");
    EXPECT_THAT(rows_told(strip), ElementsAre("0 x 20", "10 x 20", "10 x 20"));
}

// Rows of a stitch that no row asks for are no piece, and that is told.
TEST(KnitTold, AStitchPatternThatIsNotAskedForIsTold) {
    const Document top = knit_page(
        "Top\n\nRow 1: K6, p2, k6.\nRow 2: P6, k2, p6.\nRep these 2 rows for pattern.\n\n"
        "Instructions:\nCast on 14 sts.\nK 10 rows.\n");
    EXPECT_THAT(rows_told(top), ElementsAre("0 x 14", "10 x 14"));
    EXPECT_THAT(lines_that_may_work(top), testing::SizeIs(1));
}

// 30 / 6 and 25 / 5 pairs; 4 rows in all of the last one.
TEST(KnitTold, EveryNthAndNextTogether) {
    const Document cap = knit_page(
        "Cap\n\nCast on 30 sts.\nNext row: Knit every 5th and 6th st together.\nIn the next row k. "
        "together every 4th and 5th st.\nNext row: K plain; repeat this row 3 times.\n");
    EXPECT_THAT(rows_told(cap), ElementsAre("0 x 30", "1 x 25", "1 x 20", "1 x 20", "3 x 20"));
}

// The heel's own stitches are turned, the others wait: 12 of 24.
TEST(KnitTold, StitchesLeftForTheInstepWait) {
    const Document sock = knit_page(
        "Sock\n\nCast on 24 sts and join to work in the round.\nKnit 4 rounds.\nWork first 12 sts "
        "of "
        "next round onto one needle; these sts will be left on hold on this needle. K rem 12 sts "
        "onto one needle; the heel flap will be worked back and forth on these sts.\nNext Row: Sl "
        "1, p to end.\n");
    EXPECT_THAT(rows_told(sock), ElementsAre("0 x 24", "4 x 24", "1 x 12", "1 x 12"));
}

}  // namespace
}  // namespace skeinfall::notation::knit_told
