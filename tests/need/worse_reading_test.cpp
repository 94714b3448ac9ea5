// A project that can be read in two ways is answered for the worse: a size that the gauge denies,
// a yarn far less than any such fabric takes. Sums ours.

#include <array>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/need/check.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/need/worst.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// 25 sc x 120 rows whose yarn is `widths` widths a row.
project::Project wrap(double widths = 12.0) {
    project::Project out = support::rectangle(25, 120);
    out.gauge.stitch = "sc";
    out.roles[0].rate = units::YarnPerStitch(widths / out.gauge.stitches);
    return out;
}

double metres_of(const project::Project& project) {
    return need::at_worst(need::need_of(project, 0), project).roles.at(0).length.centre /
           units::metre;
}

project::Project with_length(double times, double widths = 12.0) {
    project::Project out = wrap(widths);
    out.pieces[0].length =
        project::PerSize<units::Length>(times * 120.0 * units::row / out.gauge.rows);
    return out;
}

project::Project with_width(double times) {
    project::Project out = wrap();
    out.pieces[0].width =
        project::PerSize<units::Length>(times * 25.0 * units::stitch / out.gauge.stitches);
    return out;
}

TEST(WorseReading, ALengthBeyondItsRowsIsWorkedToItsEnd) {
    EXPECT_NEAR(metres_of(with_length(1.04)), metres_of(wrap()), 1e-9);
    EXPECT_NEAR(metres_of(with_length(1.5)), 1.5 * metres_of(wrap()), 1e-9);
    EXPECT_NEAR(metres_of(with_length(0.7)), metres_of(wrap()), 1e-9);
}

TEST(WorseReading, AWidthBeyondItsStitchesIsWorkedToItsEdge) {
    EXPECT_NEAR(metres_of(with_width(1.25)), 1.25 * metres_of(wrap()), 1e-9);
    EXPECT_NEAR(metres_of(with_width(0.5)), metres_of(wrap()), 1e-9);
}

TEST(WorseReading, AStatedTotalIsForTheWholeHoweverItIsRead) {
    project::Project total = with_length(1.5);
    total.roles[0].rate.reset();
    total.roles[0].total_length = project::PerSize<units::Length>(metres_of(wrap()) * units::metre);
    EXPECT_NEAR(metres_of(total), metres_of(wrap()), 1e-9);
}

TEST(WorseReading, TheCautionSaysWhatWasTaken) {
    const project::Findings longer = need::check_for_planning(with_length(1.5));
    ASSERT_THAT(longer, SizeIs(1));
    EXPECT_EQ(longer[0].severity, project::Severity::caution);
    EXPECT_THAT(longer[0].what, HasSubstr("calculated for the larger, as stated"));
    EXPECT_THAT(need::check_for_planning(with_length(0.7)).at(0).what,
                HasSubstr("calculated for the larger, by the counts"));
    EXPECT_THAT(need::check(with_length(1.5)).at(0).what, Not(HasSubstr("calculated")));
}

// A slip of the unit makes a fabric of almost nothing. Usual is the geometric mean of 6 and 22.
TEST(WorseReading, AYarnFarBelowAnyFabricIsTakenAsUsual) {
    for (const double widths : {2.9, 1.0, 0.01}) {
        const project::Project slipped = wrap(widths);
        const need::MakeNeed make = need::at_worst(need::need_of(slipped, 0), slipped);
        const need::RoleNeed& role = make.roles.at(0);
        EXPECT_EQ(need::at_worst(make, slipped).roles.at(0).length.centre, role.length.centre);
        EXPECT_NEAR(role.plain_rows.times.value(), widths, 1e-9);
        EXPECT_NEAR(role.length.centre / units::metre, metres_of(wrap(std::sqrt(6.0 * 22.0))),
                    1e-6);
        EXPECT_GT(role.length.relative().value(), 0.3);
        EXPECT_FALSE(role.by_mass);
    }
    EXPECT_NEAR(metres_of(wrap(40.0)), 40.0 / 12.0 * metres_of(wrap()), 1e-9);
    EXPECT_THAT(need::check_for_planning(wrap(1.0)).at(0).what, HasSubstr("calculated at 11.5"));
    EXPECT_THAT(need::check_for_planning(wrap(40.0)).at(0).what,
                HasSubstr("calculated as written"));
}

TEST(WorseReading, AnOpenMeshIsNoSlip) {
    EXPECT_THAT(need::check_for_planning(wrap(6.1)), IsEmpty());
    project::Project knitted = wrap(2.6);
    knitted.craft = project::Craft::knit;
    knitted.gauge.stitch = "st st";
    const need::YarnOverWidth over =
        need::at_worst(need::need_of(knitted, 0), knitted).roles.at(0).plain_rows;
    EXPECT_EQ(over.taken.value(), over.times.value());
}

