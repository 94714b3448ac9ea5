// Need from earlier makes. The five blankets are of our own models, worked out there by script.

#include "skeinfall/need/earlier_makes.hpp"

#include <stdexcept>

#include <gtest/gtest.h>

namespace {

using namespace skeinfall;
using units::metre;
using units::Ratio;

std::vector<need::SizedMake> five_makes() {
    return {{Ratio(0.62), 610.0 * metre},
            {Ratio(0.75), 742.0 * metre},
            {Ratio(0.88), 851.0 * metre},
            {Ratio(1.02), 1003.0 * metre},
            {Ratio(1.20), 1174.0 * metre}};
}

TEST(EarlierMakes, SlopeAndBandThroughTheOrigin) {
    const need::FromEarlier found = need::from_earlier(five_makes(), Ratio(0.95));
    EXPECT_NEAR(found.per_size / metre, 979.470, 5e-4);
    EXPECT_NEAR(found.yarn.estimate.centre / metre, 930.50, 5e-3);
    EXPECT_NEAR(found.yarn.estimate.spread / metre, 7.776, 5e-4);
    EXPECT_EQ(found.yarn.degrees.value(), 4.0);
    const double t95 =
        measure::deviations_for(measure::usual_confidence, found.yarn.degrees).value();
    EXPECT_NEAR((found.yarn.estimate.centre + t95 * found.yarn.estimate.spread) / metre, 947.07,
                0.01);
    EXPECT_FALSE(found.widened);
    EXPECT_EQ(found.fixed / metre, 0.0);
}

// 40 m for all and 900 m a square metre, to the letter.
TEST(EarlierMakes, AFixedPartIsFound) {
    const std::vector<need::SizedMake> makes{
        {Ratio(0.5), 490.0 * metre}, {Ratio(1.0), 940.0 * metre}, {Ratio(1.5), 1390.0 * metre}};
    const need::FromEarlier found = need::from_earlier_with_fixed(makes, Ratio(1.2));
    EXPECT_NEAR(found.fixed / metre, 40.0, 1e-9);
    EXPECT_NEAR(found.per_size / metre, 900.0, 1e-9);
    EXPECT_NEAR(found.yarn.estimate.centre / metre, 1120.0, 1e-9);
    EXPECT_NEAR(found.yarn.estimate.spread / metre, 0.0, 1e-9);
    EXPECT_EQ(found.yarn.degrees.value(), 1.0);
}

TEST(EarlierMakes, OutsideTheMakesTheBandWidens) {
    const auto relative = [](double size) {
        return need::from_earlier(five_makes(), Ratio(size)).yarn.estimate.relative().value();
    };
    EXPECT_FALSE(need::from_earlier(five_makes(), Ratio(1.2 * 1.29)).widened);
    EXPECT_TRUE(need::from_earlier(five_makes(), Ratio(1.2 * 1.31)).widened);
    EXPECT_TRUE(need::from_earlier(five_makes(), Ratio(0.62 / 1.31)).widened);
    EXPECT_GE(relative(1.2 * 1.69), 0.10);  // two steps of 30 %
    EXPECT_LT(relative(1.2 * 1.29), 0.02);
    EXPECT_NEAR(need::from_earlier(five_makes(), Ratio(2.4)).beyond_largest.value(), 2.0, 1e-12);
}

TEST(EarlierMakes, TooLittleIsRefused) {
    const std::vector<need::SizedMake> one{{Ratio(1.0), 900.0 * metre}};
    EXPECT_THROW(static_cast<void>(need::from_earlier(one, Ratio(1.0))), std::invalid_argument);
    const std::vector<need::SizedMake> alike(3, one.front());
    EXPECT_THROW(static_cast<void>(need::from_earlier_with_fixed(alike, Ratio(1.0))),
                 std::invalid_argument);
    EXPECT_THROW(static_cast<void>(need::from_earlier(five_makes(), Ratio(0.0))),
                 std::invalid_argument);
}

}  // namespace
