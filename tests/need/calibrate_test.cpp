// Rates by kind from several swatches. Values are of our own models, computed there by another
// program (a published active-set solver), unless said otherwise.

#include "skeinfall/need/calibrate.hpp"

#include <cmath>
#include <stdexcept>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/need/detail/least_squares.hpp"

namespace {

using namespace skeinfall;
using units::metre;
using units::stitch;

constexpr double scale_step = 0.1;

/// Counts of ch, sc and dc; the yarn is in metres, of a yarn of 1 m/g that a 0.1 g scale weighed.
need::CountedSwatch swatch(double ch, double sc, double dc, double yarn) {
    return {{{"ch", ch * stitch}, {"sc", sc * stitch}, {"dc", dc * stitch}},
            {yarn * metre, scale_step / std::sqrt(12.0) * metre}};
}

double millimetres(units::YarnPerStitch rate) {
    return rate / (metre / stitch) * 1000.0;
}

std::vector<need::CountedSwatch> five_swatches() {
    return {swatch(21, 200, 0, 4.4), swatch(24, 0, 200, 7.0), swatch(40, 100, 100, 5.9),
            swatch(60, 0, 60, 2.6), swatch(30, 150, 40, 4.8)};
}

TEST(Calibrate, FiveSwatchesTellThreeKinds) {
    const need::Calibration found = need::calibrate(five_swatches());
    ASSERT_EQ(found.kinds.size(), 3U);
    const std::vector<double> rates{9.5594, 21.0514, 33.8980};
    const std::vector<double> errors{0.562, 0.132, 0.173};
    for (std::size_t kind = 0; kind < 3; ++kind) {
        EXPECT_NEAR(millimetres(found.kinds[kind].yarn.centre), rates[kind], 1e-4);
        EXPECT_NEAR(millimetres(found.kinds[kind].yarn.spread), errors[kind], 5e-4);
        EXPECT_TRUE(found.kinds[kind].identified);
        EXPECT_FALSE(found.kinds[kind].by_ratio);
    }
    EXPECT_EQ(found.rank, 3U);
    EXPECT_GT(found.condition.value(), 1.0);
    EXPECT_LT(found.condition.value(), 30.0);
    EXPECT_TRUE(found.notes.empty());
    double squares = 0.0;
    for (const units::Length& rest : found.residuals) squares += std::pow(rest / metre, 2);
    EXPECT_NEAR(std::sqrt(squares / 2.0), 0.0197, 5e-5);
}

TEST(Calibrate, SolverClipsAtNothing) {
    const need::LeastSquares fit =
        need::non_negative_least_squares({{10, 12, 40}, {100, 120, 100}}, {2.30, 2.76, 2.25});
    EXPECT_EQ(fit.x[0], 0.0);
    EXPECT_NEAR(fit.x[1] * 1000.0, 22.8547, 1e-4);
    EXPECT_TRUE(fit.held[0]);
    EXPECT_FALSE(fit.held[1]);
}

TEST(Calibrate, AClippedKindIsNotIdentifiedAndNeverFree) {
    const need::Calibration found = need::calibrate(
        {swatch(10, 100, 0, 2.30), swatch(12, 120, 0, 2.76), swatch(40, 100, 0, 2.25)});
    ASSERT_EQ(found.kinds.size(), 2U);
    const need::KindRate& chain = found.kinds[0];
    EXPECT_FALSE(chain.identified);
    EXPECT_TRUE(found.kinds[1].identified);
    // The chain keeps the table's ratio to the kind that holds the most yarn.
    EXPECT_NEAR(chain.yarn.centre / found.kinds[1].yarn.centre,
                project::relative_yarn("ch")->value() / project::relative_yarn("sc")->value(),
                1e-9);
    // 15 % for the ratio of the two, less the chain's own 2 % of the yarn.
    EXPECT_NEAR(chain.yarn.spread / chain.yarn.centre, project::relative_yarn_spread.value(),
                0.005);
    ASSERT_EQ(found.notes.size(), 1U);
    EXPECT_THAT(found.notes[0], ::testing::HasSubstr("do not show the yarn of ch alone"));
}

TEST(Calibrate, FewerSwatchesThanKindsFallBackToTheTable) {
    const need::Calibration found =
        need::calibrate({swatch(20, 100, 50, 4.0), swatch(10, 50, 100, 5.0)});
    EXPECT_EQ(found.rank, 2U);
    EXPECT_TRUE(std::isinf(found.condition.value()));
    for (const need::KindRate& rate : found.kinds) {
        EXPECT_GT(rate.yarn.centre.value(), 0.0) << rate.kind;
        // ch and sc stand in one proportion in both; dc can be told.
        EXPECT_EQ(rate.identified, rate.kind == "dc") << rate.kind;
    }
    // 2 (ch, sc group) + dc: 4 = g + 50 dc, 5 = g/2 + 100 dc, so dc = 3/75 m.
    EXPECT_NEAR(millimetres(found.find("dc")->yarn.centre), 40.0, 1e-6);
}

TEST(Calibrate, SwatchesInOneProportionTellNothingApart) {
    const need::Calibration found = need::calibrate(
        {swatch(20, 100, 50, 4.0), swatch(40, 200, 100, 8.0), swatch(60, 300, 150, 12.0)});
    EXPECT_EQ(found.rank, 1U);
    units::Length together{};
    for (const need::KindRate& rate : found.kinds) {
        EXPECT_FALSE(rate.identified);
        EXPECT_TRUE(rate.by_ratio);
    }
    for (const project::KindCount& part : swatch(20, 100, 50, 4.0).kinds)
        together += part.count * found.find(part.kind)->yarn.centre;
    EXPECT_NEAR(together / metre, 4.0, 1e-9);
}

// Right-angled counts: each kind alone in a swatch.
TEST(Calibrate, OneKindASwatchIsPlainDivision) {
    const need::Calibration found = need::calibrate({swatch(0, 45, 0, 0.9144)});
    ASSERT_EQ(found.kinds.size(), 1U);
    EXPECT_NEAR(millimetres(found.kinds[0].yarn.centre), 20.32, 1e-9);
    EXPECT_NEAR(found.condition.value(), 1.0, 1e-12);
    EXPECT_EQ(found.find("hdc"), nullptr);
}

// Two kinds that swatches of one mix do not tell apart are still sure in that mix, and only there.
TEST(Calibrate, AMixLikeTheSwatchesIsSurerThanItsKinds) {
    const need::Calibration found =
        need::calibrate({swatch(20, 100, 0, 4.0), swatch(40, 200, 0, 8.0)});
    const auto relative = [&](double ch, double sc) {
        const std::vector<project::KindCount> stitches{{"ch", ch * stitch}, {"sc", sc * stitch}};
        units::Length yarn{};
        for (const project::KindCount& part : stitches)
            yarn += part.count * found.find(part.kind)->yarn.centre;
        return found.spread_of(stitches) / yarn;
    };
    EXPECT_LT(relative(20, 100), 0.01);
    EXPECT_NEAR(relative(20, 100), relative(200, 1000), 1e-12);
    EXPECT_GT(relative(100, 20), 0.05);
    EXPECT_GT(relative(1, 0), relative(0, 1));
}

// Kinds that are told apart badly, but whose sum is told well: the errors cancel in the sum.
TEST(Calibrate, TheSpreadOfASumKnowsThatErrorsCancel) {
    const need::Calibration found =
        need::calibrate({swatch(0, 100, 100, 5.5), swatch(0, 110, 90, 5.42)});
    const double sum = found.spread_of({{"sc", 105.0 * stitch}, {"dc", 95.0 * stitch}}) / metre;
    const double apart = std::hypot(105.0 * found.find("sc")->yarn.spread.value(),
                                    95.0 * found.find("dc")->yarn.spread.value());
    EXPECT_LT(sum, 0.3 * apart);
    EXPECT_NEAR(sum, scale_step / std::sqrt(12.0) / std::sqrt(2.0), 1e-6);
}

TEST(Calibrate, NearlyAlikeSwatchesAreCalledShaky) {
    need::Calibration found = need::calibrate({swatch(0, 100, 100, 5.0), swatch(0, 102, 98, 5.0)});
    EXPECT_GT(found.condition.value(), 30.0);
    EXPECT_FALSE(found.notes.empty());
}

TEST(Calibrate, RefusesSwatchesThatSayNothing) {
    EXPECT_THROW(static_cast<void>(need::calibrate({})), std::invalid_argument);
    EXPECT_THROW(static_cast<void>(need::calibrate({swatch(0, 0, 0, 4.0)})), std::invalid_argument);
    EXPECT_THROW(static_cast<void>(need::calibrate({swatch(1, 1, 1, 0.0)})), std::invalid_argument);
    need::CountedSwatch sure = swatch(1, 1, 1, 1.0);
    sure.yarn.spread = units::Length{};
    EXPECT_THROW(static_cast<void>(need::calibrate({sure})), std::invalid_argument);
}

}  // namespace
