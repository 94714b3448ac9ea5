// Yarns that the written rows of a file name. Cases are our own.

#include <cstdint>

#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"

#include "problems_of.hpp"

namespace skeinfall::exchange {
namespace {

std::string throw_of(const std::string& piece) {
    return R"(title = "Throw"
[gauge]
stitches = "16 per 10 cm"
rows = "18 per 10 cm"
stitch = "sc"
[yarn.MC]
rate = "4 cm per stitch"
[yarn.CC1]
rate = "4 cm per stitch"
colour = "Clay"
[[piece]]
name = "Body"
)" + piece +
           "\n";
}

const std::string throw_rows =
    R"toml(rows = ["Ch 31.", "Row 1: sc in 2nd ch from hook and in each ch across. (30 sc)",
"Rows 2-40: ch 1, turn, sc in each st across.",
"Rows 41-100: With clay, ch 1, turn, sc in each st across."])toml";

TEST(RowsYarnsToml, BecomeTheStripesOfThePiece) {
    const project::Project project =
        parse_project(throw_of("yarn = \"MC\"\n" + throw_rows), "p.toml");
    const std::vector<project::Stripe> wanted{{"MC", 40}, {"CC1", 60}};
    EXPECT_EQ(project.pieces.front().stripes, wanted);
    const std::vector<project::Row> all = project::row_sequence(project, 0);
    EXPECT_EQ(all.at(39).role, "MC");
    EXPECT_EQ(all.at(40).role, "CC1");
    EXPECT_EQ(all.at(99).role, "CC1");
}

TEST(RowsYarnsToml, MayStandBesideTheSameStripesOnly) {
    const auto stripes = [](std::int64_t first) {
        return "stripes = [{ yarn = \"MC\", rows = " + std::to_string(first) +
               " }, { yarn = \"CC1\", rows = 60 }]\n";
    };
    EXPECT_EQ(
        parse_project(throw_of(stripes(40) + throw_rows), "p.toml").pieces.front().stripes.size(),
        2U);
    const auto problems =
        problems_of([&] { return parse_project(throw_of(stripes(30) + throw_rows), "p.toml"); });
    ASSERT_EQ(problems.size(), 1U);
    EXPECT_NE(problems.front().find("row 31 is worked in CC1 here, the rows say MC"),
              std::string::npos)
        << problems.front();
    EXPECT_TRUE(problems.front().starts_with("p.toml:13:")) << problems.front();
}

TEST(RowsYarnsToml, RowsAllInAnotherYarnAreInThatYarn) {
    const project::Project project = parse_project(
        throw_of(
            "yarn = \"MC\"\nrows = [\"Ch 31.\", \"Row 1: With CC1, sc in 2nd ch from hook and in "
            "each ch across.\"]"),
        "p.toml");
    EXPECT_EQ(project.pieces.front().role, "CC1");
    EXPECT_TRUE(project.pieces.front().stripes.empty());
}

TEST(RowsYarnsToml, SeveralYarnsInARowAreARowForEach) {
    const project::Project project = parse_project(
        throw_of(
            "yarn = \"MC\"\nrows = [\"Ch 31.\", \"Row 1: sc in 2nd ch from hook and in each ch "
            "across. (30 sc)\", \"Row 2: ch 1, turn, 10 sc, with CC1 15 sc, with MC 5 sc.\"]"),
        "p.toml");
    const std::vector<project::Row> all = project::row_sequence(project, 0);
    ASSERT_EQ(all.size(), 3U);
    EXPECT_EQ(all[1].role, "MC");
    EXPECT_EQ(all[1].stitches.value(), 15.0);
    EXPECT_EQ(all[1].carried.value(), 15.0);
    EXPECT_FALSE(all[1].beside);
    EXPECT_EQ(all[2].role, "CC1");
    EXPECT_EQ(all[2].number, 2);
    EXPECT_EQ(all[2].stitches.value(), 15.0);
    EXPECT_EQ(all[2].carried.value(), 0.0);
    EXPECT_TRUE(all[2].beside);
    EXPECT_EQ(all[2].width.value(), 30.0);
}

}  // namespace
}  // namespace skeinfall::exchange
