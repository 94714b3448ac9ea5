// What tells a role's yarn, in which order, and what it comes to.

#include <cmath>
#include <cstdint>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/measure/chance.hpp"
#include "skeinfall/need/check.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/need/worst.hpp"
#include "skeinfall/project/maker_gauge.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using need::Source;
using project::Keeping;
using support::part_of;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using units::centimetre;
using units::inch;
using units::metre;
using units::stitch;
using units::yard;

/// Without tails, so that rows are all there is.
project::Project tailless(std::int64_t stitches, std::int64_t rows) {
    project::Project out = support::rectangle(stitches, rows);
    out.tail = units::Length{};
    return out;
}

project::Gauge sc_gauge_over(double stitches, double rows, units::Length over) {
    project::Gauge out;
    out.stitches = stitches * stitch / over;
    out.rows = rows * units::row / over;
    out.stitch = "sc";
    return out;
}

project::EarlierMake earlier(double area, double yarn) {
    project::EarlierMake out;
    out.role = "MC";
    out.area = area * metre * metre;
    out.yarn = yarn * metre;
    return out;
}

/// Of 0.95 sq m.
project::Project throw_of_095() {
    project::Project out = tailless(95, 100);
    out.gauge.stitches = 100.0 * stitch / metre;
    out.gauge.rows = 100.0 * units::row / metre;
    out.earlier_makes = {earlier(0.62, 610), earlier(0.75, 742), earlier(0.88, 851),
                         earlier(1.02, 1003), earlier(1.20, 1174)};
    return out;
}

// Our own models: five makes, 979.470 m a square metre, s 7.055 m; at 0.95 sq m 930.50 m with the
// upper 95 % bound of Student's t at 947.07 m.
TEST(Rates, EarlierMakesByOrdinaryLeastSquares) {
    const need::RoleNeed need = need::need_of(throw_of_095(), 0).roles[0];
    EXPECT_EQ(need.source, Source::earlier_make);
    EXPECT_NEAR(need.length.centre / metre, 930.50, 5e-3);
    const units::Length sure =
        measure::supply_needed(need.length, units::Length{}, measure::usual_confidence);
    EXPECT_NEAR(sure / metre, 947.07, 0.01);
    EXPECT_THAT(need.how, HasSubstr("979.5 m a square metre"));
    EXPECT_THAT(need.notes, IsEmpty());
}

TEST(Rates, EarlierMakesAreNotStretchedInSilence) {
    project::Project large = throw_of_095();
    large.pieces[0].rows = project::PerSize<std::int64_t>(300);
    const need::RoleNeed need = need::need_of(large, 0).roles[0];
    EXPECT_GT(need.length.relative().value(), 0.10);
    ASSERT_EQ(need.notes.size(), 1U);
    EXPECT_THAT(need.notes[0], HasSubstr("2.4 times the largest"));
}

TEST(Rates, OneEarlierMakeIsNotSureBecauseItIsAlone) {
    project::Project one = throw_of_095();
    one.earlier_makes.resize(1);
    const need::RoleNeed need = need::need_of(one, 0).roles[0];
    EXPECT_NEAR(need.length.centre / metre, 610.0 / 0.62 * 0.95, 1e-9);
    EXPECT_GE(need.length.relative().value(), 0.06);
    one.earlier_makes = {earlier(0.9, 900), earlier(1.0, 1000)};
    EXPECT_GE(need::need_of(one, 0).roles[0].length.relative().value(), 0.03);
}

// Twelve mittens that differ by 9 %: at most +-6 % for twenty-four.
TEST(Rates, TwelveEarlierMakesForTwiceAsMany) {
    project::Project mittens = tailless(40, 50);
    mittens.pieces[0].count = project::PerSize<std::int64_t>(24);
    constexpr std::array<double, 12> off{-14, -11, -8, -6, -3, -1, 1, 3, 6, 8, 11, 14};
    for (const double each : off) {
        project::EarlierMake one;
        one.role = "MC";
        one.stitches = 2000.0 * stitch;
        one.yarn = 40.0 * (1.0 + each / 100.0) * metre;
        mittens.earlier_makes.push_back(one);
    }
    const need::RoleNeed need = need::need_of(mittens, 0).roles[0];
    EXPECT_NEAR(need.length.centre / metre, 24.0 * 40.0, 1e-6);
    EXPECT_LE(need.length.relative().value(), 0.06);
    EXPECT_GE(need.length.relative().value(), 0.03);
    EXPECT_THAT(need.notes, IsEmpty());
}

