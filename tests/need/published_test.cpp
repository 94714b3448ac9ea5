// Needs worked out on published pages and in our own models, value by value.

#include <cmath>
#include <cstdint>
#include <map>

#include <gtest/gtest.h>

#include "skeinfall/need/need.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using need::Purpose;
using support::part_of;
using units::centimetre;
using units::gram;
using units::inch;
using units::metre;
using units::yard;

double in_inches(units::Length length) {
    return length / inch;
}

// windchilde.com/bluedepth/tag/crochet ("Crochet yarn estimating"): 5 x 5 in of half double take
// 802 in of yarn, 32.08 in per sq in; a 34 x 34 in square takes 37 084.5 in and its foundation
// 585.5 in. Together 37 670 in = 1046.4 yd (arithmetic ours).
TEST(PublishedNeed, HalfDoubleSquareByAreaRate) {
    project::Project square = support::rectangle(34 * 6, 34 * 2);
    square.tail = units::Length{};
    square.roles[0].area_rate = 32.08 * inch / (inch * inch);
    project::FinishPart foundation;
    foundation.kind = project::PartKind::other;
    foundation.name = "foundation";
    foundation.role = "MC";
    foundation.yarn = project::PerSize<units::Length>(585.48 * inch);
    square.finish = {foundation};

    const need::MakeNeed make = need::need_of(square, 0);
    ASSERT_EQ(make.roles.size(), 1U);
    const need::RoleNeed& need = make.roles[0];
    EXPECT_NEAR(in_inches(part_of(need, Purpose::body)), 37084.5, 0.05);
    EXPECT_NEAR(in_inches(part_of(need, Purpose::other)), 585.48, 1e-9);
    EXPECT_NEAR(in_inches(need.length.centre), 37670.0, 0.05);
    EXPECT_NEAR(need.length.centre / yard, 1046.4, 0.05);
    EXPECT_EQ(need.source, need::Source::stated_rate);
}

// The same page: a one-row strip 5 in long takes 53 in in single and 102 in in double crochet, so
// a UK pattern's double worked as a US double takes 1.9 times the yarn (arithmetic ours).
TEST(PublishedNeed, StripRatesPerRow) {
    project::Project strip = support::rectangle(15, 1);
    strip.roles[0].rate = units::YarnPerStitch(53.0 * inch / (15.0 * units::stitch));
    const units::Length single = need::need_of(strip, 0).roles[0].length.centre;
    EXPECT_NEAR(in_inches(single) / 5.0, 10.6, 1e-9);
    strip.roles[0].rate = units::YarnPerStitch(102.0 * inch / (15.0 * units::stitch));
    const units::Length twice = need::need_of(strip, 0).roles[0].length.centre;
    EXPECT_NEAR(twice / single, 1.92, 0.005);
}

// The same page: a chain takes 5.1 in per inch against 10.6 for a row of single crochet. The page
// prints 4.8; its own 25.5 in for 5 in of chain give 5.1 (arithmetic ours).
TEST(PublishedNeed, FoundationChainIsAboutHalfARow) {
    project::Project strip = support::rectangle(15, 1);
    strip.pieces[0].foundation_rows.reset();
    strip.roles[0].rate = units::YarnPerStitch(53.0 * inch / (15.0 * units::stitch));
    const need::RoleNeed need = need::need_of(strip, 0).roles[0];
    EXPECT_NEAR(in_inches(part_of(need, Purpose::foundation)), 25.5, 0.1);
}

// Knitters' forum, forum.knittinghelp.com/t/73743: a bind-off takes one and a half rows.
TEST(PublishedNeed, BindOffIsOneAndAHalfRows) {
    project::Project strip = support::rectangle(40, 10);
    strip.craft = project::Craft::knit;
    strip.roles[0].rate = units::YarnPerStitch(2.0 * centimetre / units::stitch);
    const need::RoleNeed need = need::need_of(strip, 0).roles[0];
    EXPECT_NEAR(part_of(need, Purpose::bind_off) / centimetre, 120.0, 1e-9);
}

/// 9600 sq cm at 30 sts to 15.0 cm in width and 24 rows to 14.2 cm, in exact row and stitch counts.
project::Project swatched_blanket() {
    constexpr double rows = 200;
    constexpr double stitches = 170;
    const units::Length length = rows / 24.0 * 14.2 * centimetre;
    const units::Length width = 9600.0 * centimetre * centimetre / length;
    project::Project blanket = support::rectangle(170, 200);
    blanket.gauge.rows = 24.0 * units::row / (14.2 * centimetre);
    blanket.gauge.stitches = stitches * units::stitch / width;
    blanket.roles[0].grist = support::grist("210 m / 100 g");
    project::Swatch swatch;
    swatch.role = "MC";
    swatch.width = 15.0 * centimetre;
    swatch.height = 14.2 * centimetre;
    swatch.weighing =
        measure::Weighing{support::grams(14.4), support::grams(0.1), support::grams(2.0)};
    blanket.swatches = {swatch};
    return blanket;
}

