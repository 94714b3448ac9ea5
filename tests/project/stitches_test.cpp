// Figures of the stitch table against what they are said to come from.

#include "skeinfall/project/stitches.hpp"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

namespace skeinfall::project {
namespace {

double relative(const char* kind) {
    return relative_yarn(kind)->value();
}

// windchilde.com/bluedepth/tag/crochet: inches of yarn to an inch of a row, sc 10.6, hdc 15.7, dc
// 20.4, foundation rows of sc, hdc and dc 16.0, 17.4 and 16.4. Interweave's swatches of 20 stitches
// by 20 rows: hdc 28 g, sc 19 g. (interweave.com/article/knitting/yarn-usage-knitting-vs-crochet-
// experiment)
TEST(Stitches, TakeWhatWasMeasured) {
    EXPECT_NEAR(relative("hdc"), 0.5 * (15.7 / 10.6 + 28.0 / 19.0), 1e-3);
    EXPECT_NEAR(relative("dc"), 20.4 / 10.6, 1e-3);
    EXPECT_NEAR(relative("fsc"), 16.0 / 10.6, 2e-3);
    EXPECT_NEAR(relative("fhdc"), 17.4 / 10.6, 2e-3);
    EXPECT_NEAR(relative("fdc"), 16.4 / 10.6, 4e-3);
    // However well two measurements agree, makers differ by a sixth; the foundation of doubles took
    // less than their row, which is hard to believe.
    EXPECT_LE(relative_yarn_spread_of("hdc"), relative_yarn_spread_of("dc"));
    EXPECT_LE(relative_yarn_spread_of("dc"), relative_yarn_spread);
    EXPECT_GT(relative_yarn_spread_of("fdc"), relative_yarn_spread);
}

// The model's own worked figures: width 6.6 mm, yarn 1.2 mm, heights sc 5.8, hdc 8.5, dc 12, tr
// 16.5 mm give 45.53, 63.19, 79.01 and 108.09 mm of yarn a stitch (worked by hand). What was not
// measured is a measured stitch and what the path adds to it.
TEST(Stitches, FollowTheYarnPath) {
    EXPECT_NEAR(relative("tr") - relative("dc"), (108.09 - 79.01) / 45.53, 1e-3);
    // A chain: three widths and two and a half turns round a strand.
    EXPECT_NEAR(relative("ch"), (3 * 6.6 + 2.5 * std::numbers::pi * 1.2) / 45.53, 1e-3);
    // A post stitch goes half round a bundle of two strands more.
    EXPECT_NEAR(relative("fpdc") - relative("dc"), 1.5 * std::numbers::pi * 1.2 / 45.53, 1e-3);
    EXPECT_NEAR(relative("fphdc") - relative("hdc"), 1.5 * std::numbers::pi * 1.2 / 45.53, 1e-3);
}

// Two makers' measurements, one with a 5 mm hook and worsted yarn
// (windchilde.com/bluedepth/tag/crochet: yarn per inch of row, chain 5.1, sc 10.6, hdc 15.7,
// dc 20.4), one by weight
// (interweave.com/article/knitting/yarn-usage-knitting-vs-crochet-experiment: 47.5 and 70 mg a
// stitch for sc and hdc). The model has to be within the band it claims, twice over for the chain,
// which is worked tighter as a foundation.
TEST(Stitches, AgreeWithMeasurementsWithinTheirBand) {
    const double band = relative_yarn_spread.value();
    EXPECT_NEAR(relative("dc") / (20.4 / 10.6), 1.0, band);
    EXPECT_NEAR(relative("hdc") / (15.7 / 10.6), 1.0, band);
    EXPECT_NEAR(relative("hdc") / (70.0 / 47.5), 1.0, band);
    EXPECT_NEAR(relative("ch") / (5.1 / 10.6), 1.0, 2.5 * band);
}

TEST(Stitches, WorkedTogetherCostLessThanApart) {
    for (const char* kind : {"sc", "hdc", "dc", "tr"}) {
        const std::string two = std::string(kind) + "2tog";
        const std::string three = std::string(kind) + "3tog";
        const double one = relative(kind);
        EXPECT_LT(relative(two.c_str()), 2 * one) << kind;
        EXPECT_GT(relative(two.c_str()), one) << kind;
        EXPECT_NEAR(relative(three.c_str()) - relative(two.c_str()), relative(two.c_str()) - one,
                    2e-3)
            << kind;
    }
}

TEST(Stitches, AreUnknownWhenNobodyDescribesThem) {
    EXPECT_FALSE(relative_yarn("wibble"));
    EXPECT_FALSE(relative_yarn("wibble2tog"));
    EXPECT_FALSE(relative_yarn("sc1tog"));
    OwnStitch own;
    own.name = "wibble";
    own.yarn = units::Ratio(3.0);
    EXPECT_EQ(relative_yarn("wibble", {own})->value(), 3.0);
}

TEST(Stitches, HaveUsAndUkNames) {
    EXPECT_EQ(stitch_kind("htr", Craft::crochet, Terms::uk), "hdc");
    EXPECT_EQ(stitch_kind("dc", Craft::crochet, Terms::uk), "sc");
    EXPECT_EQ(stitch_kind(" DC ", Craft::crochet, Terms::us), "dc");
    EXPECT_EQ(stitch_kind("double crochet", Craft::crochet, Terms::us), "dc");
    EXPECT_EQ(stitch_kind("tr3tog", Craft::crochet, Terms::uk), "dc3tog");
    EXPECT_FALSE(stitch_kind("htr", Craft::crochet, Terms::us));
    EXPECT_FALSE(stitch_kind("linen stitch", Craft::crochet, Terms::us));
}

}  // namespace
}  // namespace skeinfall::project
