// Loops from gauge and yarn. Constants of Munden and Peirce are from memory, as their table says;
// values of "our own models" were worked out there by script.

#include "skeinfall/need/loop_model.hpp"

#include <gtest/gtest.h>

#include "skeinfall/need/need.hpp"
#include "skeinfall/need/unknown_stitches.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using need::Relaxation;
using units::centimetre;
using units::gram;
using units::inch;
using units::metre;
using units::millimetre;

const units::Length loop_width = 0.5 * centimetre;
const units::Length loop_height = 10.0 / 28.0 * centimetre;

// 20 stitches and 28 rows to 10 cm, ks 19.0, 21.6, 23.1.
TEST(LoopModel, MundensLoopInThreeStates) {
    EXPECT_NEAR(need::munden_loop(loop_width, loop_height, Relaxation::dry) / centimetre, 1.84197,
                1e-5);
    EXPECT_NEAR(need::munden_loop(loop_width, loop_height, Relaxation::wet) / centimetre, 1.96396,
                1e-5);
    EXPECT_NEAR(need::munden_loop(loop_width, loop_height, Relaxation::full) / centimetre, 2.03101,
                1e-5);
}

// The same in wet state at 500 tex: 10.998 cm of yarn a sq cm, 549.91 g a sq m.
TEST(LoopModel, LengthAndMassByArea) {
    const units::Length loop = need::munden_loop(loop_width, loop_height, Relaxation::wet);
    const units::YarnPerArea by_area = loop / (loop_width * loop_height);
    EXPECT_NEAR(by_area * centimetre, 10.998, 5e-4);
    EXPECT_NEAR(by_area * (500.0 * gram / (1000.0 * metre)) / (gram / (metre * metre)), 549.91,
                5e-3);
}

// A published worked example: loops of 5 mm in fully relaxed plain knitting lie 5.5 x 4.2 / 0.25 =
// 92.4 to the sq cm (source S156 of the reference list "exam answer with the constants").
TEST(LoopModel, LoopDensityOfAWorkedExample) {
    const double density = 92.4;
    const units::Length side = centimetre / std::sqrt(density);
    EXPECT_NEAR(need::munden_loop(side, side, Relaxation::full) / millimetre, 5.0, 1e-9);
}

// Published rules for a plain knitted row are three to four times its width (sources S151, S154).
TEST(LoopModel, APlainRowTakesThreeToFourWidths) {
    const double times = need::munden_loop(loop_width, loop_height, Relaxation::wet) / loop_width;
    EXPECT_GT(times, 3.0);
    EXPECT_LT(times, 4.2);
}

// A yarn 1.1783 mm thick, rounded as given.
TEST(LoopModel, PeircesLoop) {
    EXPECT_NEAR(need::peirce_loop(loop_width, loop_height, 0.11783 * centimetre) / centimetre,
                1.91422, 5e-5);
}

// 500 tex of wool packed to 0.35: 1.1783 mm (our own models).
TEST(LoopModel, DiameterOfAHandYarn) {
    EXPECT_NEAR(need::hand_yarn_diameter(200.0 * metre / (100.0 * gram), {}) / millimetre, 1.1783,
                1e-4);
}

// Our own models: stitches 6.6 mm wide of a yarn 1.2 mm thick.
TEST(LoopModel, CrochetPaths) {
    const auto path = [](const char* named, double high) {
        return *need::crochet_loop(named, 6.6 * millimetre, high * millimetre, 1.2 * millimetre) /
               millimetre;
    };
    EXPECT_NEAR(path("sc", 5.8), 45.53, 0.01);
    EXPECT_NEAR(path("hdc", 8.5), 63.19, 0.01);
    EXPECT_NEAR(path("dc", 12.0), 79.01, 0.01);
    EXPECT_NEAR(path("tr", 16.5), 108.09, 0.01);
    EXPECT_FALSE(need::crochet_loop("shell", loop_width, loop_height, loop_width).has_value());
    // thesnugglery.net/?p=392: equal lengths of yarn, equal widths: 4.00 in of single against
    // 4.75 in of double or treble crochet.
    EXPECT_NEAR(path("dc", 12.0) / 12.0 / (path("sc", 5.8) / 5.8), 4.00 / 4.75, 0.01);
    EXPECT_NEAR(path("tr", 16.5) / 16.5 / (path("sc", 5.8) / 5.8), 4.00 / 4.75, 0.01);
}