TEST(WorseReading, ATotalThatLostItsUnitsCoversNothing) {
    project::Project total = wrap();
    total.roles[0].rate.reset();
    total.roles[0].total_length = project::PerSize<units::Length>(0.9144 * units::metre);
    EXPECT_GT(metres_of(total), 0.9 * metres_of(wrap(11.0)));
}

TEST(Contradictions, ARateThatNoFabricHasIsNamed) {
    const auto of = [](double widths) {
        const project::Project project = wrap(widths);
        return need::at_worst(need::need_of(project, 0), project).roles.at(0);
    };
    EXPECT_THAT(of(12.0).contradictions, IsEmpty());
    EXPECT_THAT(of(23.0).contradictions, IsEmpty());
    EXPECT_EQ(of(12.0).trust().value(), 1.0);
    for (const double widths : {1.9, 35.0}) {
        const need::RoleNeed role = of(widths);
        ASSERT_THAT(role.contradictions, SizeIs(1));
        const auto& rows = std::get<need::RowsAgainstFabric>(role.contradictions[0]);
        EXPECT_NEAR(rows.told.value(), widths, 1e-9);
        EXPECT_EQ(rows.most.value(), 22.0);
        EXPECT_LT(role.trust().value(), 0.95);
    }
}

TEST(Contradictions, ASizeFarFromItsCountsIsNamedAndANearOneIsNot) {
    const auto of = [](double times) {
        const project::Project project = with_length(times);
        return need::at_worst(need::need_of(project, 0), project).roles.at(0).contradictions;
    };
    EXPECT_THAT(of(1.9), IsEmpty());
    ASSERT_THAT(of(2.1), SizeIs(1));
    EXPECT_EQ(std::get<need::SizeAgainstCounts>(of(2.1)[0]).piece, "wrap");
    EXPECT_THAT(of(0.4), SizeIs(1));
}

// A total for a sixth of what the maker's own rate says: the larger counts, and both are named.
// "14 stitches to 10 in" for 10 cm, on the hook that the project names.
TEST(Contradictions, AGaugeThatItsToolCannotGiveIsNamed) {
    const auto told = [](double per_10cm, double hook_mm, const std::string& worked = "sc") {
        project::Project out = wrap();
        out.gauge.stitches = per_10cm * units::stitch / (0.1 * units::metre);
        out.gauge.hook = hook_mm * units::millimetre;
        out.gauge.stitch = worked;
        out.roles[0].rate = units::YarnPerStitch(12.0 / out.gauge.stitches);
        return need::at_worst(need::need_of(out, 0), out).roles.at(0).contradictions;
    };
    EXPECT_THAT(told(14, 5), IsEmpty());
    EXPECT_THAT(told(5.5, 5), SizeIs(1));
    EXPECT_TRUE(std::holds_alternative<need::GaugeAgainstTool>(told(5.5, 5).at(0)));
    EXPECT_THAT(told(60, 5), SizeIs(1));
    // Shells are as wide as they please; the Council's own classes all pass.
    EXPECT_THAT(told(5.5, 5, "shell"), IsEmpty());
    for (const auto& [least, most, thin, thick] :
         {std::array{21.0, 32.0, 2.25, 3.5}, std::array{11.0, 14.0, 5.5, 6.5},
          std::array{7.0, 9.0, 9.0, 15.0}})
        for (const double stitches : {least, most})
            for (const double hook : {thin, thick})
                EXPECT_THAT(told(stitches / 1.016, hook), IsEmpty());
}

TEST(Contradictions, ATotalFarFromTheSwatchCountsAsTheLargerOfTheTwo) {
    project::Project both = wrap();
    const double own = metres_of(both);
    both.roles[0].rate.reset();
    both.roles[0].grist = support::grist("200 m / 100 g");
    project::Swatch swatch;
    swatch.role = "MC";
    swatch.stitches = 25.0 * units::stitch;
    swatch.rows = 20.0 * units::row;
    swatch.yarn = own / 6.0 * units::metre;  // 20 of the 120 rows
    both.swatches = {swatch};
    both.roles[0].total_length = project::PerSize<units::Length>(own / 6.0 * units::metre);
    const need::MakeNeed make = need::at_worst(need::need_of(both, 0), both);
    const need::RoleNeed& role = make.roles.at(0);
    ASSERT_THAT(role.contradictions, SizeIs(1));
    const auto& pair = std::get<need::TwoEvidences>(role.contradictions[0]);
    EXPECT_NEAR(pair.one_says / units::metre, own / 6.0, 1e-6);
    EXPECT_NEAR(pair.other_says / units::metre, own, 1e-6);
    EXPECT_NEAR(role.length.centre / units::metre, own, 1e-6);
    EXPECT_EQ(need::at_worst(make, both).roles.at(0).length.centre, role.length.centre);
}

