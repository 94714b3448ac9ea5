// What contradicts itself in a finished section: every section skeinfall writes is clean, and
// every change a hand may make is found where it stands.

#include "skeinfall/materials/lint.hpp"

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/report/materials.hpp"

#include "support/hostile.hpp"

namespace {

using namespace skeinfall;
using materials::lint;
using report::Markup;
using ::testing::AllOf;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

const std::string projects = SKEINFALL_SOURCE_DIR "/sample_stash/projects/";

/// With the middle printed, which is what its rows and rates come to.
materials::Section section(const std::string& name) {
    project::Project project = exchange::read_project(projects + name);
    project.totals_for.of.reset();
    return materials::section_of(project);
}

std::vector<std::string> found(const std::string& text, const materials::Section* of = nullptr) {
    std::vector<std::string> out;
    for (const project::Finding& one : lint(text, "section.txt", of))
        out.push_back(std::to_string(one.place.line) + ":" + std::to_string(one.place.column) +
                      (one.severity == project::Severity::caution ? " caution " : " ") + one.what);
    return out;
}

TEST(Lint, WhatSkeinfallWroteIsClean) {
    for (const char* name :
         {"anvil-heat-pad.toml", "ferryman-mittens.toml", "lantern-cowl.toml",
          "long-ferry-wrap.toml", "quayside-hat.toml", "snowdrop-pram-blanket.toml",
          "tern-shawl.toml", "threepenny-blanket.toml", "wharfside-pullover.toml"}) {
        const materials::Section made =
            materials::section_of(exchange::read_project(projects + name));
        for (const Markup markup : {Markup::plain, Markup::markdown})
            for (const units::NumberStyle& numbers :
                 {units::NumberStyle{}, units::NumberStyle{'.', units::Systems::metric},
                  units::NumberStyle{'.', units::Systems::imperial},
                  units::NumberStyle{'.', units::Systems::both, true}})
                for (const char mark : {'.', ','}) {
                    report::Style style;
                    style.numbers = numbers;
                    style.numbers.decimal_mark = mark;
                    if (mark == ',') style.terms = project::Terms::uk;
                    const std::string text = report::materials_text(made, markup, style);
                    EXPECT_THAT(found(text), IsEmpty()) << name << "\n" << text;
                    EXPECT_THAT(found(text, &made), IsEmpty()) << name << "\n" << text;
                    EXPECT_TRUE(materials::looks_like_section(text));
                }
    }
}

// A grid has lists of widths and lists of lengths; each line has one of them.
TEST(Lint, AGridIsCleanWithoutItsProject) {
    const project::Project band = exchange::parse_project(R"(title = "Band"
widths = ["3 in", "4 in", "5 in"]
lengths = ["16 in", "18 in", "20 in", "22 in"]
[gauge]
stitches = "4 per in"
rows = "3 per in"
stitch = "hdc"
[yarn.MC]
class = 4
grist = "200 yd / 100 g"
rate = "3 in per stitch"
[[piece]]
name = "band"
multiple = "4 + 1"
)",
                                                          "band.toml");
    const materials::Section made = materials::section_of(band);
    for (const Markup markup : {Markup::plain, Markup::markdown}) {
        const std::string text = report::materials_text(made, markup);
        EXPECT_THAT(found(text), IsEmpty()) << text;
        std::string changed = text;
        const std::size_t at = changed.find(", 18 in long: ");
        ASSERT_NE(at, std::string::npos) << text;
        const std::size_t comma = changed.find(", ", changed.find('(', at));
        changed.erase(comma, changed.find(')', comma) - comma);
        EXPECT_THAT(found(changed), Not(IsEmpty())) << changed;
    }
}

/// The pullover's section with one text in place of another.
std::string changed(const std::string& from, const std::string& to) {
    std::string text = report::materials_text(section("wharfside-pullover.toml"), Markup::plain);
    const std::size_t at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return text.replace(at, from.size(), to);
}

// 1180 yd x .9144 = 1078.99 m; 1080 passes, 1180 does not.
TEST(Lint, YardsAgainstMetres) {
    EXPECT_THAT(
        found(changed("965, 1080,", "965, 1180,")),
        ElementsAre(AllOf(HasSubstr("14:13 "), HasSubstr("1180 yd are 1079 m, not 1180 m"))));
    EXPECT_THAT(found(changed("115 m (126 yd)", "115 m (136 yd)")),
                ElementsAre(HasSubstr("136 yd are 124 m, not 115 m")));
}

// 18.5 in x 2.54 = 46.99 cm.
TEST(Lint, InchesAgainstCentimetres) {
    EXPECT_THAT(found(changed("42 (47,", "42 (49,")),
                ElementsAre(AllOf(HasSubstr("7:9 "), HasSubstr("18.5 in are 47.0 cm, not 49 cm"))));
}

