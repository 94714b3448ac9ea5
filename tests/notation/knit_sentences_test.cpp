// Sentences that were taken for others, or for nothing, and pieces that were counted too seldom.
// Patterns are of our own; 20 rows are 10 cm; counts are worked out by hand.

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "page_reading.hpp"

namespace skeinfall::notation::knit_sentences {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;

std::vector<std::string> pieces(const Document& document) {
    std::vector<std::string> out;
    for (const Section& section : document.sections)
        out.push_back(section.name + " x" + std::to_string(section.times));
    return out;
}

TEST(KnitSentences, ThumbIsMadeAsOftenAsItsMitten) {
    const std::string mitten =
        "Mitts\n\nMitten\nCast on 40 sts and join in the round.\nKnit 20 rounds.\nBind off.\n";
    const std::string thumb = "Thumb\nPick up 12 sts.\nKnit 10 rounds.\nBind off.\n";
    EXPECT_THAT(pieces(knit_page(mitten + "Make 2.\n\n" + thumb)),
                ElementsAre("Mitten x2", "Thumb x2"));
    EXPECT_THAT(pieces(knit_page(mitten + "\n" + thumb + "Make 2.\n")),
                ElementsAre("Mitten x2", "Thumb x2"));
    EXPECT_THAT(pieces(knit_page(mitten + "\nThumb (make 2)\nPick up 12 sts.\nKnit 10 rounds.\n")),
                ElementsAre("Mitten x1", "Thumb (make 2) x2"));
    EXPECT_THAT(pieces(knit_page("Top\n\nSleeve (make 2)\nCast on 40 sts.\nKnit 20 rows.\n"
                                 "\nNeckband\nPick up 62 sts.\nKnit 4 rows.\n")),
                ElementsAre("Sleeve (make 2) x2", "Neckband x1"));
}

TEST(KnitSentences, NamesWithAStopAreHeadings) {
    EXPECT_THAT(pieces(knit_page("Bear\n\nHead\nCast on 16 sts. Knit 46 rows. Bind off.\n"
                                 "Arms. Knit two.\nCast on 14 sts. Knit 18 rows.\n"
                                 "Muzzle.\nCast on 24 sts. Knit 4 rows.\n")),
                ElementsAre("Head x1", "Arms (make two) x2", "Muzzle x1"));
}

TEST(KnitSentences, WhatIsCastOffBehindARibIsNotLost) {
    EXPECT_THAT(rows_told(knit_page("Cuff\n\nCast on 52 sts and join in the round.\nWork 6 rounds "
                                    "in k2, p2 rib and cast off loosely.\n")),
                ElementsAre("0 x 52", "6 x 52", "1 x 0"));
    EXPECT_THAT(rows_told(knit_page("Cuff\n\nCast on 52 sts.\nRow 1: knit and cast off.\n")),
                ElementsAre("0 x 52", "1 x 52", "1 x 0"));
}

TEST(KnitSentences, StitchesTakenUpAreNoRemark) {
    const Document mitt = knit_page(
        "Mitt\n\nCast on 52 sts and join in the round.\nKnit 20 rounds.\nSomebody should "
        "take up the 18 sts somewhere.\nKnit 6 rounds.\n");
    EXPECT_THAT(lines_that_may_work(mitt), Contains(HasSubstr("take up the 18 sts")));
}

TEST(KnitSentences, RemainingStitchesAreAllThereAre) {
    EXPECT_THAT(rows_told(knit_page("Back\n\nCast on 40 sts.\nKnit 10 rows.\nBind off remaining 17 "
                                    "sts.\n")),
                ElementsAre("0 x 40", "10 x 40", "1 x ?"));
}

TEST(KnitSentences, OverlapIsNoPieceOfItsOwn) {
    EXPECT_THAT(
        pieces(knit_page("Hood\n\nBonnet\nCast on 56 sts.\nKnit 10 rows.\nCast on 8 sts for "
                         "front overlap.\nKnit 4 rows.\n")),
        ElementsAre("Bonnet x1"));
}

TEST(KnitSentences, WorkedLikeThePieceWithoutAName) {
    EXPECT_THAT(pieces(knit_page("Cosy\n\nCast on 40 sts.\nKnit 30 rows.\nBind off.\n\nFRONT: Work "
                                 "as back.\n")),
                ElementsAre("BACK x1", "FRONT x1"));
    const Document cosy = knit_page(
        "Cosy\n\nCast on 40 sts.\nKnit 30 rows.\nBind off.\n\nCast on 9 sts.\nKnit 4 rows.\nBind "
        "off.\n\nFRONT: Work as back.\n");
    EXPECT_THAT(rows_told(cosy), Contains("1 x ?"));
}

TEST(KnitSentences, HolesAreNoPieces) {
    EXPECT_THAT(
        rows_told(knit_page("Bag\n\nCast on 30 sts.\nKnit 10 rows.\nTo make 4 holes:\nRow 1: "
                            "K5, BO 2, k to end.\nRow 2: K to end. 28 sts.\n")),
        ElementsAre("0 x 30", "10 x 30", "1 x 28", "1 x 28"));
}

TEST(KnitSentences, LengthsAreNoCounts) {
    EXPECT_THAT(rows_told(knit_page("Scarf\n\nCast on 30 sts.\nRow 1: k and frob for approx. 4 to "
                                    "5 things.\nRow 2: knit.\n")),
                ElementsAre("0 x 30", "1 x ?", "1 x 30"));
    EXPECT_THAT(
        rows_told(knit_page("Scarf\n\nCast on 30 sts.\nRow 1: k and frob, inc somewhere. 34 "
                            "sts.\nRow 2: knit.\n")),
        ElementsAre("0 x 30", "1 x ?", "1 x 34"));
}

TEST(KnitSentences, TalkIsNoRow) {
    EXPECT_THAT(
        rows_told(knit_page("Bag\n\nCast on 59 sts.\nKnit 30 rows.\nNow you have a piece of "
                            "59 sts that you will go on knitting.\nDo not worry, you won't "
                            "purl many rounds.\nKnit 2 rows.\n")),
        ElementsAre("0 x 59", "30 x 59", "2 x 59"));
}

TEST(KnitSentences, GoingOnWithoutAnEndIsRefused) {
    EXPECT_THAT(
        rows_told(knit_page("Flap\n\nCast on 30 sts.\nKnit 2 rows.\nContinue with the wrong "
                            "and right side rows, ending on a right side row.\n")),
        Contains(HasSubstr("?")));
}

TEST(KnitSentences, RowsOfAPatternBeforeTheCastOnAreNoPiece) {
    const Document slipover = knit_page(
        "Slipover\n\nPATTERN:\n1st row: K24, P2, K8, P2, K24\n2nd row: P24, K2, P8, K2, "
        "P24\nCont to work this way cabling the K8 sts every 8th row on right side.\n\n"
        "BACK:\nCast on 58 sts. Knit 10 rows. Bind off.\n");
    EXPECT_THAT(pieces(slipover), ElementsAre("BACK x1"));
}

TEST(KnitSentences, HeadsWithADashAndAlone) {
    const Document hat = knit_page(
        "Hat\n\nMeasurements\nAbout 20 cm.\nMaterials\nWool.\nTension\n26 stitches and 36 rows, to "
        "10 x 10cm, over stocking stitch.\nCast on 40 sts.\nKnit 2 rows.\n");
    EXPECT_TRUE(hat.row_gauge.has_value());
    EXPECT_TRUE(knit_page("Hat\n\nYarn - sport weight\n\nGauge - 18 sts, 24 rows = 4 in\n\n"
                          "Cast on 40 sts.\nKnit 2 rows.\n")
                    .row_gauge.has_value());
}

TEST(KnitSentences, PageWithoutLineEndsIsReadByItsParts) {
    const Document slipover = knit_page(
        "Slipover\nGAUGE: 20 sts = 4 inches Directions are given for the size 4, and nothing else "
        "is to be said of it here. BACK: Cast on 53 sts. Knit 10 rows. Bind off. FRONT: Work same "
        "as back. SLEEVES: Cast on 31 sts. Knit 12 rows, bind off all sts. FINISHING: Block each "
        "section. Sew one shoulder seam, and the sleeves into the armholes with small stitches.");
    EXPECT_THAT(pieces(slipover), ElementsAre("BACK x1", "FRONT x1", "SLEEVES x2"));
}

}  // namespace
}  // namespace skeinfall::notation::knit_sentences
