// All evidence as one amount, beside worked sums.

#include "skeinfall/need/reckoning.hpp"

#include <cmath>
#include <stdexcept>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

namespace {

using namespace skeinfall;
using need::Observation;
using units::metre;

units::Ratio ratio(double value) {
    return units::Ratio::from_value(value);
}

// Normal errors in logarithms: 100 m +-10 % and 110 m +-20 % weigh 4 to 1, 101.9244 m, and the
// spread is 0.2 / sqrt(5) = 8.944 % (arithmetic ours).
TEST(Reckoning, TwoByPrecision) {
    const need::Reckoned both =
        need::reckoned({{100.0 * metre, ratio(0.1)}, {110.0 * metre, ratio(0.2)}});
    EXPECT_NEAR(both.yarn / metre, 101.9244, 1e-4);
    EXPECT_NEAR(both.spread.value(), 0.0894427, 1e-7);
    EXPECT_NEAR(both.weights[0].value(), 0.8, 1e-12);
    EXPECT_NEAR(both.off[0].value(), -std::log(1.1) / std::sqrt(0.05), 1e-12);
    EXPECT_FALSE(both.discord.has_value());
    EXPECT_EQ(both.widened.value(), 1.0);
}

// ln 2 against +-10 % each is 4.9 standard deviations: the noise grows until it is 2.
TEST(Reckoning, DiscordWidensUntilTwo) {
    const need::Reckoned apart =
        need::reckoned({{100.0 * metre, ratio(0.1)}, {200.0 * metre, ratio(0.1)}});
    ASSERT_TRUE(apart.discord.has_value());
    EXPECT_NEAR(apart.yarn / metre, std::sqrt(20000.0), 1e-9);
    EXPECT_NEAR(apart.spread.value() * std::sqrt(2.0) * std::sqrt(2.0), std::log(2.0) / 2.0, 1e-12);
}

// A guess with heavy tails gives way: with one of 25 % a swatch of 4.5 % moves by less than 2 %,
// wherever the guess lies.
TEST(Reckoning, AGuessNeverPullsASwatchByTwoPerCent) {
    for (double times = 0.2; times < 5.0; times *= 1.05) {
        const need::Reckoned both = need::reckoned(
            {{100.0 * metre, ratio(0.045)}, {times * 100.0 * metre, ratio(0.25), true}});
        EXPECT_NEAR(both.yarn / metre, 100.0, 2.0) << times;
    }
}

TEST(Reckoning, WeightsAddToOneAndMoreEvidenceNarrowsWhereItAgrees) {
    const bool holds = rc::check("weights, order, narrowing", [] {
        std::vector<Observation> all;
        const int count = *rc::gen::inRange(1, 6);
        for (int i = 0; i < count; ++i)
            all.push_back({static_cast<double>(*rc::gen::inRange(50, 200)) * metre,
                           ratio(*rc::gen::inRange(1, 40) / 100.0), *rc::gen::inRange(0, 2) == 0});
        const need::Reckoned forward = need::reckoned(all);
        double sum = 0.0;
        double narrowest = 1.0;
        for (std::size_t i = 0; i < all.size(); ++i) {
            sum += forward.weights[i].value();
            narrowest = std::min(narrowest, all[i].spread.value());
        }
        RC_ASSERT(std::abs(sum - 1.0) < 1e-9);
        if (!forward.discord && all.size() == 1)
            RC_ASSERT(forward.spread.value() <= narrowest + 1e-12);
        std::reverse(all.begin(), all.end());
        const need::Reckoned back = need::reckoned(all);
        RC_ASSERT(std::abs(back.yarn / forward.yarn - 1.0) < 1e-9);
        RC_ASSERT(std::abs(back.spread.value() - forward.spread.value()) < 1e-9);
    });
    EXPECT_TRUE(holds);
}

// Two of 10 % noise that differ by 0.4 in the logarithm: tau^2 = 0.4^2 / 2 - 0.01 (arithmetic
// ours, after DerSimonian and Laird).
TEST(Reckoning, SpreadBetween) {
    const std::vector<Observation> two{{100.0 * metre, ratio(0.1)},
                                       {std::exp(0.4) * 100.0 * metre, ratio(0.1)}};
    EXPECT_NEAR(need::spread_between(two).value(), std::sqrt(0.07), 1e-12);
    EXPECT_EQ(need::spread_between({two[0]}).value(), 0.0);
    EXPECT_EQ(need::spread_between({two[0], two[0]}).value(), 0.0);
}

TEST(Reckoning, RefusesWhatIsNothing) {
    EXPECT_THROW(static_cast<void>(need::reckoned({})), std::invalid_argument);
    EXPECT_THROW(static_cast<void>(need::reckoned({{0.0 * metre, ratio(0.1)}})),
                 std::invalid_argument);
    EXPECT_THROW(static_cast<void>(need::reckoned({{1.0 * metre, ratio(0.0)}})),
                 std::invalid_argument);
}

}  // namespace
