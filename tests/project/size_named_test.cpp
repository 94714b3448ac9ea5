// Which size a text means.

#include "skeinfall/project/size_named.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace skeinfall::project {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Project gridded() {
    Project out;
    out.grid = SizeGrid{{"60 cm", "105 cm"}, {"70 cm", "110 cm"}};
    out.sizes = {"60 cm x 70 cm", "60 cm x 110 cm", "105 cm x 70 cm", "105 cm x 110 cm"};
    return out;
}

TEST(SizesMeant, AGridGoesByItsMeasuresHoweverTheyAreWritten) {
    for (const char* text : {"105 cm x 110 cm", "105x110 cm", "105 CM X 110 CM",
                             "105 cm \xc3\x97 110 cm", "1.05 m x 1.1 m", "105cm*110cm", "105x110",
                             "105 x 110", "105 cm by 110 cm", "105 by 110 cm"})
        EXPECT_THAT(sizes_meant(gridded(), text), ElementsAre(3)) << text;
    EXPECT_THAT(sizes_meant(gridded(), "110 cm x 105 cm"), IsEmpty());
    EXPECT_THAT(sizes_meant(gridded(), "105 x"), IsEmpty());
    EXPECT_THAT(sizes_meant(gridded(), ""), IsEmpty());
}

TEST(SizesMeant, OneMeasureMayMeanSeveral) {
    EXPECT_THAT(sizes_meant(gridded(), "105 cm"), ElementsAre(2, 3));
    Project strip;
    strip.grid = SizeGrid{{"7 in", "9 in"}, {"60 in"}};
    strip.sizes = {"7 in x 60 in", "9 in x 60 in"};
    EXPECT_THAT(sizes_meant(strip, "9 in"), ElementsAre(1));
}

TEST(SizesMeant, NamesAreNames) {
    Project named;
    named.sizes = {"S", "9 in"};
    EXPECT_THAT(sizes_meant(named, "s"), ElementsAre(0));
    EXPECT_THAT(sizes_meant(named, "9in"), IsEmpty());
}

}  // namespace
}  // namespace skeinfall::project