// The fringe comes on top of what an earlier make's rows took.
// A pair on the scale together is twice the yarn of one, whose size is told.
TEST(Rates, EarlierMakesWeighedTogetherAreTakenOneByOne) {
    project::Project apart = throw_of_095();
    project::Project together = apart;
    for (project::EarlierMake& each : together.earlier_makes) {
        *each.yarn *= 2.0;
        each.count = 2;
    }
    const auto yarn = [](const project::Project& project) {
        return need::need_of(project, 0).roles.front().length.centre.value();
    };
    EXPECT_NEAR(yarn(together), yarn(apart), 1e-9);
}

TEST(Rates, AnEarlierMakeLeavesTheFringeToItself) {
    project::Project plain = throw_of_095();
    const units::Length bare = need::need_of(plain, 0).roles[0].length.centre;
    project::FinishPart fringe;
    fringe.kind = project::PartKind::fringe;
    fringe.role = "MC";
    fringe.yarn = project::PerSize<units::Length>(30.0 * metre);
    plain.finish = {fringe};
    plain.tail = units::Length{};
    EXPECT_NEAR(need::need_of(plain, 0).roles[0].length.centre / metre, bare / metre + 30.0, 1e-6);
    for (project::EarlierMake& each : plain.earlier_makes) each.finish = 30.0 * metre;
    EXPECT_LT(need::need_of(plain, 0).roles[0].length.centre, bare + 5.0 * metre);
}

// A total of 90 rows says nothing of the rows beyond them but their rate.
TEST(Rates, ATotalBelongsToItsRows) {
    project::Project wrap = tailless(50, 90);
    wrap.roles[0].total_length = project::PerSize<units::Length>(450.0 * metre);
    wrap.roles[0].total_for = 90.0 * units::row;
    EXPECT_NEAR(need::need_of(wrap, 0).roles[0].length.centre / metre, 450.0, 1e-9);
    wrap.pieces[0].rows = project::PerSize<std::int64_t>(300);
    EXPECT_NEAR(need::need_of(wrap, 0).roles[0].length.centre / metre, 1500.0, 1e-9);
    project::FinishPart fringe;
    fringe.kind = project::PartKind::fringe;
    fringe.role = "MC";
    fringe.yarn = project::PerSize<units::Length>(30.0 * metre);
    fringe.beyond_total = true;
    wrap.finish = {fringe};
    wrap.tail = units::Length{};
    EXPECT_NEAR(need::need_of(wrap, 0).roles[0].length.centre / metre, 1530.0, 1e-9);
}

// Two yarns held together are used up alike; a total that says more is not outvoted.
TEST(Rates, AYarnHeldWithAnotherIsAsLong) {
    project::Project both = tailless(50, 90);
    both.roles[0].rate = units::YarnPerStitch(0.1 * metre / stitch);
    project::Role other = support::role("CC1");
    other.held_with = "MC";
    both.roles.push_back(other);
    ASSERT_EQ(need::need_of(both, 0).roles.size(), 2U);
    EXPECT_NEAR(need::need_of(both, 0).roles[1].length.centre / metre, 450.0, 1e-9);
    both.roles[1].total_length = project::PerSize<units::Length>(1.0 * metre);
    const need::RoleNeed stated = need::need_of(both, 0).roles[1];
    EXPECT_NEAR(stated.length.centre / metre, 450.0, 1e-9);
    EXPECT_THAT(stated.notes, ElementsAre(HasSubstr("does not agree")));
    both.roles[1].total_length = project::PerSize<units::Length>(700.0 * metre);
    const need::RoleNeed more = need::need_of(both, 0).roles[1];
    EXPECT_NEAR(more.length.centre / metre, 700.0, 1e-9);
    EXPECT_THAT(more.notes, ElementsAre(HasSubstr("the larger is taken")));
    EXPECT_TRUE(need::at_worst(need::need_of(both, 0), both).roles[1].contradictions.empty());
    both.roles[1].total_length = project::PerSize<units::Length>(1000.0 * metre);
    EXPECT_EQ(need::at_worst(need::need_of(both, 0), both).roles[1].contradictions.size(), 1U);
}

