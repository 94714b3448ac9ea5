// What finished makes teach of a hand. Worked by hand beside each case.

#include "skeinfall/need/teach.hpp"

#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/hand_toml.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/need/need.hpp"

namespace {

using namespace skeinfall;

project::TaughtByMake taught(const char* title, double times, double noise) {
    return {title, "MC", units::Ratio(times), units::Ratio(noise)};
}

// 1 / 0.12^2 is 69.44, 1 / 0.16^2 is 39.06: the mean of logarithms is 39.06 / 108.51 of ln 0.9.
TEST(Hand, OneMakeMovesItPartly) {
    const project::Hand hand = project::hand_from({taught("cowl", 0.9, 0.16)});
    EXPECT_NEAR(hand.times.value(), std::exp(0.36 * std::log(0.9)), 1e-4);
    EXPECT_NEAR(hand.spread.value(), 1.0 / std::sqrt(108.507), 1e-5);
    EXPECT_EQ(hand.makes, 1);
    const project::Hand nobody = project::hand_from({});
    EXPECT_DOUBLE_EQ(nobody.times.value(), 1.0);
    EXPECT_NEAR(nobody.spread.value(), 0.12, 1e-12);
}

TEST(Hand, AFarMakeIsSeen) {
    const project::Hand others =
        project::hand_from({taught("cowl", 0.95, 0.1), taught("hat", 0.97, 0.1)});
    EXPECT_GT(project::off_from(others, taught("shawl", 2.0, 0.1)), project::far_off);
    EXPECT_LT(project::off_from(others, taught("shawl", 1.05, 0.1)), project::far_off);
}

const char* const scarf = R"(title = "Fen scarf"
craft = "crochet"
[gauge]
stitches = "13 per 10 cm"
rows = "8 per 10 cm"
stitch = "hdc"
hook = "5.5 mm"
[yarn.MC]
class = 4
grist = "200 m / 100 g"
total = "300 m"
[[piece]]
name = "scarf"
stitches = 26
rows = 120
)";

// What the project says of its own yarn is set aside, and what was used is held against the rest.
TEST(Hand, AMakeTeachesByWhatOthersLetExpect) {
    const project::Project project = exchange::parse_project(scarf, "fen.toml");
    const need::Lesson one =
        need::lesson_of(project, 0, "MC", 100.0 * units::metre, units::Ratio(0.04));
    const need::Lesson two =
        need::lesson_of(project, 0, "MC", 200.0 * units::metre, units::Ratio(0.04));
    EXPECT_EQ(one.expected.centre.value(), two.expected.centre.value());
    EXPECT_NEAR(two.taught.times.value() / one.taught.times.value(), 2.0, 1e-9);
    EXPECT_GE(one.taught.noise.value(), 0.05);
    EXPECT_THROW(static_cast<void>(
                     need::lesson_of(project, 0, "CC1", 100.0 * units::metre, units::Ratio(0.04))),
                 base::InputError);
}

// Taught that it takes a tenth less, the next make of the same kind is told as that much less, and
// surer.
TEST(Hand, ItIsUsedInTheNextPrior) {
    project::Project project = exchange::parse_project(scarf, "fen.toml");
    project.roles[0].total_length = {};
    const need::MakeNeed before = need::need_of(project, 0);
    project.hand = project::hand_from(
        {taught("a", 0.9, 0.05), taught("b", 0.9, 0.05), taught("c", 0.9, 0.05)});
    const need::MakeNeed after = need::need_of(project, 0);
    const auto& was = before.roles.at(0).length;
    const auto& now = after.roles.at(0).length;
    EXPECT_NEAR(now.centre / was.centre, project.hand->times.value(), 0.02);
    EXPECT_LT(now.relative(), was.relative());
}

TEST(Hand, ItsFileIsReadAsItWasWritten) {
    const std::vector<project::TaughtByMake> makes{
        taught("Mother's \"best\" \\ cowl", 0.9432, 0.16), taught("Mütze", 1.07, 0.2)};
    const auto again = exchange::parse_hand(exchange::hand_text(makes), "hand.toml");
    ASSERT_EQ(again.size(), 2U);
    for (std::size_t i = 0; i < 2; ++i) {
        EXPECT_EQ(again[i].make, makes[i].make);
        EXPECT_NEAR(again[i].times.value(), makes[i].times.value(), 1e-4);
    }
    for (const char* text :
         {"[[make]]\n",
          "[[make]]\ntitle = \"a\"\nyarn = \"MC\"\ntimes = \"0 %\"\nnoise = \"1 %\"\n",
          "hand = 3\n"})
        EXPECT_THROW(static_cast<void>(exchange::parse_hand(text, "hand.toml")), base::InputError)
            << text;
}

RC_GTEST_PROP(Hand, MoreMakesNeverMakeItLessSure, ()) {
    std::vector<project::TaughtByMake> makes;
    double spread = project::unknown_hand.value();
    const int count = *rc::gen::inRange(1, 8);
    for (int i = 0; i < count; ++i) {
        makes.push_back(taught(i % 2 == 0 ? "a" : "b", 0.5 + 0.01 * *rc::gen::inRange(0, 150),
                               0.05 + 0.01 * *rc::gen::inRange(0, 40)));
        const project::Hand hand = project::hand_from(makes);
        RC_ASSERT(hand.spread.value() < spread);
        spread = hand.spread.value();
    }
}

}  // namespace