// 22 sts to 10 cm are 22 x 1.016 = 22.35 to 4 in.
TEST(Lint, GaugeInBothSystems) {
    EXPECT_THAT(found(changed("22 sts and 30 rows to 10 cm (4 in)",
                              "24 sts and 30.5 rows to 4 in (22 sts and 30 rows to 10 cm)")),
                ElementsAre(HasSubstr("22 sts to 10 cm are 22.4 to 4 in, not 24")));
}

// Ten skeins of 115 m hold 1150 m; the fourth size takes 1205 m.
TEST(Lint, SkeinsAgainstTheirTotal) {
    const auto few = found(changed("8 (9, 10, 11,", "8 (9, 10, 10,"));
    ASSERT_EQ(few.size(), 1U);
    EXPECT_THAT(few[0], HasSubstr("10 x 115 m make 1150 m, but MC needs 120"));
    EXPECT_THAT(found(changed("8 (9, 10, 11,", "8 (9, 10, 21,")),
                ElementsAre(HasSubstr("21 x 115 m make")));
}

TEST(Lint, ListsAgainstSizes) {
    EXPECT_THAT(found(changed("8 (9, 10, 11, 12, 13) skeins", "8 (9, 10, 11, 12) skeins")),
                ElementsAre(HasSubstr("5 figures for 6 sizes")));
}

TEST(Lint, ClassAgainstItsName) {
    const auto lines = found(changed("class 3 (Light)", "class 4 (Light)"));
    ASSERT_FALSE(lines.empty());
    EXPECT_THAT(lines[0], HasSubstr("class 4 is Medium, and Light is class 3"));
    EXPECT_THAT(found(changed("any class 3", "any class 5")),
                ElementsAre(HasSubstr("class 5 here and 3 in line 13")));
}

// 115 m per 50 g are 230 m or 252 yd per 100 g.
TEST(Lint, GristAgainstThePutUp) {
    EXPECT_THAT(found(changed("about 250 yd per 100 g (230 m per 100 g)",
                              "about 200 yd per 100 g (185 m per 100 g)")),
                ElementsAre(HasSubstr("about 200 yd per 100 g, and the skein in line 13 has 252")));
}

// 4 mm is a US G-6 hook and a US 6 needle (Craft Yarn Council's table, S04).
TEST(Lint, ToolsAgainstTheirLabel) {
    EXPECT_THAT(found(changed("(US 6, UK 8)", "(US 8)")),
                ElementsAre(HasSubstr("4 mm is a US G-6 hook and a US 6 needle, not \"8\"")));
}

// Old UK numbers: 4 mm is 8, 3.75 mm is 9 (lib/data/needles.csv).
TEST(Lint, OldUkNumbers) {
    EXPECT_THAT(found(changed("(US 6, UK 8)", "(US 6, UK 9)")),
                ElementsAre(HasSubstr("4 mm is a UK 8 needle, not \"9\"")));
}

TEST(Lint, SizesOutOfLine) {
    const std::string dip = changed(
        "940 (1055, 1180, 1320, 1460, 1605) yd / 860 (965, 1080, 1205, "
        "1335, 1470) m; 8 (9, 10, 11, 12, 13)",
        "940 (1055, 1000, 1320, 1460, 1605) yd / 860 (965, 915, 1205, "
        "1335, 1470) m; 8 (9, 8, 11, 12, 13)");
    const auto lines = found(dip);
    ASSERT_FALSE(lines.empty());
    EXPECT_THAT(lines[0], HasSubstr("caution size M takes less MC than size S"));
}

TEST(Lint, ColoursToldTwoWays) {
    std::string text = report::materials_text(section("threepenny-blanket.toml"), Markup::markdown);
    const std::size_t at = text.find("- CC1: teal\n");
    ASSERT_NE(at, std::string::npos);
    text.replace(at, 12, "- CC1: navy\n");
    EXPECT_THAT(found(text), ElementsAre(HasSubstr("CC1 is \"navy\" here and another colour")));
}

TEST(Lint, AgainstTheProject) {
    const materials::Section made = section("wharfside-pullover.toml");
    // One step more in both systems: right by itself, wrong by the project.
    const std::string text = changed(
        "940 (1055, 1180, 1320, 1460, 1605) yd / 860 (965, 1080, 1205, "
        "1335, 1470) m",
        "950 (1055, 1180, 1320, 1460, 1605) yd / 870 (965, 1080, 1205, "
        "1335, 1470) m");
    EXPECT_THAT(found(text), IsEmpty());
    EXPECT_THAT(found(text, &made),
                ElementsAre(HasSubstr("950 yd of MC for size XS, and the project makes it 93")));
    EXPECT_THAT(found(changed("woad", "madder"), &made),
                ElementsAre(HasSubstr("the project says \"woad\" for MC")));
    EXPECT_THAT(found(changed("MC: Tarnmoor DK", "CC: Tarnmoor DK"), &made),
                ::testing::Contains(HasSubstr("the project has no yarn \"CC\"")));
    EXPECT_THAT(found(changed("17 (17, 17.25, 17.25, 17.75, 17.75) in / 43 (43,",
                              "16 (17, 17.25, 17.25, 17.75, 17.75) in / 41 (43,"),
                      &made),
                ElementsAre(HasSubstr("41 cm long for size XS, and the project makes it 43.0")));
}