// At 6 stitches to the inch for a fabric of 5 a swatch is taken up to the wider stitch, and the
// band tells so.
TEST(Rates, ASwatchAtAnotherGaugeIsTakenUp) {
    project::Project wrap = tailless(50, 90);
    wrap.gauge = sc_gauge_over(5, 5, 1.0 * inch);
    project::Swatch swatch;
    swatch.role = "MC";
    swatch.stitches = 30.0 * stitch;
    swatch.rows = 30.0 * units::row;
    swatch.width = 6.0 * inch;
    swatch.height = 6.0 * inch;
    swatch.yarn = 20.0 * metre;
    wrap.swatches = {swatch};
    const need::RoleNeed same = need::need_of(wrap, 0).roles[0];
    wrap.swatches[0].width = 5.0 * inch;
    const need::RoleNeed tighter = need::need_of(wrap, 0).roles[0];
    EXPECT_NEAR(tighter.length.centre / same.length.centre, std::sqrt(1.2), 1e-9);
    EXPECT_GT(tighter.length.relative().value(), same.length.relative().value() + 0.01);
    EXPECT_EQ(tighter.notes.size(), 1U);
    wrap.swatches[0].width = 7.2 * inch;
    const need::RoleNeed looser = need::need_of(wrap, 0).roles[0];
    EXPECT_NEAR(looser.length.centre / same.length.centre, 1.0, 1e-9);
    EXPECT_GT(looser.length.relative().value(), same.length.relative().value() + 0.01);
}

TEST(Rates, AllIsTakenTogether) {
    project::Project made = throw_of_095();
    made.roles[0].rate = units::YarnPerStitch(0.098 * metre / stitch);
    made.roles[0].total_length = project::PerSize<units::Length>(1000.0 * metre);
    project::Swatch swatch;
    swatch.role = "MC";
    swatch.stitches = 20.0 * stitch;
    swatch.rows = 20.0 * units::row;
    swatch.yarn = 40.0 * metre;
    const auto told = [&] { return need::need_of(made, 0).roles[0]; };
    EXPECT_EQ(told().source, Source::earlier_make);
    ASSERT_EQ(told().passed_over.size(), 2U);
    EXPECT_EQ(told().passed_over[0].name, "the stated rate");
    EXPECT_NEAR(told().passed_over[0].yarn / metre, 931.0, 1e-9);
    EXPECT_EQ(told().passed_over[1].name, "the stated total");
    EXPECT_THAT(told().notes, IsEmpty());

    made.swatches = {swatch};
    ASSERT_EQ(told().evidence.size(), 4U);
    double weights = 0.0;
    for (const need::Evidence& each : told().evidence) weights += each.weight.value();
    EXPECT_NEAR(weights, 1.0, 1e-12);

    // 0.1 m a stitch against 0.2 m: nothing about this was right.
    made.swatches[0].yarn = 80.0 * metre;
    EXPECT_THAT(told().notes, ElementsAre(HasSubstr("your swatch contradicts the rest")));
    EXPECT_GT(told().length.relative().value(), 0.1);
}

// kayewer.net, "by hook", 2018: a throw of 50 in on 60 stitches came out 35 in wide and took 6
// skeins; 80 stitches took 8. At that gauge 50 in are 86 stitches and 8.6 skeins (arithmetic ours).
TEST(Rates, AThrowThatCameOutNarrow) {
    project::Project wide = tailless(60, 100);
    wide.gauge = sc_gauge_over(60, 100, 50.0 * inch);
    project::EarlierMake narrow;
    narrow.role = "MC";
    narrow.stitches = 60.0 * 100.0 * stitch;
    narrow.yarn = 600.0 * yard;  // six skeins
    wide.earlier_makes = {narrow};
    project::Gauge own = wide.gauge;
    own.stitches = 60.0 * stitch / (35.0 * inch);
    project::work_at(wide, own, Keeping::size);
    EXPECT_EQ(project::counts(wide, wide.pieces[0], 0).stitches, 86);
    EXPECT_NEAR(need::need_of(wide, 0).roles[0].length.centre / (100.0 * yard), 8.6, 1e-9);
    EXPECT_NEAR(project::finished_size(wide, wide.pieces[0], 0).width / inch, 50.0, 0.5);
}

