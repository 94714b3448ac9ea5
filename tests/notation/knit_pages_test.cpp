// Knitting patterns as makers' own pages have them: bullets by stars, words run together, proposals
// for rows that do not fit. Patterns are of our own; counts are worked out by hand.

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "page_reading.hpp"

namespace skeinfall::notation::knit_pages {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

std::vector<std::string> proposals(const Document& document) {
    std::vector<std::string> out;
    for (const Section& section : document.sections)
        for (const RowReading& reading : section.readings)
            if (reading.proposal)
                out.push_back(reading.proposal->instead + " / " + reading.proposal->words);
    return out;
}

// 64 sts; 5 rounds, 5 of rib; 8 times 8 stitches, so 56.
TEST(KnitPages, StarsAreBulletsWhereOneStandsBeforeEachLine) {
    const Document hat = knit_page(
        "Hat\n\n* Cast-on 64 sts\n* Join in the round\n* Knit 5 rounds\n"
        "* Work in 2x2 Rib for 5 rounds (*k2, p2*, repeat around)\n* Knit until hat measures 4\" "
        "from cast- on edge or desired length till crown decreases.\n"
        "Round 1: *K6, k2tog*, repeat between *'s\n");
    EXPECT_THAT(rows_told(hat), ElementsAre("0 x 64", "5 x 64", "5 x 64", "10 x 64", "1 x 56"));
    EXPECT_THAT(lines_that_may_work(hat), IsEmpty());
}

TEST(KnitPages, HeadAndNotJoinedAreNoRounds) {
    const Document band = knit_page(
        "Band\n\nCO 12 sts. Do not join.\nRow 1: Knit.\nRow 2: Purl.\n"
        "Repeat rows 1 and 2 until it is long enough to stretch around your head.\nBind off.\n");
    ASSERT_EQ(band.sections.size(), 1U);
    EXPECT_FALSE(band.sections.front().round);
    EXPECT_TRUE(knit_page("Hat\n\nCO 40 sts, join.\nKnit 4 rows.\n").sections.front().round);
    EXPECT_FALSE(
        knit_page("Scarf\n\nCO 40 sts.\nKnit 4 rows.\nJoin a second ball of yarn.\nKnit 4 rows.\n")
            .sections.front()
            .round);
}

TEST(KnitPages, WorkInPlainWordsIsNeverPassedOverAsRemark) {
    const Document mitten = knit_page(
        "Mitten\n\nCast on 30 sts and join.\nKnit 4 rounds.\n"
        "My own way: you knit every stitch to the end of the needle 4 times.\nBind off.\n");
    EXPECT_THAT(lines_that_may_work(mitten), ElementsAre(HasSubstr("every stitch")));
    const Document told_of = knit_page(
        "Cloth\n\nCast on 30 sts.\nKnit 4 rows.\nI like to mark on which side I decrease.\n"
        "If you want it larger, cast on 4 more stitches.\nWant a longer one? Knit more rows!\n"
        "Bind off.\n");
    EXPECT_THAT(lines_that_may_work(told_of), IsEmpty());
}

TEST(KnitPages, DividingStitchesGoesOnWithTheirWork) {
    const Document finger = knit_page(
        "Mitten\n\nCast on 30 sts and join.\nKnit 4 rounds.\n"
        "Divide these 30 sts on 3 needles and work even for 5 rounds.\nBind off.\n");
    EXPECT_THAT(rows_told(finger), ElementsAre("0 x 30", "4 x 30", "5 x 30", "1 x 0"));
}

TEST(KnitPages, SecondOneIsCountedOnce) {
    const Document mitts = knit_page(
        "Mitts\n\nCast on 24 sts.\nKnit 8 rows.\nBind off.\n\nMake second mitt the same.\n");
    ASSERT_EQ(mitts.sections.size(), 1U);
    EXPECT_EQ(mitts.sections.front().times, 2);
    EXPECT_THAT(lines_that_may_work(mitts), IsEmpty());
    EXPECT_EQ(knit_page("Cuffs\n\nCast on 24 sts.\nKnit 8 rows.\nMake second wristwarmer\n")
                  .sections.front()
                  .times,
              2);
}

// Row 2 is a slip for "k3" at its end (63 of 60 + 3), row 4 for "last 2 sts", row 6 a word.
TEST(KnitPages, RowsThatDoNotFitAreProposedSoThatTheyDo) {
    const Document cloth = knit_page(
        "Cloth\n\nCast on 63 sts.\nRow 1: Knit.\nRow 2: (K2, p1, k2, p1) x10. (63 sts)\n"
        "Row 3: Knit.\nRow 4: Ssk, k to last stitch, k2tog.\nRow 5: Knit.\n");
    EXPECT_THAT(proposals(cloth),
                ElementsAre("(K2, p1, k2, p1) x10, k3 / (K2, p1, k2, p1) x10",
                            "Ssk, k to last 2 sts, k2tog / Ssk, k to last stitch, k2tog"));
    const Document spelt = knit_page(
        "Hat\n\nCast on 48 sts and join.\nRnd 1: *K4, k22og*, repeat between *'s\nRnd 2: Knit.\n"
        "Rnd 3: *K3, k2tog*, repeat between *'s\nRnd 4: K2, slip makrer, k to end.\n");
    EXPECT_THAT(proposals(spelt), ElementsAre("k2tog / k22og", "marker / makrer"));
}

TEST(KnitPages, SewingBehindTheBindOffMayBeLeftOut) {
    const Document mitt = knit_page(
        "Mitt\n\nCast on 24 sts.\nKnit 8 rows.\nBind off.\n"
        "Continue down one side to leave an opening for the thumb, 7 more rows.\n");
    EXPECT_THAT(proposals(mitt), ElementsAre(HasSubstr(" / Continue down one side")));
}

TEST(KnitPages, RowsBehindTheBindOffAreNotReadOnNoStitches) {
    const Document cowl =
        knit_page("Cowl\n\nCast on 24 sts.\nKnit 8 rows.\nBind off.\nRow 9: Purl.\n");
    EXPECT_THAT(rows_told(cowl), ElementsAre("0 x 24", "8 x 24", "1 x 0", "1 x ?"));
}

TEST(KnitPages, WorkLikeAnotherPartIsRefused) {
    const Document finger = knit_page(
        "Glove\n\nCast on 9 sts and join.\nKnit 8 rounds.\nDecr. and finish as forefinger.\n");
    EXPECT_THAT(rows_told(finger), ElementsAre("0 x 9", "8 x 9", "1 x ?"));
}

TEST(KnitPages, CastOnBehindTheMaterialsInOneParagraph) {
    const Document sock = knit_page(
        "SOCKS.\n\nMaterials. - Five skeins of wool. A set of No. 13 needles. Cast on 60 stitches. "
        "Knit 2, purl 2 for 20 rows. Knit 10 rows.\n");
    EXPECT_THAT(rows_told(sock), ElementsAre("0 x 60", "20 x 60", "10 x 60"));
}

// 10 cm at 2 rows a cm are 20 rows; 4 are there.
TEST(KnitPages, YarnThatRemainsIsNoLengthOfThePiece) {
    const Document scarf = knit_page(
        "Scarf\n\nCast on 31 sts.\nKnit 4 rows.\n"
        "Work garter st over these 31 sts until 15 yards remain unknitted.\nBind off.\n");
    EXPECT_THAT(rows_told(scarf), ElementsAre("0 x 31", "4 x 31", "16 x 31", "1 x 0"));
}

// 10 cm are 20 rows; 2 and 4 are there: 14 by twos.
TEST(KnitPages, TwoRowsWorkedRepeatedly) {
    const Document shawl = knit_page(
        "Shawl\n\nCast on 20 sts.\nKnit 4 rows.\nRow 1: Knit.\nRow 2: Purl.\n"
        "Work these two rows repeatedly until shawl is the size you wish it to be.\nBind off.\n");
    EXPECT_THAT(rows_told(shawl),
                ElementsAre("0 x 20", "4 x 20", "1 x 20", "1 x 20", "14 x 20", "1 x 0"));
}

TEST(KnitPages, AbbreviationsBehindTheRowsAreNoRows) {
    const Document hat = knit_page(
        "Hat\n\nCO 40 stitches.\nRow 1: Knit.\n\nPattern Abbreviations\nCO Cast on\nK Knit\n"
        "P Purl\nK2tog Knit two stitches together\n");
    EXPECT_THAT(rows_told(hat), ElementsAre("0 x 40", "1 x 40"));
}

TEST(KnitPages, WordsThatRanTogetherOrWereCutByAPage) {
    const Document hat = knit_page(
        "Hat\n\nCast on 55sts\n1st Row: S1, * k1, p1, repeat from * to last 2sts, k2\n"
        "2nd Row: Purl\nRepeat the last 2 rows once more\n5th\nRow: Knit.\n"
        "Work in Kl-Pl ribbing for 16 rows. approx. 2inches.\n");
    EXPECT_THAT(rows_told(hat),
                ElementsAre("0 x 55", "1 x 55", "1 x 55", "2 x 55", "1 x 55", "16 x 55"));
}

// 60, 48 = 60 - 12, 36; then 24 and 12.
TEST(KnitPages, BracketsRepeatedAndTheNextRowInOneLine) {
    const Document cap = knit_page(
        "Cap\n\nCast on 60 stitches and join.\nChange to stocking stitch, and work for 2 in.\n"
        "[Knit 3, knit 2 together] repeat, knit next row.\n[Knit 2, knit 2 together] repeat.\n"
        "Next, knit 2 rounds.\n");
    EXPECT_THAT(rows_told(cap),
                ElementsAre("0 x 60", "10 x 60", "1 x 48", "1 x 48", "1 x 36", "2 x 36"));
    const Document odd = knit_page(
        "Cap\n\nCast on 24 stitches and join.\n(Knit 2, knit 2 together) repeat, knit 2 "
        "together.\n");
    EXPECT_THAT(rows_told(odd), ElementsAre("0 x 24", "1 x ?"));
}

TEST(KnitPages, HowOftenAPieceIsMadeInItsHeading) {
    const Document bear = knit_page(
        "Bear\n\nBody and legs (make two pieces the same)\n\nCast on 12 sts.\n\nRows 1-4: Knit.\n\n"
        "Arms (make two)\n\nCast on 6 sts.\n\nRow 1: Knit.\n");
    ASSERT_EQ(bear.sections.size(), 2U);
    EXPECT_EQ(bear.sections[0].times, 2);
    EXPECT_EQ(bear.sections[1].times, 2);
    EXPECT_THAT(lines_that_may_work(bear), IsEmpty());
}

TEST(KnitPages, GaugeWithoutAFullStopTakesNothingWithIt) {
    const Document scarf = knit_page("Scarf\n\nGauge: 20 sts = 4 in\nCO 32 sts\nKnit 4 rows.\n");
    EXPECT_THAT(rows_told(scarf), ElementsAre("0 x 32", "4 x 32"));
    ASSERT_TRUE(scarf.stitch_gauge.has_value());
}

// 50 less the 10 bound off; one side of 20 alone.
TEST(KnitPages, OneSideAloneLeavesTheOtherWaiting) {
    const Document back = knit_page(
        "Back\n\nCast on 50 sts.\nKnit 4 rows.\nNext row: K20, bind off 10 sts, k to end.\n"
        "Working on these last 20 sts only, knit 10 rows. Bind off.\n"
        "Place 20 held sts on needle. Knit 10 rows. Bind off.\n");
    EXPECT_THAT(rows_told(back),
                ElementsAre("0 x 50", "4 x 50", "1 x 40", "10 x 20", "1 x 0", "10 x 20", "1 x 0"));
}

TEST(KnitPages, ShortFormsMeanTheLongOnes) {
    const Document band = knit_page("Band\n\nCO 12 sts. Don't join.\nKnit 4 rows.\nBind off.\n");
    EXPECT_FALSE(band.sections.front().round);
    EXPECT_THAT(rows_told(band), ElementsAre("0 x 12", "4 x 12", "1 x 0"));
    const Document braces =
        knit_page("Mitt\n\nCO 12 sts, join.\n{K1, p1} around for 5 rows.\nBind off.\n");
    EXPECT_THAT(rows_told(braces), ElementsAre("0 x 12", "5 x 12", "1 x 0"));
}

// 4 + 40 = 44, one a row; then one less a row to 4.
TEST(KnitPages, StepsThatAreNumberedOneByOne) {
    const Document cloth = knit_page(
        "Cloth\n\nNeedle size: US 6\nYarn: cotton\n1. Cast on 4 stitches.\n"
        "2. First increase row: K 2, yo, knit to end of row.\n"
        "3. Repeat this row until there are 44 stitches on needle.\n"
        "4. First decrease row: K 1, k2 tog, yo, k2 tog, knit to end of row.\n"
        "5. Knit until there are 4 stitches left on needle.\n6. Bind off.\n");
    ASSERT_EQ(cloth.sections.size(), 1U);
    EXPECT_EQ(cloth.sections[0].rows.order.size(), 40U + 40U + 1U);
    EXPECT_EQ(cloth.sections[0].rows_read, cloth.sections[0].rows_lines);
}

// 10 cm less 2 cm are 16 rows; 4 and 2 are there.
TEST(KnitPages, LengthFromTheDesiredOneAndPatternAboveItsRows) {
    const Document scarf = knit_page(
        "Scarf\n\nCast on 20 sts and work 4 rows of garter stitch.  Continue in pattern\n\n"
        "1) Slip 1, k19.\n2) Slip 1, p18, k1.\n\nRepeat these 2 rows until 2 cm from desired "
        "length.\nBind off.\n");
    EXPECT_THAT(rows_told(scarf),
                ElementsAre("0 x 20", "4 x 20", "1 x 20", "1 x 20", "10 x 20", "1 x 0"));
}

TEST(KnitPages, StitchesPickedUpBesideThoseFromAHolder) {
    const Document thumb = knit_page(
        "Mitt\n\nCast on 24 sts and join.\nKnit 4 rounds.\n"
        "Next round: K4, place 10 sts on a holder, k10.\nBind off.\n"
        "Place the 10 sts from holder on 2 needles.\nPick up and knit 2 sts.\nKnit 2 rounds.\n");
    ASSERT_EQ(thumb.sections.size(), 1U);
    EXPECT_THAT(rows_told(thumb),
                ElementsAre("0 x 24", "4 x 24", "1 x 14", "1 x 0", "1 x 12", "2 x 12"));
    const Document in_one = knit_page(
        "Mitt\n\nCast on 24 sts and join.\nKnit 4 rounds.\n"
        "Next round: K4, place 10 sts on a holder, k10. (14 sts)\nBind off.\n"
        "Thumb: Place the 10 sts from holder on 2 needles, pick up and knit 2 sts. (12 sts)\n"
        "Knit 2 rounds.\n");
    EXPECT_THAT(rows_told(in_one),
                ElementsAre("0 x 24", "4 x 24", "1 x 14", "1 x 0", "1 x 12", "2 x 12"));
}

TEST(KnitPages, StopsAndBracketsThatSayNothing) {
    const Document slipper = knit_page(
        "Slipper\n\nCast on 3 sts.\n1. Knit\n2. Increase 1 stitch in first stitch..Knit to end of "
        "row.\n3. K1 *inc* Repeat from * to end of row... 7 st.\n4. - (And all even rows) Knit.\n"
        "Continue until it (unrolled) measures 10 cm. End by completing Row 4, and then knit 1 "
        "more row and bind off all sts.\n");
    EXPECT_THAT(rows_told(slipper)[2], "1 x 4");
    EXPECT_THAT(rows_told(slipper)[3], "1 x 7");
}

// A repeat of 4 rows, ten times: 40 rows.
TEST(KnitPages, StitchPatternWithAHyphenInItsName) {
    const Document cowl = knit_page(
        "Cowl\n\nPurl-Knot Stitch:\n\nMultiple of 4\n\nRounds 1 and 3: knit\nRound 2: *k2, p2*\n"
        "Round 4: *p2, k2*\n\nPattern:\n\nCast on 40 sts, join in the round.\n"
        "Work 10 repeats of Purl-Knot Stitch\n\nBind off.\n");
    ASSERT_EQ(cowl.sections.size(), 1U);
    EXPECT_EQ(cowl.sections[0].rows.order.size(), 41U);
}

// 28, then 26 and two plain rows; nine times three rows to 8.
TEST(KnitPages, ShapingOnEveryThirdRowCountsThePlainRows) {
    const Document bear = knit_page(
        "Bear\n\nCast on 28 sts.\nRow 1: K2, skpo, k to last 3 sts, k2tog, k1.\nRows 2-3: Knit.\n"
        "Continue to dec in this way on every third row until 8 sts rem.\n");
    ASSERT_EQ(bear.sections.size(), 1U);
    EXPECT_EQ(bear.sections[0].rows.order.size(), 3U + 25U);
}

}  // namespace
}  // namespace skeinfall::notation::knit_pages
