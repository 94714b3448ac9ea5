#include "skeinfall/yarn/stated_total.hpp"

#include <string>

#include <gtest/gtest.h>

#include "skeinfall/yarn/put_up.hpp"

namespace {

using namespace skeinfall;
using yarn::parse_stated_total;

constexpr double yard = 0.9144;

TEST(StatedTotals, OneFigureIsBothEnds) {
    const auto total = parse_stated_total("380 yd").value();
    ASSERT_TRUE(total.length);
    EXPECT_NEAR(total.length->least.value(), 380 * yard, 1e-9);
    EXPECT_NEAR(total.length->most.value(), 380 * yard, 1e-9);
    EXPECT_FALSE(total.range);
    EXPECT_FALSE(total.mass);
}

TEST(StatedTotals, RangesKeepBothEnds) {
    for (const std::string text : {"728 to 1116 yd", "728-1116 yd", "728 yd - 1116 yd",
                                   "728 \xe2\x80\x93 1116 yd", "728 yd to 1116 yd"}) {
        const auto total = parse_stated_total(text);
        ASSERT_TRUE(total.ok()) << text;
        EXPECT_TRUE(total->range) << text;
        EXPECT_NEAR(total->length->least.value(), 728 * yard, 1e-9) << text;
        EXPECT_NEAR(total->length->most.value(), 1116 * yard, 1e-9) << text;
    }
    const auto heavy = parse_stated_total("12 to 14 oz").value();
    EXPECT_NEAR(heavy.mass->most / units::ounce, 14.0, 1e-9);
}

/// The last of whole skeins may hardly have been begun.
TEST(StatedTotals, CountsOfSkeins) {
    const auto six = parse_stated_total("6 balls of 110 yd").value();
    EXPECT_EQ(six.skeins, 6);
    EXPECT_NEAR(six.length->least.value(), 550 * yard, 1e-9);
    EXPECT_NEAR(six.length->most.value(), 660 * yard, 1e-9);
    EXPECT_NEAR(parse_stated_total("4 skeins of 170 yd / 100 g").value().length->most.value(),
                680 * yard, 1e-9);
    EXPECT_NEAR(parse_stated_total("3 x 50 g").value().mass->most / units::gram, 150.0, 1e-9);
    const auto bare = parse_stated_total("7 Balls").value();
    EXPECT_EQ(bare.skeins, 7);
    EXPECT_FALSE(bare.length || bare.mass);
    EXPECT_NEAR(yarn::with_put_up(bare, yarn::put_up_in("87 yd / 50 g")).length->most.value(),
                609 * yard, 1e-9);
}

/// Fifteen hundred where a comma is the decimal mark; a kilogram is weighed to the gram.
TEST(StatedTotals, ThreeDecimalsMayBeThousands) {
    EXPECT_EQ(parse_stated_total("1.500 m").problem().remedy, "Write 1500 or 1.5 instead.");
    EXPECT_TRUE(parse_stated_total("1.250 kg").ok());
    EXPECT_TRUE(parse_stated_total("347.5 m").ok());
    EXPECT_TRUE(parse_stated_total("0.250 m").ok());
    EXPECT_TRUE(parse_stated_total("347.4720 m").ok());
}

TEST(StatedTotals, WhatIsNotUnderstoodIsRefused) {
    for (const std::string text :
         {"", "plenty", "1116 to 728 yd", "728 to 1116", "6 balls of love", "0 balls",
          "12 oz to 3 yd", "6 ballast", "1.500 m", "1.116 to 1.500 yd"})
        EXPECT_FALSE(parse_stated_total(text).ok()) << text;
}

}  // namespace
