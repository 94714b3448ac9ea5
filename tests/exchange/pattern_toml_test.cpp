// A pattern pasted whole into a project.

#include <filesystem>
#include <fstream>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/pattern_project.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/notation/document.hpp"

#include "problems_of.hpp"

namespace skeinfall::exchange {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

const std::string after_pattern =
    "[gauge]\nstitches = \"16 per 4 in\"\nrows = \"20 per 4 in\"\nstitch = \"sc\"\n"
    "[yarn.MC]\nclass = 4\ngrist = \"200 yd / 100 g\"\n";

const std::string cap =
    "Cap\n\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
    "Rnds 3-5: sc in each st around.\n\nEARS (make 2)\nMake a magic ring.\n"
    "Rnd 1: 5 sc in ring. (5)\nRnd 2: sc in each st around. (5)\n";

TEST(PatternToml, EverySectionBecomesAPiece) {
    const project::Project made = parse_project(
        "title = \"Cap\"\ncraft = \"crochet\"\npattern = '''\n" + cap + "'''\n" + after_pattern,
        "p.toml");
    ASSERT_EQ(made.pieces.size(), 2U);
    EXPECT_EQ(made.pieces[0].pattern.at(0).rows(), 5);
    EXPECT_EQ(made.pieces[1].name, "EARS (make 2)");
    EXPECT_EQ(made.pieces[1].count.at(0), 2);
    EXPECT_EQ(made.pieces[1].pattern.at(0).rows(), 2);
    EXPECT_EQ(made.pieces[1].worked, project::Worked::round);
}

TEST(PatternToml, LengthsAreClosedByTheGauge) {
    const project::Project made = parse_project(
        "title = \"Strip\"\ncraft = \"knit\"\npattern = '''\nCast on 20 sts.\n"
        "Knit until piece measures 10 in.\n'''\n" +
            after_pattern,
        "p.toml");
    EXPECT_EQ(made.pieces.at(0).pattern.at(0).rows(), 50);
}

TEST(PatternToml, ALengthNeedsTheGaugeOfRowsAlone) {
    const std::string text =
        "title = \"Strip\"\ncraft = \"knit\"\npattern = '''\nCast on 20 sts.\n"
        "Knit until piece measures 10 in.\n'''\n[gauge]\nrows = \"20 per 4 in\"\n"
        "stitch = \"garter\"\n[yarn.MC]\nclass = 4\ngrist = \"200 yd / 100 g\"\n";
    EXPECT_THAT(problems_of([&] { return parse_project(text, "p.toml"); }),
                ElementsAre(HasSubstr("\"stitches\" is missing")));
}

TEST(PatternToml, AFileBesideTheProject) {
    const auto folder = std::filesystem::temp_directory_path() / "skeinfall_pattern_toml";
    std::filesystem::create_directories(folder);
    std::ofstream(folder / "cap.txt") << cap;
    std::ofstream(folder / "p.toml")
        << "title = \"Cap\"\ncraft = \"crochet\"\npattern_file = \"cap.txt\"\n"
        << after_pattern;
    EXPECT_EQ(read_project(folder / "p.toml").pieces.size(), 2U);
    std::filesystem::remove_all(folder);
}

TEST(PatternToml, WhatCannotBeFollowedIsAProblemAtItsWord) {
    try {
        static_cast<void>(
            parse_project("title = \"Cap\"\ncraft = \"crochet\"\npattern = '''\n"
                          "Ch 11\nRow 1: sc in 2nd ch from hook and in each ch "
                          "across. (10)\nRow 2: ch 1, turn, sc in each st, @ 5\n"
                          "'''\n" +
                              after_pattern,
                          "p.toml"));
        FAIL();
    } catch (const base::InputError& error) {
        ASSERT_EQ(error.problems().size(), 1U);
        EXPECT_THAT(error.problems()[0].what, HasSubstr("\"@\" means nothing in notation"));
        EXPECT_EQ(error.problems()[0].place.line, 6U);
        EXPECT_EQ(error.problems()[0].place.column, 35U);
    }
}

TEST(PatternToml, AWrittenProjectIsReadAgain) {
    notation::DocumentOptions options;
    const notation::Document document =
        notation::read_document("Gauge: 16 sc and 20 rows = 4 in\n\n" + cap, options);
    const project::Project made = parse_project(project_of_pattern(document), "p.toml");
    EXPECT_EQ(made.pieces.size(), 2U);
}

// A total printed twice, in lengths that are not one: the larger counts; of a skein the shorter.
TEST(ProjectToml, OfTwoUnequalLengthsTheWorseCounts) {
    const auto read = [](const std::string& total, const std::string& grist) {
        return parse_project(
                   "title = 'T'\n[gauge]\nstitches = '16 per 4 in'\nrows = '20 per 4 "
                   "in'\nstitch = 'sc'\n[yarn.MC]\ngrist = '" +
                       grist + "'\ntotal = '" + total + "'\n",
                   "p.toml")
            .roles.at(0);
    };
    const std::string ball = "200 yd / 100 g";
    EXPECT_NEAR(read("120 yd (240 m)", ball).total_length.at(0) / units::metre, 240.0, 1e-9);
    EXPECT_NEAR(read("240 m (120 yd)", ball).total_length.at(0) / units::metre, 240.0, 1e-9);
    EXPECT_NEAR(read("100 yd (91 m)", ball).total_length.at(0) / units::yard, 100.0, 1e-9);
    EXPECT_NEAR(read("100 yd", "200 m (100 m) / 100 g").grist->value /
                    (units::metre / (100.0 * units::gram)),
                100.0, 1e-9);
}

project::Project saved_and_read(const std::string& pattern) {
    const std::string toml =
        project_of_pattern(notation::read_document(pattern, notation::DocumentOptions{}));
    return parse_project(toml, "p.toml");
}

const std::string sc_gauge = "Gauge: 16 sts and 20 rows = 4 in in sc\n";
const std::string ear =
    "Chain 11.\nRow 1: sc in 2nd ch from hook and in each ch across. (10 sc)\n"
    "Rows 2-12: ch 1, turn, sc in each sc across. (10 sc)\n";

TEST(PatternToml, ASentenceThatCountsPiecesIsCarriedIntoTheFile) {
    for (const std::string said :
         {"Make 2.", "Make two.", "Make 2 alike.", "Make one more.", "(make 2)"}) {
        const project::Project made =
            saved_and_read("Panel\n\n" + sc_gauge + "\n" + ear + "\n" + said + "\n");
        ASSERT_EQ(made.pieces.size(), 1U) << said;
        EXPECT_EQ(made.pieces[0].count.at(0), 2) << said;
    }
    EXPECT_EQ(saved_and_read("Panel\n\n" + sc_gauge + "\n" + ear).pieces[0].count.at(0), 1);
}

TEST(PatternToml, ATitleThatCountsIsCarriedIntoTheFile) {
    for (const std::string title : {"Mittens (make 2)", "Ear warmers x 2", "Two ear warmers"})
        EXPECT_EQ(saved_and_read(title + "\n\n" + sc_gauge + "\n" + ear).pieces[0].count.at(0), 2)
            << title;
    EXPECT_EQ(saved_and_read("3 colour panel\n\n" + sc_gauge + "\n" + ear).pieces[0].count.at(0),
              1);
}

TEST(PatternToml, WhatComesInPairsIsCountedTwice) {
    EXPECT_EQ(saved_and_read("Wrist warmers\n\n" + sc_gauge + "\n" + ear).pieces[0].count.at(0), 2);
}

TEST(PatternToml, LinesThatMayHoldWorkStopTheSavedProject) {
    for (const std::string said :
         {"Edging: work 2 rounds of sc around.", "Make another, but longer.",
          "Finishing: pick up 60 sts along the edge and knit 6 rows."}) {
        const std::string toml = project_of_pattern(notation::read_document(
            "Panel\n\n" + sc_gauge + "\n" + ear + "\n" + said + "\n", notation::DocumentOptions{}));
        EXPECT_THAT(problems_of([&] { return parse_project(toml, "p.toml"); }),
                    testing::Contains(HasSubstr("may hold work")))
            << said << toml;
    }
}

TEST(PatternToml, AFringeWithFiguresIsAPartOfTheFinish) {
    const project::Project made =
        saved_and_read("Panel\n\n" + sc_gauge + "\n" + ear +
                       "\nFringe: Cut 40 strands 12 in long. Knot 2 in each st.\nTotal: 200 yd\n");
    ASSERT_EQ(made.finish.size(), 1U);
}

TEST(PatternToml, ATotalOfThePatternHoldsItsFinish) {
    const auto toml_of = [](const std::string& materials) {
        return project_of_pattern(notation::read_document(
            "Panel\n\n" + materials + sc_gauge + "\n" + ear + "\nSew a pompom to each end.\n",
            notation::DocumentOptions{}));
    };
    EXPECT_THAT(toml_of(""), HasSubstr("not_read"));
    const std::string held =
        toml_of("Materials: 3 balls of Medium (4) yarn, 100 g / 200 m each\n\n");
    EXPECT_THAT(held, testing::Not(HasSubstr("not_read")));
    EXPECT_THAT(held, HasSubstr("# Sew a pompom to each end."));
    // A class by its name is written as a figure.
    EXPECT_EQ(parse_project(held, "p.toml").roles.at(0).weight->number, 4);
}

TEST(PatternToml, AFinishWithoutStitchesIsKeptAsARemark) {
    const std::string toml = project_of_pattern(notation::read_document(
        "Panel\n\n" + sc_gauge + "\n" + ear + "\nFinishing: block it lightly.\n",
        notation::DocumentOptions{}));
    EXPECT_THAT(toml, HasSubstr("# Finishing: block it lightly."));
    EXPECT_THAT(toml, testing::Not(HasSubstr("not_read")));
}

}  // namespace
}  // namespace skeinfall::exchange
