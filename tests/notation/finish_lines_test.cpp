// Lines below the rows that take yarn are work; sewing up and weaving in are not.

#include "skeinfall/notation/detail/finish_lines.hpp"

#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace {

using namespace skeinfall;

TEST(FinishLines, ThatMakeSomethingTakeYarn) {
    for (const std::string line :
         {"Fringe: Cut 112 strands 12 in long.", "Cut yarn for fringe into 30 cm lengths.",
          "Sew a large pompom to the top.", "Make two tassels and attach one to each corner.",
          "Work crab stitch around the edge.", "Line the bag with fabric or a second piece.",
          "Edging: sc evenly round the opening.", "With right side facing, crochet a border.",
          "Make a twisted cord.", "Knit an i-cord of three stitches.", "Embroider a face.",
          "Trim the brim with a ruffle.", "Weave in ends. Tie on a tassel."})
        EXPECT_TRUE(notation::finish_takes_yarn(line)) << line;
}

TEST(FinishLines, ThatOnlySewUpTakeNone) {
    for (const std::string line :
         {"Finishing", "Weave in ends.", "Block to size.", "Fasten off.",
          "Sew the side seams and weave in all ends.", "Sew buttons to the front.",
          "Fold in half and whip stitch together.", "Enjoy!", "Steam lightly, and dry it flat.",
          "The edge rolls a little; this is how it should be.", "Tie into a bow."})
        EXPECT_FALSE(notation::finish_takes_yarn(line)) << line;
}

TEST(FinishLines, BelowTheRowsAreMarked) {
    const std::string pattern =
        "Hat\nMake a pompom first if you like.\nRnd 1: 6 sc in magic ring. (6)\n"
        "Rnd 2: 2 sc in each st around. (12)\nFinishing\nSew a pompom to the top.\nWeave in "
        "ends.\n";
    const auto document = notation::read_document(pattern, notation::DocumentOptions{});
    int marked = 0;
    for (const auto& part : document.parts)
        if (part.work) {
            ++marked;
            EXPECT_EQ(part.what, notation::DocumentPart::What::finishing);
            EXPECT_EQ(part.line, 6U);
        }
    EXPECT_EQ(marked, 1);
}

}  // namespace
