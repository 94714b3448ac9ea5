// Rows that were taken for others, or for none, in the words of makers' pages. Patterns are of our
// own; 20 rows are 10 cm; counts are worked out by hand.

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "page_reading.hpp"

namespace skeinfall::notation::knit_worded {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

TEST(KnitWorded, LengthOfYarnIsNoLengthOfRows) {
    EXPECT_THAT(
        rows_told(knit_page("Hat\n\nCast on 40 sts.\nRow 1: *K2tog; rep from * to end. (20)\n"
                            "Row 2: K across. Break off, leaving a 15-inch length of yarn. "
                            "Pull up tightly.\n")),
        ElementsAre("0 x 40", "1 x 20", "1 x 20"));
}

TEST(KnitWorded, StitchPatternThatNoRowAsksForIsNoPiece) {
    const Document band = knit_page(
        "Band\n\nHorn Cable (16-Stitch)\nRow 1: K4, C4B, C4F, k4.\nRow 2: Purl.\n"
        "Rep rows 1-2 for horn cable.\nCast on 28 sts\nRow 1: k6, p16, k6\nRow 2: Knit\n"
        "Repeat rows 1-2 to desired length, BO and join the two ends using a seam.\n");
    ASSERT_EQ(band.sections.size(), 1U);
    EXPECT_FALSE(band.sections.front().round);
    EXPECT_THAT(lines_that_may_work(band), ElementsAre(HasSubstr("K4, C4B, C4F, k4")));
    EXPECT_THAT(rows_told(band), ElementsAre("0 x 28", "1 x 28", "1 x 28", "18 x 28", "1 x 0"));
}

TEST(KnitWorded, PatternBehindTheBindOffIsWorkedWhereItIsAskedFor) {
    const Document cowl = knit_page(
        "Cowl\n\nCast on 80 sts, join.\nFollow rows 1-4 of pattern.\nBind off.\n\n"
        "Pattern Stitch: (Multiple of 8 stitches)\nRows 1-3: Purl.\nRow 4: K3, sl 2, k3.\n");
    EXPECT_THAT(rows_told(cowl), ElementsAre("0 x 80", "3 x 80", "1 x 80", "1 x 0"));
}

TEST(KnitWorded, LengthToTheUnderarmBeginsAtTheCastOn) {
    EXPECT_THAT(rows_told(knit_page("Back\n\nCast on 40 sts.\nKnit 6 rows.\nWork even until piece "
                                    "measures 10 cm or as long as you want to the underarm.\n")),
                ElementsAre("0 x 40", "6 x 40", "14 x 40"));
}

TEST(KnitWorded, NeckIsNoArmhole) {
    EXPECT_THAT(rows_told(knit_page("Front\n\nCast on 40 sts.\nKnit 2 rows.\nBind off 6 sts for "
                                    "armhole.\nWork 15 rows.\nBind off 12 sts for neck.\n"
                                    "Work until piece measures 10 cm from armhole.\n")),
                ElementsAre("0 x 40", "2 x 40", "1 x 34", "15 x 34", "1 x 22", "3 x 22"));
}

// 42 + 2 + 2 = 46, and 4 times 2 more: 54.
TEST(KnitWorded, MoreStitchesBetweenIncreasesAreNoTimes) {
    EXPECT_THAT(rows_told(knit_page(
                    "Hand\n\nCast on 42 sts and join in the round.\nInc round: Inc 1 in first "
                    "st, k1, inc 1 in next st, k to end.\nK 2 rounds.\nInc round: Inc 1 in "
                    "first st, k3, inc 1 in next st, k to end.\nK 2 rounds.\nContinue to "
                    "increase with two more stitches in between the increases every 3rd "
                    "round until you have 54 stitches on.\n")),
                ElementsAre("0 x 42", "1 x 44", "2 x 44", "1 x 46", "2 x 46", "10 x 54"));
}

// 40 - 24 = 16 + 36 = 52, and 10 fewer.
TEST(KnitWorded, CastOnAtAnEdgeIsNoneOfTheRowsThatGoOn) {
    EXPECT_THAT(
        rows_told(knit_page("Front\n\nCast on 40 sts.\nDecrease 1 st at front edge every other row "
                            "until 16 sts remain. Cast on 36 sts at beg of next row. Continue in "
                            "pattern, decreasing as before until 42 sts remain.\n")),
        ElementsAre("0 x 40", "48 x 16", "1 x 52", "20 x 42"));
}

TEST(KnitWorded, TotalOfRowsIsWorked) {
    EXPECT_THAT(rows_told(knit_page("Cloth\n\nCast on 20 sts.\nKnit a total of 8 rows.\n"
                                    "Work a total of 6 rows in garter stitch.\n")),
                ElementsAre("0 x 20", "8 x 20", "6 x 20"));
}

TEST(KnitWorded, ShapingAtTheSameTimeIsNotWorkedBehindTheRows) {
    EXPECT_THAT(rows_told(knit_page("Sleeve\n\nCast on 40 sts.\nWork even for 10 cm, at the same "
                                    "time, dec 1 st each side every 6th row 3 times.\n")),
                ElementsAre("0 x 40", testing::EndsWith("?")));
}

TEST(KnitWorded, DesiredNumberIsNoLength) {
    EXPECT_THAT(rows_told(knit_page("Sock\n\nCast on 40 sts, join.\nRound 1: K1, m1, k to end.\n"
                                    "Round 2: Knit.\nRepeat until you have the desired number of "
                                    "gusset increases.\n")),
                ElementsAre("0 x 40", "1 x 41", "1 x 41", testing::EndsWith("?")));
}

TEST(KnitWorded, ChangeWithoutANumberIsNotGuessed) {
    EXPECT_THAT(rows_told(knit_page("Cover\n\nCast on 52 sts and join.\nKnit 9 rounds.\n"
                                    "Decrease at the shoulder portion of your cover.\n")),
                ElementsAre("0 x 52", "9 x 52", testing::EndsWith("?")));
}

TEST(KnitWorded, RowsAgainInOtherWordsAreNoRemark) {
    EXPECT_THAT(rows_told(knit_page("Neck\n\nCast on 44 sts.\nNext: (k2, p2) to end\n"
                                    "Complete the last row 44 times\nCast off.\n")),
                ElementsAre("0 x 44", "1 x 44", "44 x 44", "1 x 0"));
    EXPECT_THAT(rows_told(knit_page("Neck\n\nCast on 44 sts.\nK 1 row, P 1 row for 5 cm\n")),
                ElementsAre("0 x 44", "10 x 44"));
}

}  // namespace
}  // namespace skeinfall::notation::knit_worded
