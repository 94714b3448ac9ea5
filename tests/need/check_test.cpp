// Contradictions in a project, each with and without what causes it.

#include "skeinfall/need/check.hpp"

#include <cstdint>
#include <filesystem>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/notation/notation.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using project::Severity;
using ::testing::ElementsAre;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using units::centimetre;
using units::metre;

/// 25 sc x 120 rows whose yarn is 12 widths a row.
project::Project sound() {
    project::Project out = support::rectangle(25, 120);
    out.gauge.stitch = "sc";
    out.roles[0].rate = units::YarnPerStitch(12.0 / out.gauge.stitches);
    return out;
}

units::Length long_side(const project::Project& project) {
    return 120.0 * units::row / project.gauge.rows;
}

TEST(Check, ASoundProjectHasNoFindings) {
    EXPECT_THAT(need::check(sound()), IsEmpty());
}

TEST(Check, TheSamplesHaveNoFindings) {
    std::int64_t samples = 0;
    for (const auto& file :
         std::filesystem::directory_iterator(SKEINFALL_SOURCE_DIR "/sample_stash/projects")) {
        EXPECT_THAT(need::check(exchange::read_project(file.path())), IsEmpty()) << file.path();
        ++samples;
    }
    EXPECT_GE(samples, 9);
}

TEST(Check, RowsAgainstLength) {
    project::Project made = sound();
    const auto finding_at = [&](double times) {
        made.pieces[0].length = project::PerSize<units::Length>(times * long_side(made));
        return need::check(made);
    };
    EXPECT_THAT(finding_at(1.04), IsEmpty());
    ASSERT_EQ(finding_at(1.10).size(), 1U);
    EXPECT_EQ(finding_at(1.10)[0].severity, Severity::caution);
    ASSERT_EQ(finding_at(0.8).size(), 1U);
    EXPECT_EQ(finding_at(0.8)[0].severity, Severity::caution);
    EXPECT_THAT(finding_at(0.8)[0].what, HasSubstr("120 rows come to"));
}

TEST(Check, StitchesAgainstWidth) {
    project::Project made = sound();
    const units::Length width = 25.0 * units::stitch / made.gauge.stitches;
    made.pieces[0].width = project::PerSize<units::Length>(width);
    EXPECT_THAT(need::check(made), IsEmpty());
    made.pieces[0].width = project::PerSize<units::Length>(2.0 * width);
    ASSERT_EQ(need::check(made).size(), 1U);
    EXPECT_EQ(need::check(made)[0].severity, Severity::caution);
    EXPECT_THAT(need::check(made)[0].what, HasSubstr("25 stitches"));
}

TEST(Check, AnImplausibleRateIsAStopWhenFarOff) {
    project::Project made = sound();
    made.roles[0].rate = units::YarnPerStitch(4.0 / made.gauge.stitches);
    ASSERT_EQ(need::check(made).size(), 1U);
    EXPECT_EQ(need::check(made)[0].severity, Severity::caution);
    made.roles[0].rate = units::YarnPerStitch(120.0 / made.gauge.stitches);
    ASSERT_EQ(need::check(made).size(), 1U);
    EXPECT_EQ(need::check(made)[0].severity, Severity::caution);
    EXPECT_THAT(need::check(made)[0].what, HasSubstr("120 times its width"));
}

/// `sound()` with every row of these kinds, its yarn 12 widths for each sc they count as.
project::Project project_of_kinds(const std::vector<project::KindCount>& kinds,
                                  double widths = 12.0) {
    project::Project out = sound();
    out.roles[0].rate = units::YarnPerStitch(widths / out.gauge.stitches);
    notation::NotationOptions options;
    notation::CountedRows rows;
    rows.rows = 120;
    rows.kinds = kinds;
    out.pieces[0].pattern = project::PerSize<project::WorkedRows>(
        notation::work_rows(std::vector<notation::WrittenRows>{{{}, rows}}, options).rows);
    return out;
}

