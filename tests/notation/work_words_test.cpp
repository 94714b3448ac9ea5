// Words beside rows that were passed over as remarks, and said that more is worked.

#include "skeinfall/notation/detail/work_words.hpp"

#include <algorithm>
#include <cstdint>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/notation/document.hpp"

namespace {

using namespace skeinfall;
using What = notation::DocumentPart::What;

TEST(WorkWords, StrandsAreSeveralYarns) {
    for (const std::string said :
         {"with two strands held together", "Yarn is held double throughout.",
          "Using yarn double throughout", "With double strand", "using 2 ends held together",
          "Blanket is worked holding one strand of A and one of B.", "Strands: 2",
          "with 3 strands"})
        EXPECT_TRUE(notation::speaks_of_strands(said)) << said;
    for (const std::string said :
         {"weave in both ends", "hold the pieces together", "inc at both ends", "double crochet",
          "with two strands of black embroider the eyes", "cut 40 strands for the fringe",
          "work 2 sts together", "with a single strand of yarn"})
        EXPECT_FALSE(notation::speaks_of_strands(said)) << said;
}

TEST(WorkWords, SentencesThatSayMoreIsWorked) {
    for (const std::string said :
         {"Second sock: same as first.", "Front: work as given for back.", "As first side.",
          "You need four of these.", "All pieces are worked twice.", "Keep going until 150 cm.",
          "Work a total of 4 squares.", "Number of squares: 12", "Crochet 2 buttons.",
          "Braid 2 cords.", "Pockets (2)", "Border in CC1.", "Now follow chart A.",
          "Stripes: 2 rows A, 2 rows B throughout.", "Double the length for a wrap.",
          "Duplicate stitch the motif in red.", "Left front: reverse shapings.",
          "With A and B together, ch 32."})
        EXPECT_TRUE(notation::says_more_is_worked(said)) << said;
    for (const std::string said :
         {"Fasten off and weave in ends.", "Sew buttons to the front.", "Block to size.",
          "The back is longer than the front.", "Make a pompom first if you like.",
          "Sew both sides together.", "Left over yarn makes a nice toy.", "Enjoy!",
          "This is my favourite stripe pattern."})
        EXPECT_FALSE(notation::says_more_is_worked(said)) << said;
}

TEST(WorkWords, BesideARow) {
    for (const std::string row :
         {"Row 11 (work 10 times): ch 1, turn, hdc in each st across.",
          "Row 11 (10 x): hdc across.", "Row 11 [x 10]: hdc across.",
          "Row 11: hdc across. (10 rows)", "Row 11: hdc across - 10 rows.",
          "Row 11 (RS): hdc across. (Repeat 9 times)", "Row 11 (held double): hdc across.",
          "Row 11 (worked in dc): ch 1, turn, hdc across."})
        EXPECT_TRUE(notation::work_beside_row(row, 1)) << row;
    for (const std::string row :
         {"Row 11 (RS): hdc across.", "Row 11: *sc, inc; rep from * 5 times. (18)",
          "Row 11 (increase row): hdc across. (60 hdc)", "Row 11: (sc, ch 1) 10 times.",
          "Row 11 (WS): k2, [p2, k2] rep 4 times. (18 sts)"})
        EXPECT_FALSE(notation::work_beside_row(row, 1)) << row;
    EXPECT_FALSE(notation::work_beside_row("Rows 11-20 (10 rows): hdc across.", 10));
    EXPECT_TRUE(notation::work_beside_row("Rows 11-20 (5 rows): hdc across.", 10));
}

TEST(WorkWords, HeadingsThatCount) {
    EXPECT_EQ(notation::pieces_in_heading("Four panels"), 4);
    EXPECT_EQ(notation::pieces_in_heading("Pair of panels"), 2);
    EXPECT_EQ(notation::pieces_in_heading("Both sides:"), 2);
    EXPECT_EQ(notation::pieces_in_heading("Left and right front"), 2);
    EXPECT_EQ(notation::pieces_in_heading("Side, 2 alike"), 2);
    for (const std::string other : {"Two rows", "Three skeins", "Two sizes", "Sleeve", "Both"})
        EXPECT_EQ(notation::pieces_in_heading(other), 0) << other;
}

const std::string scarf =
    "Scarf\n\nCh 61.\nRow 1: hdc in 2nd ch from hook and across. (60 hdc)\n"
    "Rows 2-21: ch 1, turn, hdc in each st across. (60 hdc)\n";

TEST(WorkWords, RowsAloneGoOnAsThoseBefore) {
    const auto rows = [](const std::string& more) {
        const auto document = notation::read_document(scarf + more + "\nFasten off.\n", {});
        std::int64_t count = 0;
        for (const auto& section : document.sections)
            for (const auto& reading : section.readings) count += reading.rows;
        return count;
    };
    EXPECT_EQ(rows("Work 10 rows."), rows("") + 10);
    EXPECT_EQ(rows("Work 10 more rows."), rows("") + 10);
}

TEST(WorkWords, WhatIsNotReadIsToldAsWork) {
    for (const std::string more :
         {"Keep going until 150 cm.", "Second scarf: same as first.", "Crochet 2 buttons.",
          "With two strands held together, ch 1, turn, hdc in each st across."}) {
        const auto document = notation::read_document(scarf + more + "\nFasten off.\n", {});
        EXPECT_TRUE(std::any_of(document.parts.begin(), document.parts.end(), [](const auto& part) {
            return part.what == What::may_work;
        })) << more;
    }
}

}  // namespace
