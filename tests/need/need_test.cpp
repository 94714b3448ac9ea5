// Where a need comes from, what it is made of, and what is refused.

#include "skeinfall/need/need.hpp"

#include <cstdint>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using need::Purpose;
using support::part_of;
using ::testing::HasSubstr;
using units::centimetre;
using units::inch;
using units::metre;
using units::yard;

project::Swatch counted_swatch(double stitches, double rows, double yarn_m) {
    project::Swatch swatch;
    swatch.role = "MC";
    swatch.stitches = stitches * units::stitch;
    swatch.rows = rows * units::row;
    swatch.yarn = yarn_m * metre;
    return swatch;
}

/// The one problem of a project that cannot be planned.
base::Problem problem_of(const project::Project& project) {
    try {
        static_cast<void>(need::need_of(project, 0));
    } catch (const base::InputError& error) {
        EXPECT_EQ(error.problems().size(), 1U);
        return error.problems().front();
    }
    ADD_FAILURE() << "no InputError";
    return {};
}

project::FinishPart finish(project::PartKind kind, const std::string& role) {
    project::FinishPart part;
    part.kind = kind;
    part.name = "finishing";
    part.role = role;
    return part;
}

TEST(Need, NothingSaidIsRefusedWithARemedy) {
    const base::Problem problem = problem_of(support::rectangle(25, 120));
    EXPECT_THAT(problem.what, HasSubstr("MC"));
    EXPECT_EQ(problem.place.file, "wrap.toml");
    EXPECT_FALSE(problem.expected.empty());
    EXPECT_THAT(problem.remedy, HasSubstr("[[swatch]]"));
    EXPECT_THAT(problem.remedy, HasSubstr("[yarn.MC]"));
}

TEST(Need, MassWithoutGristIsRefused) {
    project::Project total = support::rectangle(25, 120);
    total.roles[0].total_mass = project::PerSize<units::Mass>(7.0 * units::ounce);
    EXPECT_THAT(problem_of(total).what, HasSubstr("total by weight but no length per weight"));
    EXPECT_THAT(problem_of(total).remedy, HasSubstr("grist"));

    project::Project swatched = support::rectangle(25, 120);
    swatched.swatches = {counted_swatch(20, 20, 1.0)};
    swatched.swatches[0].yarn.reset();
    swatched.swatches[0].weighing = support::weighed(9.0, 1.0);
    EXPECT_THAT(problem_of(swatched).what, HasSubstr("weighed swatch but no length per weight"));
}

TEST(Need, WhatTellsAlikeIsTakenTogether) {
    project::Project wrap = support::rectangle(10, 10);
    wrap.roles[0].total_length = project::PerSize<units::Length>(52.0 * metre);
    EXPECT_NEAR(need::need_of(wrap, 0).roles[0].length.centre / metre, 52.0, 1e-9);
    EXPECT_EQ(need::need_of(wrap, 0).roles[0].source, need::Source::stated_total);

    // By precision, in logarithms: a total of 8 % weighs as much as a rate of 8 %.
    wrap.roles[0].rate = units::YarnPerStitch(0.48 * metre / units::stitch);
    const need::RoleNeed both = need::need_of(wrap, 0).roles[0];
    EXPECT_NEAR(both.length.centre / metre, std::exp((std::log(52.0) + std::log(48.0)) / 2.0),
                1e-9);
    EXPECT_NEAR(both.length.relative().value(), 1.0 / std::sqrt(156.25 + 156.25), 1e-9);
    EXPECT_EQ(both.source, need::Source::stated_rate) << "of two that weigh alike, the earlier";
    ASSERT_EQ(both.evidence.size(), 2U);
    EXPECT_NEAR(both.evidence[0].weight.value(), 0.5, 1e-12);

    // The maker's own swatch: the pattern's figures are of another hand then, 8 % more.
    wrap.swatches = {counted_swatch(10, 10, 50.0)};
    const need::RoleNeed all = need::need_of(wrap, 0).roles[0];
    EXPECT_EQ(all.source, need::Source::swatch);
    const double swatch = 1.0 / (0.0001 + 0.00009 + 0.0009);
    const double total = 1.0 / (0.0064 + 0.0064);
    const double rate = 1.0 / (0.0064 + 0.0064);
    EXPECT_NEAR(all.length.relative().value(), 1.0 / std::sqrt(swatch + total + rate), 1e-3);
    EXPECT_NEAR(all.evidence[0].weight.value(), swatch / (swatch + total + rate), 1e-9);
}