// A mesh of chains takes little yarn for its width, and trebles take much: neither is odd.
TEST(Check, AMeshOfChainsIsNoImplausibleYarn) {
    const auto times = [](double count) { return count * units::stitch; };
    EXPECT_THAT(need::check(project_of_kinds({{"sc", times(2)}, {"ch", times(98)}})), IsEmpty());
    EXPECT_THAT(need::check(project_of_kinds({{"tr", times(60)}})), IsEmpty());
    EXPECT_THAT(need::check(project_of_kinds({{"sc", times(2)}, {"ch", times(98)}}, 3.0)),
                ElementsAre(Field(&project::Finding::what, HasSubstr("3 times its width"))));
}

TEST(Check, AYarnOfWhichNothingIsKnownIsAStop) {
    ASSERT_EQ(need::check(support::rectangle(25, 120)).size(), 1U);
    EXPECT_EQ(need::check(support::rectangle(25, 120))[0].severity, Severity::stop);
}

/// Two yarns in stripes of two rows, with totals of 12 widths a row times `a` and `b`.
project::Project striped(double a, double b) {
    project::Project out = support::rectangle(25, 120);
    project::Role second = out.roles[0];
    second.id = "CC";
    out.roles.push_back(second);
    out.pieces[0].stripes = {{out.roles[0].id, 2}, {"CC", 2}};
    const units::Length half = 60.0 * 12.0 * 25.0 * units::stitch / out.gauge.stitches;
    out.roles[0].total_length = project::PerSize<units::Length>(a * half);
    out.roles[1].total_length = project::PerSize<units::Length>(b * half);
    return out;
}

TEST(Check, EqualStripesWithUnequalTotals) {
    EXPECT_THAT(need::check(striped(1.0, 1.1)), IsEmpty());
    const project::Findings found = need::check(striped(1.0, 1.5));
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].severity, Severity::caution);
    EXPECT_THAT(found[0].what, HasSubstr("the same number of stitches"));
    project::Project bordered = striped(1.0, 1.5);
    project::FinishPart border;
    border.role = "CC";
    border.yarn = project::PerSize<units::Length>(1.0 * metre);
    bordered.finish.push_back(border);
    EXPECT_THAT(need::check(bordered), IsEmpty());
}

TEST(Check, ColoursNamedTwice) {
    project::Project made = striped(1.0, 1.0);
    made.roles[0].colour = "Moss";
    made.roles[1].colour = " moss";
    ASSERT_EQ(need::check(made).size(), 1U);
    EXPECT_THAT(need::check(made)[0].what, HasSubstr("one yarn in one colour"));
    made.roles[1].name = "Another";
    EXPECT_THAT(need::check(made), IsEmpty());
}

TEST(Check, WholeSkeinsAreWhole) {
    project::Project made = sound();
    made.pieces[0].stitches = project::PerSize<std::int64_t>(50);
    made.roles[0].grist = support::grist("100 m / 50 g");
    made.roles[0].total_basis = project::TotalBasis::whole_skeins;
    made.roles[0].total_length = project::PerSize<units::Length>(300.0 * metre);
    EXPECT_THAT(need::check(made), IsEmpty());
    made.roles[0].total_length = project::PerSize<units::Length>(250.0 * metre);
    ASSERT_EQ(need::check(made).size(), 1U);
    EXPECT_THAT(need::check(made)[0].what, HasSubstr("2.50 skeins of 109 yd (100 m)"));
}

TEST(Check, ABorderOfAPieceMadeTwiceIsAskedAbout) {
    project::Project made = sound();
    project::FinishPart border;
    border.kind = project::PartKind::border;
    border.name = "cuff";
    border.role = made.roles[0].id;
    border.yarn = project::PerSize<units::Length>(1.0 * metre);
    made.finish.push_back(border);
    EXPECT_THAT(need::check(made), IsEmpty());
    made.pieces[0].count = project::PerSize<std::int64_t>(2);
    ASSERT_EQ(need::check(made).size(), 1U);
    EXPECT_THAT(need::check(made)[0].what, HasSubstr("cuff counts once, though"));
    made.finish[0].copies = 2;
    EXPECT_THAT(need::check(made), IsEmpty());
}

