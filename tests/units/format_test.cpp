// Quantities to text: needs up, supplies down, once.

#include "skeinfall/units/format.hpp"

#include <gtest/gtest.h>

#include "skeinfall/units/number_style.hpp"
#include "skeinfall/units/parse.hpp"

namespace {

using namespace skeinfall::units;

struct PrintedCase {
    double value;
    Step step;
    Rounding rounding;
    const char* text;
};

TEST(Format, RoundsToTheStep) {
    for (const PrintedCase& c : std::initializer_list<PrintedCase>{
             {12.01, Step::tenth, Rounding::up, "12.1"},
             {12.01, Step::tenth, Rounding::down, "12.0"},
             {12.06, Step::tenth, Rounding::nearest, "12.1"},
             {12.0, Step::one, Rounding::up, "12"},
             {12.001, Step::one, Rounding::up, "13"},
             {12.999, Step::one, Rounding::down, "12"},
             {12.5, Step::one, Rounding::nearest, "13"},
             {12.3, Step::quarter, Rounding::up, "12.50"},
             {12.3, Step::quarter, Rounding::down, "12.25"},
             {12.3, Step::half, Rounding::up, "12.5"},
             {12.3, Step::half, Rounding::down, "12.0"},
             {12.3, Step::half, Rounding::nearest, "12.5"},
             {1171.0, Step::five, Rounding::up, "1175"},
             {1174.9, Step::five, Rounding::down, "1170"},
             {12.5, Step::hundredth, Rounding::nearest, "12.50"},
             {0.0004, Step::thousandth, Rounding::up, "0.001"},
             {0.0, Step::tenth, Rounding::up, "0.0"},
             {1234567.0, Step::one, Rounding::nearest, "1234567"},
         }) {
        EXPECT_EQ(number_text(Ratio(c.value), c.step, c.rounding), c.text) << c.value;
    }
}

TEST(Format, NegativeNumbersAndNoNegativeZero) {
    for (const PrintedCase& c : std::initializer_list<PrintedCase>{
             {-0.0, Step::one, Rounding::nearest, "0"},
             {-0.4, Step::one, Rounding::nearest, "0"},
             {-0.4, Step::one, Rounding::up, "0"},
             {-0.04, Step::tenth, Rounding::up, "0.0"},
             {-1e-9, Step::tenth, Rounding::down, "0.0"},
             {-0.4, Step::one, Rounding::down, "-1"},
             {-12.3, Step::half, Rounding::up, "-12.0"},
             {-12.3, Step::five, Rounding::down, "-15"},
         }) {
        EXPECT_EQ(number_text(Ratio(c.value), c.step, c.rounding), c.text) << c.value;
    }
}

TEST(Format, BinaryNoiseDoesNotCostAStep) {
    // 0.1 + 0.2 is a little above 0.3, and 3 * 1.1 above 3.3; 0.29 * 100 a little below 29.
    EXPECT_EQ(number_text(Ratio(0.1 + 0.2), Step::tenth, Rounding::up), "0.3");
    EXPECT_EQ(number_text(Ratio(3 * 1.1), Step::tenth, Rounding::up), "3.3");
    EXPECT_EQ(number_text(Ratio(0.29 * 100), Step::one, Rounding::down), "29");
    // 100 yd are 91.44 m on the nose.
    EXPECT_EQ(text(100.0 * yard, shown::metres, Step::hundredth, Rounding::up), "91.44 m");
    EXPECT_EQ(text(91.44 * metre, shown::yards, Step::one, Rounding::down), "100 yd");
    // Two millionths of a step are no noise any more.
    EXPECT_EQ(number_text(Ratio(12.000002), Step::one, Rounding::up), "13");
    EXPECT_EQ(number_text(Ratio(11.999998), Step::one, Rounding::down), "11");
}

// Own rule, worked by hand: the unrounded need is converted, then rounded, never twice. 1176 m
// are 1286.09 yd, so 1290 yd; the printed 1180 m would have made 1295 yd.
TEST(Format, ANeedIsRoundedOnce) {
    const auto printed = [](Length need, const Shown<Length>& unit) {
        return text(need, unit, Step::five, Rounding::up);
    };
    EXPECT_EQ(printed(1173.632 * metre, shown::metres), "1175 m");
    EXPECT_EQ(printed(1173.632 * metre, shown::yards), "1285 yd");
    EXPECT_EQ(printed(1176.0 * metre, shown::metres), "1180 m");
    EXPECT_EQ(printed(1176.0 * metre, shown::yards), "1290 yd");
    EXPECT_EQ(printed(1180.0 * metre, shown::yards), "1295 yd");
}

TEST(Format, NamesTheUnit) {
    const auto shown_as = [](const auto& value, const auto& unit) {
        return text(value, unit, Step::tenth, Rounding::nearest);
    };
    EXPECT_EQ(shown_as(380.0 * yard, shown::yards), "380.0 yd");
    EXPECT_EQ(shown_as(15.0 * centimetre, shown::centimetres), "15.0 cm");
    EXPECT_EQ(shown_as(5.0 * millimetre, shown::millimetres), "5.0 mm");
    EXPECT_EQ(shown_as(12.7 * centimetre, shown::inches), "5.0 in");
    EXPECT_EQ(shown_as(1.0 * ounce, shown::grams), "28.3 g");
    EXPECT_EQ(shown_as(100.0 * gram, shown::ounces), "3.5 oz");
    const Grist grist = 200.0 * metre / (100.0 * gram);
    EXPECT_EQ(shown_as(grist, shown::metres_per_100g), "200.0 m per 100 g");
    EXPECT_EQ(shown_as(grist, shown::yards_per_100g), "218.7 yd per 100 g");  // 200 / 0.9144
    EXPECT_EQ(shown_as(grist, shown::yards_per_ounce), "62.0 yd per oz");     // 992.109 / 16
    const StitchGauge stitches = 13.0 * stitch / (10.0 * centimetre);
    EXPECT_EQ(shown_as(stitches, shown::per_10cm), "13.0 sts per 10 cm");
    EXPECT_EQ(shown_as(stitches, shown::per_4in), "13.2 sts per 4 in");  // 13 x 1.016
    const RowGauge rows = 8.0 * row / (4.0 * inch);
    EXPECT_EQ(shown_as(rows, shown::rows_per_4in), "8.0 rows per 4 in");
    EXPECT_EQ(shown_as(rows, shown::rows_per_10cm), "7.9 rows per 10 cm");  // 8 / 1.016
    const YarnPerStitch rate = 2.9 * inch / stitch;
    EXPECT_EQ(shown_as(rate, shown::cm_per_stitch), "7.4 cm per stitch");  // 7.366
}

TEST(Format, Percents) {
    EXPECT_EQ(percent_text(Ratio(0.948), Step::one, Rounding::down), "94 %");
    EXPECT_EQ(percent_text(Ratio(0.99999), Step::one, Rounding::down), "99 %");
    EXPECT_EQ(percent_text(Ratio(0.125), Step::tenth, Rounding::nearest), "12.5 %");
    // 0.29 * 100 is a little below 29.
    EXPECT_EQ(percent_text(Ratio(0.29), Step::one, Rounding::down), "29 %");
}

TEST(Format, PlainNumbersHaveNoZerosThatSayNothing) {
    const auto plain = [](double value) {
        return plain_number(Ratio(value), Step::hundredth, Rounding::nearest);
    };
    EXPECT_EQ(plain(8.5), "8.5");
    EXPECT_EQ(plain(8.0), "8");
    EXPECT_EQ(plain(8.25), "8.25");
    EXPECT_EQ(plain(100.0), "100");
    EXPECT_EQ(plain(0.0), "0");
    EXPECT_EQ(plain(-0.001), "0");
    EXPECT_EQ(plain_number(Ratio(1200.0), Step::five, Rounding::up), "1200");
    EXPECT_EQ(percent_text(Ratio(0.1), Step::tenth, Rounding::nearest), "10 %");
}

TEST(Format, TheDecimalMarkIsTheReaders) {
    const auto all = [] {
        return number_text(Ratio(19.5), Step::hundredth, Rounding::nearest) + " " +
               plain_number(Ratio(19.5), Step::hundredth, Rounding::nearest) + " " +
               figures_text(Ratio(73.8177), 5) + " " +
               percent_text(Ratio(0.0725), Step::tenth, Rounding::up);
    };
    {
        const WithNumberStyle comma(NumberStyle{','});
        EXPECT_EQ(all(), "19,50 19,5 73,818 7,3 %");
        const WithNumberStyle point(NumberStyle{});
        EXPECT_EQ(all(), "19.50 19.5 73.818 7.3 %");
    }
    EXPECT_EQ(all(), "19.50 19.5 73.818 7.3 %") << "the style ended with its scope";
}

TEST(Format, TheFirstUnitIsTheReaders) {
    // An inch is 2.54 cm and a yard 0.9144 m exactly (international yard and pound, 1959).
    const Length yarn = 9.144 * metre;
    const Length side = 25.4 * centimetre;
    EXPECT_EQ(yarn_text(yarn, Step::tenth, Rounding::up), "10.0 yd");
    EXPECT_EQ(side_text(side, Step::one, Rounding::nearest), "10 in");
    EXPECT_EQ(yards_and_metres(yarn, Rounding::down), "10 yd (9.1 m)");
    EXPECT_EQ(inches_and_centimetres(side), "10.0 in (25.4 cm)");
    const WithNumberStyle metres_first({.metres_first = true});
    EXPECT_EQ(yarn_text(yarn, Step::tenth, Rounding::up), "9.2 m");
    EXPECT_EQ(side_text(side, Step::tenth, Rounding::nearest), "25.4 cm");
    EXPECT_EQ(yards_and_metres(yarn, Rounding::up), "9.2 m (10 yd)");
    EXPECT_EQ(inches_and_centimetres(side), "25.4 cm (10.0 in)");
    const WithNumberStyle imperial({.systems = Systems::imperial, .metres_first = true});
    EXPECT_EQ(yarn_text(yarn, Step::tenth, Rounding::up), "10.0 yd");
    EXPECT_EQ(inches_and_centimetres(side), "10.0 in");
    const WithNumberStyle metric({.systems = Systems::metric});
    EXPECT_EQ(yarn_text(yarn, Step::tenth, Rounding::up), "9.2 m");
    EXPECT_EQ(yards_and_metres(yarn, Rounding::up), "9.2 m");
}

}  // namespace
