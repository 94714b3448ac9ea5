// Whole crochet pages of our own: what one line may hold, pieces and how often they are made, rows
// repeated that could not be read. Counts by hand.

#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "page_reading.hpp"

namespace skeinfall::notation {
namespace {

Document first_page(const std::string& text) {
    DocumentOptions options;
    options.craft = Craft::crochet;
    return read_document(text, options);
}

using FirstRows = std::vector<std::string>;

std::string problem_of(const Document& document, std::size_t row) {
    const RowReading& reading = document.sections.front().readings[row];
    return reading.problem ? reading.problem->what : "";
}

TEST(CrochetFirst, TwoRowsInOneLineAreNotOne) {
    const Document round = first_page(
        "Ch 4, join to form a ring.\n"
        "Rnd 1: Ch 3, 11 dc in ring, join. (12)\n"
        "Rnd 2: Ch 3, dc in each st around, join, ch 3, dc in each st "
        "around, join.\n");
    EXPECT_EQ(rows_told(round), (FirstRows{"0 x 0", "1 x 12", "1 x ?"}));
    EXPECT_EQ(problem_of(round, 2), "behind this begins another row, in the same line");
    const Document rows = first_page(
        "Ch 21.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (20)\n"
        "Row 2: Ch 1, turn, sc in next 5 sts, turn, ch 1, sc in next 5 "
        "sts.\n");
    EXPECT_EQ(problem_of(rows, 2), "behind this begins another row, in the same line");
}

TEST(CrochetFirst, SizesInCentimetresAreNoNumberOfPieces) {
    const Document square = first_page(
        "Coasters\n\nBasic square (approx. 15 cm x 15 cm)\n"
        "Ch 4, join to form a ring.\n"
        "Rnd 1: Ch 3, 11 dc in ring, join. (12)\n");
    ASSERT_EQ(square.sections.size(), 1U);
    EXPECT_EQ(square.sections.front().times, 1);
}

TEST(CrochetFirst, AYarnBelowAHeadingNamesNoPiece) {
    const Document toy = first_page(
        "Toy cat\n\nArms (make 2)\nWith orange yarn:\n"
        "R 1: 6 sc in mc (6)\n"
        "R 2: (1 sc, inc)*3 (9)\n"
        "Change to blue yarn:\n"
        "R 3-5: 9 sc (3 rows)\n\nTail\nWith orange yarn:\n"
        "R 1: 4 sc in mc (4)\n");
    ASSERT_EQ(toy.sections.size(), 2U);
    EXPECT_EQ(toy.sections[0].name, "Arms (make 2)");
    EXPECT_EQ(toy.sections[0].times, 2);
    EXPECT_TRUE(toy.sections[0].round);
    EXPECT_EQ(toy.sections[1].name, "Tail");
    EXPECT_EQ(rows_told(toy), (FirstRows{"1 x 6", "1 x 9", "3 x 9", "1 x 4"}));
}

TEST(CrochetFirst, ACountBeforeTheNextLabelIsNoSize) {
    const Document head = first_page(
        "1. HEAD Start with the orange yarn. Round 1: 6 sc in MR (6) "
        "Round 2: 6 inc (12) Round 3: (1 sc, 1 inc) * 6 (18) Round 4: "
        "(2 sc, 1 inc) * 6 (24) Round 5: (3 sc, 1 inc) * 6 (30) Round "
        "6: (4 sc, 1 inc) * 6 (35) Round 7: 36 sc\n");
    EXPECT_EQ(rows_told(head),
              (FirstRows{"1 x 6", "1 x 12", "1 x 18", "1 x 24", "1 x 30", "1 x ?", "1 x 36"}));
}

// 4 chains more than the corner: 2 + 10 + 3 + 10 + 2.
TEST(CrochetFirst, SentencesBelowALabelAreItsRow) {
    EXPECT_EQ(rows_told(first_page("Ch 12.\n"
                                   "Round 1:\n"
                                   "2 single crochets in 2nd chain from hook.\n"
                                   "1 single crochet in each of the next 9 chains.\n"
                                   "3 single crochets in the last chain.\n"
                                   "Working on the opposite side, 1 single crochet in each of the "
                                   "next 9 chains.\n"
                                   "Slip stitch to join.\n")),
              (FirstRows{"0 x 12", "1 x 23"}));
}

// 30 chains are 3 to turn and 27: 9 x 3.
TEST(CrochetFirst, ARepeatOfARowThatIsNotReadIsNotRead) {
    const Document scarf = first_page(
        "Ch 21.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (20)\n"
        "Row 2: Ch 1, turn, wobble in each sc across.\n"
        "Row 3: Ch 1, turn, sc in each st across.\n"
        "Rows 4-9: Repeat rows 2 and 3.\n");
    EXPECT_EQ(problem_of(scarf, 4), "it repeats row 2, which could not be followed");
}

// 10, then 3 for each 2: 15, and 20.
TEST(CrochetFirst, GroupsAreCountedByTheirName) {
    const std::string hat =
        "Note:\n"
        "V stitch - (sc, ch 1, sc) all in same st.\n\n"
        "Round 1: Ch 2, 10 sc in 2nd ch from hook. (10 sc)\n"
        "Round 2: Ch 1, V st in first sc, and in ea sc around. (10 V st)\n"
        "Round 3: Ch 1, 2 V st in first ch 1 sp, V st next ch 1 sp. *2 V st in "
        "ch 1 sp, V st next ch 1 sp.* Repeat from * to end. (";
    EXPECT_EQ(rows_told(first_page(hat + "15 V st)\n")), (FirstRows{"1 x 10", "1 x 20", "1 x 30"}));
    EXPECT_EQ(rows_told(first_page(hat + "16 V st)\n")), (FirstRows{"1 x 10", "1 x 20", "1 x ?"}));
}

/// What the first row behind the base comes to, and "?" where it is not read.
std::string row_on_twelve(const std::string& row) {
    const Document hat = first_page(
        "Rnd 1: 6 sc in magic ring. (6)\n"
        "Rnd 2: 2 sc in each st. (12)\n" +
        row + "\n");
    const FirstRows rows = rows_told(hat);
    std::string out;
    for (std::size_t i = 2; i < rows.size(); ++i) out += (i > 2 ? ", " : "") + rows[i];
    return out;
}

TEST(CrochetFirst, WordsThatWereTakenForLessAreAsked) {
    EXPECT_EQ(row_on_twelve("Rnd 3: sc in each st around twice."), "1 x ?");
    EXPECT_EQ(row_on_twelve("Rnd 3: sc in each st, ch 1, sc in each st."), "1 x ?");
    EXPECT_EQ(row_on_twelve("Rnd 3: increase 6."), "1 x ?");
    EXPECT_EQ(row_on_twelve("Rnd 3: sc around. Rep once more."), "1 x 12, 1 x 12");
    EXPECT_EQ(row_on_twelve("Rnds 3-5: sc around. Rep once more."), "3 x 12, 3 x 12");
    EXPECT_EQ(row_on_twelve("Row 3: Ch 1, turn, sc2tog at beginning and end of row."), "1 x 10");
    EXPECT_EQ(row_on_twelve("Row 3: Ch 1, turn, hdc at beginning and end of row."), "1 x ?");
}

// A heading above a round that a chain begins names no piece of its own.
TEST(CrochetFirst, AChainThatBeginsARoundIsNoBase) {
    const Document beret = first_page(
        "Beginning at crown:\nCh 4\n"
        "Work 11 dc into 4th chain from hook, join (12 dc)\n"
        "Increasing beret:\n"
        "Ch 3, work 1 dc into same space as ch 3, work 2 dc into each "
        "dc around, join (24 dc)\n");
    ASSERT_EQ(beret.sections.size(), 1U);
    EXPECT_EQ(rows_told(beret), (FirstRows{"0 x 4", "1 x 12", "1 x 24"}));
}

TEST(CrochetFirst, AStitchBeyondTheRoundMovesItsBeginning) {
    EXPECT_EQ(row_on_twelve("Rnd 3: Sc in each sc around. Sc in first sc of this round."),
              "1 x 12");
}

TEST(CrochetFirst, WorkBelowTheMaterialsMayBeWork) {
    const Document drop = first_page(
        "Drop\n\nHook: 2.5 mm\n\n"
        "In white, *ch 7, dc into 2nd chain from hook, dc into next 5 "
        "ch*. Make two more.\n\n"
        "Row 1: Ch 6, sc in 2nd ch from hook and in each ch across. (5)\n");
    EXPECT_EQ(lines_that_may_work(drop).size() + rows_told(drop).size(), 2U);
}

TEST(CrochetFirst, TwoNumbersOfOneStitchCanBeReadTwoWays) {
    const Document hat = first_page(
        "Rnd 1: 6 dc in magic ring. (6)\n"
        "Rnd 2: 2 dc in each st. (12)\n"
        "Rnd 3: (2 dc, 1 dc) around.\n");
    ASSERT_EQ(hat.sections.front().readings.size(), 3U);
    EXPECT_EQ(hat.sections.front().readings[2].state, RowReading::State::two_ways);
}

TEST(CrochetFirst, HowManyOfAPieceMayHoldWork) {
    const Document bunny = first_page(
        "Bunny\n\nBody: with white\n"
        "Round 1: 6 sc in magic ring. (6)\n\n"
        "Ears: with white\nWe will be making 2 ears. One is small.\n"
        "Starting with a magic circle,\n"
        "Round 1: Ch 1, 4 sc into the circle. (4 sc)\n");
    ASSERT_EQ(bunny.sections.size(), 2U);
    EXPECT_EQ(bunny.sections[1].name, "Ears");
    EXPECT_EQ(lines_that_may_work(bunny), (FirstRows{"We will be making 2 ears. One is small."}));
}

}  // namespace
}  // namespace skeinfall::notation
