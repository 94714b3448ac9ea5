// Borders against their pieces, figures given once for several sizes, and stitches by a wrong name.

#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/need/check.hpp"
#include "skeinfall/need/need.hpp"

namespace {

using namespace skeinfall;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::Each;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// 1 m by 2 m at 1 stitch and 1 row to the cm, edged with so many stitches of 4 cm.
project::Project edged(int first_round, const std::string& more = {}) {
    return exchange::parse_project(
        "title = 'Loch rug'\n[gauge]\nstitches = '10 per 10 cm'\nrows = '10 per 10 cm'\n"
        "stitch = 'sc'\n[yarn.MC]\nrate = '12 cm per stitch'\n" +
            more +
            "[[piece]]\nname = 'rug'\nwidth = '100 cm'\nlength = '200 cm'\n[[finish]]\n"
            "kind = 'border'\nname = 'edge'\nrounds = 2\nfirst_round = " +
            std::to_string(first_round) + "\n",
        "p.toml");
}

double metres_of_border(const project::Project& project) {
    double sum = 0.0;
    for (const need::Step& step : need::need_of(project, 0).steps)
        if (step.purpose == need::Purpose::border) sum += step.yarn / units::metre;
    return sum;
}

// 600 stitches go round. Up to half of it or twice as many may be another stitch.
TEST(BorderCheck, AFirstRoundIsHeldAgainstThePiece) {
    for (const int fine : {301, 600, 1199}) {
        EXPECT_THAT(need::check(edged(fine)), IsEmpty()) << fine;
        EXPECT_NEAR(metres_of_border(edged(fine)), 2 * 0.12 * fine, 1e-6);
    }
    for (const int off : {35, 299, 1201, 3500})
        for (const project::Findings& found :
             {need::check(edged(off)), need::check_for_planning(edged(off))}) {
            ASSERT_EQ(found.size(), 1U) << off;
            EXPECT_EQ(found[0].severity, project::Severity::caution);
            EXPECT_THAT(found[0].what,
                        HasSubstr("edge: its first round has " + std::to_string(off) +
                                  " stitches, and about 600 go round rug"));
        }
}

TEST(BorderCheck, OfAShortBorderTheWholeWayRoundIsCounted) {
    EXPECT_NEAR(metres_of_border(edged(35)), 2 * 0.12 * 600, 1e-6);
    EXPECT_NEAR(metres_of_border(edged(3500)), 2 * 0.12 * 3500, 1e-6);
    // 600 and 608, whatever was said.
    project::Project growing = edged(35);
    growing.finish.at(0).increase = 8;
    EXPECT_NEAR(metres_of_border(growing), 0.12 * (600 + 608), 1e-6);
}

TEST(BorderCheck, AFigureGivenOnceForSeveralSizesIsTold) {
    const std::string head =
        "title = 'T'\nsizes = ['A', 'B']\nyarn = { MC = { rate = '12 cm per stitch' } }\n[gauge]\n"
        "stitches = '10 per 10 cm'\nrows = '10 per 10 cm'\nstitch = 'sc'\n"
        "[[piece]]\nname = 'rug'\nstitches = [40, 80]\nrows = [40, 80]\n[[finish]]\n"
        "kind = 'border'\nname = 'edge'\nfirst_round = ";
    const auto once = exchange::parse_project(head + "160\n", "p.toml");
    ASSERT_EQ(need::check(once).size(), 1U);
    EXPECT_THAT(need::check(once)[0].what, HasSubstr("edge is given once for 2 sizes"));
    EXPECT_THAT(need::check(exchange::parse_project(head + "[160, 320]\n", "p.toml")), IsEmpty());
    const auto border_in = [](const project::Project& project, std::size_t size) {
        double sum = 0.0;
        for (const need::Step& step : need::need_of(project, size).steps)
            if (step.purpose == need::Purpose::border) sum += step.yarn / units::metre;
        return sum;
    };
    EXPECT_NEAR(border_in(once, 1), 2.0 * border_in(once, 0), 1e-9);
}

project::Project in_stitch(const std::string& name, const std::string& terms,
                           const std::string& more = {}) {
    return exchange::parse_project(
        "title = 'T'\nterms = '" + terms + "'\n[gauge]\nstitches = '10 per 10 cm'\n" +
            "rows = '10 per 10 cm'\nstitch = '" + name + "'\n" + more +
            "[yarn.MC]\ngrist = '170 m / 100 g'\n[[swatch]]\nstitches = 20\nrows = 20\n"
            "mass = '24 g'\nscale = '0.1 g'\n[[piece]]\nname = 'band'\nstitches = 20\n"
            "rows = 20\n",
        "p.toml");
}

TEST(StitchWords, AWordOfTheOtherTermsStops) {
    const auto stop = [](const std::string& words) {
        return Contains(AllOf(Field(&project::Finding::severity, project::Severity::stop),
                              Field(&project::Finding::what, HasSubstr(words))));
    };
    EXPECT_THAT(need::check(in_stitch("hdc", "UK")), stop("hdc is a stitch of US terms"));
    EXPECT_THAT(need::check(in_stitch("sc", "UK")), stop("sc is a stitch of US terms"));
    EXPECT_THAT(need::check(in_stitch("htr", "US")), stop("htr is a stitch of UK terms"));
    EXPECT_THAT(need::check_for_planning(in_stitch("hdc", "UK")), stop("hdc is a stitch of US"));
    // "hdc" of US terms is "htr" of UK terms (lib/data/stitches.csv).
    EXPECT_THAT(need::check(in_stitch("hdc", "UK"))[0].remedy, HasSubstr("Write htr"));
    EXPECT_THAT(need::check(in_stitch("htr", "UK")), IsEmpty());
    EXPECT_THAT(need::check(in_stitch("dc", "UK")), IsEmpty());
}

TEST(StitchWords, ASlipStopsAndANameOfOnesOwnGoesByItsSwatch) {
    const project::Findings found = need::check(in_stitch("hcd", "US"));
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].severity, project::Severity::stop);
    EXPECT_THAT(found[0].what, HasSubstr("no stitch hcd is known"));
    EXPECT_THAT(found[0].remedy, HasSubstr("Did you mean \"hdc\"?"));
    EXPECT_THAT(need::check(in_stitch("wattle", "US")), IsEmpty());
    EXPECT_THAT(need::check(in_stitch("hdk", "US", "[stitch.hdk]\nof = '2 dc'\n")), IsEmpty());
}