// Worked example of ours (own, confirmed by Monte Carlo): 12.4 g of swatch, 0.1 g scale with a
// tare, 15.0 x 14.2 cm, 9600 sq cm to make, 3 % from row to row over 24 rows, 3 % drift:
// 558.873 g, u 17.908 g; at 210 m / 100 g and a label of +-3.5 %: 1173.63 m, u 44.46 m.
TEST(ModelNeed, SwatchByMassAndTape) {
    const need::RoleNeed need = need::need_of(swatched_blanket(), 0).roles[0];
    ASSERT_TRUE(need.grist.has_value());
    EXPECT_NEAR(need.length.centre / *need.grist / gram, 558.873, 0.001);
    EXPECT_NEAR(need.without_shared().spread / *need.grist / gram, 17.908, 0.001);
    EXPECT_NEAR(need.without_shared().relative().value(), 0.032042, 2e-6);
    EXPECT_NEAR(need.length.centre / metre, 1173.63, 0.01);
    EXPECT_NEAR(need.length.spread / metre, 44.46, 0.01);
    EXPECT_TRUE(need.by_mass);
}

// The same example, cause by cause: d / sqrt(6) for a tared reading (JCGM 100:2008 F.2.2.1, from
// memory), hypot(0.1 / sqrt 12, 0.15 / sqrt 3) cm = 0.09129 cm for each edge.
TEST(ModelNeed, EachCauseOfTheBand) {
    const need::RoleNeed need = need::need_of(swatched_blanket(), 0).roles[0];
    ASSERT_EQ(need.causes.size(), 4U);
    EXPECT_NEAR(need.causes[0].relative.value(), 0.0408248 / 12.4, 1e-7);
    EXPECT_NEAR(need.causes[1].relative.value(), std::hypot(0.09129 / 15.0, 0.09129 / 14.2), 1e-6);
    EXPECT_NEAR(need.causes[2].relative.value(), 0.03 / std::sqrt(24.0), 1e-9);
    EXPECT_NEAR(need.causes[3].relative.value(), 0.03, 1e-12);
    EXPECT_NEAR(need.shared.value(), 0.035 / std::sqrt(3.0), 1e-12);
    for (const need::Cause& cause : need.causes) EXPECT_FALSE(cause.what_narrows_it.empty());
}

// yarnnomads.com, "another reason to swatch", 2016: 87 yd per 50 g, a 6 x 6 in swatch of 4 g,
// 60 x 60 in to make; the page rounds to 720 yd. 696 yd, and 609 to 783 yd by the scale's 1 g step
// alone (arithmetic ours).
TEST(PublishedNeed, BlanketFromAFourGramSwatch) {
    project::Project blanket = support::rectangle(60 * 6, 60 * 2);
    blanket.roles[0].grist = support::grist("87 yd / 50 g");
    project::Swatch swatch;
    swatch.role = "MC";
    swatch.width = 6.0 * inch;
    swatch.height = 6.0 * inch;
    swatch.weighing = support::weighed(4.0, 1.0);
    blanket.swatches = {swatch};
    const need::RoleNeed need = need::need_of(blanket, 0).roles[0];
    EXPECT_NEAR(need.length.centre / yard, 696.0, 0.01);
    const double half_width = need.causes[0].relative.value() * std::sqrt(3.0);
    EXPECT_NEAR(696.0 * (1.0 - half_width), 609.0, 0.1);
    EXPECT_NEAR(696.0 * (1.0 + half_width), 783.0, 0.1);
}

// interweave.com, "yarn usage, an experiment": 20 x 20 stitches weigh 9 g knit, 19 g in single and
// 28 g in half double crochet. Per stitch 22.5, 47.5, 70 mg (arithmetic ours).
TEST(PublishedNeed, YarnPerStitchOfCountedSwatches) {
    const std::map<double, double> mg_by_mass{{9.0, 22.5}, {19.0, 47.5}, {28.0, 70.0}};
    for (const auto& [mass, mg] : mg_by_mass) {
        project::Project one = support::rectangle(1, 1);
        one.roles[0].grist = support::grist("100 m / 100 g");
        project::Swatch swatch;
        swatch.role = "MC";
        swatch.stitches = 20.0 * units::stitch;
        swatch.rows = 20.0 * units::row;
        swatch.weighing = support::weighed(mass, 1.0);
        one.swatches = {swatch};
        const need::RoleNeed need = need::need_of(one, 0).roles[0];
        EXPECT_NEAR(need.length.centre / *need.grist / gram * 1000.0, mg, 1e-9);
    }
}

