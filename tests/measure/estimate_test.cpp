// A scale's reading and its uncertainty.

#include "skeinfall/measure/estimate.hpp"

#include <random>

#include <gtest/gtest.h>

#include "skeinfall/measure/weighing.hpp"

namespace {

using namespace skeinfall::units;
using skeinfall::measure::Estimate;
using skeinfall::measure::in_quadrature;
using skeinfall::measure::net_mass;
using skeinfall::measure::ScaleReading;
using skeinfall::measure::Weighing;

// JCGM 100:2008, F.2.2.1 (from memory): a digital step d has standard uncertainty 0.29 d, that is
// d / sqrt 12; a difference of two readings, d / sqrt 6.
TEST(ScaleReading, OneReadingOfAOneGramScale) {
    const auto net = net_mass(ScaleReading{63.0 * gram, 1.0 * gram, std::nullopt});
    EXPECT_DOUBLE_EQ(net.centre / gram, 63.0);
    EXPECT_NEAR(net.spread / gram, 0.288675, 1e-6);
}

TEST(ScaleReading, WithTheConeTakenOff) {
    const auto net = net_mass(ScaleReading{63.0 * gram, 1.0 * gram, 12.0 * gram});
    EXPECT_DOUBLE_EQ(net.centre / gram, 51.0);
    EXPECT_NEAR(net.spread / gram, 0.408248, 1e-6);
}

TEST(ScaleReading, TheSpreadGoesWithTheStep) {
    const auto net = net_mass(ScaleReading{12.4 * gram, 0.1 * gram, 0.0 * gram});
    EXPECT_NEAR(net.spread / gram, 0.0408248, 1e-7);
    EXPECT_NEAR(net.relative(), 0.0408248 / 12.4, 1e-8);
}

// Weigh many true masses on a scale that rounds to 1 g and look at the errors themselves.
TEST(ScaleReading, MatchesASimulatedScale) {
    constexpr std::uint64_t seed = 12;
    RecordProperty("seed", static_cast<int>(seed));
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> true_mass(40.0, 90.0);
    std::uniform_real_distribution<double> cone(8.0, 15.0);
    constexpr int draws = 200000;
    double plain = 0.0;
    double tared = 0.0;
    for (int i = 0; i < draws; ++i) {
        const double yarn = true_mass(random);
        const double tare = cone(random);
        const double one = std::round(yarn) - yarn;
        const double two = std::round(yarn + tare) - std::round(tare) - yarn;
        plain += one * one;
        tared += two * two;
    }
    // The sample deviation of so many draws is right within about 0.2 %.
    const auto spread = [](std::optional<Mass> tare) {
        return net_mass(ScaleReading{63.0 * gram, 1.0 * gram, tare}).spread / gram;
    };
    EXPECT_NEAR(std::sqrt(plain / draws) / spread(std::nullopt), 1.0, 0.01) << "seed " << seed;
    EXPECT_NEAR(std::sqrt(tared / draws) / spread(10.0 * gram), 1.0, 0.01) << "seed " << seed;
}

TEST(Estimate, RelativeSpread) {
    EXPECT_DOUBLE_EQ((Estimate<Length>{400.0 * metre, 80.0 * metre}.relative()), 0.2);
    EXPECT_EQ((Estimate<Length>{}.relative().value()), 0.0);
    EXPECT_DOUBLE_EQ(in_quadrature(3.0 * metre, 4.0 * metre) / metre, 5.0);
}

TEST(Weighing, GivesTheReadingOfItsTexts) {
    Weighing weighing{{"63 g", 63.0 * gram}, {"1 g", 1.0 * gram}, std::nullopt};
    EXPECT_DOUBLE_EQ(weighing.reading().shown / gram, 63.0);
    EXPECT_DOUBLE_EQ(weighing.reading().resolution / gram, 1.0);
    EXPECT_FALSE(weighing.reading().tare.has_value());
    weighing.tare = Printed<Mass>{"12 g", 12.0 * gram};
    ASSERT_TRUE(weighing.reading().tare.has_value());
    EXPECT_DOUBLE_EQ(*weighing.reading().tare / gram, 12.0);
}

// A cone nobody weighed: 1 to 2 oz are to be allowed for it (weaving article, source S188), which
// as a rectangle has the spread 14.175 g / sqrt(3); arithmetic by hand.
TEST(NetMass, ATareThatWasNotWeighedAddsItsOwnSpread) {
    ScaleReading reading{371.0 * gram, 1.0 * gram, 42.525 * gram};
    reading.tare_spread = 8.184 * gram;
    const auto net = net_mass(reading);
    EXPECT_NEAR(net.centre / gram, 328.475, 1e-9);
    EXPECT_NEAR(net.spread / gram, 8.1891, 1e-4);  // hypot(1 / sqrt 12, 8.184)
}

}  // namespace
