#include "skeinfall/units/wraps.hpp"

#include <gtest/gtest.h>

namespace {

using namespace skeinfall;

double per_inch(const char* text) {
    const auto wraps = units::parse_wraps(text);
    if (!wraps) return -1.0;
    return units::Ratio(*wraps / (units::wrap / units::inch)).value();
}

TEST(Wraps, AreWrapsPerInchWhenBare) {
    EXPECT_DOUBLE_EQ(per_inch("9"), 9.0);
    EXPECT_DOUBLE_EQ(per_inch("9 wpi"), 9.0);
    EXPECT_DOUBLE_EQ(per_inch("12 WPI"), 12.0);
    EXPECT_DOUBLE_EQ(per_inch("9 1/2"), 9.5);
}

TEST(Wraps, MayNameTheirLength) {
    EXPECT_DOUBLE_EQ(per_inch("9 wraps per in"), 9.0);
    EXPECT_NEAR(per_inch("36 wraps / 10 cm"), 9.144, 1e-12);
    EXPECT_NEAR(per_inch("18 wraps per 2 in"), 9.0, 1e-12);
}

TEST(Wraps, AreRefusedWithTheirPlaceAndARemedy) {
    for (const char* text : {"", "wpi", "nine", "-3", "0", "9 kg", "9 wraps", "9 wpi wpi"}) {
        const auto wraps = units::parse_wraps(text);
        ASSERT_FALSE(wraps.ok()) << text;
        EXPECT_NE(wraps.problem().remedy.find("wraps"), std::string::npos) << text;
        EXPECT_GT(wraps.problem().place.column, 0U) << text;
    }
}

}  // namespace