/// Stitches worked up to and with a row, through the need at one inch a stitch.
double stitches_until(const need::MakeNeed& make, std::int64_t row) {
    double sum = 0.0;
    for (const need::Step& step : make.steps)
        if (step.row <= row) sum += in_inches(step.yarn);
    return sum;
}

// cromulentknitter.blogspot.com, "math for doilies and shawls, part 2", 2006: 16 rounds of 8, 8,
// 16, 16 ... 64, 64 stitches are 576; 160 after round 8, half of them after round 11.
TEST(PublishedNeed, DoilyByRounds) {
    project::Project doily = support::rectangle(8, 16);
    doily.pieces[0].worked = project::Worked::round;
    doily.pieces[0].increase = project::PerSize<std::int64_t>(8);
    doily.pieces[0].every = 2;
    doily.roles[0].rate = units::YarnPerStitch(inch / units::stitch);
    const need::MakeNeed make = need::need_of(doily, 0);
    EXPECT_NEAR(in_inches(make.roles[0].length.centre), 576.0, 1e-9);
    EXPECT_NEAR(stitches_until(make, 8), 160.0, 1e-9);
    EXPECT_NEAR(stitches_until(make, 11), 288.0, 1e-9);
}

// Worked example of ours: 7 stitches, 4 more every second row: 10 500
// stitches in 100 rows, 10 707 in 101; .2619 of them after row 50, .5140 after row 71.
TEST(ModelNeed, TriangleTotals) {
    project::Project triangle = support::rectangle(7, 101);
    triangle.pieces[0].increase = project::PerSize<std::int64_t>(4);
    triangle.pieces[0].every = 2;
    triangle.roles[0].rate = units::YarnPerStitch(inch / units::stitch);
    const need::MakeNeed make = need::need_of(triangle, 0);
    EXPECT_NEAR(in_inches(make.roles[0].length.centre), 10707.0, 1e-6);
    EXPECT_NEAR(stitches_until(make, 100), 10500.0, 1e-6);
    EXPECT_NEAR(stitches_until(make, 50) / 10500.0, 0.2619, 1e-4);
    EXPECT_NEAR(stitches_until(make, 71) / 10500.0, 0.5140, 1e-4);
}

/// easyknittingpatterns.org, "figuring out how much yarn to buy": 64 bands of 4 rows, 32 in A, 24
/// in B, 8 in C, 34 x 45 in, from a chart value of 2660 yd for 3600 sq in.
project::Project banded_afghan() {
    project::Project afghan = support::rectangle(136, 256);
    afghan.gauge.stitches = 136.0 * units::stitch / (34.0 * inch);
    afghan.gauge.rows = 256.0 * units::row / (45.0 * inch);
    afghan.roles = {support::role("A"), support::role("B"), support::role("C")};
    for (project::Role& role : afghan.roles)
        role.area_rate = 2660.0 * yard / (3600.0 * inch * inch);
    afghan.pieces[0].role.clear();
    afghan.pieces[0].stripes = {{"A", 4}, {"B", 4}, {"A", 4}, {"B", 4},
                                {"A", 4}, {"B", 4}, {"A", 4}, {"C", 4}};
    return afghan;
}

// 1530 / 3600 x 2660 = 1130.5 yd (the page has 1133), shared 32 : 24 : 8 (arithmetic ours).
TEST(PublishedNeed, BandsShareTheYarn) {
    const need::MakeNeed make = need::need_of(banded_afghan(), 0);
    ASSERT_EQ(make.roles.size(), 3U);
    const double total = 1130.5;
    EXPECT_NEAR(part_of(make.roles[0], Purpose::body) / yard, total * 32 / 64, 1e-6);
    EXPECT_NEAR(part_of(make.roles[1], Purpose::body) / yard, total * 24 / 64, 1e-6);
    EXPECT_NEAR(part_of(make.roles[2], Purpose::body) / yard, total * 8 / 64, 1e-6);
}