TEST(Check, WhatIsNotForItsUse) {
    project::Project made = sound();
    made.made_for = project::Recipient::kitchen_heat;
    made.roles[0].fibre = support::fibre("100% cotton");
    EXPECT_THAT(need::check(made), IsEmpty());
    made.roles[0].fibre = support::fibre("50% cotton 50% polyester");
    ASSERT_EQ(need::check(made).size(), 1U);
    EXPECT_EQ(need::check(made)[0].severity, Severity::stop);
    EXPECT_THAT(need::check(made)[0].what, HasSubstr("polyester softens or melts"));
    made.roles[0].fibre = {};
    ASSERT_EQ(need::check(made).size(), 1U);
    EXPECT_EQ(need::check(made)[0].severity, Severity::caution);
    made.made_for = project::Recipient::infant;
    EXPECT_THAT(need::check(made), IsEmpty());
    project::FinishPart fringe;
    fringe.kind = project::PartKind::fringe;
    fringe.name = "fringe";
    fringe.role = made.roles[0].id;
    fringe.yarn = project::PerSize<units::Length>(1.0 * metre);
    made.finish.push_back(fringe);
    ASSERT_EQ(need::check(made).size(), 1U);
    EXPECT_THAT(need::check(made)[0].what, HasSubstr("tighten round a neck"));
}

// hot_pad_ok in lib/data/fibre_summary.csv says nothing of silk and viscose.
TEST(Check, WhatIsNotKnownToStandHeatIsAStopNearIt) {
    project::Project made = sound();
    made.made_for = project::Recipient::kitchen_heat;
    for (const char* content : {"100% silk", "60% cotton 40% viscose", "100% lyocell"}) {
        made.roles[0].fibre = support::fibre(content);
        ASSERT_EQ(need::check(made).size(), 1U) << content;
        EXPECT_EQ(need::check(made)[0].severity, Severity::stop) << content;
        EXPECT_THAT(need::check(made)[0].what, HasSubstr("is not known to stand it"));
    }
}

// A stitch that no table knows is no single crochet.
TEST(Check, AStitchOfUnknownYarnIsAStop) {
    project::Project made = sound();
    const auto stops = [&] {
        std::int64_t count = 0;
        for (const project::Finding& one : need::check(made))
            if (one.severity == Severity::stop &&
                one.what.find("is not known") != std::string::npos)
                ++count;
        return count;
    };
    made.pieces[0].gauge = made.gauge;
    made.pieces[0].gauge->stitch = "dc";
    EXPECT_EQ(stops(), 0);
    made.pieces[0].gauge->stitch = "crocodile";
    EXPECT_EQ(stops(), 1) << "a rate of single crochet says nothing of it";
    project::Swatch swatch;
    swatch.role = "MC";
    swatch.stitches = 20.0 * units::stitch;
    swatch.rows = 20.0 * units::row;
    swatch.yarn = 20.0 * metre;
    made.swatches = {swatch};
    EXPECT_EQ(stops(), 1);
    made.swatches[0].stitch = "crocodile";
    EXPECT_EQ(stops(), 0) << "its own swatch says it";
    made.pieces[0].gauge.reset();
    EXPECT_EQ(stops(), 1) << "and nothing of single crochet";
    made.gauge.stitch = "crocodile";
    EXPECT_EQ(stops(), 0);
    made.craft = project::Craft::knit;
    made.gauge.stitch = "stockinette";
    EXPECT_EQ(stops(), 0);
}

