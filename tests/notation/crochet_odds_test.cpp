// Whole crochet pages of our own in forms that pages set oddly: labels run together, rounds told
// over several lines, pieces counted in words. Counts by hand.

#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "page_reading.hpp"

namespace skeinfall::notation {
namespace {

Document odd_page(const std::string& text) {
    DocumentOptions options;
    options.craft = Craft::crochet;
    return read_document(text, options);
}

using OddRows = std::vector<std::string>;

TEST(CrochetOdds, LabelsRunTogetherWithTheirSigns) {
    EXPECT_EQ(rows_told(odd_page("Rnd.1 6 sc in magic ring (6)\n"
                                 "Rnd.2 2 sc in each sc around(12sc)\n"
                                 "Rnds.3-5 Sc in each sc around\n"
                                 "Rnd. 6 Sc in next sc, 2 sc in next sc; repeat around (18 sc)\n")),
              (OddRows{"1 x 6", "1 x 12", "3 x 12", "1 x 18"}));
    EXPECT_EQ(rows_told(odd_page("With color, chain 4, join with a slip stitch.\n\n"
                                 "1ST ROW-12 single crochet in ring. Join every row with a slip "
                                 "stitch.\n\n"
                                 "2D ROW-2 single crochet in each stitch around.\n\n"
                                 "3d row: 1 single crochet in each stitch around.\n")),
              (OddRows{"0 x 0", "1 x 12", "1 x 24", "1 x 24"}));
}

TEST(CrochetOdds, RowsRunTogetherInAParagraphAreParted) {
    OddRows rows =
        rows_told(odd_page("Pot\n"
                           "Start with a magic ring.R1: 6 sc in the ring, join [6]R2: (2 "
                           "sc in next st) * 6 times, join [12]R3: (1 sc, 2 sc in next "
                           "st) * 6 times, join [18]R4-6: 18 sc, join [18]\n"));
    std::erase_if(rows, [](const std::string& row) { return row.starts_with("0 x"); });
    EXPECT_EQ(rows, (OddRows{"1 x 6", "1 x 12", "1 x 18", "3 x 18"}));
    EXPECT_EQ(rows_told(odd_page("rnd 1: 6 sc in magic ring\n"
                                 "rnd 2: inc 6 times [12]\n"
                                 "rnd 3/7: sc in all 12 st\n"
                                 "rnd 8: (dec, sc in next 2 st) repeat 3 times [9]\n")),
              (OddRows{"1 x 6", "1 x 12", "5 x 12", "1 x 9"}));
}

TEST(CrochetOdds, LinesBetweenTwoNumbersBelongToTheFirst) {
    EXPECT_EQ(rows_told(odd_page("Round 1: Ch 4 (counts as dc); 2 dc in 4th chain from hook.\n"
                                 "(Ch 2, 3 dc in same chain) 3 times.\n"
                                 "Ch 2, join with a ss in top of 4 ch.\n"
                                 "(12 stitches worked plus 2-ch corner spaces.)\n"
                                 "~~~~~\n"
                                 "Round 2: ch 1, sc into each of first 3 stitches.\n"
                                 "3 dc into ch-2 space.\n"
                                 "(Sc into each of next 3 dc; 3 dc into 2-ch space) 3 times.\n"
                                 "ss into first sc to join.\n"
                                 "(24 stitches worked.)\n"
                                 "~~~~~\n"
                                 "Round 3: ch 1, sc in each st around, join.\n")),
              (OddRows{"1 x 12", "1 x 24", "1 x 24"}));
}

// 3 sc2tog and 6 sc are 9 sc: "(6 sc)" is met by the plain ones alone no more.
TEST(CrochetOdds, StitchesWorkedTogetherCountAsWhatTheyAre) {
    EXPECT_EQ(rows_told(odd_page("Rnd 1: 6 sc in magic ring. (6 sc)\n"
                                 "Rnd 2: 2 sc in each sc around. (12 sc)\n"
                                 "Rnd 3: (Sc2tog, sc in next 2 sc) 3 times. (6 sc)\n")),
              (OddRows{"1 x 6", "1 x 12", "1 x ?"}));
}

TEST(CrochetOdds, WhatFollowsAPieceMadeTwiceIsNoPartOfBoth) {
    const Document bear = odd_page(
        "Leg * 2\n"
        "Rnd 1. 6sc in MR (6)\n"
        "Rnd 2. 6 inc (12)\n"
        "Body\n"
        "Rnd 1-2. (2 rnds) 30sc (30)\n"
        "Rnd 3. (3sc, dec) * 6 (24)\n");
    ASSERT_EQ(bear.sections.size(), 2U);
    EXPECT_EQ(bear.sections[0].times, 2);
    EXPECT_EQ(bear.sections[1].times, 1);
    EXPECT_EQ(rows_told(bear), (OddRows{"1 x 6", "1 x 12", "2 x 30", "1 x 24"}));
}

TEST(CrochetOdds, PiecesAreCountedInWords) {
    const Document mouse = odd_page(
        "Ears (2 pcs.)\n"
        "1. 6 sc in magic ring (6)\n"
        "2. 6 inc (12)\n"
        "3. 12 sc (12)\n"
        "Tail\n"
        "1. 4 sc in magic ring (4)\n"
        "2. 4 sc (4)\n"
        "3. 4 sc (4)\n");
    ASSERT_EQ(mouse.sections.size(), 2U);
    EXPECT_EQ(mouse.sections[0].times, 2);
    EXPECT_EQ(mouse.sections[1].times, 1);
}

TEST(CrochetOdds, NumbersBeginAnewBehindAChainThatHadOne) {
    EXPECT_EQ(
        rows_told(odd_page("SOLE\n"
                           "Rnd 1: Start at the center of the sole with chain of 10 stitches.\n"
                           "Rnd 2: Sc in 2nd ch from hook and in next 7 ch, 3 sc in last ch, "
                           "working on other side of ch, sc in next 7 ch, 2 sc in next ch. "
                           "(20 sc)\n"
                           "Rnd 3: sc in each st around. (20 sc)\n"
                           "SIDES\n"
                           "Rnd 1: ch 1, sc in each st around. (20 sc)\n")),
        (OddRows{"0 x 10", "1 x 20", "1 x 20", "1 x 20"}));
}

// What leads to rows names no piece.
TEST(CrochetOdds, HeadingsThatLeadToRowsNameNoPiece) {
    const Document cowl = odd_page(
        "Cowl\n\nPATTERN:\nRow 1: Ch 11, sc in 2nd ch from hook and in "
        "each ch across. (10 sc)\nRow 2: Ch 1, turn, sc in each sc. "
        "(10 sc)\n");
    ASSERT_EQ(cowl.sections.size(), 1U);
    EXPECT_EQ(cowl.sections[0].name, "");
}

TEST(CrochetOdds, AStitchInTheListMayHaveItsHyphenAtOnce) {
    EXPECT_EQ(
        rows_told(odd_page("Special stitches:\n"
                           "Fan-3 dc's in the same sp\n"
                           "\n"
                           "Ch 21\n"
                           "Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
                           "Row 2: Ch 3 (counts as dc), turn, skip 2 sc, *fan in next sc, "
                           "skip 2 sc; rep from * 4 more times, skip 1 sc, dc in last sc.\n")),
        (OddRows{"0 x 21", "1 x 20", "1 x 17"}));
}

TEST(CrochetOdds, ALengthBehindALabelOfOneRowGoesOnFromThere) {
    const std::string rows =
        "Ch 22.\n"
        "Row 1: Dc in 4th ch from hook and in each ch across. (20)\n"
        "Row 2: Ch 3 (counts as dc), turn, dc in next st and in each st "
        "across. (20)\n";
    DocumentOptions options;
    options.craft = Craft::crochet;
    options.row_gauge = 8.0 * units::row / (4.0 * units::inch);
    options.desired = 30.0 * units::inch;
    const auto last = [&](const std::string& line) {
        return rows_told(read_document(rows + line, options)).back();
    };
    EXPECT_EQ(last("Row 3: Repeat row 2 until piece measures 20 in.\n"), "38 x 20");
    EXPECT_EQ(last("Row 3 and on: Repeat row 2 until piece measures 20 in.\n"), "38 x 20");
    EXPECT_EQ(last("Row 3: Repeat row 2 for 10 rows.\n"), "10 x 20");
    EXPECT_EQ(last("Row 3: Repeat row 2 until the required height is attained (e.g., 14 rows).\n"),
              "58 x 20");
    EXPECT_EQ(last("Rows 3-12: Repeat row 2 to desired length.\n"), "10 x 20");
    EXPECT_EQ(rows_told(odd_page(rows + "Row 3: Repeat row 2 to desired length.\n")).back(),
              "0 x ?");
}

// Which stitches those are, the row below does not show: 36 dc, and not 48.
TEST(CrochetOdds, StitchesOfAnEarlierRoundAreRefused) {
    const std::string rounds =
        "Rnd 1: 6 sc in magic ring. (6)\n"
        "Rnd 2: 2 sc in each st. (12)\n"
        "Rnd 3: In back loops only, (sc, inc) 6 times. (18)\n";
    const auto last = [&](const std::string& line) {
        return rows_told(odd_page(rounds + line)).back();
    };
    EXPECT_EQ(last("Rnd 4: Working in front loops of rnd 2, 3 dc in each st around.\n"), "1 x ?");
    EXPECT_EQ(last("Rnd 4: Dc in each sc of rnd 2.\n"), "1 x ?");
    EXPECT_EQ(last("Rnd 4: Working in front loops of rnd 3, 2 dc in each st around.\n"), "1 x 36");
    EXPECT_EQ(last("Rnd 4: 36 dc evenly along the edge.\n"), "1 x 36");
}

TEST(CrochetOdds, ARowAlongTheEdgesMayHoldWork) {
    const Document scarf = odd_page(
        "Ch 21.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
        "Row 2: Ch 1, turn, sc in each st.\n"
        "Add a row of sc along both long sides.\n");
    EXPECT_EQ(lines_that_may_work(scarf),
              std::vector<std::string>{"Add a row of sc along both long sides."});
}

// 8 pairs, 4 sides of 4 + 3 dc, 4 sides of 4 tr and 10 dc.
TEST(CrochetOdds, TheLastSideOfASquareEndsAtItsMark) {
    EXPECT_EQ(
        rows_told(odd_page(
            "Ch 4, join with sl st to form ring.\n"
            "Rnd 1: Ch 1, 8 sc in ring, join. (8 sc)\n"
            "Rnd 2: Ch 3 (counts as first dc), dc in same st, ch 1, *2 dc in next st, ch 1, "
            "repeat from * around, join with sl st. (16 dc)\n"
            "Rnd 3: Sl st into next st and into ch-1 sp, ch 3 (counts as first dc), (dc, ch 2, "
            "2 dc) in same ch-1 sp, *ch 2, 3 dc in next ch-1 sp, ch 2,** (2 dc, ch 2, 2 dc) in "
            "next ch-1 sp, repeat from * all the way around ending at **, join with sl st. "
            "(28 dc)\n"
            "Rnd 4: Sl st into next st and into ch-2 sp, ch 4 (counts as first tr), (tr, ch 2, "
            "2 tr) in same ch-2 sp, *5 dc in each of next 2 ch-2 sps,** (2 tr, ch 2, 2 tr) in "
            "next ch-2 sp, repeat from * all around ending at **, join with sl st.\n")),
        (OddRows{"0 x 0", "1 x 8", "1 x 16", "1 x 28", "1 x 56"}));
}

TEST(CrochetOdds, TheFirstCornerOfAGrannyIsOneGroup) {
    EXPECT_EQ(
        rows_told(odd_page(
            "Ch 4, sl st to form ring.\n"
            "Rnd 1: Ch 3, 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times, sl st to top of ch "
            "3.\n"
            "Rnd 2: Sl st to corner sp, ch 3, 2 dc, ch 2, 3 dc in corner sp, ch 1, (3 dc, ch 2, "
            "3 dc, ch 1) in each corner around, join.\n"
            "Rnd 3: Sl st to corner, ch 3, 2 dc, ch 2, 3 dc in corner, ch 1, 3 dc in next sp, "
            "ch 1, *(3 dc, ch 2, 3 dc) in corner, ch 1, 3 dc in next sp, ch 1; rep from * "
            "around, join.\n")),
        (OddRows{"0 x 0", "1 x 12", "1 x 24", "1 x 36"}));
}

// Neither the gauge nor the yarn of a stitch holds for another hook.
TEST(CrochetOdds, AnotherHookIsTold) {
    const auto told = [](const std::string& text) {
        std::vector<std::string> out;
        for (const Section& section : odd_page(text).sections)
            for (const RowReading& reading : section.readings)
                for (const project::Finding& finding : reading.findings)
                    if (finding.what.find("hook before") != std::string::npos)
                        out.push_back(finding.what.substr(0, finding.what.find(':')));
        return out;
    };
    const std::string rows =
        "Materials: 5 mm hook\n\n"
        "Ch 21.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n";
    EXPECT_EQ(told(rows + "Switch to 8 mm hook.\nRow 2: Ch 1, turn, sc in each st. (20)\n"),
              OddRows{"\"Switch to 8 mm hook.\""});
    EXPECT_EQ(told(rows + "Row 2: With a larger hook, ch 1, turn, sc in each st. (20)\n").size(),
              1U);
    EXPECT_EQ(told(rows + "Row 2: With 5 mm hook, ch 1, turn, sc in each st. (20)\n"), OddRows{});
    EXPECT_EQ(told(rows + "Row 2: Ch 1, turn, sc in each st. (20)\n"), OddRows{});
}

// Rows in a yarn that nobody names would all be counted in one.
TEST(CrochetOdds, AnotherYarnWithoutANameIsTold) {
    const auto told = [](const std::string& line) {
        const Document scarf = odd_page(
            "Ch 21.\n"
            "Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n" +
            line + "Row 2: Ch 1, turn, sc in each st. (20)\n");
        std::size_t count = 0;
        for (const RowReading& reading : scarf.sections.front().readings)
            for (const project::Finding& finding : reading.findings)
                count += finding.what.find("which yarn") != std::string::npos ? 1U : 0U;
        return count;
    };
    EXPECT_EQ(told("Join new colour.\n"), 1U);
    EXPECT_EQ(told("Switch to PINK YARN.\n"), 1U);
    EXPECT_EQ(told("Place a marker.\n"), 0U);
}

TEST(CrochetOdds, AHashMarksARepeat) {
    EXPECT_EQ(rows_told(odd_page("Rnd 1: 8 sc in magic ring. (8)\n"
                                 "Rnd #2: 2 sc in each st. (16)\n"
                                 "Rnd 3: # sc in next 2 sts, dec #, rep from # to # around.\n")),
              (OddRows{"1 x 8", "1 x 16", "1 x 12"}));
}

TEST(CrochetOdds, ASizeIsNoNumberOfPieces) {
    const auto times = [](const std::string& heading) {
        return odd_page(heading +
                        "\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across.\n")
            .sections.front()
            .times;
    };
    EXPECT_EQ(times("Size- 34\" L x 5\" W"), 1);
    EXPECT_EQ(times("Strap x 2"), 2);
}

TEST(CrochetOdds, AListOfNamesTellsStitchesToo) {
    EXPECT_EQ(rows_told(odd_page("Abbreviations: ch = chain; sc = single crochet; sl st = slip "
                                 "stitch; TP = triple picot (ch 3, sl st in 3rd ch from hook, ch "
                                 "4, sl st in 4th ch from hook).\n"
                                 "Ch 6, join to form a ring.\n"
                                 "Rnd 1: 12 sc in ring, join. (12)\n"
                                 "Rnd 2: *Sc in next st, TP, sc in next st; rep from * around, "
                                 "join.\n")),
              (OddRows{"0 x 0", "1 x 12", "1 x 12"}));
}

}  // namespace
}  // namespace skeinfall::notation