// Four rows of 45/256 in are 1.8 cm, so A is always carried; B is cut where C comes between (12
// rows), C every time (28 rows). Worked example of ours for the limit of 2.5 cm.
TEST(PublishedNeed, BandsThatRestTooLongAreCut) {
    const need::MakeNeed make = need::need_of(banded_afghan(), 0);
    EXPECT_EQ(make.roles[0].runs, 1);
    EXPECT_EQ(make.roles[1].runs, 8);
    EXPECT_EQ(make.roles[2].runs, 8);
    EXPECT_NEAR(part_of(make.roles[2], Purpose::tails) / centimetre, 7 * 2 * 15.0, 1e-9);
}

/// Stripes of equal depth in `colours` yarns, rows of .35 cm, 10 full repeats.
need::RoleNeed first_colour(int colours, std::int64_t rows_each, project::Worked worked) {
    project::Project scarf = support::rectangle(20, 10 * colours * rows_each);
    scarf.gauge.rows = units::row / (0.35 * centimetre);
    scarf.roles.clear();
    scarf.pieces[0].worked = worked;
    for (int i = 0; i < colours; ++i) {
        const std::string id = "C" + std::to_string(i + 1);
        scarf.roles.push_back(support::role(id));
        scarf.roles.back().rate = units::YarnPerStitch(centimetre / units::stitch);
        scarf.pieces[0].stripes.push_back({id, rows_each});
    }
    return need::need_of(scarf, 0).roles[0];
}

// Worked example of ours (own): rows of .35 cm, a strand carried over 2, 4 rows takes .0084, .0168
// m; over 8 rows (2.8 cm) the yarn is cut; in the round 7 rows (2.45 cm) are carried still.
TEST(ModelNeed, CarryOrCutByHeight) {
    using project::Worked;
    const need::RoleNeed two = first_colour(2, 2, Worked::flat);
    EXPECT_EQ(two.runs, 1);
    EXPECT_NEAR(part_of(two, Purpose::carried) / metre, 9 * 0.0084, 1e-9);
    EXPECT_EQ(part_of(two, Purpose::tails), units::Length{});
    const need::RoleNeed four = first_colour(2, 4, Worked::flat);
    EXPECT_NEAR(part_of(four, Purpose::carried) / metre, 9 * 0.0168, 1e-9);
    const need::RoleNeed eight = first_colour(2, 8, Worked::flat);
    EXPECT_EQ(eight.runs, 10);
    EXPECT_EQ(part_of(eight, Purpose::carried), units::Length{});
    EXPECT_NEAR(part_of(eight, Purpose::tails) / metre, 9 * 2 * 0.15, 1e-9);
    EXPECT_EQ(first_colour(2, 7, Worked::round).runs, 1);
    EXPECT_EQ(first_colour(2, 7, Worked::flat).runs, 10);
}

// ascatteredcreative.com, "knitting with hand-dyed yarns", and cabinfeverknittingdesigns.blogspot
// .com, 2013: worked flat a yarn waits at the right edge after an even number of other rows. So
// 1/1 fails, 2/2, 1/1/1, 2/2/2 and 3/3/3 work, 1/1/1/1 fails; in the round all work.
TEST(PublishedNeed, FlatStripesNeedAnEvenGap) {
    using project::Worked;
    EXPECT_EQ(first_colour(2, 1, Worked::flat).runs, 10);
    EXPECT_EQ(first_colour(2, 2, Worked::flat).runs, 1);
    EXPECT_EQ(first_colour(3, 1, Worked::flat).runs, 1);
    EXPECT_EQ(first_colour(3, 2, Worked::flat).runs, 1);
    EXPECT_EQ(first_colour(3, 3, Worked::flat).runs, 1);
    EXPECT_EQ(first_colour(4, 1, Worked::flat).runs, 10);
    EXPECT_EQ(first_colour(2, 1, Worked::round).runs, 1);
    EXPECT_EQ(first_colour(4, 1, Worked::round).runs, 1);
}

// An inch more width is six chains, an inch more length two rows, at 6 sts and 2 rows to the
// inch (common practice, no source).
TEST(PublishedNeed, AnInchMoreOfTheWrap) {
    project::Project wrap = support::rectangle(0, 0);
    project::Piece& piece = wrap.pieces[0];
    piece.stitches = {};
    piece.rows = {};
    const auto counts = [&](double width, double length) {
        piece.width = project::PerSize<units::Length>(width * inch);
        piece.length = project::PerSize<units::Length>(length * inch);
        return project::counts(wrap, piece, 0);
    };
    EXPECT_EQ(counts(9, 60).stitches - counts(8, 60).stitches, 6);
    EXPECT_EQ(counts(8, 61).rows - counts(8, 60).rows, 2);
}

}  // namespace
