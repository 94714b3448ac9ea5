// The chance that a supply covers a need. Worked examples are computed here from their inputs;
// "own" figures were worked independently of this library and confirmed by simulation.

#include "skeinfall/measure/chance.hpp"

#include <cmath>
#include <random>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace {

using namespace skeinfall::units;
using skeinfall::measure::Chance;
using skeinfall::measure::chance_enough;
using skeinfall::measure::deviations_for;
using skeinfall::measure::Estimate;
using skeinfall::measure::supply_needed;
using skeinfall::measure::usual_confidence;

using Amount = Estimate<Length>;

Amount metres(double centre, double spread) {
    return {centre * metre, spread * metre};
}

double chance(const Amount& supply, const Amount& need) {
    return chance_enough(supply, need).value;
}

Chance confidence(double p) {
    return {Ratio(p)};
}

/// The normal distribution function, by the error function and not by the library under test.
double normal_below(double x) {
    return std::erfc(-x / std::sqrt(2.0)) / 2.0;
}

// A swatch of 15.0 x 14.2 cm weighs 12.4 g (0.1 g scale, tared), each edge known to 0.09129 cm,
// rows vary by 3 % over 24 rows, the piece drifts by 3 % from the swatch; the piece has 9600 cm2.
// In store: five 100 g skeins known to 1.5 g each and 63.2 g, less six tails of 0.30 m. The yarn
// has 210 m per 100 g, which cancels as both sides are weighed.
struct WorkedExample {
    double metres_per_gram = 2.1;
    double need_grams = 12.4 * 9600.0 / (15.0 * 14.2);
    double need_spread =
        need_grams *
        std::sqrt(std::pow(0.1 / std::sqrt(6.0) / 12.4, 2) + std::pow(0.09129 / 15.0, 2) +
                  std::pow(0.09129 / 14.2, 2) + 0.03 * 0.03 / 24.0 + 0.03 * 0.03);
    double supply_grams = 5 * 100.0 + 63.2 - 6 * 0.30 / metres_per_gram;
    double supply_spread = std::sqrt(5.0) * 1.5;

    [[nodiscard]] Amount need() const {
        return metres(need_grams * metres_per_gram, need_spread * metres_per_gram);
    }
    [[nodiscard]] Amount supply() const {
        return metres(supply_grams * metres_per_gram, supply_spread * metres_per_gram);
    }
};

// Own: 558.873 g with 17.908 g; chance 0.57552 (simulated 0.5761); 26.498 g or 55.646 m more
// make it 95 %.
TEST(Chance, WorkedExampleOfASwatchAndSixSkeins) {
    const WorkedExample example;
    EXPECT_NEAR(example.need_grams, 558.873, 1e-3);
    EXPECT_NEAR(example.need_spread, 17.908, 1e-3);
    EXPECT_NEAR(chance(example.supply(), example.need()), 0.57552, 1e-4);
    const Length enough = supply_needed(example.need(), example.supply().spread, usual_confidence);
    EXPECT_NEAR((enough - example.supply().centre) / metre, 55.646, 2e-3);
}

// Own: a wide need is lognormal. Mean 400, spread 80, against 500 with 10: 0.88849 (simulated
// 0.88865); a normal need would give 0.89258.
TEST(Chance, AWideNeedIsSkewed) {
    EXPECT_NEAR(chance(metres(500, 10), metres(400, 80)), 0.88849, 1e-4);
    EXPECT_NEAR(normal_below(100.0 / std::hypot(80.0, 10.0)), 0.89258, 1e-5);
}

TEST(Chance, ANarrowNeedIsNormal) {
    // 48 / 400 is exactly the 12 % up to which a need is taken as normal.
    for (const double spread : {4.0, 20.0, 48.0})
        for (const double supply : {350.0, 400.0, 430.0})
            EXPECT_NEAR(chance(metres(supply, 12), metres(400, spread)),
                        normal_below((supply - 400.0) / std::hypot(12.0, spread)), 1e-12);
}

TEST(Chance, WithoutSpreadItIsYesOrNo) {
    EXPECT_EQ(chance(metres(400, 0), metres(400, 0)), 1.0);  // equal is enough
    EXPECT_EQ(chance(metres(399.999, 0), metres(400, 0)), 0.0);
    EXPECT_EQ(chance(metres(400.001, 0), metres(400, 0)), 1.0);
    EXPECT_EQ(chance(metres(0, 0), metres(0, 0)), 1.0);
}

TEST(Chance, AWideNeedAgainstASupplyWithoutSpread) {
    // ln(500 / 400) and the lognormal's own parameters, by hand: sigma^2 = ln 1.04.
    const double sigma = std::sqrt(std::log(1.04));
    EXPECT_NEAR(chance(metres(500, 0), metres(400, 80)),
                normal_below((std::log(1.25) + sigma * sigma / 2) / sigma), 1e-12);
    EXPECT_EQ(chance(metres(0, 0), metres(400, 80)), 0.0);
}