/// A swatch that says `swatch` m, and an earlier make that says `earlier` m, of the whole.
need::MakeNeed of_two(double swatch, double earlier) {
    project::Project both = wrap();
    both.roles[0].rate.reset();
    both.roles[0].grist = support::grist("200 m / 100 g");
    project::Swatch own;
    own.role = "MC";
    own.stitches = 25.0 * units::stitch;
    own.rows = 20.0 * units::row;
    own.yarn = swatch / 6.0 * units::metre;  // 20 of the 120 rows
    both.swatches = {own};
    project::EarlierMake make;
    make.role = "MC";
    make.stitches = 25.0 * 120.0 * units::stitch;
    make.yarn = earlier * units::metre;
    both.earlier_makes = {make};
    return need::at_worst(need::need_of(both, 0), both);
}

// Less than twice apart, and far beyond their noise: nobody knows which is wrong.
TEST(Contradictions, ALowerFigureNeverOutvotesTheOneItContradicts) {
    const double own = metres_of(wrap());
    for (const double other : {0.7, 0.6}) {
        const need::RoleNeed role = of_two(own, other * own).roles.at(0);
        EXPECT_GE(role.length.centre / units::metre, own - 1e-6);
        EXPECT_THAT(role.contradictions, IsEmpty());
    }
    EXPECT_NEAR(of_two(own, 1.5 * own).roles.at(0).length.centre / units::metre, 1.5 * own, 1e-6);
    // Within their noise they are one amount.
    EXPECT_LT(of_two(own, 0.95 * own).roles.at(0).length.centre / units::metre, own);
}

// From 6 widths a row down to 3 it is doubted more and more, without an edge, and stays what it was
// found to be: at 4 widths 95 % reach 6 x (11.5 / 6) ^ (ln 1.5 / ln 2), 8.8.
TEST(WorseReading, AYarnBelowWhatIsPlausibleIsDoubtedTheMoreTheFartherBelow) {
    const auto planned = [](double widths) {
        return need::need_to_plan(wrap(widths), 0).roles.at(0).length;
    };
    const auto sure = [&](double widths) {
        return planned(widths).centre + 1.645 * planned(widths).spread;
    };
    const units::Length usual = planned(std::sqrt(6.0 * 22.0)).centre;
    double before = planned(6.0).spread / planned(6.0).centre;
    for (double widths = 5.95; widths > 3.0; widths -= 0.05) {
        EXPECT_NEAR(planned(widths).centre / planned(6.0).centre, widths / 6.0, 1e-9);
        const double now = planned(widths).spread / planned(widths).centre;
        EXPECT_GT(now, before);
        EXPECT_LT(now, before + 0.08);
        before = now;
    }
    EXPECT_GT(sure(3.01), 0.98 * usual);
    EXPECT_LT(sure(3.01), 1.1 * usual);
    EXPECT_GT(sure(4.0), 8.8 / std::sqrt(6.0 * 22.0) * usual);
    EXPECT_THAT(need::check_for_planning(wrap(4.0)).at(0).what,
                HasSubstr("calculated as written, less surely"));
}

// A swatch that was weighed is believed down to 4 widths; from there to 3 the doubt grows as fast
// as needed to reach what is usual.
TEST(WorseReading, AWeighedSwatchIsBelievedFartherDown) {
    const auto spread = [](double widths) {
        project::Project own = wrap();
        own.roles[0].rate.reset();
        own.roles[0].grist = support::grist("100 m / 50 g");
        project::Swatch swatch;
        swatch.role = "MC";
        swatch.stitches = 25.0 * units::stitch;
        swatch.rows = 20.0 * units::row;
        swatch.yarn = widths * 20.0 * 25.0 * units::stitch / own.gauge.stitches;
        own.swatches = {swatch};
        return need::need_to_plan(own, 0).roles.at(0).length.relative().value();
    };
    EXPECT_NEAR(spread(4.1), spread(8.0), 1e-9);
    EXPECT_GT(spread(3.9), spread(4.1));
    EXPECT_LT(spread(3.9), 0.2);
    EXPECT_GT(spread(3.01), 1.5);
}

}  // namespace
