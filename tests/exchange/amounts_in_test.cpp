// What a line of materials says of the yarn. A total read too low is a wrong "enough".

#include "skeinfall/exchange/detail/amounts_in.hpp"

#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace {

using namespace skeinfall::exchange::detail;

struct Told {
    std::string line;
    std::string put_up;
    std::string total;
    bool unclear = false;
};

TEST(AmountsIn, ALineThatSaysOneThing) {
    for (const Told& told :
         std::vector<Told>{{"Worsted weight yarn, 400 yards", "", "400 yd"},
                           {"about 180 g of DK", "", "180 g"},
                           {"6 balls of Tarn Aran (50 g, 85 m)", "85 m / 50 g", "6 balls of 85 m"},
                           {"3 x 50g balls of DK (120 m each)", "120 m / 50 g", "3 balls of 120 m"},
                           {"2 skeins worsted, 170 yds per skein", "", "2 balls of 170 yd"},
                           {"170 yds per skein, 3 skeins", "", "3 balls of 170 yd"},
                           {"3 balls, 50 g each", "", "3 balls of 50 g"},
                           {"100 g (3.5 oz) / 200 m (219 yds)", "200 m / 100 g", ""},
                           {"DK (double knitting) 100 g / 280 m", "280 m / 100 g", ""},
                           {"728 to 1116 yds of fingering", "", "728 to 1116 yd"},
                           {"200 g in total, 50g/105m balls", "105 m / 50 g", "", true},
                           {"5 mm hook", "", ""},
                           {"4 ply cotton", "", ""}}) {
        const AmountsIn read = amounts_in(told.line);
        EXPECT_EQ(read.put_up, told.put_up) << told.line;
        EXPECT_EQ(read.total, told.total) << told.line;
        EXPECT_EQ(read.unclear, told.unclear) << told.line;
    }
}

TEST(AmountsIn, NoTotalWhereNobodyKnowsOfWhat) {
    for (const char* const line :
         {"200 yds A and 100 yds B", "150 yds for the front, 150 yds for the back",
          "2 strands of DK, 300 yds of each", "2 balls MC, 1 ball CC (50 g/120 m)",
          "300 yds (excluding the border)", "1 (2, 3) skeins of 170 yds",
          "Navy and Cream, 1 ball each (50g/120m)", "75 yds per square", "less than one 100 g ball",
          "1.5 balls (100g/200m)", "300 yds (2 skeins)", "DK held double, 300 yds",
          "1 1/2 skeins of 200 yds", "100 yds in 3 colours"}) {
        const AmountsIn read = amounts_in(line);
        EXPECT_EQ(read.total, "") << line;
        EXPECT_TRUE(read.unclear) << line;
    }
}

TEST(AmountsIn, StrandsHeldTogether) {
    for (const char* const line :
         {"Yarn: worsted, held double", "Use two strands held together throughout.",
          "2 strands of DK", "with yarn doubled", "Work with double strand",
          "hold 2 strands together"})
        EXPECT_TRUE(says_strands_together(line)) << line;
    for (const char* const line : {"Work double crochet in each st", "held in front",
                                   "DK (double knitting)", "strands of hair"})
        EXPECT_FALSE(says_strands_together(line)) << line;
}

}  // namespace
