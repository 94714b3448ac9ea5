#include "skeinfall/measure/few_readings.hpp"

#include <stdexcept>

#include <gtest/gtest.h>

namespace {

using namespace skeinfall;
using measure::Chance;
using measure::ScaleReading;
using units::Ratio;

Ratio t95(double degrees) {
    return measure::deviations_for(measure::usual_confidence, Ratio(degrees));
}

// Student's t, one-sided 95 %: any printed table of the distribution, e.g. NIST/SEMATECH
// e-Handbook of Statistical Methods, 1.3.6.7.2.
TEST(StudentT, HasTheQuantilesOfPrintedTables) {
    EXPECT_NEAR(t95(1).value(), 6.314, 5e-4);
    EXPECT_NEAR(t95(2).value(), 2.920, 5e-4);
    EXPECT_NEAR(t95(3).value(), 2.353, 5e-4);
    EXPECT_NEAR(t95(4).value(), 2.132, 5e-4);
    EXPECT_NEAR(t95(30).value(), 1.697, 5e-4);
}

TEST(StudentT, IsTheNormalWhenTheSpreadIsKnown) {
    EXPECT_DOUBLE_EQ(
        measure::deviations_for(measure::usual_confidence, measure::known_spread).value(),
        measure::deviations_for(measure::usual_confidence).value());
    EXPECT_NEAR(t95(1e7).value(), 1.644854, 1e-5);
}

TEST(StudentT, RefusesWhatItCannotStandFor) {
    EXPECT_THROW(t95(0.5), std::invalid_argument);
    EXPECT_THROW((void)measure::deviations_for(Chance{Ratio(1.0)}, Ratio(3.0)),
                 std::invalid_argument);
    EXPECT_THROW((void)measure::deviations_for(Chance{Ratio(0.4)}, Ratio(3.0)),
                 std::invalid_argument);
}

// Example of the computation notes: u = 6 with 3 degrees and u = 8 with any number give 23.148
// degrees and t95 = 1.7134. Formula: JCGM 100:2008, G.4.1 (from memory); arithmetic ours.
TEST(DegreesTogether, FollowWelchAndSatterthwaite) {
    const Ratio degrees = measure::degrees_together<units::Mass>(
        {{6.0 * units::gram, Ratio(3.0)}, {8.0 * units::gram}});
    EXPECT_NEAR(degrees.value(), 23.148, 1e-3);
    EXPECT_NEAR(measure::deviations_for(measure::usual_confidence, degrees).value(), 1.7134, 1e-4);
}

TEST(DegreesTogether, AreThoseOfALoneComponentAndEndlessForKnownSpreads) {
    EXPECT_DOUBLE_EQ(
        measure::degrees_together<units::Mass>({{2.0 * units::gram, Ratio(4.0)}}).value(), 4.0);
    EXPECT_FALSE(std::isfinite(
        measure::degrees_together<units::Mass>({{2.0 * units::gram}, {units::gram}}).value()));
}

ScaleReading shown(double grams) {
    return {grams * units::gram, 0.1 * units::gram, std::nullopt};
}

TEST(MeanMass, TakesOneReadingAsItIs) {
    const auto mean = measure::mean_mass({shown(12.4)});
    EXPECT_DOUBLE_EQ(mean.estimate.centre.value(), 12.4);
    EXPECT_NEAR(mean.estimate.spread.value(), 0.0288675, 1e-7);
    EXPECT_FALSE(std::isfinite(mean.degrees.value()));
}

// 12.3, 12.5, 12.4, 12.6: mean 12.45, s^2 = 0.05/3, s/sqrt(4) = 0.0645497; with the step's
// 0.0288675 in quadrature 0.0707107. Arithmetic ours, by hand.
TEST(MeanMass, AddsTheScatterOfRepeatsToTheStep) {
    const auto mean = measure::mean_mass({shown(12.3), shown(12.5), shown(12.4), shown(12.6)});
    EXPECT_NEAR(mean.estimate.centre.value(), 12.45, 1e-12);
    EXPECT_NEAR(mean.estimate.spread.value(), 0.0707107, 1e-6);
    // u^4 / (scatter^4 / 3): (0.0707107/0.0645497)^4 x 3 = 4.32.
    EXPECT_NEAR(mean.degrees.value(), 4.32, 1e-4);
}

TEST(MeanMass, DoesNotTakeAgreementForCertainty) {
    const auto mean = measure::mean_mass({shown(12.4), shown(12.4), shown(12.4)});
    EXPECT_NEAR(mean.estimate.spread.value(), 0.0288675, 1e-7);
}

TEST(MeanMass, RefusesNoReadingAtAll) {
    EXPECT_THROW((void)measure::mean_mass({}), std::invalid_argument);
}

// Rest of a ball after four weighings: need 47.0925, u 1.1419, 3 degrees, have 48.40; chance
// 0.832, where the normal would say 0.874; the 95 % upper need is 49.780. Computation notes,
// arithmetic ours; here in metres for grams.
TEST(ChanceWithFewReadings, IsLowerThanTheNormalSays) {
    const measure::Estimate<units::Length> have{48.40 * units::metre, {}};
    const measure::Estimate<units::Length> need{47.0925 * units::metre, 1.1419 * units::metre};
    EXPECT_NEAR(measure::chance_enough(have, need, Ratio(3.0)).value.value(), 0.832, 1e-3);
    EXPECT_NEAR(measure::chance_enough(have, need, measure::known_spread).value.value(), 0.874,
                1e-3);
    EXPECT_NEAR((need.centre + need.spread * t95(3).value()).value(), 49.780, 1e-3);
}

TEST(ChanceWithFewReadings, IsAYesOrNoWithoutSpread) {
    const measure::Estimate<units::Length> ten{10.0 * units::metre, {}};
    EXPECT_EQ(measure::chance_enough(ten, ten, Ratio(3.0)).value.value(), 1.0);
}

}  // namespace