// Draw needs and supplies and count. Five standard errors of 200,000 draws.
TEST(Chance, MatchesASimulation) {
    constexpr std::uint64_t seed = 400801;
    RecordProperty("seed", static_cast<int>(seed));
    std::mt19937_64 random(seed);
    std::normal_distribution<double> z;
    constexpr int draws = 200000;
    struct Case {
        double supply, supply_spread, need, need_spread;
    };
    for (const Case& c : std::initializer_list<Case>{
             {500, 10, 400, 80}, {420, 30, 400, 100}, {300, 5, 400, 200}, {420, 15, 400, 20}}) {
        const bool lognormal = c.need_spread / c.need > 0.12;
        const double ratio = c.need_spread / c.need;
        const double sigma = std::sqrt(std::log(1 + ratio * ratio));
        int enough = 0;
        for (int i = 0; i < draws; ++i) {
            const double supply = c.supply + c.supply_spread * z(random);
            const double need = lognormal ? c.need * std::exp(sigma * z(random) - sigma * sigma / 2)
                                          : c.need + c.need_spread * z(random);
            enough += supply >= need ? 1 : 0;
        }
        const double p = chance(metres(c.supply, c.supply_spread), metres(c.need, c.need_spread));
        EXPECT_NEAR(static_cast<double>(enough) / draws, p, 5 * std::sqrt(p * (1 - p) / draws))
            << "seed " << seed << ", supply " << c.supply << ", need " << c.need;
    }
}

TEST(SupplyNeeded, WithoutSpreadIsTheNeed) {
    EXPECT_DOUBLE_EQ(supply_needed(metres(400, 0), Length{}, usual_confidence) / metre, 400.0);
}

TEST(SupplyNeeded, ANormalNeedAsksForSoManyDeviations) {
    // 400 + 1.644854 x hypot(12, 5) = 400 + 1.644854 x 13.
    EXPECT_NEAR(supply_needed(metres(400, 12), 5.0 * metre, usual_confidence) / metre, 421.383102,
                1e-5);
}

TEST(SupplyNeeded, AWideNeedAsksForItsOwnQuantile) {
    // exp(mu + 1.644854 sigma) with sigma^2 = ln 1.04, mu = ln 400 - sigma^2 / 2.
    const double sigma = std::sqrt(std::log(1.04));
    EXPECT_NEAR(supply_needed(metres(400, 80), Length{}, usual_confidence) / metre,
                400.0 * std::exp(-sigma * sigma / 2 + 1.6448536 * sigma), 1e-3);
}

// Even odds are reached under the mean of a skewed need, and a need
// three times as wide as its mean asks for more than twice what a normal one would.
TEST(SupplyNeeded, EvenOddsAndVeryWideNeeds) {
    const auto at = [](const Amount& need, double p) {
        return chance({supply_needed(need, Length{}, confidence(p)), Length{}}, need);
    };
    EXPECT_NEAR(at(metres(400, 80), 0.5), 0.5, 1e-9);
    EXPECT_NEAR(at(metres(400, 1200), 0.999), 0.999, 1e-9);
}

RC_GTEST_PROP(SupplyNeeded, CoversTheNeedAtJustTheConfidence, ()) {
    const double need = *rc::gen::inRange(1, 5000);
    const double need_spread = need * *rc::gen::inRange(0, 600) / 1000.0;
    const double supply_spread = need * *rc::gen::inRange(0, 300) / 1000.0;
    const double p = *rc::gen::inRange(500, 999) / 1000.0;
    RC_PRE(need_spread + supply_spread > 0.0);
    const Length enough =
        supply_needed(metres(need, need_spread), supply_spread * metre, confidence(p));
    RC_ASSERT(std::abs(chance({enough, supply_spread * metre}, metres(need, need_spread)) - p) <
              1e-8);
}

RC_GTEST_PROP(Chance, MoreYarnIsNeverLessLikelyToDo, ()) {
    const double need = *rc::gen::inRange(1, 2000);
    const double need_spread = need * *rc::gen::inRange(0, 600) / 1000.0;
    const double supply = *rc::gen::inRange(0, 3000);
    const double more = *rc::gen::inRange(0, 500);
    const double spread = *rc::gen::inRange(0, 100);
    const double p = chance(metres(supply, spread), metres(need, need_spread));
    RC_ASSERT(p >= 0.0 && p <= 1.0);
    RC_ASSERT(chance(metres(supply + more, spread), metres(need, need_spread)) >= p - 1e-9);
}

// Quantiles of the normal distribution, from any statistical table.
TEST(Deviations, AreTheNormalQuantiles) {
    EXPECT_NEAR(deviations_for(usual_confidence), 1.644854, 1e-6);
    EXPECT_NEAR(deviations_for(confidence(0.5)), 0.0, 1e-12);
    EXPECT_NEAR(deviations_for(confidence(0.9)), 1.281552, 1e-6);
    EXPECT_NEAR(deviations_for(confidence(0.975)), 1.959964, 1e-6);
    EXPECT_NEAR(deviations_for(confidence(0.99)), 2.326348, 1e-6);
}

TEST(Deviations, RefuseWhatIsNoConfidence) {
    for (const double p : {0.499, 0.0, -1.0, 1.0, 2.0, std::nan("")})
        EXPECT_THROW(static_cast<void>(deviations_for(confidence(p))), std::invalid_argument) << p;
}

}  // namespace