// shinyhappyworld.com, 2015: a patch of 2 x 4 in took 16 stitches and 4 rows with a 6 mm hook, 23
// and 5 with 3 mm. Smaller stitches take less yarn each, and the patch takes more.
TEST(Rates, SmallerStitchesByCountAndBySize) {
    project::Project patch = tailless(16, 4);
    patch.gauge = sc_gauge_over(16, 8, 4.0 * inch);
    patch.roles[0].rate = units::YarnPerStitch(2.0 * inch / stitch);
    const units::Length pattern = need::need_of(patch, 0).roles[0].length.centre;
    const auto at = [&](Keeping keeping) {
        project::Project own = patch;
        project::work_at(own, sc_gauge_over(23, 10, 4.0 * inch), keeping);
        return own;
    };
    const project::Project same_size = at(Keeping::size);
    const project::PieceCounts counts = project::counts(same_size, same_size.pieces[0], 0);
    EXPECT_EQ(counts.stitches * counts.rows, 115);
    EXPECT_GT(need::need_of(same_size, 0).roles[0].length.centre, pattern);
    const project::Project same_counts = at(Keeping::stitch_counts);
    EXPECT_LT(need::need_of(same_counts, 0).roles[0].length.centre, pattern);
    EXPECT_LT(project::finished_size(same_counts, same_counts.pieces[0], 0).width, 3.0 * inch);
}

// Our own models: 20 x 28 against 21 x 29 is 0.95893 of the yarn at the same counts and 1.04283 at
// the same size, of a stated total; a stated rate goes by the stitch.
TEST(Rates, AStatedTotalAtTheMakersGauge) {
    project::Project made = tailless(200, 280);
    made.gauge = sc_gauge_over(20, 28, 10.0 * centimetre);
    made.roles[0].total_length = project::PerSize<units::Length>(1000.0 * metre);
    const auto total = [&](Keeping keeping) {
        project::Project own = made;
        project::work_at(own, sc_gauge_over(21, 29, 10.0 * centimetre), keeping);
        return need::need_of(own, 0).roles[0];
    };
    EXPECT_NEAR(total(Keeping::stitch_counts).length.centre / metre, 958.93, 5e-3);
    EXPECT_NEAR(total(Keeping::size).length.centre / metre, 1042.83, 5e-3);
    EXPECT_THAT(total(Keeping::size).notes, ElementsAre(HasSubstr("keeping the size")));
    EXPECT_GT(total(Keeping::size).length.relative().value(), 0.05);
}

TEST(Rates, MeasurementsKeepTheirSizeOrTheirCounts) {
    project::Project made = tailless(0, 0);
    made.gauge = sc_gauge_over(20, 28, 10.0 * centimetre);
    made.pieces[0].stitches = {};
    made.pieces[0].rows = {};
    made.pieces[0].width = project::PerSize<units::Length>(50.0 * centimetre);
    made.pieces[0].length = project::PerSize<units::Length>(100.0 * centimetre);
    made.pieces[0].gauge = sc_gauge_over(10, 14, 10.0 * centimetre);
    const auto counts = [&](Keeping keeping) {
        project::Project own = made;
        project::work_at(own, sc_gauge_over(22, 28, 10.0 * centimetre), keeping);
        return project::counts(own, own.pieces[0], 0);
    };
    // The piece's own gauge goes with the maker's: 11 stitches where the pattern has 10.
    EXPECT_EQ(counts(Keeping::stitch_counts).stitches, 50);
    EXPECT_EQ(counts(Keeping::size).stitches, 55);
    EXPECT_EQ(counts(Keeping::size).rows, 140);
}

