// How often a row is worked, told beside the row itself.

#include <cstddef>
#include <string>

#include <gtest/gtest.h>

#include "skeinfall/notation/proposal_text.hpp"

#include "page_reading.hpp"

namespace skeinfall::notation {
namespace {

std::size_t rows_read(project::Craft craft, const std::string& text) {
    DocumentOptions options;
    options.craft = craft;
    const Document page = read_document(text, options);
    std::size_t rows = 0;
    for (const Section& section : page.sections) rows += section.rows.order.size();
    return rows;
}

struct SaidAgain {
    std::string line;
    std::size_t rows;
};

TEST(RowsAgain, OfCrochetAreCounted) {
    const std::string wrap =
        "Wrap\nRow 1: Ch 22, sc in 2nd ch from hook and in each ch across. (21 sc)\n"
        "Row 2: ch 1, turn, sc across. (21 sc)\n";
    const SaidAgain lines[] = {{"Dc 100 rows.", 102},
                               {"Sc 20 rows.", 22},
                               {"hdc 5 rows", 7},
                               {"Row 3: ch 1, turn, sc across. Repeat 100 more times.", 103},
                               {"Row 3: sc across. Repeat twice more.", 5},
                               {"Rows 3-13: sc across; rep twice more.", 35},
                               {"Rows 3-22: sc across (20 rows)", 22},
                               {"Sc across - 100 rows", 102},
                               {"Row 3: *sc 2, dc; rep 6 more times.", 3}};
    for (const auto& [line, rows] : lines)
        EXPECT_EQ(rows_read(project::Craft::crochet, wrap + line + "\n"), rows) << line;
}

// The label says where they begin: one row alone would be a piece without length.
TEST(RowsAgain, GoOnFromTheRowThatIsLabelled) {
    const std::string wrap =
        "Wrap\nGauge: 16 sts and 20 rows = 4 in\n"
        "Row 1: Ch 22, sc in 2nd ch from hook and in each ch across. (21 sc)\n"
        "Row 2: ch 1, turn, sc across. (21 sc)\n";
    for (const auto& [line, rows] :
         {SaidAgain{"Row 3: repeat row 2 until piece measures 20 in.", 100},
          SaidAgain{"Row 3: rep row 2 until row 30.", 30},
          SaidAgain{"Row 3: repeat row 2 for 20 rows.", 22},
          SaidAgain{"Rows 3-12: repeat row 2.", 12}, SaidAgain{"Row 3: repeat row 2.", 3}})
        EXPECT_EQ(rows_read(project::Craft::crochet, wrap + line + "\n"), rows) << line;
    DocumentOptions options;
    options.craft = project::Craft::crochet;
    const Document page =
        read_document(wrap + "Row 3: repeat row 2 until it is long enough.\n", options);
    EXPECT_EQ(page.sections.front().rows.order.size(), 2U);
    EXPECT_LT(page.sections.front().rows_read, page.sections.front().rows_lines);
}

TEST(RowsAgain, OfKnittingAreCounted) {
    const std::string wrap = "Wrap\nCast on 21 sts.\nRow 1: knit.\nRow 2: purl.\n";
    EXPECT_EQ(rows_read(project::Craft::knit, wrap + "Row 3: knit. Repeat 19 more times.\n"), 22U);
    EXPECT_EQ(rows_read(project::Craft::knit, wrap + "Stockinette stitch: 100 rows.\n"), 102U);
}

// A label of one row and a number of rows behind it: nobody knows which is meant.
TEST(RowsAgain, AreAskedAboutWhereTheLabelSaysOne) {
    for (const std::string line : {"Rnd 3: sc around (6 rounds)", "Rnd 3 (x12): sc around. (12)",
                                   "Rnd 3 [6 times]: sc around", "Rnd 3 (work 6 times): sc around",
                                   "Rnd 3: sc around, ch 3 after every st"}) {
        DocumentOptions options;
        options.craft = project::Craft::crochet;
        const Document page = read_document(
            "Cap\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n" + line +
                "\n",
            options);
        ASSERT_FALSE(page.sections.empty());
        EXPECT_TRUE(fault_of(page.sections.front().readings.back())) << line;
    }
}

}  // namespace
}  // namespace skeinfall::notation
