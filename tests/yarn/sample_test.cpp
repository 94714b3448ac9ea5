#include "skeinfall/yarn/sample.hpp"

#include <cmath>
#include <random>
#include <stdexcept>
#include <variant>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/yarn/unlabelled.hpp"

namespace {

using namespace skeinfall;
using measure::ScaleReading;
using units::Ratio;

ScaleReading reading(double grams, double step) {
    return {grams * units::gram, step * units::gram, std::nullopt};
}

double yards(units::Length length) {
    return length / units::yard;
}

yarn::Unlabelled identified(double sample_yards, double grams, double step, double have) {
    yarn::Clues clues;
    clues.sample = {sample_yards * units::yard, {reading(grams, step)}};
    clues.have = reading(have, step);
    return yarn::identify(clues);
}

// ourpastimes.com, grams to yards: 1 yd reads 2 g on a 1 g scale, 48 g at hand. The
// true mass is 1.5 to 2.5 g, so 19 to 32 yd: refused. Arithmetic ours.
TEST(Sample, OfTwoStepsIsRefusedAndSaysHowMuchToMeasure) {
    const auto found = identified(1, 2, 1, 48);
    EXPECT_FALSE(found.grist);
    EXPECT_FALSE(found.left);
    EXPECT_FALSE(found.answered());
    ASSERT_TRUE(found.too_light);
    EXPECT_DOUBLE_EQ(found.too_light->needed.value(), 20.0);
    ASSERT_TRUE(found.too_light->measure);
    // At its lightest a yard weighs 1.5 g, so 20 g take 13.3 yd.
    EXPECT_NEAR(yards(*found.too_light->measure), 13.333, 1e-3);
    ASSERT_TRUE(found.left_if_guessed && found.left_if_guessed->most);
    EXPECT_NEAR(yards(found.left_if_guessed->least), 19.2, 1e-9);
    EXPECT_NEAR(yards(*found.left_if_guessed->most), 32.0, 1e-9);
}

// The same case measured as it should be: 10 yd weigh 20 g, so 48 g are 24 yd.
TEST(Sample, OfTwentyStepsIsTaken) {
    const auto found = identified(10, 20, 1, 48);
    ASSERT_TRUE(found.left);
    EXPECT_TRUE(found.answered());
    EXPECT_NEAR(yards(found.left->centre), 24.0, 1e-9);
    // Scale 0.2887/20 and 0.2887/48, tape 1 %/sqrt(3), in quadrature .016667; with an uneven yarn
    // of 2 % and another air of 1.5 % .030047.
    EXPECT_NEAR(found.left->relative().value(), 0.030047, 1e-5);
}

TEST(Sample, IsJudgedByItsScaleAndNotByItsMass) {
    EXPECT_FALSE(identified(1, 2, 0.1, 48).too_light);
    EXPECT_TRUE(identified(10, 20, 2, 48).too_light);
    EXPECT_FALSE(identified(1, 2.0, 0.1, 48).too_light) << "20 steps exactly, in binary";
}

TEST(Sample, ThatMayWeighNothingGetsNoLengthToMeasure) {
    const auto found = identified(1, 0.5, 1, 48);
    ASSERT_TRUE(found.too_light);
    EXPECT_FALSE(found.too_light->measure);
    EXPECT_FALSE(found.left_if_guessed->most);
}

TEST(Sample, TakesTheMeanOfRepeats) {
    const yarn::MeasuredSample sample{10.0 * units::metre, {reading(20.0, 1), reading(21.0, 1)}};
    const auto grist = std::get<measure::Estimate<units::Grist>>(yarn::grist_of(sample));
    EXPECT_NEAR(grist.centre.value(), 10.0 / 20.5, 1e-12);
    EXPECT_THROW((void)yarn::grist_of({units::metre, {}}), std::invalid_argument);
}

RC_GTEST_PROP(Sample, TheLengthToMeasureIsAlwaysEnough, ()) {
    const double step = *rc::gen::inRange(1, 50) / 10.0;
    const double grams = step * (*rc::gen::inRange(1, 19));
    const double length = *rc::gen::inRange(1, 200) / 10.0;
    const yarn::MeasuredSample sample{length * units::metre, {reading(grams, step)}};
    const auto light = std::get<yarn::TooLight>(yarn::grist_of(sample));
    // Whatever it truly weighs within half a step, the longer sample reaches 20 steps.
    const double per_metre_at_least = (grams - step / 2.0) / length;
    RC_ASSERT(light.measure->value() * per_metre_at_least >= 20.0 * step * (1.0 - 1e-9));
}

// rosieblogs.blogspot.com, 2006-05: a strand of 14.5 in balances, x 100 = 1450 yd/lb;
// 1.25 oz are 113.28 yd; a quarter inch of cut is 1.7 %.
TEST(Balance, OfAStrandGivesYardsPerPound) {
    const auto grist = yarn::grist_by_balance(14.5 * units::inch, yarn::yarn_balance_mass());
    EXPECT_NEAR(Ratio(grist.centre / (units::yard / units::pound)).value(), 1450.0, 1e-9);
    const auto left =
        yarn::length_left(grist, {1.25 * units::ounce, 0.05 * units::ounce, std::nullopt});
    EXPECT_NEAR(yards(left.centre), 113.28125, 1e-6);
    EXPECT_NEAR(grist.relative().value() * std::sqrt(3.0), 0.0172, 1e-4);
}

// Yarn balance post (S176): a yarn of 142 g per 241 m; 120 cm of it balance 97 cm of the unknown.
// 0.707 g over 0.97 m are 728.9 tex; arithmetic ours.
TEST(Balance, AgainstAKnownYarnGivesItsTex) {
    const units::Mass against =
        120.0 * units::centimetre / (241.0 * units::metre) * 142.0 * units::gram;
    const auto grist = yarn::grist_by_balance(97.0 * units::centimetre, against);
    EXPECT_NEAR(1000.0 / grist.centre.value(), 728.9, 0.1);
}

// Worlds drawn from what is assumed: a tape within 1 %, a scale of whole grams, a sample that is 2
// % off the rest of its yarn, another air. What is said 19 times in 20 must hold so often.
TEST(Sample, TheLengthLeftHoldsNineteenTimesInTwenty) {
    std::mt19937 random(7);
    const auto uniform = [&](double half) {
        return std::uniform_real_distribution<double>(-half, half)(random);
    };
    constexpr int worlds = 4000;
    int held = 0;
    int answered = 0;
    for (int i = 0; i < worlds; ++i) {
        const double grist = 2.2 * std::exp(uniform(0.5));  // m per g, of the rest
        const double of_sample = grist * std::exp(std::normal_distribution<double>(
                                             0.0, yarn::unevenness.value())(random));
        const double length = 50.0;
        const double weighs = length * (1.0 + uniform(0.01)) / of_sample;
        const double rest = 80.0 + uniform(30.0);
        const double air = std::exp(
            std::normal_distribution<double>(0.0, yarn::air_between_weighings.value())(random));
        yarn::MeasuredSample sample{
            length * units::metre,
            {{std::round(weighs) * units::gram, 1.0 * units::gram, std::nullopt}}};
        const auto found = yarn::grist_of(sample);
        const auto* known = std::get_if<measure::Estimate<units::Grist>>(&found);
        if (known == nullptr) continue;
        ++answered;
        const auto left = yarn::length_left(
            *known, {std::round(rest * air) * units::gram, 1.0 * units::gram, std::nullopt});
        const double off =
            (rest * grist - left.centre / units::metre) / (left.spread / units::metre);
        if (std::abs(off) <= 1.959964) ++held;
    }
    ASSERT_GT(answered, worlds / 2);
    EXPECT_NEAR(static_cast<double>(held) / answered, 0.95, 0.014);
}

TEST(Unlabelled, WithoutAnythingHasNoAnswer) {
    EXPECT_FALSE(yarn::identify({}).answered());
}

TEST(Unlabelled, KeepsRankingWhenTheSampleIsRefused) {
    yarn::Clues clues;
    clues.sample = {units::yard, {reading(2, 1)}};
    clues.evidence.wraps = 9.0 * units::wrap / units::inch;
    const auto found = yarn::identify(clues);
    EXPECT_TRUE(found.too_light);
    EXPECT_FALSE(found.ranking.classes.empty());
}

}  // namespace