TEST(Need, WhatContradictsTheRestIsNamedAndWidens) {
    project::Project wrap = support::rectangle(10, 10);
    wrap.roles[0].total_length = project::PerSize<units::Length>(50.0 * metre);
    wrap.swatches = {counted_swatch(10, 10, 80.0)};
    const need::RoleNeed need = need::need_of(wrap, 0).roles[0];
    ASSERT_EQ(need.notes.size(), 1U);
    EXPECT_THAT(need.notes[0], HasSubstr("the stated total contradicts the rest"));
    EXPECT_GT(need.length.relative().value(), 0.06);
    EXPECT_LT(need.length.centre / metre, 80.0);
    EXPECT_TRUE(need.evidence[1].discord);
}

TEST(Need, BandsByWhereTheFigureCameFrom) {
    project::Project wrap = support::rectangle(10, 10);
    wrap.roles[0].total_length = project::PerSize<units::Length>(50.0 * metre);
    EXPECT_NEAR(need::need_of(wrap, 0).roles[0].length.relative().value(), 0.08, 1e-12);
    wrap.roles[0].total_length = {};
    wrap.roles[0].rate = units::YarnPerStitch(0.2 * metre / units::stitch);
    EXPECT_NEAR(need::need_of(wrap, 0).roles[0].length.relative().value(), 0.08, 1e-12);
    wrap.roles[0].rate.reset();
    wrap.swatches = {counted_swatch(10, 9, 3.0)};
    // An unravelled, counted swatch: 1 % of its yarn, 3 % over 9 rows, and 3 % drift.
    EXPECT_NEAR(need::need_of(wrap, 0).roles[0].length.relative().value(),
                std::hypot(0.01, 0.03 / 3.0, 0.03), 1e-12);
    EXPECT_FALSE(need::need_of(wrap, 0).roles[0].by_mass);
    EXPECT_EQ(need::need_of(wrap, 0).roles[0].shared.value(), 0.0);
}

// Two swatches of one count, 16.0 and 24.0 g: at least +-10 %, and the pair is named.
TEST(Need, SwatchesThatDisagreeWiden) {
    project::Project wrap = support::rectangle(100, 10);
    wrap.roles[0].grist = support::grist("200 m / 100 g");
    project::Swatch swatch = counted_swatch(20, 20, 0.0);
    swatch.yarn.reset();
    swatch.weighing = support::weighed(16.0, 0.1);
    wrap.swatches = {swatch, swatch};
    EXPECT_TRUE(need::need_of(wrap, 0).roles[0].notes.empty());
    EXPECT_LT(need::need_of(wrap, 0).roles[0].length.relative().value(), 0.04);
    wrap.swatches[1].weighing = support::weighed(24.0, 0.1);
    const need::RoleNeed need = need::need_of(wrap, 0).roles[0];
    EXPECT_GE(need.length.relative().value(), 0.10);
    ASSERT_EQ(need.notes.size(), 1U);
    EXPECT_THAT(need.notes[0], HasSubstr("swatches 1 and 2 contradict each other"));
}

TEST(Need, SeveralSwatchesAreOneLargeSwatch) {
    project::Project wrap = support::rectangle(100, 10);
    wrap.swatches = {counted_swatch(10, 10, 3.0), counted_swatch(20, 30, 11.0)};
    const need::RoleNeed need = need::need_of(wrap, 0).roles[0];
    EXPECT_NEAR(need.length.centre / metre, 1000.0 * (3.0 + 11.0) / (100.0 + 600.0), 1e-9);
    // 1 % of each length of yarn, and 40 rows together.
    EXPECT_NEAR(need.causes[0].relative.value(), 0.01 * std::hypot(3.0, 11.0) / 14.0, 1e-12);
    EXPECT_NEAR(need.causes[1].relative.value(), 0.03 / std::sqrt(40.0), 1e-12);
    EXPECT_THAT(need.how, HasSubstr("swatches"));
}

TEST(Need, ASwatchOfAnotherGaugeIsNoted) {
    project::Project wrap = support::rectangle(100, 10);
    wrap.swatches = {counted_swatch(30, 20, 5.0)};
    wrap.swatches[0].width = 5.0 * inch;
    EXPECT_TRUE(need::need_of(wrap, 0).roles[0].notes.empty());
    wrap.swatches[0].width = 4.0 * inch;  // 30 sts in 4 in where 6 to the inch are asked for
    ASSERT_EQ(need::need_of(wrap, 0).roles[0].notes.size(), 1U);
    EXPECT_THAT(need::need_of(wrap, 0).roles[0].notes[0], HasSubstr("80 %"));
}

