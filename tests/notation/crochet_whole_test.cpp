// Whole crochet pages of our own in forms that pages use: blocks, stripes told in one line,
// patterns that go on, borders of joined pieces. Counts by hand.

#include <cstdint>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "page_reading.hpp"

namespace skeinfall::notation {
namespace {

/// Four rows to the inch.
Document hooked_page(const std::string& text) {
    DocumentOptions options;
    options.craft = Craft::crochet;
    options.row_gauge = 16.0 * units::row / (4.0 * units::inch);
    options.desired = 10.0 * units::inch;
    return read_document(text, options);
}

using ToldRows = std::vector<std::string>;

/// So many stitches of a kind in all rows of a section.
std::int64_t kinds_in(const Section& section, const std::string& name) {
    double out = 0.0;
    for (const std::uint32_t row : section.rows.order)
        for (const project::KindCount& kind : section.rows.distinct[row].kinds)
            if (kind.kind == name) out += kind.count.value();
    return std::llround(out);
}

// A line of signs alone has no words to look at.
TEST(CrochetWhole, ALineOfSignsAloneIsNoBlock) {
    EXPECT_NO_THROW(static_cast<void>(hooked_page(":\n\n.\n: .\nBlock:\n:\n")));
}

// Rows 1-10 have 1 to 10 blocks of 3 dc, rows 11-19 have 9 to 1: 100 in all.
TEST(CrochetWhole, BlocksByTheirNamesAreWrittenOut) {
    const Document blanket = hooked_page(
        "Beginning block (beg block): ch 6, dc in 4th ch from hook, dc in next 2 ch\n"
        "Block: sl st in next ch-3 sp, ch 3, 3 dc in same sp\n"
        "\n"
        "Row 1: Ch 6, dc in 4th ch from hook, dc in next 2 ch. (1 block)\n"
        "Row 2: Turn, beg block, block. (2 blocks)\n"
        "Row 3: Turn, beg block, *block; rep from * across. (3 blocks)\n"
        "Rows 4-10: Repeat row 3, increasing 1 block each row. (10 blocks)\n"
        "Row 11: Turn, sl st in each of next 3 dc, block in each block across to last block, sl st "
        "in last sp. (9 blocks)\n"
        "Rows 12-19: Repeat row 11, decreasing 1 block each row. (1 block)\n");
    ASSERT_EQ(blanket.sections.size(), 1U);
    EXPECT_EQ(rows_told(blanket),
              (ToldRows{"1 x 3", "1 x 7", "1 x 11", "7 x 39", "1 x 40", "8 x 8"}));
    EXPECT_EQ(kinds_in(blanket.sections.front(), "dc"), 300);
}

TEST(CrochetWhole, BlocksThatDoNotComeToTheirCountAreTold) {
    const Document blanket = hooked_page(
        "Row 1: Ch 6, dc in 4th ch from hook, dc in next 2 ch. (1 block)\n"
        "Row 2: Ch 6, turn, dc in 4th ch from hook, dc in next 2 ch, sl st in ch-3 sp, ch 3, 3 dc "
        "in same sp. (2 blocks)\n"
        "Row 3: Ch 6, turn, dc in 4th ch from hook, dc in next 2 ch, *sl st in next ch-3 sp, ch 3, "
        "3 dc in same sp; rep from * across. (4 blocks)\n");
    EXPECT_EQ(rows_told(blanket), (ToldRows{"1 x 3", "1 x 7", "1 x ?"}));
}

// 38 rows: 4 + 2 + 4 + 2 three times, and 2 more of the first.
TEST(CrochetWhole, StripesInOneLineAreEachInTheirYarn) {
    const Document scarf = hooked_page(
        "With MC, ch 21.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
        "Row 2: Ch 1, turn, sc in each sc across. (20 sc)\n"
        "Rows 3-40: Repeat row 2 in the following colour sequence: 4 rows MC, 2 rows A, 4 rows MC, "
        "2 rows of B.\n"
        "Row 41: Repeat row 2 in A.\n"
        "Row 42: Switch to MC. Rep row 2.\n");
    ASSERT_EQ(scarf.sections.size(), 1U);
    const project::WorkedRows& rows = scarf.sections.front().rows;
    EXPECT_EQ(rows.order.size(), 42U);
    std::int64_t mc = 0;
    std::int64_t a = 0;
    std::int64_t b = 0;
    for (const project::Stripe& stripe : rows.stripes)
        (stripe.role == "MC" ? mc : stripe.role == "A" ? a : b) += stripe.rows;
    EXPECT_EQ(mc, 2 + 26 + 1);
    EXPECT_EQ(a, 6 + 1);
    EXPECT_EQ(b, 6);
}

TEST(CrochetWhole, RowsOfLettersAreStitchesInTheirYarns) {
    const Document square = hooked_page(
        "Ch 11.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"
        "Row 2: A A A B B B B A A A\n"
        "Row 3: AABBBBBBAA\n"
        "Row 4: 3A, 4B, 3A\n"
        "Row 5: (A) x 1, (B) x 8, (A) x 1\n"
        "Row 6: 5 sc in A, 5 sc in B\n");
    ASSERT_EQ(square.sections.size(), 1U);
    EXPECT_EQ(rows_told(square),
              (ToldRows{"0 x 11", "1 x 10", "1 x 10", "1 x 10", "1 x 10", "1 x 10", "1 x 10"}));
    double b = 0.0;
    const project::WorkedRows& rows = square.sections.front().rows;
    for (const std::uint32_t row : rows.order)
        for (const project::ColourWork& one : rows.distinct[row].colours)
            if (one.role == "B")
                for (const project::KindCount& kind : one.kinds)
                    if (kind.kind == "sc") b += kind.count.value();
    EXPECT_EQ(std::llround(b), 4 + 6 + 4 + 8 + 5);
}

// 10 in are 40 rows; rows 2 and 3 take turns, so half of rows 2 to 41 are dc.
TEST(CrochetWhole, APatternGoesOnWithTheRowsThatComeAgain) {
    const std::string scarf =
        "Ch 21.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
        "Row 2: Ch 3, turn, dc in next st and in each st across. (20 dc)\n"
        "Row 3: Ch 1, turn, sc in each st across. (20 sc)\n";
    const Document shown =
        hooked_page(scarf +
                    "Rows 4-9: Rep rows 2 and 3.\n"
                    "Continue in pattern until scarf measures 10 in, ending with a row 3.\n");
    ASSERT_EQ(shown.sections.size(), 1U);
    EXPECT_EQ(rows_told(shown).back(), "32 x 20");
    EXPECT_EQ(kinds_in(shown.sections.front(), "dc"), 20 * 19);
    // Nothing shows which rows it is made of.
    const Document unsaid = hooked_page(scarf + "Continue in pattern until it measures 10 in.\n");
    EXPECT_EQ(rows_told(unsaid).back(), "0 x ?");
}

// Rows that shape are no pattern that goes on: what follows them keeps their stitches.
TEST(CrochetWhole, APatternGoesOnBehindShapingWithoutIt) {
    const Document front = hooked_page(
        "Ch 31.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (30 sc)\n"
        "Row 2: Ch 1, turn, sc2tog, sc to last 2 sts, sc2tog. (28)\n"
        "Rows 3-5: Rep row 2. (22)\n"
        "Continue in pattern for 10 rows.\n"
        "Next 4 rows: Work even in pat as established.\n");
    EXPECT_EQ(rows_told(front),
              (ToldRows{"0 x 31", "1 x 30", "1 x 28", "3 x 22", "10 x 22", "4 x 22"}));
}

TEST(CrochetWhole, PiecesMadeOftenBeginThoughTheirFirstRowNamesNoRing) {
    const Document toy = hooked_page(
        "Small mouse\n"
        "BODY\n"
        "Use pink yarn\n"
        "R1: 8sc in MR (8)\n"
        "R2: 8inc (16)\n"
        "R3 - R6: 16sc (16)\n"
        "Cut and leave a long tail for sewing.\n"
        "ARM (Make 2)\n"
        "Use mint yarn\n"
        "R1: 6sc (6)\n"
        "R2 - R6: 6sc (6)\n");
    ASSERT_EQ(toy.sections.size(), 2U);
    EXPECT_EQ(toy.sections[0].name, "BODY");
    EXPECT_EQ(toy.sections[1].times, 2);
    EXPECT_EQ(rows_told(toy), (ToldRows{"1 x 8", "1 x 16", "4 x 16", "1 x 6", "5 x 6"}));
}

TEST(CrochetWhole, ACountAloneInItsLineIsThatOfTheRowAbove) {
    const Document cloth = hooked_page(
        "Ch 21.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across.\n"
        "\n"
        "20 sc.\n"
        "\n"
        "Row 2: Ch 1, turn, sc in each sc across.\n");
    EXPECT_EQ(rows_told(cloth), (ToldRows{"0 x 21", "1 x 20", "1 x 20"}));
}

TEST(CrochetWhole, HandlesAndLastRowsAreNoStitchesOfThePattern) {
    const Document basket = hooked_page(
        "Rnd 1: 6 sc in magic ring. (6)\n"
        "Rnd 2: 2 sc in each st around. (12)\n"
        "Mark your place.\n"
        "*Ch 4, skip 3 sts, sc in each of the next 3 sts, rep from * to end - 14 sts. Cut the yarn "
        "and pull it through.\n");
    EXPECT_EQ(rows_told(basket).size() + lines_that_may_work(basket).size(), 3U);
    const Document cloth = hooked_page(
        "Ch 10.\n"
        "Row 1: Pull up a loop in 2nd ch from hook and in each ch across. (10 loops)\n"
        "Row 2: Tss in each st across. (10)\n"
        "Bind off: *insert hook in next bar, yo, pull through both loops; rep from * across.\n");
    EXPECT_EQ(rows_told(cloth).back(), "1 x 10");
}

// 10 in are 40 rounds, the first two of them with other counts.
TEST(CrochetWhole, RoundsFromOneOnReachTheWishedLength) {
    const Document basket = hooked_page(
        "Round 1: 6 sc in magic ring = 6 sc\n"
        "Round 2: 2 sc in each sc around = 12 sc\n"
        "photo by a friend\n"
        "Rounds 3+ sc in each sc around until reaching desired height. = 12 sc\n"
        "Top fold: sc in front loop of each st around = 12 sc\n"
        "Following rounds: sc in each st. Continue to desired length.\n");
    EXPECT_EQ(rows_told(basket), (ToldRows{"1 x 6", "1 x 12", "1 x 12", "37 x 12", "1 x 12"}));
    // The length is there already: the line is listed, no row is lost without a word.
    const RowReading& last = basket.sections.front().readings.back();
    EXPECT_EQ(last.rows, 0);
    EXPECT_FALSE(last.aside.empty());
}

TEST(CrochetWhole, WordsBeforeTheRowsAreNoFoundation) {
    const Document scarf = hooked_page(
        "Simple band\n"
        "For ridge stitch (rgst), yo, insert hook in next st, yo and draw up through the stitch "
        "and\n"
        "through the first loop on hook, yo and draw through 2 remaining loops.\n"
        "\n"
        "Chain 3 before turning. Turning chain counts as first stitch throughout.\n"
        "\n"
        "Chain 14.\n"
        "Row 1: rgst in 4th ch from hook and in each ch across; 11 st; ch 3, turn.\n"
        "Hint: As the piece becomes longer, roll up the rows.\n"
        "Row 2: rgst in each st across; 11 st; ch 3, turn.\n"
        "*Button loop: Ch 8, sl st to first ch.\n"
        "Row 3: rgst in each st across; 11 st.\n");
    EXPECT_EQ(rows_told(scarf), (ToldRows{"0 x 14", "1 x 11", "1 x 11", "1 x 11"}));
    EXPECT_EQ(lines_that_may_work(scarf).size(), 1U);
}

TEST(CrochetWhole, VStitchesThatNobodyTellsAreTheUsualOnes) {
    const std::string rows =
        "Ch 15.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (14 sc)\n"
        "Row 2: Ch 3 (counts as dc), turn, sk 1 st, *V-st in next st, sk 2 sts; rep from * to last "
        "3 sts, V-st in next st, sk 1 st, dc in last st.\n";
    const Document usual = hooked_page(rows);
    EXPECT_EQ(rows_told(usual), (ToldRows{"0 x 15", "1 x 14", "1 x 10"}));
    ASSERT_EQ(usual.definitions.size(), 1U);
    EXPECT_EQ(usual.definitions.front().stitch.of, "(dc, ch 1, dc)");
    const Document told = hooked_page("V-st = (dc, ch 2, dc) in next st\n\n" + rows);
    EXPECT_EQ(told.definitions.front().meaning, "(dc, ch 2, dc) in next st");
}

TEST(CrochetWhole, AroundSaidOnceMakesNoRoundsOfTurnedRows) {
    const Document band = hooked_page(
        "Ch 11\n"
        "Row 1: sc in 2nd ch from hook and in each ch across, ch 1, turn (10)\n"
        "Row 2: sc across, ch 1, turn\n"
        "Row 3: sc2tog, sc to last 2 sts, sc2tog, ch 1, turn\n"
        "Ch 1, turn, sc across for 3 additional rows.\n"
        "40 sc evenly around the band.\n");
    ASSERT_EQ(band.sections.size(), 1U);
    EXPECT_FALSE(band.sections.front().round);
    EXPECT_EQ(rows_told(band),
              (ToldRows{"0 x 11", "1 x 10", "1 x 10", "1 x 8", "3 x 8", "1 x 40"}));
}

TEST(CrochetWhole, ABorderOfJoinedPiecesIsNoneOfEach) {
    const std::string square =
        "Square (make 12)\n"
        "Ch 4, join.\n"
        "Rnd 1: Ch 3, 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * 2 more times, join. (12 "
        "dc)\n"
        "Fasten off.\n"
        "Sew the squares together.\n"
        "Border\n";
    const Document told = hooked_page(
        square +
        "Rnd 1: Join yarn in any corner, ch 1, sc in each st around, 3 sc in each corner, join. "
        "(150 sc)\n"
        "Rnd 2: Ch 1, sc in each sc around, join. (150)\n");
    ASSERT_EQ(told.sections.size(), 2U);
    EXPECT_EQ(told.sections[0].times, 12);
    EXPECT_EQ(told.sections[1].times, 1);
    EXPECT_EQ(rows_told(told), (ToldRows{"0 x 0", "1 x 12", "1 x 150", "1 x 150"}));
    const Document uncounted =
        hooked_page(square + "Rnd 1: Join yarn in any corner, ch 1, sc in each st around, join.\n");
    EXPECT_EQ(rows_told(uncounted).back(), "1 x ?");
}

TEST(CrochetWhole, AnotherNameOfTheSlipStitchCountsAsOne) {
    const std::string page =
        "Slip things - tiny flower\n"
        "Abbreviations:\n"
        "slp st --- slip stitch\n"
        "\n"
        "Rnd 1: 6 sc in magic ring, slp st to first sc (6)\n"
        "Rnd 2: Ch 1, 2 sc in each st around, join with a slp st to first sc\n"
        "Rnd 3: 3 dc in first st, slp st in next st; repeat to end\n";
    EXPECT_EQ(rows_told(hooked_page(page)), (ToldRows{"1 x 6", "1 x 12", "1 x 24"}));
}

TEST(CrochetWhole, NumbersBeforeRowSayWhichRow) {
    const std::string page =
        "Head\n"
        "1 row - 6 sc in magic ring\n"
        "2 row - 6 inc = 12\n"
        "3 row - (1 sc, inc) * 6 = 18\n"
        "4 to 5 rows - 18 sc\n"
        "6 - 8 rows / 3 rows / - 18 sc\n";
    EXPECT_EQ(rows_told(hooked_page(page)),
              (ToldRows{"1 x 6", "1 x 12", "1 x 18", "2 x 18", "3 x 18"}));
}

TEST(CrochetWhole, AnotherWayToBeginIsNoPiece) {
    const Document told = hooked_page(
        "R1: 6 sc into a magic circle (6)\n"
        "\n"
        "Alternate way to begin: chain 2, sc 6 times in 2nd chain from hook (6)\n"
        "\n"
        "R2: (inc) 6 times (12)\n");
    ASSERT_EQ(told.sections.size(), 1U);
    EXPECT_EQ(rows_told(told), (ToldRows{"1 x 6", "1 x 12"}));
}

}  // namespace
}  // namespace skeinfall::notation