TEST(Rates, APieceAtItsOwnGaugeGoesByTheRoomOfAStitch) {
    project::Project made = tailless(100, 10);
    made.gauge = sc_gauge_over(20, 20, 10.0 * centimetre);
    made.roles[0].rate = units::YarnPerStitch(4.0 * centimetre / stitch);
    made.pieces[0].gauge = sc_gauge_over(10, 20, 10.0 * centimetre);
    const need::RoleNeed need = need::need_of(made, 0).roles[0];
    EXPECT_NEAR(part_of(need, need::Purpose::body) / metre, 40.0 * std::sqrt(2.0), 1e-9);
    ASSERT_EQ(need.causes.size(), 2U);  // the rate, and the rule by room
    // A swatch of the piece's stitch settles it.
    made.pieces[0].gauge->stitch = "post rib";
    project::Swatch rib;
    rib.role = "MC";
    made.roles[0].rate.reset();
    rib.stitch = "post rib";
    rib.stitches = 20.0 * stitch;
    rib.rows = 20.0 * units::row;
    rib.yarn = 28.0 * metre;
    made.swatches = {rib};
    EXPECT_NEAR(need::need_of(made, 0).roles[0].length.centre / metre, 70.0, 1e-9);
}

TEST(Rates, FortyFiveStitchesToAMarkedYard) {
    project::Project made = tailless(45, 100);
    project::Swatch swatch;
    swatch.role = "MC";
    swatch.stitches = 45.0 * stitch;
    swatch.yarn = yard;
    swatch.marked = true;
    made.swatches = {swatch};
    const need::RoleNeed need = need::need_of(made, 0).roles[0];
    EXPECT_NEAR(need.length.centre / yard, 100.0, 1e-9);
    EXPECT_THAT(need.how, HasSubstr("45 sts, 1.00 yd marked off"));
    const auto size = std::find_if(need.causes.begin(), need.causes.end(), [](const auto& cause) {
        return cause.name == "the swatch's measured size";
    });
    ASSERT_NE(size, need.causes.end());
    EXPECT_NEAR(size->relative.value(), 1.0 / 45.0 / std::sqrt(12.0), 1e-12);
}

// pandoraknits.blogspot.com, 2009: a ball of 1.2 g and 65 yd weighed 0.99 g after the swatch. The
// page subtracts to 0.3 g and 16.2 yd; it is 0.21 g and 11.4 yd, and 54 yd a gram is no hand yarn
// (arithmetic ours).
TEST(Rates, ASwatchByWhatWasLeftOfTheBall) {
    project::Project made = tailless(10, 10);
    made.roles[0].grist = support::grist("65 yd / 1.2 g");
    project::Swatch swatch;
    swatch.role = "MC";
    swatch.stitches = 10.0 * stitch;
    swatch.rows = 10.0 * units::row;
    swatch.weighing =
        measure::Weighing{support::grams(1.2), support::grams(0.01), support::grams(0.99)};
    swatch.by_rest = true;
    made.swatches = {swatch};
    const need::RoleNeed need = need::need_of(made, 0).roles[0];
    EXPECT_NEAR(need.length.centre / yard, 11.375, 1e-9);
    EXPECT_THAT(need.how, HasSubstr("the ball from 1.2 g to 0.99 g"));
    const project::Findings findings = need::check(made);
    EXPECT_TRUE(std::any_of(findings.begin(), findings.end(), [](const auto& finding) {
        return finding.what.find("finer than any hand yarn") != std::string::npos;
    }));
}

/// Chains and two kinds of stitch; the yarn in metres, of 1 m a gram.
project::Swatch swatch_of_kinds(double ch, double sc, double dc, double grams) {
    project::Swatch out;
    out.role = "MC";
    out.kinds = {{"ch", ch * stitch}, {"sc", sc * stitch}, {"dc", dc * stitch}};
    out.rows = 10.0 * units::row;
    out.weighing = support::weighed(grams, 0.1);
    return out;
}