TEST(Need, StatedTotalsByLengthAndByMass) {
    project::Project wrap = support::rectangle(25, 120);
    wrap.pieces[0].foundation_rows.reset();
    wrap.roles[0].total_length = project::PerSize<units::Length>(380.0 * yard);
    const need::RoleNeed by_length = need::need_of(wrap, 0).roles[0];
    EXPECT_NEAR(by_length.length.centre / yard, 380.0, 1e-9);
    EXPECT_NEAR(part_of(by_length, Purpose::foundation) / part_of(by_length, Purpose::body),
                0.48 / 120.0, 1e-12);

    wrap.roles[0].total_length = {};
    wrap.roles[0].total_mass = project::PerSize<units::Mass>(7.0 * units::ounce);
    wrap.roles[0].grist = support::grist("170 yd / 3.5 oz");
    EXPECT_NEAR(need::need_of(wrap, 0).roles[0].length.centre / yard, 340.0, 1e-9);
}

// cozynooksdesigns.com, "calculate yarn yardage", and fiberandfox.com, 2021: weigh before and
// after, 6.0 - 3.7 = 2.3 oz, and convert by the label. At 186 yd / 3 oz: 142.6 yd (arithmetic
// ours).
TEST(Need, TotalWeighedBeforeAndAfter) {
    project::Project hat = support::rectangle(60, 40);
    hat.roles[0].total_mass =
        project::PerSize<units::Mass>(6.0 * units::ounce - 3.7 * units::ounce);
    hat.roles[0].grist = support::grist("186 yd / 3 oz");
    EXPECT_NEAR(need::need_of(hat, 0).roles[0].length.centre / yard, 142.6, 1e-9);
}

// nordicmart.blogspot.com, 2014: a total that counts whole skeins was rounded up already.
TEST(Need, WholeSkeinTotalsSaySo) {
    project::Project wrap = support::rectangle(25, 120);
    wrap.roles[0].total_length = project::PerSize<units::Length>(1100.0 * yard);
    EXPECT_TRUE(need::need_of(wrap, 0).roles[0].notes.empty());
    wrap.roles[0].total_basis = project::TotalBasis::whole_skeins;
    const need::RoleNeed need = need::need_of(wrap, 0).roles[0];
    EXPECT_NEAR(need.length.centre / yard, 1100.0, 1e-9);
    EXPECT_THAT(need.how, HasSubstr("whole skeins"));
    ASSERT_EQ(need.notes.size(), 1U);
    EXPECT_THAT(need.notes[0], HasSubstr("up to one skein less"));
}

TEST(Need, FinishingPartsComeOffAStatedTotal) {
    project::Project wrap = support::rectangle(20, 100);
    wrap.tail = units::Length{};
    wrap.roles[0].total_length = project::PerSize<units::Length>(250.0 * metre);
    project::FinishPart fringe = finish(project::PartKind::fringe, "MC");
    fringe.yarn = project::PerSize<units::Length>(50.0 * metre);
    wrap.finish = {fringe};
    const need::MakeNeed make = need::need_of(wrap, 0);
    EXPECT_NEAR(part_of(make.roles[0], Purpose::body) / metre, 200.0, 1e-9);
    EXPECT_NEAR(part_of(make.roles[0], Purpose::fringe) / metre, 50.0, 1e-9);
    EXPECT_NEAR(make.steps[0].yarn / metre, 2.0, 1e-9);

    wrap.roles[0].total_length = project::PerSize<units::Length>(40.0 * metre);
    EXPECT_THAT(problem_of(wrap).what, HasSubstr("more than its stated total"));
    EXPECT_THAT(problem_of(wrap).remedy, HasSubstr("Raise total"));
}

// A stated total is for the whole make, the ends of its stripes included.
TEST(Need, AStatedTotalHoldsItsTails) {
    project::Project scarf = support::rectangle(20, 40);
    scarf.pieces[0].role.clear();
    scarf.pieces[0].stripes = {{"MC", 10}, {"CC", 10}};  // 5 in apart: cut
    scarf.roles.push_back(support::role("CC"));
    for (project::Role& role : scarf.roles)
        role.total_length = project::PerSize<units::Length>(100.0 * metre);
    for (const need::RoleNeed& need : need::need_of(scarf, 0).roles) {
        EXPECT_EQ(need.runs, 2);
        EXPECT_NEAR(part_of(need, Purpose::tails) / metre, 0.3, 1e-12);
        EXPECT_NEAR(need.length.centre / metre, 100.0, 1e-9);
    }
}

