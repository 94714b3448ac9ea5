// Crochet pages of our own in forms of blogs: rounds told by their number, pieces that begin like
// another, keys behind the rows, broken lines, rows within paragraphs. Counts by hand.

#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "page_reading.hpp"

namespace skeinfall::notation {
namespace {

Document lined_page(const std::string& text) {
    DocumentOptions options;
    options.craft = Craft::crochet;
    return read_document(text, options);
}

using LinedRows = std::vector<std::string>;

TEST(CrochetLines, RoundsByTheirNumberAreSoMany) {
    const Document head = lined_page(
        "Rnd 1: 6 sc in magic ring (6)\n"
        "Rnd 2: 2 sc in each st around (12)\n"
        "Sc 4 rounds plain\n"
        "Work 10 rounds plain.\n"
        "Crochet 2 more rounds without increasing.\n"
        "Hdc 3 rounds (12 sts)\n");
    EXPECT_EQ(rows_told(head),
              (LinedRows{"1 x 6", "1 x 12", "4 x 12", "10 x 12", "2 x 12", "3 x 12"}));
}

TEST(CrochetLines, TimesBehindACountAreRounds) {
    const Document ear = lined_page(
        "EARS (make 2)\n"
        "\n"
        "MR - 6\n"
        "2 sc in each - 12\n"
        "sc around - 12 (x3)\n"
        "Sc around (12) x 2\n");
    ASSERT_EQ(ear.sections.size(), 1U);
    EXPECT_EQ(ear.sections.front().times, 2);
    EXPECT_EQ(rows_told(ear), (LinedRows{"1 x 6", "1 x 12", "3 x 12", "2 x 12"}));
}

TEST(CrochetLines, APieceBeginsLikeAnother) {
    const Document toy = lined_page(
        "HEAD\n"
        "Rnd 1: 6 sc in magic ring (6)\n"
        "Rnd 2: inc x 6 (12)\n"
        "Rnd 3: (sc, inc) x 6 (18)\n"
        "Rnd 4: sc around (18)\n"
        "Fasten off.\n"
        "BODY\n"
        "Rnds 1-3: Work same as for Head.\n"
        "Rnd 4: (2 sc, inc) x 6 (24)\n"
        "ARM\n"
        "Rounds 1-2: Repeat rounds 1-2 of Head.\n"
        "Rnd 3: sc around (12)\n"
        "TAIL: Work same as Body through round 2.\n"
        "Rnd 3: dec x 6 (6)\n");
    ASSERT_EQ(toy.sections.size(), 4U);
    EXPECT_EQ(rows_told(toy),
              (LinedRows{"1 x 6", "1 x 12", "1 x 18", "1 x 18", "1 x 6", "1 x 12", "1 x 18",
                         "1 x 24", "1 x 6", "1 x 12", "1 x 12", "1 x 6", "1 x 12", "1 x 6"}));
}

TEST(CrochetLines, AnUnknownPieceIsNotCopied) {
    const Document toy = lined_page(
        "HEAD\n"
        "Rnd 1: 6 sc in magic ring (6)\n"
        "Rnd 2: inc x 6 (12)\n"
        "BODY\n"
        "Rnds 1-9: same as head\n");
    EXPECT_EQ(rows_told(toy).back().back(), '?');
}

TEST(CrochetLines, AKeyBehindTheRowsIsNoRow) {
    const Document star = lined_page(
        "Ch 4, join to form a ring.\n"
        "Rnd 1: Ch 1, 12 sc in ring, join. (12)\n"
        "Rnd 2: Ch 1, sc in each sc around, join. (12)\n"
        "\n"
        "Sl=Slip Stitch\n"
        "Sc=Single Crochet\n"
        "Tr=Triple Crochet\n");
    EXPECT_EQ(rows_told(star), (LinedRows{"0 x 0", "1 x 12", "1 x 12"}));
}

TEST(CrochetLines, BrokenLinesAreOnePhrase) {
    const Document hat = lined_page(
        "Round1.\n"
        "Make 12 dc into magic ring, sl st to join into 1st dc.(12\n"
        "dc)\n"
        "Round2.\n"
        "Ch2 (does not count), 2 dc in same st, 1 dc next st, *2 dc into\n"
        "next st, 1dc\n"
        "into\n"
        "next st*, repeat from * to * around, sl st to\n"
        "join.(18\n"
        "dc)\n"
        "Round3.\n"
        "Ch2 (does not count), *dc2tog, 1 dc in each next\n"
        "1\n"
        "st*, repeat\n"
        "From\n"
        "* to * around, sl st to join.(12 dc)\n");
    EXPECT_EQ(rows_told(hat), (LinedRows{"1 x 12", "1 x 18", "1 x 12"}));
}

TEST(CrochetLines, ARowBehindASentenceIsOne) {
    const Document head = lined_page(
        "Rnd 1: 6 sc in magic ring (6)\n"
        "Rnd 2: 2 sc in each st around (12)\n"
        "Stuff fiberfill into it before the last round. Rnd 3: (draw up a loop in each of the next "
        "2 "
        "sc, yarn over and draw through all 3 loops) 6 times. (6)\n");
    EXPECT_EQ(rows_told(head).size(), 3U);
    EXPECT_EQ(rows_told(head).back(), "1 x 6");
}

TEST(CrochetLines, AFoundationAmongAbbreviationsIsOne) {
    const Document hat = lined_page(
        "Abbreviations: ch - chain, dc - double crochet, tr - treble, sl.st - slip stitch, beg - "
        "beginning\n"
        "Using M yarn, make 4ch and join with a sl.st\n"
        "Rnd 1: 3ch, 11tr into center of the 4ch, sl.st into top of beg 3ch. (12sts)\n");
    ASSERT_EQ(hat.sections.size(), 1U);
    EXPECT_EQ(whole(hat.sections.front().rows.foundation.made), 4);
    EXPECT_EQ(rows_told(hat).back(), "1 x 12");
}

TEST(CrochetLines, OneParagraphHasItsChainAndRows) {
    const Document shawl = lined_page(
        "INSTRUCTIONS With A, ch 4. Join with sl st to first ch to form ring. See the chart. 1st "
        "row: Ch 4 (counts as tr). (5 tr. Ch 2. 6 tr) in ring. Turn. 12 tr. 2nd row: Ch 4 (counts "
        "as tr). 2 tr in first tr. 1 tr in each tr to ch-2 sp. (2 tr. Ch 2. 2 tr) in ch-2 sp. 1 tr "
        "in each tr to last tr. 3 tr in last tr. Turn. 20 tr.\n");
    EXPECT_EQ(rows_told(shawl), (LinedRows{"0 x 0", "1 x 12", "1 x 20"}));
}

TEST(CrochetLines, RepeatsOfWordsThatEndNoRowStandWithinIt) {
    const Document body = lined_page(
        "Rnd 1: 12 sc in magic ring (12)\n"
        "Rnd 2: 2 sc in each st around (24)\n"
        "Rnd 3: Ch 10. Skip 2 stitches and ss into third stitch. Repeat 7 times. (8)\n");
    EXPECT_EQ(rows_told(body), (LinedRows{"1 x 12", "1 x 24", "1 x 8"}));
}

TEST(CrochetLines, TheTopOfAChainNamesNoTerms) {
    const Document shawl = lined_page(
        "4 ch and close to a ring with a slst.\n"
        "Row 1: 4 ch (as replacement for the first tr), 5 tr into ring. Turn.\n"
        "Row 2: 4 ch (as replacement for the first tr), 1 tr in next 4 tr, 1 tr in the 4th ch of "
        "the "
        "previous row. Turn.\n");
    EXPECT_EQ(shawl.terms, Terms::us);
}

TEST(CrochetLines, AChainWithoutABlankBeginsAPiece) {
    const Document toy = lined_page(
        "BODY\n"
        "Ch2\n"
        "6 sc in 2nd ch from hook\n"
        "2 sc in each st around (12)\n"
        "Arms (make 2)\n"
        "Ch2\n"
        "5 sc in 2nd ch from hook\n"
        "sc in each st around (5)\n");
    ASSERT_EQ(toy.sections.size(), 2U);
    EXPECT_EQ(toy.sections.back().times, 2);
    EXPECT_EQ(rows_told(toy), (LinedRows{"0 x 2", "1 x 6", "1 x 12", "0 x 2", "1 x 5", "1 x 5"}));
}

TEST(CrochetLines, ASeamEndToEndIsNoRow) {
    const Document cozy = lined_page(
        "Ch 13.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (12)\n"
        "Rows 2-8: Ch 1, sc in each sc across, turn. (12)\n"
        "Join end to end & either slip stitch or whip stitch closed.\n");
    EXPECT_EQ(rows_told(cozy), (LinedRows{"0 x 13", "1 x 12", "7 x 12"}));
    const Document slipper = lined_page(
        "Rnd 1: 6 sc in magic ring (6)\n"
        "Rnd 2: 2 sc in each st around (12)\n"
        "Hold the two open sides together, sl st in every st. Fasten off.\n");
    EXPECT_EQ(rows_told(slipper), (LinedRows{"1 x 6", "1 x 12"}));
    ASSERT_FALSE(slipper.parts.empty());
    EXPECT_TRUE(slipper.parts.back().work);
}

TEST(CrochetLines, MakeTwoBelowAHeadingCountsThePiece) {
    const Document legs = lined_page(
        "LEGS\n"
        "\n"
        "Make 2.\n"
        "\n"
        "Rnd 1: 6 sc in magic ring (6)\n"
        "Rnd 2: 2 sc in each st around (12)\n");
    ASSERT_EQ(legs.sections.size(), 1U);
    EXPECT_EQ(legs.sections.front().times, 2);
    EXPECT_TRUE(lines_that_may_work(legs).empty());
}

}  // namespace
}  // namespace skeinfall::notation
