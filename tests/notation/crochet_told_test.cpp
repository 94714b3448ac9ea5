// Crochet patterns of our own as blogs and leaflets tell them: terms that are not named, stitches
// that mean others, talk and advice between the rows, borders by their edges.

#include <algorithm>
#include <string>

#include <gtest/gtest.h>

#include "skeinfall/notation/document.hpp"

#include "helpers.hpp"

namespace skeinfall::notation {
namespace {

using Told = RowReading::State;

Document told(const std::string& text) {
    return read_document(text, DocumentOptions{});
}

std::int64_t last_count(const Document& document) {
    const RowReading& last = document.sections.back().readings.back();
    return last.stitches ? whole(*last.stitches) : -1;
}

bool all_read(const Document& document) {
    return std::all_of(document.sections.begin(), document.sections.end(), [](const Section& one) {
        return one.problems.empty() &&
               std::all_of(one.readings.begin(), one.readings.end(), [](const RowReading& row) {
                   return row.state == Told::read || row.state == Told::foundation;
               });
    });
}

std::string notes_of(const Document& document) {
    std::string out;
    for (const Section& section : document.sections)
        for (const RowReading& row : section.readings)
            for (const Finding& finding : row.findings) out += finding.what + "\n";
    return out;
}

std::size_t may_hold_work(const Document& document) {
    return static_cast<std::size_t>(std::count_if(
        document.parts.begin(), document.parts.end(),
        [](const DocumentPart& part) { return part.what == DocumentPart::What::may_work; }));
}

TEST(CrochetTold, AShortenedNotIsANote) {
    for (const char* const note : {"Ch 2 doesn't count as a stitch.", "Ch 2 doesnt count.",
                                   "The ch 2 won't count as a stitch here."}) {
        const Document document =
            told(std::string("Small scarf\nNotes\n") + note +
                 "\nPattern\nCh 22\nRow 1: Dc in 3rd ch from hook and in each "
                 "ch across.\nRow 2: Ch 2, turn, dc in each st across.\n");
        ASSERT_EQ(document.sections.size(), 1U) << note;
        EXPECT_EQ(last_count(document), 20) << note;
    }
}

TEST(CrochetTold, ANameThatThePatternGivesAnotherStitchIsThatStitch) {
    for (const char* const line :
         {"Note: sc here means extended sc throughout.", "sc = extended single crochet",
          "All sc are worked as extended single crochet."}) {
        const Document document = told(std::string("Pad\n") + line +
                                       "\n\nCh 21\nRow 1: Sc in 2nd ch from hook and in each ch. "
                                       "(20 sc)\nRow 2: Ch 1, turn, sc2tog, sc in next 18 sc.\n");
        ASSERT_EQ(document.sections.size(), 1U) << line;
        EXPECT_TRUE(all_read(document)) << line << notes_of(document);
        const auto& rows = document.sections.front().rows;
        // 20, then 18 and two together
        EXPECT_EQ(kinds_of(rows.distinct[rows.order[0]].kinds)["esc"], 20) << line;
        EXPECT_EQ(kinds_of(rows.distinct[rows.order[1]].kinds)["esc2tog"], 1) << line;
        EXPECT_NE(notes_of(document).find("\"sc\" of the rows is esc"), std::string::npos) << line;
    }
}

TEST(CrochetTold, TermsThatNobodyNamesAreToldByTheChain) {
    const auto terms = [](const std::string& rows) { return told("Cloth\nCh 22\n" + rows).terms; };
    EXPECT_EQ(terms("Row 1: Tr in 4th ch from hook and in each ch across. (20)\n"), Terms::uk);
    EXPECT_EQ(terms("Row 1: Dc in 2nd ch from hook and in each ch across. (21)\n"), Terms::uk);
    EXPECT_EQ(terms("Row 1: Dc in 4th ch from hook and in each ch across. (20)\n"), Terms::us);
    EXPECT_EQ(terms("Row 1: Sc in 2nd ch from hook and in each ch across. (21)\n"), Terms::us);
    const Document open = told(
        "Ring\nRnd 1: 12 dc in magic ring, join.\nRnd 2: Ch 4, 2 tr in each "
        "st around, join.\n");
    EXPECT_EQ(open.terms, Terms::us);
    ASSERT_FALSE(open.sections.empty());
    const auto& findings = open.sections.front().readings.front().findings;
    EXPECT_TRUE(std::any_of(findings.begin(), findings.end(), [](const Finding& finding) {
        return finding.severity == Severity::caution &&
               finding.remedy.find("in UK terms") != std::string::npos;
    }));
}

TEST(CrochetTold, AdviceIsNoWorkAndACallForWorkIs) {
    const std::string head =
        "Hat\nRnd 1: 8 sc in magic ring. (8)\nRnd 2: 2 sc in each st around. "
        "(16)\n\n";
    for (const char* const line :
         {"You can add a few rows to fold up the edge.",
          "If you want it longer, work 3 more rounds.", "To make it larger, add 2 rounds.",
          "Now you've finished the first two rounds!", "I used about 5 rows of the second colour.",
          "Make a note of how many rounds you have done."})
        EXPECT_EQ(may_hold_work(told(head + line + "\n")), 0U) << line;
    for (const char* const line :
         {"The brim takes 3 rounds of sc.", "You will decrease in the last 2 rounds.",
          "If you are making the large size, the crown has 4 rounds more."})
        EXPECT_EQ(may_hold_work(told(head + line + "\n")), 1U) << line;
}

TEST(CrochetTold, ABorderByItsEdgesIsProposed) {
    const Document document = told(
        "Pot holder\nGauge: 12 sts and 12 rows = 4 in\n\nCh 21\nRow 1: Sc in 2nd ch from hook and "
        "in each ch across. (20)\nRow 2: Ch 1, turn, sc in each st across. (20)\nRows 3-24: Rep "
        "row "
        "2.\nRnd 1: Sc evenly around, working 3 sc in each corner, join.\nRnd 2: Ch 1, sc in each "
        "st around, 3 sc in each corner, join.\n");
    ASSERT_EQ(document.sections.size(), 1U);
    const auto& readings = document.sections.front().readings;
    const RowReading& border = readings[readings.size() - 2];
    ASSERT_TRUE(border.problem);
    // 20 along either end, 24 rows by 12 to 12 along either side, 2 more in each of 4 corners
    EXPECT_NE(border.problem->remedy.find("ch 1, 96 sc evenly"), std::string::npos)
        << border.problem->remedy;
    ASSERT_TRUE(readings.back().problem);
    EXPECT_NE(readings.back().problem->remedy.find("ch 1, 104 sc evenly"), std::string::npos);
}

TEST(CrochetTold, CornersThatNothingShowsAreFourAndTold) {
    const std::string rows =
        "Mat\nCh 11\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)\nRow 2: Ch 1, turn, "
        "sc in each st across.\nRnd 1: Ch 1, 40 sc evenly around the edge, join. (40)\n";
    const Document counted =
        told(rows + "Rnd 2: Ch 1, sc in each st around, 3 sc in each corner, join. (48)\n");
    EXPECT_TRUE(all_read(counted)) << notes_of(counted);
    const Document open =
        told(rows + "Rnd 2: Ch 1, sc in each st around, 3 sc in each corner, join.\n");
    EXPECT_EQ(last_count(open), 48);
    EXPECT_EQ(open.sections.back().readings.back().state, Told::two_ways);
}

TEST(CrochetTold, RowsToALengthAndThenRows) {
    DocumentOptions options;
    options.row_gauge = 4.0 * units::row / (0.0254 * units::metre);
    options.desired = 0.254 * units::metre;
    const Document strip = read_document(
        "Strip\nCh 11\nRow 1: Hdc in 2nd ch from hook and in each ch across. (10)\nRows 2, to the "
        "length required, ch 1, hdc in each st across.\n",
        options);
    ASSERT_EQ(strip.sections.size(), 1U);
    // 10 in at 4 rows an inch
    EXPECT_EQ(strip.sections.front().rows.order.size(), 40U);
    const Document then = told(
        "Strip\nCh 11\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)\nRow 2: Ch 1, "
        "turn, "
        "sc in each st across.\nRow 3: Ch 2, turn, hdc in each st across.\nRep rows 2 and 3 six "
        "times more, then row 2 once.\n");
    ASSERT_EQ(then.sections.size(), 1U);
    EXPECT_EQ(then.sections.front().rows.order.size(), 3U + 12U + 1U);
}

TEST(CrochetTold, MaterialsWithoutAHeadingAreMaterials) {
    const Document document = told(
        "Cloth\n2 balls of DK cotton, 50 g each\n4 mm hook\n\nCh 21\nRow 1: Sc in 2nd ch from hook "
        "and in each ch across. (20)\n");
    EXPECT_EQ(std::count_if(document.parts.begin(), document.parts.end(),
                            [](const DocumentPart& part) {
                                return part.what == DocumentPart::What::materials;
                            }),
              2);
}

TEST(CrochetTold, SquaresAreCountedBehindTheirLastRound) {
    const Document document = told(
        "Square\nRnd 1: 12 dc in magic ring, join. (12)\nRnd 2: Ch 1, sc in each st around, "
        "join. Fasten off. Make 11 more squares to create a blanket.\n");
    ASSERT_EQ(document.sections.size(), 1U);
    EXPECT_EQ(document.sections.front().times, 12);
}

TEST(CrochetTold, AReturnPassThatJoinsStitchesIsRefused) {
    const Document document = told(
        "Lace\nCh 21\nRow 1: Pull up a loop in 2nd ch from hook and in each ch across. (21 loops)\n"
        "Row 2: Tss in each st across. Return: ch 1, *yo, pull through 4 loops, ch 2; rep from * "
        "to "
        "end.\n");
    ASSERT_EQ(document.sections.size(), 1U);
    EXPECT_EQ(document.sections.front().readings.back().state, Told::unread);
}

TEST(CrochetTold, AWordThatNobodyKnowsCountsForNothing) {
    const Document document = told(
        "Bag\nCh 40, join in a ring, flurb the chain. Ch 1.\nRnd 1: Sc in each ch around.\n"
        "Rnd 2: Sc in each st around.\n");
    for (const Section& section : document.sections)
        for (const RowReading& row : section.readings)
            EXPECT_TRUE(row.state != Told::read || !row.stitches || whole(*row.stitches) == 40)
                << row.words;
}

TEST(CrochetTold, ABlankLineWithinABracketEndsNoRow) {
    const Document document = told(
        "Lace scarf\n\nSCARF\n\nRow 1 (RS): Ch 31, dc in 4th ch from hook (beg 3 sk chs count as "
        "first dc), [sk next 3 chs, (dc, ch 2, dc)\n\nin next ch, sk next 3 chs, dc in each of "
        "next "
        "2 chs] 3 times, turn. (14 dc,\n\n3 ch-2 sps)\n");
    ASSERT_EQ(document.sections.size(), 1U);
    EXPECT_TRUE(all_read(document));
    EXPECT_EQ(last_count(document), 14);
}

TEST(CrochetTold, APieceMayBeOnlyAChain) {
    for (const char* const ties : {"Ties (make 2)\nCh 60. Fasten off.\n", "Make 2 ties: ch 60.\n",
                                   "Ties (make 2)\nWith MC, ch 60, fasten off.\n"}) {
        const Document document =
            told(std::string("Hat\nRnd 1: 6 sc in ring. (6)\nRnd 2: Inc around. (12)\n\n") + ties);
        ASSERT_EQ(document.sections.size(), 2U) << ties;
        EXPECT_TRUE(all_read(document)) << ties;
        const Section& cord = document.sections.back();
        EXPECT_EQ(cord.times, 2) << ties;
        ASSERT_EQ(cord.rows.rows(), 1) << ties;
        ASSERT_EQ(cord.rows.row(1).kinds.size(), 1U) << ties;
        EXPECT_EQ(cord.rows.row(1).kinds[0].kind, "ch") << ties;
        EXPECT_EQ(whole(cord.rows.row(1).kinds[0].count), 60) << ties;
    }
    // Without a word that it ends there, its rows may only be missing.
    const Document open = told("Body\nCh 20\n");
    EXPECT_FALSE(all_read(open));
}

TEST(CrochetTold, AShellWithoutABracketOfItsOwnIsToldWithBothCounts) {
    const std::string above =
        "Ch 16\nRow 1: Sc in 2nd ch from hook and in each ch across. (15 sc)\n"
        "Row 2: Ch 1, turn, *sc, 2 dc in next st, sk 2; rep from * to last 3 sts, sc in last 3 "
        "sts.";
    // 3 times (1 + 2) and 3, or 4 times (1 + 2) and 3
    const Document both = told(above + "\n");
    EXPECT_EQ(both.sections.back().readings.back().state, Told::two_ways);
    EXPECT_NE(notes_of(both).find("makes 12 stitches, 15 when"), std::string::npos)
        << notes_of(both);
    const Document counted = told(above + " (15)\n");
    EXPECT_TRUE(all_read(counted));
    EXPECT_EQ(last_count(counted), 15);
}

TEST(CrochetTold, TheOtherHalfOfAShellMayBeSkippedUnsaid) {
    const std::string above =
        "Ch 20\nRow 1: Dc in 4th ch from hook and in each ch across. (18 dc)\n"
        "Row 2: Ch 1, turn, dc in first st, *(2 dc, ch 1, 2 dc) in next st, dc in next 3 sts; "
        "rep from * to last st, dc in last st. (30 dc)\n"
        "Row 3: Ch 1, turn, dc in first st, *dc in next 3 dc, (2 dc, ch 1, 2 dc) in next ch-1 sp; "
        "rep from * to last st, dc in last st.";
    const Document counted = told(above + " (30 dc)\n");
    EXPECT_TRUE(all_read(counted));
    EXPECT_EQ(last_count(counted), 30);
    EXPECT_NE(notes_of(counted).find("skipped behind its space"), std::string::npos);
    EXPECT_EQ(told(above + "\n").sections.back().readings.back().state, Told::two_ways);
}

TEST(CrochetTold, RowsThatAreNumberedTwiceAreToldWithTheirNumbers) {
    const Document document = told(
        "Ch 20\nRow 1: Sc in 2nd ch from hook and in each ch across. (19 sc)\n"
        "Rows 2-8: Ch 1, turn, sc in each st. (19)\nRows 8-12: Ch 1, turn, hdc in each st. (19)\n");
    bool any = false;
    for (const Finding& finding : document.sections.back().readings.back().findings)
        any = any || finding.remedy == "Write rows 9-12, or rows 9-13 where all 5 are worked.";
    EXPECT_TRUE(any);
}

TEST(CrochetTold, RowsWithoutALastOneAreRefused) {
    const Document document = told(
        "Ch 20\nRow 1: Sc in 2nd ch from hook and in each ch across. (19 sc)\n"
        "Row 2+: Ch 1, turn, sc in each st.\n");
    EXPECT_FALSE(all_read(document));
    const Document through = told(
        "Ch 20\nRow 1: Sc in 2nd ch from hook and in each ch across. (19 sc)\n"
        "2 thru 6: Ch 1, turn, sc in each st. (19)\n");
    EXPECT_TRUE(all_read(through));
    EXPECT_EQ(through.sections.back().rows.rows(), 6);
    // 3, 2, 3: the last one is row 2 again.
    const Document ends = told(
        "Ch 20\nRow 1: Sc in 2nd ch from hook and in each ch across. (19 sc)\n"
        "Row 2: Ch 1, turn, sc in each st. (19)\nRow 3: Ch 1, turn, hdc in each st. (19)\n"
        "Rows 4-6: Repeat Rows 2 and 3 (end Row 2).\n");
    EXPECT_TRUE(all_read(ends));
    EXPECT_EQ(ends.sections.back().rows.text(6), "Ch 1, turn, sc in each st. (19)");
}

}  // namespace
}  // namespace skeinfall::notation