// A yarn that only finishes the make: its total is more than the parts that are spelled out.
TEST(Need, AStatedTotalIsNeverCutToItsFinishingParts) {
    project::Project wrap = support::rectangle(20, 100);
    wrap.roles[0].total_length = project::PerSize<units::Length>(200.0 * metre);
    wrap.roles.push_back(support::role("CC"));
    wrap.roles[1].total_length = project::PerSize<units::Length>(30.0 * metre);
    project::FinishPart fringe = finish(project::PartKind::fringe, "CC");
    fringe.yarn = project::PerSize<units::Length>(20.0 * metre);
    wrap.finish = {fringe};
    const need::RoleNeed need = need::need_of(wrap, 0).roles.at(1);
    EXPECT_NEAR(part_of(need, Purpose::fringe) / metre, 20.0, 1e-12);
    EXPECT_NEAR(need.length.centre / metre, 30.0, 1e-9);
}

// A fringe is as long as it is cut, and a border of its own yarn is a fabric like the make's.
TEST(Need, AYarnOfEdgingsAloneNeedsNoSwatch) {
    project::Project wrap = support::rectangle(60, 60);
    wrap.roles[0].rate = units::YarnPerStitch(0.1 * metre / units::stitch);
    wrap.roles.push_back(support::role("CC"));
    project::FinishPart fringe = finish(project::PartKind::fringe, "CC");
    fringe.yarn = project::PerSize<units::Length>(12.0 * metre);
    wrap.finish = {fringe};
    EXPECT_NEAR(need::need_of(wrap, 0).roles.at(1).length.centre / metre, 12.0, 0.7);
    project::FinishPart border = finish(project::PartKind::border, "CC");
    border.rounds = 2;
    border.stitches = project::PerSize<std::int64_t>(500);
    wrap.finish = {border};
    EXPECT_THROW(static_cast<void>(need::need_of(wrap, 0)), base::InputError) << "of what yarn?";
    wrap.roles[1].weight = yarn::WeightClass{4};
    const need::RoleNeed told = need::need_of(wrap, 0).roles.at(1);
    EXPECT_EQ(told.source, need::Source::makes_like_it);
    EXPECT_GT(told.length.centre / metre, 10.0);
}

TEST(Need, AYarnNoPieceUsesKeepsItsStatedTotal) {
    project::Project wrap = support::rectangle(20, 100);
    wrap.roles[0].rate = units::YarnPerStitch(0.1 * metre / units::stitch);
    wrap.roles.push_back(support::role("CC"));
    wrap.roles[1].total_length = project::PerSize<units::Length>(30.0 * metre);
    wrap.roles.push_back(support::role("unused"));
    need::MakeNeed make = need::need_of(wrap, 0);
    ASSERT_EQ(make.roles.size(), 2U) << "a yarn with no piece and no total is left out";
    EXPECT_NEAR(make.roles[1].length.centre / metre, 30.0, 1e-12);
    EXPECT_EQ(make.steps.back().role, "CC");
    EXPECT_EQ(make.steps.back().name, "the make");

    // A swatch has no stitches to apply to: the figure is the total's, and so are its words.
    project::Swatch swatch = counted_swatch(10, 10, 3.0);
    swatch.role = "CC";
    wrap.swatches = {swatch};
    make = need::need_of(wrap, 0);
    EXPECT_NEAR(make.roles[1].length.centre / metre, 30.0, 1e-12);
    EXPECT_EQ(make.roles[1].source, need::Source::stated_total);
    EXPECT_NEAR(make.roles[1].length.relative().value(), 0.08, 1e-12);
}

