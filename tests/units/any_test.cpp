// Quantities of any kind and the units they are printed in.

#include "skeinfall/units/any.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/units/format.hpp"
#include "skeinfall/units/parse.hpp"

namespace {

using namespace skeinfall::units;
using testing::HasSubstr;

double converted(std::string_view text, std::string_view unit) {
    const auto reading = parse_quantity(text);
    EXPECT_TRUE(reading.ok()) << text;
    const auto to = parse_output_unit(unit);
    EXPECT_TRUE(to.ok()) << unit;
    const auto number = in_unit(reading->value, *to);
    EXPECT_TRUE(number.has_value()) << text << " in " << unit;
    return number.value_or(Ratio(0.0)).value();
}

// Definitions of S01 (yard and pound, 1959), S17 and S18 (leas, hanks, heer, spyndle).
TEST(AnyQuantity, DefinedUnits) {
    EXPECT_DOUBLE_EQ(converted("1 yd", "m"), 0.9144);
    EXPECT_DOUBLE_EQ(converted("1 lb", "g"), 453.59237);
    EXPECT_NEAR(converted("1 lb", "oz"), 16.0, 1e-13);
    EXPECT_NEAR(converted("1 oz", "drams"), 16.0, 1e-13);
    EXPECT_NEAR(converted("1 lb", "grains"), 7000.0, 1e-9);
    EXPECT_NEAR(converted("1 yd", "ft"), 3.0, 1e-14);
    EXPECT_NEAR(converted("1 ft", "in"), 12.0, 1e-13);
    EXPECT_NEAR(converted("1 cotton hank", "yd"), 840.0, 1e-10);
    EXPECT_NEAR(converted("1 cotton hank", "cotton leas"), 7.0, 1e-12);
    EXPECT_NEAR(converted("1 worsted hank", "yd"), 560.0, 1e-10);
    EXPECT_NEAR(converted("7 worsted leas", "yd"), 560.0, 1e-10);
    EXPECT_NEAR(converted("1 heer", "linen cuts"), 2.0, 1e-13);
    EXPECT_NEAR(converted("1 linen hank", "yd"), 3600.0, 1e-9);
    EXPECT_NEAR(converted("1 spyndle", "linen hanks"), 4.0, 1e-12);
}

// Balls of 50 and 100 g in ounces, to four places.
TEST(AnyQuantity, OunceBalls) {
    EXPECT_NEAR(converted("50 g", "oz"), 1.7637, 1e-4);
    EXPECT_NEAR(converted("100 g", "oz"), 3.5274, 1e-4);
}

// S150, a measured blanket: 37084.48 in of yarn are 1030.1 yd.
TEST(AnyQuantity, PublishedBlanket) {
    EXPECT_NEAR(converted("37084.48 in", "yd"), 1030.1, 0.05);
}

TEST(AnyQuantity, YarnSizes) {
    EXPECT_NEAR(converted("2/24 NeW", "yd/lb"), 6720.0, 1e-8);
    EXPECT_NEAR(converted("100 g / 200 m", "tex"), 500.0, 1e-10);
    EXPECT_NEAR(converted("50 g = 125 m", "m/100g"), 250.0, 1e-10);
    EXPECT_NEAR(converted("500 tex", "g/m"), 0.5, 1e-13);
    EXPECT_NEAR(converted("500 tex", "g per 100 m"), 50.0, 1e-11);
    EXPECT_NEAR(converted("2 m/g", "Nm"), 2.0, 1e-13);
    EXPECT_NEAR(converted("10 NeC", "NeW"), 15.0, 1e-12);
    EXPECT_NEAR(converted("250 m / 100 g", "m / 50 g"), 125.0, 1e-11);
}

TEST(AnyQuantity, Gauges) {
    EXPECT_NEAR(converted("13 sts / 4 in", "sts/10cm"), 13.0 / 1.016, 1e-12);
    EXPECT_NEAR(converted("8 rows per 10 cm", "rows/in"), 8.0 * 0.254, 1e-13);
}

TEST(AnyQuantity, KindsDoNotMix) {
    const auto mass = parse_quantity("7 oz");
    for (const auto* unit : {"m", "tex", "m/100g", "sts/10cm", "rows/10cm"})
        EXPECT_FALSE(in_unit(mass->value, *parse_output_unit(unit))) << unit;
    const auto stitches = parse_quantity("13 sts / 4 in");
    EXPECT_FALSE(in_unit(stitches->value, *parse_output_unit("rows/10cm")));
}

TEST(AnyQuantity, AcrossAYarnSize) {
    const Grist grist = *parse_grist("170 yd / 3.5 oz");
    const auto length = across(parse_quantity("7 oz")->value, grist);
    ASSERT_TRUE(length);
    EXPECT_NEAR(std::get<Length>(*length) / yard, 340.0, 1e-10);
    const auto mass = across(parse_quantity("340 yd")->value, grist);
    ASSERT_TRUE(mass);
    EXPECT_NEAR(std::get<Mass>(*mass) / ounce, 7.0, 1e-12);
    EXPECT_FALSE(across(parse_quantity("30 tex")->value, grist));
}

TEST(AnyQuantity, UsualUnitsFitTheirKind) {
    for (const auto* text : {"7 oz", "7 m", "30 tex", "13 sts / 4 in", "8 rows / 4 in"}) {
        const auto reading = parse_quantity(text);
        EXPECT_FALSE(usual_units(reading->value).empty());
        for (const OutputUnit& unit : usual_units(reading->value))
            EXPECT_TRUE(in_unit(reading->value, unit)) << text << " in " << unit.name;
    }
}

TEST(AnyQuantity, ToldCautions) {
    EXPECT_THAT(std::string(parse_quantity("6 cut")->caution), HasSubstr("Galashiels"));
    EXPECT_THAT(std::string(parse_quantity("20 lea")->caution), HasSubstr("linen lea"));
    EXPECT_TRUE(parse_quantity("7 oz")->caution.empty());
    EXPECT_TRUE(parse_quantity("2 Hawick")->from_memory);
    EXPECT_TRUE(parse_quantity("1 linen bundle")->from_memory);
    EXPECT_FALSE(parse_quantity("2 NeW")->from_memory);
}

TEST(AnyQuantity, ThousandsPartedWithoutDoubt) {
    EXPECT_EQ(converted("1\u00a0500 m", "m"), 1500.0);
    EXPECT_EQ(converted("1\u202f500\u202f250.5 m", "m"), 1500250.5);
    EXPECT_EQ(converted("1'500 m", "m"), 1500.0);
    EXPECT_EQ(converted("1\u2019500\u2019000 g", "kg"), 1500.0);
    EXPECT_EQ(converted("1,234.5 m", "m"), 1234.5);
    EXPECT_EQ(converted("12,5 m", "m"), 12.5);
}

TEST(AnyQuantity, ThousandsInDoubt) {
    const auto blank = parse_quantity("1 500 m");
    ASSERT_FALSE(blank.ok());
    EXPECT_EQ(blank.problem().place.column, 3U);
    EXPECT_THAT(blank.problem().what, HasSubstr("a blank between thousands"));
    EXPECT_FALSE(parse_quantity("1,500 m").ok());
    EXPECT_FALSE(parse_quantity("1'50 m").ok());
    EXPECT_FALSE(parse_quantity("0'500 m").ok());
}

TEST(AnyQuantity, Refusals) {
    for (const auto* text : {"", "7", "oz", "7 furlongs", "7 oz left", "7 sts", "7 oz / 3 oz"})
        EXPECT_FALSE(parse_quantity(text).ok()) << text;
    for (const auto* unit : {"", "100 g", "7", "oz,g", "g/", "sts", "hank", "Tkt", "m/0g"})
        EXPECT_FALSE(parse_output_unit(unit).ok()) << unit;
}

TEST(Figures, NeverAltersTheWholePart) {
    EXPECT_EQ(figures_text(Ratio(73.8176559), 5), "73.818");
    EXPECT_EQ(figures_text(Ratio(6720.0), 5), "6720");
    EXPECT_EQ(figures_text(Ratio(1234567.8), 5), "1234568");
    EXPECT_EQ(figures_text(Ratio(0.00123456), 5), "0.0012346");
    EXPECT_EQ(figures_text(Ratio(999.9996), 5), "1000");
    EXPECT_EQ(figures_text(Ratio(0.5), 5), "0.5");
    EXPECT_EQ(figures_text(Ratio(0.0), 5), "0");
}

TEST(Figures, FullDigitsDropOnlyNoise) {
    EXPECT_EQ(full_digits(Ratio(0.1 + 0.2)).value(), 0.3);
    EXPECT_EQ(full_digits(Ratio(198.446661875)).value(), 198.446661875);
}

}  // namespace
