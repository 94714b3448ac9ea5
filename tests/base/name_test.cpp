// Names that people type, as one person would take them for the same.

#include "skeinfall/base/name.hpp"

#include <gtest/gtest.h>

namespace {

using namespace skeinfall;

TEST(Names, CaseAndBlanksDoNotCount) {
    for (const char* other : {"Brookside aran", "BROOKSIDE ARAN", "Brookside  Aran",
                              " Brookside Aran ", "Brookside\tAran",
                              "Brookside\xc2\xa0"
                              "Aran"})
        EXPECT_TRUE(base::same_name("Brookside Aran", other)) << other;
    for (const char* other : {"Brooksidearan", "Brookside Arran", "Brookside", ""})
        EXPECT_FALSE(base::same_name("Brookside Aran", other)) << other;
    EXPECT_TRUE(base::same_name("", "  "));
}

// Unicode's case folding and composition (Unicode Standard, sections 3.11 and 5.18).
TEST(Names, OfOtherScriptsToo) {
    EXPECT_TRUE(base::same_name("\xc3\x89toile", "\xc3\xa9toile"));   // E acute
    EXPECT_TRUE(base::same_name("\xc3\xa9toile", "e\xcc\x81toile"));  // composed or not
    EXPECT_TRUE(base::same_name("\xd0\xa8\xd0\xb5\xd1\x80", "\xd1\x88\xd0\x95\xd1\x80"));
    EXPECT_TRUE(
        base::same_name("stra\xc3\x9f"
                        "e",
                        "STRASSE"));
    EXPECT_FALSE(base::same_name("\xc3\xa9toile", "etoile"));
    EXPECT_TRUE(base::same_name("\xff", "\xff"));
    EXPECT_FALSE(base::same_name("\xff", "\xfe"));
}

TEST(Names, ALotIsItsNumber) {
    for (const char* lot : {"4411", "lot 4411", "Lot 4411", "LOT: 4411", "dye lot 4411",
                            "Dyelot 4411", "dye-lot #4411", "lot  4411 ", "lot4411"})
        EXPECT_EQ(base::lot_name_key(lot), "4411") << lot;
    EXPECT_EQ(base::lot_name_key("A 17"), base::lot_name_key("lot a  17"));
    EXPECT_EQ(base::lot_name_key("lot"), "lot");
    EXPECT_EQ(base::lot_name_key("Lottie"), "lottie");
    EXPECT_NE(base::lot_name_key("4411"), base::lot_name_key("4412"));
}

}  // namespace
