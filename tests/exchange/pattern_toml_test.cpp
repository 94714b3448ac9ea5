// A pattern pasted whole into a project.

#include <filesystem>
#include <fstream>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/pattern_project.hpp"
#include "skeinfall/exchange/project_toml.hpp"

#include "problems_of.hpp"

namespace skeinfall::exchange {
namespace {

using testing::HasSubstr;

const std::string rest =
    "[gauge]\nstitches = \"16 per 4 in\"\nrows = \"20 per 4 in\"\nstitch = \"sc\"\n"
    "[yarn.MC]\nclass = 4\ngrist = \"200 yd / 100 g\"\n";

const std::string hat =
    "Cap\n\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
    "Rnds 3-5: sc in each st around.\n\nEARS (make 2)\nMake a magic ring.\n"
    "Rnd 1: 5 sc in ring. (5)\nRnd 2: sc in each st around. (5)\n";

TEST(PatternToml, EverySectionBecomesAPiece) {
    const project::Project made = parse_project(
        "title = \"Cap\"\ncraft = \"crochet\"\npattern = '''\n" + hat + "'''\n" + rest, "p.toml");
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
            rest,
        "p.toml");
    EXPECT_EQ(made.pieces.at(0).pattern.at(0).rows(), 50);
}

TEST(PatternToml, AFileBesideTheProject) {
    const auto folder = std::filesystem::temp_directory_path() / "skeinfall_pattern_toml";
    std::filesystem::create_directories(folder);
    std::ofstream(folder / "cap.txt") << hat;
    std::ofstream(folder / "p.toml")
        << "title = \"Cap\"\ncraft = \"crochet\"\npattern_file = \"cap.txt\"\n"
        << rest;
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
                              rest,
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
        notation::read_document("Gauge: 16 sc and 20 rows = 4 in\n\n" + hat, options);
    const project::Project made = parse_project(project_of_pattern(document), "p.toml");
    EXPECT_EQ(made.pieces.size(), 2U);
}

}  // namespace
}  // namespace skeinfall::exchange