TEST(Rates, SwatchesOfSeveralKindsTellEachRow) {
    project::Project made = tailless(0, 0);
    made.gauge.stitch = "sc";
    made.roles[0].grist = support::grist("100 m / 100 g");
    made.swatches = {swatch_of_kinds(21, 200, 0, 4.4), swatch_of_kinds(24, 0, 200, 7.0),
                     swatch_of_kinds(40, 100, 100, 5.9)};
    project::WorkedRows rows;
    project::RowWork row;
    row.kinds = {{"ch", 10.0 * stitch}, {"dc", 100.0 * stitch}};
    row.across = 100.0 * stitch;
    rows.distinct = {row};
    rows.order = {0};
    made.pieces[0].pattern = project::PerSize<project::WorkedRows>(rows);
    const need::RoleNeed need = need::need_of(made, 0).roles[0];
    ASSERT_TRUE(need.calibration.has_value());
    const auto rate = [&](const char* kind) {
        return need.calibration->find(kind)->yarn.centre / (metre / stitch);
    };
    // Three swatches, three kinds: they are met to the letter.
    EXPECT_NEAR(21 * rate("ch") + 200 * rate("sc"), 4.4, 1e-9);
    EXPECT_NEAR(need.length.centre / metre, 10 * rate("ch") + 100 * rate("dc"), 1e-9);
    // A kind that no swatch holds goes by the table, from the gauge's stitch.
    made.pieces[0].pattern.values[0].distinct[0].kinds = {{"tr", 100.0 * stitch}};
    const need::RoleNeed treble = need::need_of(made, 0).roles[0];
    EXPECT_NEAR(treble.length.centre / metre,
                100 * rate("sc") * project::relative_yarn("tr")->value(), 1e-9);
    EXPECT_GT(treble.length.relative().value(), 0.15);
}

TEST(Rates, EndsOfASwatchAreTakenOff) {
    project::Project made = tailless(10, 10);
    project::Swatch swatch;
    swatch.role = "MC";
    swatch.stitches = 10.0 * stitch;
    swatch.rows = 10.0 * units::row;
    swatch.yarn = 5.3 * metre;
    swatch.ends = 0.3 * metre;
    made.swatches = {swatch};
    EXPECT_NEAR(need::need_of(made, 0).roles[0].length.centre / metre, 5.0, 1e-9);
    made.swatches[0].ends = 6.0 * metre;
    EXPECT_THROW(static_cast<void>(need::need_of(made, 0)), base::InputError);
}

// thegracefultangle.wixsite.com, a cloth of 26 stitches and 27 rows, 8 stitches and rows to 2 in,
// about 8 x 8 in: by its gauge it is 6.5 x 6.75 in (arithmetic ours).
TEST(Check, APublishedGaugeThatDoesNotGoWithItsSize) {
    project::Project cloth = tailless(26, 27);
    cloth.gauge = sc_gauge_over(8, 8, 2.0 * inch);
    cloth.roles[0].total_length = project::PerSize<units::Length>(60.0 * yard);
    EXPECT_THAT(need::check(cloth), IsEmpty());
    cloth.pieces[0].width = project::PerSize<units::Length>(8.0 * inch);
    cloth.pieces[0].length = project::PerSize<units::Length>(8.0 * inch);
    ASSERT_EQ(need::check(cloth).size(), 2U);
    EXPECT_EQ(need::check(cloth)[1].severity, project::Severity::caution);
}

// Its own swatch says 0.15 m a stitch where its partner's rate says 0.1: 675 m, not 450.
TEST(Rates, TheSwatchOfAYarnHeldWithAnotherIsHeldAgainstIt) {
    project::Project both = tailless(50, 90);
    both.roles[0].rate = units::YarnPerStitch(0.1 * metre / stitch);
    project::Role other = support::role("CC1");
    other.held_with = "MC";
    both.roles.push_back(other);
    project::Swatch swatch;
    swatch.role = "CC1";
    swatch.stitches = 20.0 * stitch;
    swatch.rows = 20.0 * units::row;
    const auto takes = [&](double of_a_stitch) {
        swatch.yarn = 400.0 * of_a_stitch * metre;
        both.swatches = {swatch};
        return need::need_of(both, 0).roles.at(1);
    };
    EXPECT_NEAR(takes(0.15).length.centre / metre, 675.0, 1e-9);
    EXPECT_THAT(takes(0.15).cautions, ElementsAre(HasSubstr("the larger counts")));
    EXPECT_THAT(need::check(both).at(0).what, HasSubstr("the larger counts"));
    // Less than its partner it cannot be, and within their noise they agree.
    EXPECT_NEAR(takes(0.05).length.centre / metre, 450.0, 1e-9);
    EXPECT_THAT(takes(0.05).cautions, ElementsAre(HasSubstr("Check both")));
    EXPECT_THAT(takes(0.102).cautions, IsEmpty());
}

}  // namespace