TEST(Lint, EveryBlockAgainstTheProject) {
    const materials::Section made = section("wharfside-pullover.toml");
    const auto against = [&](const std::string& from, const std::string& to) {
        EXPECT_THAT(found(changed(from, to)), IsEmpty()) << to << " is right by itself";
        return found(changed(from, to), &made);
    };
    EXPECT_THAT(against("XS (S, M, L, XL, 2XL)", "XS (S, M, L, XL, 3XL)"),
                ElementsAre(HasSubstr("the project's sizes are \"XS, S, M, L, XL, 2XL\"")));
    EXPECT_THAT(against("4 mm (US 6, UK 8)", "4.5 mm (US 7, UK 7)"),
                ElementsAre(HasSubstr("4.5 mm here and 4 mm in the project")));
    EXPECT_THAT(against("22 sts and 30 rows to 10 cm (4 in)", "24 sts and 30 rows to 10 cm (4 in)"),
                ElementsAre(HasSubstr("24 sts here, and the project has 22.0")));
    materials::Section more = made;
    more.margin = units::Ratio(0.05);
    const std::string text = report::materials_text(more, Markup::plain);
    EXPECT_THAT(found(text, &more), IsEmpty());
    EXPECT_THAT(found(text, &made),
                ElementsAre(HasSubstr("a margin of 5 % here and 0 % in the project")));
    const materials::Section for_most =
        materials::section_of(exchange::read_project(projects + "wharfside-pullover.toml"));
    std::string other = report::materials_text(for_most, Markup::plain);
    const std::size_t at = other.find("what 90 % of makers");
    ASSERT_NE(at, std::string::npos);
    EXPECT_THAT(found(other.replace(at, 9, "what 95 %"), &for_most),
                ElementsAre(HasSubstr("totals for 95 % here and 90 % in the project")));
}

TEST(Lint, WhatIsMissing) {
    const materials::Section made = section("threepenny-blanket.toml");
    std::string text = report::materials_text(made, Markup::plain);
    const std::size_t at = text.find("  CC1 total");
    ASSERT_NE(at, std::string::npos);
    text.erase(at, text.find('\n', at) - at + 1);
    EXPECT_THAT(found(text, &made), ElementsAre(HasSubstr("the total of CC1 is not here")));
}

TEST(Lint, GradedTotalsOfTheProjectItself) {
    project::Project project = exchange::read_project(projects + "wharfside-pullover.toml");
    EXPECT_THAT(materials::graded(project), IsEmpty());
    std::swap(project.sizes[2], project.sizes[3]);
    for (project::Piece& piece : project.pieces)
        for (auto* counts : {&piece.rows, &piece.stitches, &piece.increase})
            if (counts->values.size() > 3) std::swap(counts->values[2], counts->values[3]);
    const project::Findings found = materials::graded(project);
    ASSERT_FALSE(found.empty());
    EXPECT_EQ(found.back().what, "size M takes less MC than size L");
}

TEST(Lint, AnyTextIsRead) {
    for (const std::string& text : support::markup)
        static_cast<void>(lint("MC: " + text + "\n" + text, "x"));
    static_cast<void>(lint(support::steering, "x"));
    static_cast<void>(lint(std::string(200'000, '('), "x"));
    static_cast<void>(lint("1 (1 (1, 2 yd / 3 ( m", "x"));
    EXPECT_FALSE(materials::looks_like_section("title = \"Wharfside\"\n"));
}

// Names of sizes in two systems stand side by side, and are no conversions of one another.
TEST(Lint, NamesOfAGridAreNoConversions) {
    const project::Project project = exchange::parse_project(
        "title = \"Fern scarf\"\nwidths = [\"8 in\", \"30 cm\"]\nlengths = [\"48 in\", \"1.2 m\"]\n"
        "[gauge]\nstitches = \"14 per 10 cm\"\nrows = \"11 per 10 cm\"\nstitch = \"hdc\"\n"
        "[yarn.MC]\nrate = \"4 in per stitch\"\ngrist = \"160 m / 100 g\"\n"
        "[[piece]]\nname = \"scarf\"\n",
        "p");
    const materials::Section made = materials::section_of(project);
    for (const Markup markup : {Markup::plain, Markup::markdown})
        EXPECT_THAT(found(report::materials_text(made, markup), &made), IsEmpty());
}

}  // namespace