TEST(Need, FinishingPartsByStitchesLengthAndFactor) {
    project::Project wrap = support::rectangle(20, 100);
    wrap.roles[0].rate = units::YarnPerStitch(2.0 * centimetre / units::stitch);
    project::FinishPart border = finish(project::PartKind::border, "MC");
    border.stitches = project::PerSize<std::int64_t>(240);
    project::FinishPart seam = finish(project::PartKind::seam, "MC");
    seam.length = project::PerSize<units::Length>(40.0 * centimetre);
    project::FinishPart edge = finish(project::PartKind::other, "MC");
    edge.length = project::PerSize<units::Length>(10.0 * centimetre);
    edge.factor = units::Ratio(4.0);
    wrap.finish = {border, seam, edge};
    const need::RoleNeed need = need::need_of(wrap, 0).roles[0];
    EXPECT_NEAR(part_of(need, Purpose::border) / centimetre, 480.0, 1e-9);
    // 2.5 times the seam (common practice, no source).
    EXPECT_NEAR(part_of(need, Purpose::seam) / centimetre, 100.0, 1e-9);
    EXPECT_NEAR(part_of(need, Purpose::other) / centimetre, 40.0, 1e-9);
    // The border goes on with the working yarn; seam and edging begin with an end of their own.
    EXPECT_EQ(need.runs, 3);
    EXPECT_NEAR(part_of(need, Purpose::tails) / centimetre, 2 * 2 * 15.0, 1e-9);
}

TEST(Need, AlikePiecesBeginAnew) {
    project::Project pair = support::rectangle(40, 60);
    pair.pieces[0].foundation_rows.reset();
    pair.pieces[0].count = project::PerSize<std::int64_t>(2);
    pair.roles[0].rate = units::YarnPerStitch(2.0 * centimetre / units::stitch);
    pair.tail = 10.0 * centimetre;
    const need::MakeNeed make = need::need_of(pair, 0);
    const need::RoleNeed& need = make.roles[0];
    EXPECT_EQ(need.runs, 2);
    EXPECT_NEAR(part_of(need, Purpose::body) / metre, 2 * 60 * 40 * 0.02, 1e-9);
    EXPECT_NEAR(part_of(need, Purpose::tails) / metre, 0.2, 1e-12);
    EXPECT_EQ(make.steps.front().copy, 1);
    EXPECT_EQ(make.steps.back().copy, 2);
    EXPECT_EQ(make.steps.back().row, 60);
}

TEST(Need, EverySizeHasItsOwnFigures) {
    project::Project vest = support::rectangle(0, 0);
    vest.sizes = {"S", "M", "L"};
    vest.pieces[0].rows.values = {80, 90, 100};
    vest.pieces[0].stitches.values = {50, 55, 60};
    vest.roles[0].rate = units::YarnPerStitch(2.0 * centimetre / units::stitch);
    project::FinishPart border = finish(project::PartKind::border, "MC");
    border.stitches.values = {100, 110, 120};
    vest.finish = {border};
    const std::vector<double> stitches{80 * 50 + 100, 90 * 55 + 110, 100 * 60 + 120};
    for (std::size_t size = 0; size < 3; ++size) {
        const need::MakeNeed make = need::need_of(vest, size);
        EXPECT_EQ(make.size, size);
        EXPECT_NEAR(make.roles[0].length.centre / metre, stitches[size] * 0.02, 1e-9);
    }
}

TEST(Need, CraftDecidesFoundationAndBindOff) {
    project::Project strip = support::rectangle(50, 10);
    strip.pieces[0].foundation_rows.reset();
    strip.roles[0].rate = units::YarnPerStitch(2.0 * centimetre / units::stitch);
    const need::RoleNeed crochet = need::need_of(strip, 0).roles[0];
    EXPECT_EQ(part_of(crochet, Purpose::bind_off), units::Length{});
    strip.craft = project::Craft::knit;
    const need::MakeNeed knit = need::need_of(strip, 0);
    // A long-tail cast-on takes about two rows, loops and tail: 1.625 in a stitch were measured for
    // both strands (source S162), three widths for the tail alone (S158); a row takes about three.
    EXPECT_NEAR(part_of(knit.roles[0], Purpose::foundation) / metre, 2.0, 1e-9);
    EXPECT_EQ(knit.steps.front().purpose, Purpose::foundation);
    EXPECT_EQ(knit.steps.back().purpose, Purpose::bind_off);
    strip.pieces[0].foundation_rows = units::Ratio(3.0);
    EXPECT_NEAR(part_of(need::need_of(strip, 0).roles[0], Purpose::foundation) / metre, 3.0, 1e-9);
}

TEST(Need, AStatedLengthAloneIsANeed) {
    const need::RoleNeed need = need::stated_need(600.0 * metre);
    EXPECT_EQ(need.length.centre, 600.0 * metre);
    EXPECT_NEAR(need.length.relative().value(), 0.08, 1e-12);
    ASSERT_EQ(need.causes.size(), 1U);
    EXPECT_EQ(need.source, need::Source::stated_total);
    EXPECT_EQ(part_of(need, Purpose::body), 600.0 * metre);
}

}  // namespace