TEST(StitchWords, SwatchesAreHeldToIt) {
    project::Project made = in_stitch("hdc", "US");
    made.swatches.at(0).stitch = "htr";
    EXPECT_THAT(need::check(made),
                Contains(Field(&project::Finding::what, HasSubstr("htr is a stitch of UK terms"))));
}

// 14 stitches to 4 in and 6 n + 5 of them: 6 and 7 in are both 23 stitches, 6.6 in; 4 in are 11,
// which is 3.1 in. 5 in are 17, 4.9 in, and near enough.
TEST(Check, WidthsOfAGridThatAreOneSizeAreNamed) {
    const auto findings = need::check(exchange::parse_project(
        "title = 'Wave scarf'\ncraft = 'crochet'\nwidths = ['4 in', '5 in', '6 in', '7 in']\n"
        "lengths = ['40 in', '50 in']\n[gauge]\nstitches = '14 per 4 in'\nrows = '10 per 4 in'\n"
        "stitch = 'hdc'\n[yarn.MC]\nrate = '8 cm per stitch'\n[[piece]]\nname = 'scarf'\n"
        "multiple = '6 + 5'\n",
        "p.toml"));
    std::vector<std::string> said;
    for (const project::Finding& one : findings)
        if (one.what.find("in whole repeats") != std::string::npos) said.push_back(one.what);
    EXPECT_THAT(said, ::testing::ElementsAre(HasSubstr("4 in of \"scarf\" comes out as 3.1 in"),
                                             HasSubstr("6 in and 7 in are one size of \"scarf\": "
                                                       "6.6 in")));
}

}  // namespace