// interweave.com, "yarn usage, an experiment": 20 x 20 single crochet 6.25 x 5.75 in, 19 g. At an
// assumed 0.75 g a metre it is 1.79 mm thick by the knitted swatch beside it, and a stitch took
// 5.955 cm (arithmetic ours): the model is within its band.
TEST(LoopModel, APublishedSwatchLiesInTheBand) {
    const double model =
        *need::crochet_loop("sc", 6.25 / 20.0 * inch, 5.75 / 20.0 * inch, 1.79 * millimetre) /
        centimetre;
    EXPECT_NEAR(model, 6.141, 5e-3);
    EXPECT_NEAR(model / 5.955, 1.0, need::crochet_model_spread.value());
}

project::Project bare(project::Craft craft, const std::string& named) {
    project::Project out = support::rectangle(100, 50);
    out.craft = craft;
    out.gauge.stitch = named;
    out.pieces[0].bind_off_rows = units::Ratio(0.0);
    return out;
}

TEST(LastResort, OthersMakesStandInForAll) {
    project::Project made = bare(project::Craft::crochet, "sc");
    made.roles[0].grist = support::grist("200 m / 100 g");
    const need::RoleNeed without_tool = need::need_of(made, 0).roles[0];
    EXPECT_EQ(without_tool.source, need::Source::makes_like_it);
    made.gauge.hook = 5.0 * millimetre;
    const need::RoleNeed with_tool = need::need_of(made, 0).roles[0];
    EXPECT_LT(with_tool.length.relative(), without_tool.length.relative());
    EXPECT_GT(with_tool.length.relative().value(), 0.2);
    EXPECT_THAT(with_tool.notes, ::testing::ElementsAre(::testing::HasSubstr("a guess")));
    made.roles[0].total_length = project::PerSize<units::Length>(100.0 * metre);
    EXPECT_EQ(need::need_of(made, 0).roles[0].source, need::Source::stated_total);
    EXPECT_EQ(need::need_of(made, 0).roles[0].evidence.size(), 2U);
}

TEST(LastResort, AClassAloneWidensTheBand) {
    project::Project made = bare(project::Craft::crochet, "sc");
    made.roles[0].weight = yarn::WeightClass{2};
    const need::RoleNeed need = need::need_of(made, 0).roles[0];
    EXPECT_EQ(need.source, need::Source::makes_like_it);
    EXPECT_GT(need.length.relative().value(), 0.23);
    EXPECT_EQ(need.causes.size(), 4U);  // hands, the stitch, the thickness, the hook
}

TEST(LastResort, KnittingNeedsItsGaugeOnly) {
    const project::Project plain = bare(project::Craft::knit, "stockinette");
    const double known = need::need_of(plain, 0).roles[0].length.relative().value();
    EXPECT_GT(known, 0.2);
    const project::Project strange = bare(project::Craft::knit, "fern knots");
    EXPECT_GT(need::need_of(strange, 0).roles[0].length.relative().value(), known);
}

TEST(LastResort, WhatNothingTellsIsRefused) {
    EXPECT_THROW(static_cast<void>(need::need_of(bare(project::Craft::crochet, "sc"), 0)),
                 base::InputError);
    project::Project strange = bare(project::Craft::crochet, "fen stitch");
    strange.roles[0].grist = support::grist("200 m / 100 g");
    // A stitch that nobody knows gets a figure only where one is asked for despite it: the widest.
    EXPECT_THROW(static_cast<void>(need::need_of(strange, 0)), base::InputError);
    const need::RoleNeed wide = need::need_of(need::with_plain_stitches(strange), 0).roles[0];
    strange.gauge.stitch = "sc";
    EXPECT_GT(wide.length.relative(), need::need_of(strange, 0).roles[0].length.relative());
}

}  // namespace
