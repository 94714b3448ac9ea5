// Exact factors, and published examples of lengths, masses and length per mass.
// "S.." are the ids of lib/data/sources.csv.

#include <cmath>

#include <gtest/gtest.h>

#include "skeinfall/units/format.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/units/quantity.hpp"

namespace {

using namespace skeinfall::units;

constexpr LinearDensity tex = gram / (1000.0 * metre);

// International yard and pound agreement, 1959 (S01; definitions file of GNU units, S02):
// 1 yd = 0.9144 m and 1 lb = 453.59237 g exactly; 3 ft and 36 in a yard, 16 oz a pound.
TEST(Factors, AreThoseOfTheAgreementOf1959) {
    EXPECT_EQ(yard.value(), 0.9144);
    EXPECT_EQ(foot.value(), 0.3048);
    EXPECT_EQ(inch.value(), 0.0254);
    EXPECT_EQ(pound.value(), 453.59237);
    EXPECT_EQ(ounce.value(), 28.349523125);
    EXPECT_EQ(centimetre.value(), 0.01);
    EXPECT_EQ(millimetre.value(), 0.001);
    EXPECT_DOUBLE_EQ(yard / foot, 3.0);
    EXPECT_DOUBLE_EQ(yard / inch, 36.0);
    EXPECT_DOUBLE_EQ(pound / ounce, 16.0);
}

// 50 g and 100 g balls in ounces, from S02: 50 / 28.349523125.
TEST(PublishedExamples, BallsInOunces) {
    EXPECT_NEAR(50.0 * gram / ounce, 1.7637, 1e-4);
    EXPECT_NEAR(100.0 * gram / ounce, 3.5274, 1e-4);
}

// S16, ASTM D2260: tex to cotton count constant 590.541 (one hank of 840 yd per pound), and
// 496.055 yd/lb for metric count 1 (1 m/g).
TEST(PublishedExamples, YarnCountConstants) {
    EXPECT_NEAR(pound / (840.0 * yard) / tex, 590.541, 5e-4);
    EXPECT_NEAR(metre / gram / (yard / pound), 496.055, 5e-4);
}

// S179 prints 6720 yd/lb for a 2/24 worsted; 73.818 tex and 1354.7 m per 100 g follow.
TEST(PublishedExamples, WorstedTwoTwentyFours) {
    const Grist grist = *parse_grist("6,720.0 yd/lb");
    EXPECT_NEAR(1.0 / grist / tex, 73.818, 0.001);
    EXPECT_NEAR(grist / shown::metres_per_100g.one, 1354.7, 0.1);
}

// S23: 450 yd of a two-ply weigh 8 oz, so it has 900 yd/lb.
TEST(PublishedExamples, HandspunYardsPerPound) {
    EXPECT_DOUBLE_EQ(*parse_grist("450 yd / 8 oz") / (yard / pound), 900.0);
}

// S18 and S02, jute: one pound in a spyndle of 14,400 yd is 34.4482 tex.
TEST(PublishedExamples, JuteSpyndle) {
    EXPECT_NEAR(pound / (14400.0 * yard) / tex, 34.4482, 5e-5);
}

// S150: half double crochet took 32.08 in per sq in, so 34 x 34 in take 37084.48 in = 1030.1 yd.
TEST(PublishedExamples, CrochetByArea) {
    const YarnPerArea rate = *parse_yarn_per_area("32.08 in per sq in");
    const Length side = *parse_length("34 in");
    const Length yarn = rate * (side * side);
    EXPECT_NEAR(yarn / inch, 37084.48, 1e-8);
    EXPECT_NEAR(yarn / yard, 1030.1, 0.05);
}

// S150: a foundation row took 17.22 in per inch, so 34 in take 585.48 in.
TEST(PublishedExamples, FoundationRow) {
    const Ratio rate = *parse_length("17.22 in") / *parse_length("1 in");
    EXPECT_NEAR(rate * *parse_length("34 in") / inch, 585.48, 1e-9);
}

// S158: a long tail of three times the width and 10 % more is 39.6 in for 12 in.
TEST(PublishedExamples, LongTail) {
    const Ratio tenth = *parse_percent("10 %");
    EXPECT_NEAR(3.0 * *parse_length("12 in") * (1.0 + tenth.value()) / inch, 39.6, 1e-9);
}

// S157: width x length x stitches per inch / 6 is the yards: 48 x 8 x 5 / 6 = 320.
TEST(PublishedExamples, AreaRule) {
    const auto product =
        *parse_length("48 in") * *parse_length("8 in") * *parse_stitch_gauge("5 sts per in");
    EXPECT_NEAR(product / (6.0 * inch * stitch), 320.0, 1e-9);
}

// S180: 1800 yd at 109 yd a ball are 17 balls.
TEST(PublishedExamples, BallsForALength) {
    EXPECT_EQ(
        number_text(*parse_length("1800 yd") / *parse_length("109 yd"), Step::one, Rounding::up),
        "17");
}

// Own arithmetic: 100 g / 200 m are 500 tex, and 496054.65 / 500 = 992.109 yd/lb.
TEST(PublishedExamples, FiveHundredTex) {
    const Grist grist = *parse_grist("200 m / 100 g");
    EXPECT_NEAR(1.0 / grist / tex, 500.0, 1e-9);
    EXPECT_NEAR(grist / (yard / pound), 992.109, 5e-4);
}

}  // namespace