TEST(Check, AProjectThatAsksForWhatItKeepsOut) {
    project::Project made = sound();
    made.roles[0].fibre = support::fibre("80% acrylic 20% wool");
    made.roles[0].avoid = {"silk"};
    EXPECT_THAT(need::check(made), IsEmpty());
    for (const char* word : {"wool", "animal fibre", "wool family", "merino", "woool"}) {
        made.roles[0].avoid = {word};
        ASSERT_EQ(need::check(made).size(), 1U) << word;
        EXPECT_EQ(need::check(made)[0].severity, Severity::stop) << word;
    }
    made.roles[0].fibre = {};
    made.roles[0].avoid = {"wool"};
    EXPECT_THAT(need::check(made), IsEmpty()) << "no yarn is asked for";
    made.roles[0].name = "Kelpie";
    ASSERT_EQ(need::check(made).size(), 1U);
    EXPECT_EQ(need::check(made)[0].severity, Severity::caution);
    EXPECT_THAT(need::check(made)[0].what, HasSubstr("the fibres of Kelpie are not given"));
}

TEST(Check, RowsToJoinInAreRowsOfThePiece) {
    project::Project made = sound();
    const std::int64_t rows = project::counts(made, made.pieces[0], 0).rows;
    made.pieces[0].joins.keep_free = {{1, rows}};
    made.pieces[0].joins.prefer = {{rows, 0}};
    EXPECT_THAT(need::check(made), IsEmpty());
    made.pieces[0].joins.prefer = {{rows, rows + 1}};
    ASSERT_EQ(need::check(made).size(), 1U);
    EXPECT_THAT(need::check(made)[0].what,
                HasSubstr("\"join_prefer\" names row " + std::to_string(rows + 1)));
}

// Two figures for one yarn: a total that a swatch makes three times as large, and swatches of which
// one took twice the other.
TEST(Check, FiguresForOneYarnThatCannotBothBeMeant) {
    project::Project project = sound();
    project.roles[0].rate.reset();
    project::Swatch swatch;
    swatch.role = "MC";
    swatch.stitches = 20.0 * units::stitch;
    swatch.rows = 20.0 * units::row;
    swatch.yarn = 400.0 * 12.0 / project.gauge.stitches * units::stitch;
    project.swatches = {swatch};
    EXPECT_THAT(need::check(project), IsEmpty());
    const units::Length whole = need::need_of(project, 0).roles.at(0).length.centre;
    project.roles[0].total_length = project::PerSize<units::Length>(whole / 3.0);
    EXPECT_THAT(need::check(project),
                ElementsAre(Field(&project::Finding::severity, Severity::caution)));
    EXPECT_THAT(
        need::check_for_planning(project),
        ElementsAre(Field(&project::Finding::what, HasSubstr("calculated for the larger"))));
    project.roles[0].total_length = {};
    project.swatches.push_back(swatch);
    *project.swatches[1].yarn *= 2.0;
    EXPECT_THAT(need::check(project),
                ElementsAre(Field(&project::Finding::what, HasSubstr("contradict each other"))));
}

TEST(Check, AGaugeOfTheOtherCraft) {
    project::Project project = sound();
    project.gauge.hook = 5.0 * units::millimetre;
    EXPECT_THAT(need::check(project), IsEmpty());
    project.craft = project::Craft::knit;
    project.roles[0].rate = units::YarnPerStitch(5.0 / project.gauge.stitches);
    project.gauge.stitch = "hdc";
    EXPECT_THAT(need::check(project),
                ElementsAre(Field(&project::Finding::what, HasSubstr("the gauge is in hdc"))));
    project.gauge.stitch = "garter";
    EXPECT_THAT(need::check(project),
                ElementsAre(Field(&project::Finding::what, HasSubstr("the gauge is on a hook"))));
    project.gauge.hook.reset();
    project.gauge.needle = 5.0 * units::millimetre;
    EXPECT_THAT(need::check(project), IsEmpty());
}

}  // namespace
