// Reports put in order: figures keep their values and their room.

#include "skeinfall/report/order.hpp"

#include <string>

#include <gtest/gtest.h>

namespace {

using skeinfall::report::decimal_comma;
using skeinfall::report::metres_first;

TEST(MetresFirst, SwapsPairs) {
    EXPECT_EQ(metres_first("needs 303 yd (277 m), 152 g; with 322 yd (294 m)"),
              "needs 277 m (303 yd), 152 g; with 294 m (322 yd)");
    EXPECT_EQ(metres_first("16.5 in / 42 cm wide"), "42 cm / 16.5 in wide");
    EXPECT_EQ(metres_first("back: 16.5 (18.5, 20.5) in / 42 (47, 52) cm wide, 2.5 in / 7 cm long"),
              "back: 42 (47, 52) cm / 16.5 (18.5, 20.5) in wide, 7 cm / 2.5 in long");
    EXPECT_EQ(metres_first("MC total: 940 (1055, 1180) yd / 860 (965, 1080) m; 8 (9, 10) skeins"),
              "MC total: 860 (965, 1080) m / 940 (1055, 1180) yd; 8 (9, 10) skeins");
    EXPECT_EQ(metres_first("about 250 yd per 100 g (230 m per 100 g)"),
              "about 230 m per 100 g (250 yd per 100 g)");
}

TEST(MetresFirst, LeavesWhatStandsAlone) {
    for (const std::string text : {"200 yd / 100 g", "14 sts and 9 rows to 4 in", "label 170 yd",
                                   "60 m (of 80)", "row 12 of cowl"})
        EXPECT_EQ(metres_first(text), text);
}

TEST(DecimalComma, ChangesDecimals) {
    EXPECT_EQ(decimal_comma("0.7 yd (0.6 m) held back"), "0,7 yd (0,6 m) held back");
    EXPECT_EQ(decimal_comma("band +-3.8 %."), "band +-3,8 %.");
    EXPECT_EQ(decimal_comma("needs 16.1 g."), "needs 16,1 g.");
    EXPECT_EQ(decimal_comma("by -2.5 %"), "by -2,5 %");
    EXPECT_EQ(decimal_comma("cowl: 27.5 in / 70 cm"), "cowl: 27,5 in / 70 cm");
}

TEST(DecimalComma, PartsNumbersOfListsBySemicolons) {
    EXPECT_EQ(decimal_comma("16.5 (18.5, 20.5, 22) in"), "16,5 (18,5; 20,5; 22) in");
}

TEST(DecimalComma, LeavesNamesVersionsAndEnds) {
    for (const std::string text :
         {"skeinfall 0.1.0", "lot A4.2", "hat-1.5.toml", "row 18. Then row 19.", "S (M, L)",
          "www.YarnStandards.com", "XS (S, M, 2XL)"})
        EXPECT_EQ(decimal_comma(text), text);
}

}  // namespace
