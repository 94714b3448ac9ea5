// Finishing parts in project files: rounds count, and nothing that counts for nothing is taken.

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"

#include "problems_of.hpp"

namespace skeinfall::exchange {
namespace {

using testing::ElementsAre;
using testing::StartsWith;

project::Project read(const std::string& part) {
    return parse_project(
        "title = 'T'\nyarn = { MC = {} }\n[gauge]\nstitches = '10 per 10 cm'\n"
        "rows = '10 per 10 cm'\nstitch = 'dc'\n[[finish]]\n" +
            part + "[[piece]]\nname = 'P'\nrows = 2\nstitches = 2\n",
        "p");
}

double stitches_of(const std::string& part) {
    const project::Project project = read(part);
    double sum = 0.0;
    for (const project::FinishStep& step : project::finish_steps(project, project.finish.at(0), 0))
        sum += step.stitches / units::stitch;
    return sum;
}

// 100 stitches in each of 8 rounds; with 4 more each round 100 + 104 + ... + 128.
TEST(FinishParts, StitchesAreThoseOfEachRound) {
    for (const std::string kind : {"border", "neckband"}) {
        const std::string part = "kind = '" + kind + "'\nstitches = 100\nrounds = 8\n";
        EXPECT_EQ(stitches_of(part), 800.0);
        EXPECT_EQ(stitches_of(part + "increase = 4\n"), 912.0);
        EXPECT_EQ(stitches_of("kind = '" + kind + "'\nfirst_round = 100\nrounds = 8\n"), 800.0);
    }
    EXPECT_EQ(stitches_of("kind = 'border'\nstitches = 100\n"), 100.0);
}

TEST(FinishParts, APartIsMadeAsOftenAsItSays) {
    const std::string border = "kind = 'border'\nstitches = 100\nrounds = 2\nincrease = 4\n";
    EXPECT_EQ(stitches_of(border), 204.0);
    EXPECT_EQ(stitches_of(border + "count = 3\n"), 612.0);
    const project::Project cord = read("kind = 'other'\ntakes = '2 m'\ncount = 2\n");
    const auto steps = project::finish_steps(cord, cord.finish.at(0), 0);
    ASSERT_EQ(steps.size(), 2U);
    EXPECT_EQ(steps[1].copy, 2);
    EXPECT_DOUBLE_EQ(steps[1].yarn / units::metre, 2.0);
    EXPECT_THAT(problems_of([&] { return read("kind = 'joining'\nof = 'P'\ncount = 2\n"); }),
                ElementsAre(StartsWith("p:10:9: count: motifs that are joined")));
}

TEST(FinishParts, WhatWouldCountForNothingIsRefused) {
    const auto problems = [](const std::string& part) {
        return problems_of([&] { return read(part); });
    };
    EXPECT_THAT(
        problems("kind = 'border'\ntakes = '20 m'\nbind_off = 'none'\n"),
        ElementsAre(StartsWith("p:10:12: bind_off: the yarn of this part is given outright, "
                               "so this would count for nothing")));
    EXPECT_THAT(problems("kind = 'border'\nrounds = 2\ntakes = '20 m'\nincrease = 4\n"),
                ElementsAre(StartsWith("p:11:12: increase: the yarn of this part is given")));
    EXPECT_THAT(problems("kind = 'other'\nstitches = 100\nrounds = 8\n"),
                ElementsAre(StartsWith("p:10:10: rounds: only a border is worked in rounds")));
}

TEST(ShapeSizes, WhatTheFinishedSizeSaysIsNotSaidAgain) {
    const auto problems = [](const std::string& lines) {
        return problems_of([&] {
            return parse_project(
                "title = 'T'\nyarn = { MC = {} }\n[gauge]\nstitches = '10 per 10 "
                "cm'\nrows = '10 per 10 cm'\nstitch = 'dc'\n[[piece]]\nname = "
                "'P'\nshape = 'triangle from the nape'\n" +
                    lines,
                "p");
        });
    };
    EXPECT_TRUE(problems("width = '60 cm'\nlength = '20 cm'\n").empty());
    EXPECT_TRUE(problems("width = '60 cm'\n").empty());
    EXPECT_TRUE(problems("rows = 40\nincrease = 6\n").empty());
    EXPECT_THAT(problems("width = '60 cm'\nincrease = 6\n"),
                ElementsAre(StartsWith("p:11:12: increase: the finished size says it already")));
    EXPECT_THAT(problems("width = '60 cm'\nrows = 40\n"),
                ElementsAre(StartsWith("p:11:8: rows: the finished size says it already")));
}

TEST(FinishParts, ATasselThatIsCutIsToldOnceWhatItNeeds) {
    for (const std::string lines : {"cut = '40 cm'\n", "cut = '40 cm'\ncount = 4\nstrands = 9\n"})
        EXPECT_THAT(problems_of([&] { return read("kind = 'tassel'\n" + lines); }),
                    ElementsAre(StartsWith("p:9:7: cut: a tassel or a pompom is wound")));
}

}  // namespace
}  // namespace skeinfall::exchange
