// Knitting patterns pasted whole: stitch patterns before the cast-on, sentences of their own, words
// beside rows. Patterns are of our own; counts are worked out by hand.

#include <cstdint>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/notation/document.hpp"

#include "helpers.hpp"

namespace skeinfall::notation::knit_documents {
namespace {

using testing::ElementsAre;

Document read(const std::string& text) {
    DocumentOptions options;
    options.craft = Craft::knit;
    options.row_gauge = 20.0 * units::row / (10.0 * units::centimetre);
    options.desired = 50.0 * units::centimetre;
    return read_document(text, options);
}

/// Of each line of rows the stitches it leaves, or why it was not read.
std::vector<std::string> counts(const Document& document) {
    std::vector<std::string> out;
    for (const Section& section : document.sections)
        for (const RowReading& reading : section.readings) {
            using State = RowReading::State;
            const bool fine = reading.state == State::read || reading.state == State::foundation ||
                              reading.state == State::two_ways;
            if (reading.rows == 0 && reading.state == State::read) continue;
            if (!fine || !reading.stitches)
                out.push_back(reading.words + ": " +
                              (reading.problem ? reading.problem->what : "?"));
            else
                out.push_back(std::to_string(reading.rows) + " rows " +
                              std::to_string(whole(*reading.stitches)));
        }
    return out;
}

// 26 = 3 x 8 + 2: two blocks of four rows, then 5 of garter.
TEST(KnitDocument, StitchPatternBeforeTheCastOnIsPutWhereItIsWorked) {
    const Document scarf = read(
        "Steps Scarf\n\nSteps pattern\nRow 1: K1, *k4, p4; rep from * to last st, k1.\n"
        "Row 2: K the k, p the p.\nRow 3: K1, *p4, k4; rep from * to last st, k1.\nRow 4: Purl.\n"
        "Repeat these 4 rows for pattern.\n\nScarf\nCast on 26 sts.\nKnit 3 rows.\n"
        "Work 8 rows in Steps pattern.\nKnit 5 rows.\nBind off.\n");
    EXPECT_THAT(counts(scarf),
                ElementsAre("0 rows 26", "3 rows 26", "1 rows 26", "1 rows 26", "1 rows 26",
                            "1 rows 26", "4 rows 26", "5 rows 26", "1 rows 0"));
}

// 50 cm at 2 rows a cm are 100 rows; 2 of them before, so 98, to whole blocks of two.
TEST(KnitDocument, StitchPatternGoesOnToALength) {
    const Document scarf = read(
        "Dots\n\nPattern stitch:\nRow 1: *K2, p1; rep from * to end.\nRow 2: Purl.\n\n"
        "Scarf\nCast on 21 sts.\nKnit 2 rows.\n"
        "Work in pattern until piece measures 50 cm.\nBind off.\n");
    EXPECT_THAT(counts(scarf), ElementsAre("0 rows 21", "2 rows 21", "1 rows 21", "1 rows 21",
                                           "96 rows 21", "1 rows 0"));
}

TEST(KnitDocument, SentencesOfOneLineAreRowsOfTheirOwn) {
    const Document cloth = read(
        "Cloth\n\nCast on 20 sts and work in garter st for 10 rows. This makes a firm edge. Next "
        "row: K to end. P 1 row. Repeat last 2 rows 3 times, then bind off.\n");
    EXPECT_THAT(counts(cloth), ElementsAre("0 rows 20", "10 rows 20", "1 rows 20", "1 rows 20",
                                           "6 rows 20", "1 rows 0"));
}

TEST(KnitDocument, RepeatOfTheFollowingRowsStandsBehindThem) {
    const Document band = read(
        "Band\n\nCast on 10 sts.\nRepeat the following 2 rows until it measures 50 cm:\n"
        "1. K10\n2. P10\n");
    EXPECT_THAT(counts(band), ElementsAre("0 rows 10", "1 rows 10", "1 rows 10", "98 rows 10"));
}

// One hand of two is read; the other is listed.
TEST(KnitDocument, OneHandIsTakenTheOtherListed) {
    const Document mitten = read(
        "Mitten\n\nCast on 30 sts and join in the round.\nKnit 4 rounds.\nRound 1:\n"
        "Left mitten: K to last 4 sts, m1, k4.\nRight mitten: K4, m1, k to end.\nRound 2: Knit.\n");
    EXPECT_THAT(counts(mitten), ElementsAre("0 rows 30", "4 rows 30", "1 rows 31", "1 rows 31"));
    std::size_t listed = 0;
    for (const DocumentPart& part : mitten.parts)
        if (part.text.starts_with("Right mitten")) ++listed;
    EXPECT_EQ(listed, 1U);
}

// A cable of the pattern's own takes the four stitches it is told with, "seed 3" three.
TEST(KnitDocument, OwnStitchesTakeWhatTheyAreMadeOf) {
    const Document band = read(
        "Band\n\nAbbreviations:\ntw4 = slip 2 sts to cable needle and hold in front, k2, k2 from "
        "cable needle\nSeed 3: K1, p1, k1\n\nCast on 10 sts.\n"
        "Row 1: Seed 3, tw4, seed 3.\nRow 2: Seed 3, p4, seed 3.\n");
    EXPECT_THAT(counts(band), ElementsAre("0 rows 10", "1 rows 10", "1 rows 10"));
}

// Numbers that count rows told in words go on from the rows read.
TEST(KnitDocument, LabelsThatCountOtherwiseFollowTheRowsBefore) {
    const Document piece = read(
        "Back\n\nCast on 26 sts.\nRow 1 (WS): Purl.\nRow 2: K1, m1, k to last st, m1, k1. 28 sts.\n"
        "Work 3 rows in st st.\nRow 9: K1, k2tog, k to last 3 sts, k2tog, k1. 26 sts.\n");
    EXPECT_THAT(counts(piece),
                ElementsAre("0 rows 26", "1 rows 26", "1 rows 28", "3 rows 28", "1 rows 26"));
    ASSERT_EQ(piece.sections.front().readings.back().findings.size(), 1U);
    EXPECT_EQ(piece.sections.front().readings.back().findings.front().what,
              "the pattern calls it row 9; with the rows read before it, it is row 6");
}

// "1B, 2A" are stitches of a yarn that a letter names: 4 + 4 of 8.
TEST(KnitDocument, LettersNameTheYarnOfEachStretch) {
    const Document hat = read(
        "Hat\n\nWith color A cast on 16 sts. Join in the round.\nKnit 2 rounds.\n"
        "Knit 1 round in color B.\nRound 1: *1B, 2A, 3B, 2A*, repeat * to end of round.\n");
    EXPECT_THAT(counts(hat), ElementsAre("0 rows 16", "2 rows 16", "1 rows 16", "1 rows 16"));
    const auto& colours = hat.sections.front().readings.back().colours;
    ASSERT_EQ(colours.size(), 2U);
    std::int64_t sum = 0;
    for (const auto& colour : colours)
        for (const KindCount& kind : colour.kinds) sum += whole(kind.count);
    EXPECT_EQ(sum, 16);
}

// What goes on with a change that no row shows is refused, not guessed.
TEST(KnitDocument, ShapingThatNothingShowsIsRefused) {
    const Document hat = read(
        "Hat\n\nCast on 40 sts. Join in the round.\nKnit 10 rounds.\n"
        "Continue decreasing in this manner until 8 sts remain.\n");
    EXPECT_THAT(counts(hat).back(), testing::HasSubstr("no row before it changes"));
}

// 10 cm at 2 rows a cm.
TEST(KnitDocument, AboutALengthIsThatLength) {
    const Document band = read(
        "Band\n\nCast on 20 sts.\nWork in garter st until it measures about 10 cm from cast on.\n"
        "Bind off.\n");
    EXPECT_THAT(counts(band), ElementsAre("0 rows 20", "20 rows 20", "1 rows 0"));
}

// What a repeat of rows ends with is not passed over: 40 - 4.
TEST(KnitDocument, ShapingBehindARepeatIsARowOfItsOwn) {
    const Document band = read(
        "Band\n\nCast on 40 sts.\nRow 1: *K1, p1; rep from * to end.\nRepeat this row for 5 cm, "
        "ending with a WS row and dec'ing 4 sts evenly across last row - 36 sts.\n");
    EXPECT_THAT(counts(band), ElementsAre("0 rows 40", "1 rows 40", "10 rows 40", "1 rows 36"));
    const Document refused = read(
        "Band\n\nCast on 40 sts.\nRow 1: *K1, p1; rep from * to end.\nRepeat row 1 ending with a "
        "purl row, dec 4 sts in it, 10 times.\n");
    EXPECT_NE(refused.sections.front().rows_read, refused.sections.front().rows_lines);
}

// Rows of old books stand one behind the other.
TEST(KnitDocument, OrdinalRowsOfOneLineAreCut) {
    const Document band = read(
        "Band\n\nCast on 20 sts. 1st row: K 2, p 2 across. 2nd row: Purl. 3rd row: K 2 tog, k to "
        "end.\n");
    EXPECT_THAT(counts(band), ElementsAre("0 rows 20", "1 rows 20", "1 rows 20", "1 rows 19"));
}

// A list before "to end" has two readings; without a count both are told.
TEST(KnitDocument, AListBeforeTheEndIsToldBothWays) {
    const Document hat = read("Hat\n\nCast on 50 sts.\nRow 1: K8, k2tog until end of row.\n");
    EXPECT_THAT(counts(hat), ElementsAre("0 rows 50", "1 rows 45"));
    EXPECT_EQ(hat.sections.front().readings.back().state, RowReading::State::two_ways);
}

// Work behind a sentence that only tells is not lost.
TEST(KnitDocument, WorkBehindProseIsRead) {
    const Document hat = read(
        "Hat\n\nCast on 18 sts. Join in the round.\nRnd 1: K2tog around.\n"
        "You should have 9 sts on 3 needles. Work even on these sts for 5 rounds.\n");
    EXPECT_THAT(counts(hat), ElementsAre("0 rows 18", "1 rows 9", "5 rows 9"));
}

// A page that broke its lines after some 40 signs.
TEST(KnitDocument, LinesThatAPageBrokeAreJoined) {
    const Document vest = read(
        "Vest\n\nWith larger needles, cast on 64 sts. Do\nnot join. Knit 4 rows, then purl to the\n"
        "end of the next row.\nNext row (RS): [k7, k2tog, place marker,\nk7] 4 times - 60\n"
        "sts.\nCont in St st, cast on 5 sts at beg of next\n2 rows - 70 sts.\nBind off.\n");
    const auto all = counts(vest);
    EXPECT_THAT(all.back(), "1 rows 0");
    EXPECT_THAT(all[all.size() - 2], "2 rows 70");
    EXPECT_THAT(all[all.size() - 3], "1 rows 60");
}

// What stands behind the rows tells words, and works nothing.
TEST(KnitDocument, AbbreviationsBehindTheRows) {
    const Document cowl = read(
        "Cowl\n\nCast on 12 sts.\nRow 1: knit\nBind off.\n\nCO = cast on\nk = knit\n"
        "k2tog - knit 2 together\n");
    EXPECT_THAT(counts(cowl), ElementsAre("0 rows 12", "1 rows 12", "1 rows 0"));
}

// 50 - 2 x 7, then - 2 x 6.
TEST(KnitDocument, EdgesThatGoOnWithOtherNumbers) {
    const Document back = read(
        "Back\n\nCast on 50 sts.\nKnit 2 rows.\n"
        "Bind off 7 sts at beg of next 2 rows, then 6 sts at beg of next 2 rows.\n");
    EXPECT_THAT(counts(back), ElementsAre("0 rows 50", "2 rows 50", "2 rows 36", "2 rows 24"));
}

// 20 rows to 10 cm: 8 more behind the two, and what stands behind the repeat is work of its own.
TEST(KnitDocument, WorkBehindARepeatOfRows) {
    const Document scarf = read(
        "Scarf\n\nCast on 12 sts.\nRow 1: k\nRow 2: p\n"
        "Repeat rows 1-2 until it measures 5 cm. End with row 2. Cast off.\n");
    EXPECT_THAT(counts(scarf),
                ElementsAre("0 rows 12", "1 rows 12", "1 rows 12", "8 rows 12", "1 rows 0"));
}

// A leaflet that a page made into paragraphs. 24 = 4 x 6; 10 cm are 20 rounds, 16 behind the four.
TEST(KnitDocument, RowsAndHeadingsWithinParagraphs) {
    const Document cowl = read(
        "Leaf Cowl\n\nPATTERN STITCH Note: Place a marker between repeats. Leaf Pattern Rnds 1 and "
        "3: Knit. Rnd 2: *K2, yo, ssk, k2; rep from * around. Rnd 4: *K2, k2tog, yo, k2; rep from "
        "* around. Rep Rnds 1-4 for Leaf Pattern.\n\nCOWL Cast on 24 sts. Join in the round. Beg "
        "with Rnd 1, work in Leaf Pattern until piece measures about 4 in. (10 cm) from beg, "
        "ending with a Rnd 4. Bind off.\n");
    EXPECT_THAT(counts(cowl), ElementsAre("0 rows 24", "2 rows 24", "1 rows 24", "1 rows 24",
                                          "16 rows 24", "1 rows 0"));
}

// How every stitch is bound off is no further row.
TEST(KnitDocument, ABindOffToldStitchByStitch) {
    const Document scarf = read(
        "Scarf\n\nCast on 12 sts.\nRow 1: knit\n"
        "Bind off as follows: k2, slip both back, k2tog tbl, k1. Go on so to the end.\n");
    EXPECT_THAT(counts(scarf), ElementsAre("0 rows 12", "1 rows 12", "1 rows 0"));
}

// 2 rows a cm: an inch is 5 rows. 40 + 3 x 2; 4 in are 20 rows, 15 of them worked.
TEST(KnitDocument, ShapingByTheInch) {
    const Document sleeve = read(
        "Sleeve\n\nCast on 40 sts. Work in stockinette st, increasing 1 st at both ends of every "
        "inch 3 times (46 sts). Work even until sleeve measures 4 in. To shape top of sleeve, "
        "bind off 4 sts at beg of next 2 rows. Bind off.\n");
    EXPECT_THAT(counts(sleeve),
                ElementsAre("0 rows 40", "15 rows 46", "5 rows 46", "2 rows 38", "1 rows 0"));
}

// 21 less 2 a time never leaves 10: told at the line that asks for it.
TEST(KnitDocument, RepeatsThatNeverComeToTheirCount) {
    const Document front = read(
        "Front\n\nCast on 21 sts.\nRow 1: Ssk, k to last 2 sts, k2tog.\nRow 2: Purl.\n"
        "Repeat these 2 rows until 10 sts remain.\nBind off.\n");
    EXPECT_THAT(counts(front)[3], testing::StartsWith("Repeat these 2 rows until 10 sts remain"));
}

// The next count shows what a row without one must have made: 24 - 6 = 18.
TEST(KnitDocument, AGuessForARowThatIsNotRead) {
    const Document hat = read(
        "Hat\n\nCast on 24 sts. Join in the round.\nRnd 1: Knit.\nRnd 2: Frobnicate all around.\n"
        "Rnd 3: Knit.\nRnd 4: *K1, k2tog; rep from * around. (12 sts)\n");
    ASSERT_EQ(hat.sections.size(), 1U);
    const RowReading* row = nullptr;
    for (const RowReading& reading : hat.sections[0].readings)
        if (reading.words.find("Frob") != std::string::npos) row = &reading;
    ASSERT_NE(row, nullptr);
    ASSERT_TRUE(row->proposal);
    EXPECT_EQ(row->proposal->instead, "knit, dec 6 sts evenly");
    EXPECT_TRUE(row->proposal->guess);
}

// 8 of 40 wait, 8 are cast on over the gap: 40 again, and no second piece.
TEST(KnitDocument, StitchesCastOnOverAGap) {
    const Document mitten = read(
        "Mitten\n\nCast on 40 sts. Join in the round.\nKnit 4 rounds.\n"
        "On next round, place next 8 sts on a holder, k to end.\n"
        "On the next round, cast on 8 sts, k to end.\nWork 4 more rounds.\nBind off.\n");
    EXPECT_EQ(mitten.sections.size(), 1U);
    EXPECT_THAT(counts(mitten), ElementsAre("0 rows 40", "4 rows 40", "1 rows 32", "1 rows 40",
                                            "4 rows 40", "1 rows 0"));
}

// Bound off by edges whose stitches stand behind the rows: 52 - 2 x 5 - 4 x 2 - 4 x 4 - 18.
TEST(KnitDocument, EdgesWithTheirStitchesBehindTheRows) {
    const Document back = read(
        "Back\n\nCast on 52 sts. Bind off for armhole at the beg. of the next 2 rows 5 sts., at "
        "the "
        "beg. of the next 4 rows 2 sts. Bind off for shoulders at the beg. of the next 4 rows 4 "
        "sts., rem. 18 sts. bind off for neck.\n");
    EXPECT_THAT(counts(back),
                ElementsAre("0 rows 52", "2 rows 42", "4 rows 34", "4 rows 18", "1 rows 0"));
}

// A name before the work is a name, and the work is not lost.
TEST(KnitDocument, NamesBeforeTheirWork) {
    const Document hat = read(
        "Hat\n\nCast on 40 sts. Join in the round.\nRibbing: Work k2, p2 rib for 6 rounds.\n"
        "Body: Knit 10 rounds.\nCrown: K2tog around. (20 sts)\n");
    EXPECT_THAT(counts(hat), ElementsAre("0 rows 40", "6 rows 40", "10 rows 40", "1 rows 20"));
}

TEST(KnitDocument, PiecesWorkedLikeOthers) {
    const Document mitten =
        read("Mitten\n\nCast on 30 sts.\nKnit 4 rows.\nBind off.\nMake second mitten to match.\n");
    ASSERT_EQ(mitten.sections.size(), 1U);
    EXPECT_EQ(mitten.sections[0].times, 2);
    const Document fronts = read(
        "Jacket\n\nRIGHT FRONT\nCast on 30 sts. Knit 4 rows. Bind off. Work left front to "
        "correspond, reversing all shaping.\n\nSLEEVE\nCast on 20 sts. Knit 4 rows. Bind off.\n");
    ASSERT_EQ(fronts.sections.size(), 2U);
    EXPECT_EQ(fronts.sections[0].times, 2);
    EXPECT_EQ(fronts.sections[1].times, 1);
}

// A few stitches cast on within a row belong to the piece: 20 + 5, + 5.
TEST(KnitDocument, StitchesCastOnAtTheEdges) {
    const Document body = read(
        "Body\n\nCast on 20 sts.\nKnit 2 rows.\nKnit to end, cast on 5 sts. (25 sts)\n"
        "Cast on 5 sts, knit across row. (30 sts)\nBind off.\n");
    ASSERT_EQ(body.sections.size(), 1U);
    EXPECT_THAT(counts(body),
                ElementsAre("0 rows 20", "2 rows 20", "1 rows 25", "1 rows 30", "1 rows 0"));
}

// Needles in lines of their own are one round, and no list of materials: 48 - 4.
TEST(KnitDocument, NeedlesInLinesOfTheirOwn) {
    const Document toe = read(
        "Toe\n\nCast on 48 sts. Join in the round.\nRnd 1: Knit.\nRnd 2:\n"
        "Needle 1: k to last 3 sts, k2tog, k1.\nNeedle 2: k1, ssk, k to last 3 sts, k2tog, k1.\n"
        "Needle 3: k1, ssk, k to end.\nRnd 3: Knit.\n");
    EXPECT_THAT(counts(toe), ElementsAre("0 rows 48", "1 rows 48", "1 rows 44", "1 rows 44"));
}

// A list in brackets below a row is the next row, not the rest of it.
TEST(KnitDocument, ARowInBracketsBelowAnother) {
    const Document hat =
        read("Hat\n\nCast on 40 sts. Join in the round.\nRnd 1: knit\n(K2tog) around. (20 sts)\n");
    EXPECT_THAT(counts(hat), ElementsAre("0 rows 40", "1 rows 40", "1 rows 20"));
}

// 60 = 20 + 20 bound off + 20; each side loses 1.
TEST(KnitDocument, TheOtherSideIsWorkedLikeTheFirst) {
    const std::string first =
        "Cast on 60 sts.\nRows 1-10: Knit.\nRow 11: K20, bind off 20 sts, k to end.\n"
        "Working on these 20 sts only:\nRow 12: K2tog, k to end. (19)\nRows 13-20: Knit.\n"
        "Bind off.\n";
    for (const char* const other :
         {"Rejoin yarn and work other side to match.",
          "Return to stitches left on needle, rejoin "
          "yarn and complete to match first side.",
          "Rejoin yarn to remaining 20 sts and work second side as first."})
        EXPECT_THAT(counts(read(first + other + "\n")),
                    ElementsAre("0 rows 60", "10 rows 60", "1 rows 40", "1 rows 19", "8 rows 19",
                                "1 rows 0", "1 rows 19", "8 rows 19", "1 rows 0"))
            << other;
    // Rows that are named by their numbers would be those of the first side.
    const auto named = counts(read(first + "Rejoin yarn and work other side as rows 12-20.\n"));
    EXPECT_NE(named.size(), 9U);
}

// 20 sts throughout: 3 rows, 2 times 2, 2.
TEST(KnitDocument, RowsBehindThoseRepeatedAreRowsOfTheirOwn) {
    EXPECT_THAT(
        counts(read("Cast on 20 stitches.\n1st row: Knit.\n2nd row: Purl.\n"
                    "3rd row: K2, p2 to end.\n"
                    "Repeat 2nd and 3rd rows twice, and again knit 2 rows.\n")),
        ElementsAre("0 rows 20", "1 rows 20", "1 rows 20", "1 rows 20", "4 rows 20", "2 rows 20"));
}

}  // namespace
}  // namespace skeinfall::notation::knit_documents
