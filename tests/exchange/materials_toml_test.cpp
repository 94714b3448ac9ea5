// Testers' returns and what the printed totals come from, read from a project file.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"

#include "problems_of.hpp"

namespace {

using namespace skeinfall;
using ::testing::HasSubstr;
using ::testing::SizeIs;

const std::string before_testers = R"(title = "Skerry vest"
sizes = ["S", "M"]
SAYS
[gauge]
stitches = "18 per 10 cm"
rows = "24 per 10 cm"
stitch = "hdc"
[yarn.MC]
grist = "200 m / 100 g"
rate = "4 cm per stitch"
[[piece]]
name = "body"
stitches = [80, 90]
rows = 100
)";

std::string with_testers(const std::string& testers, const std::string& says = "") {
    std::string out = before_testers;
    out.replace(out.find("SAYS"), 4, says);
    return out + testers;
}

TEST(TestersToml, AReturnWithItsGauge) {
    const project::Project read = exchange::parse_project(with_testers(R"([[tester]]
name = "first tester"
size = "M"
before = "412 g"
after = "96 g"
scale = "1 g"
stitches = "17 per 10 cm"
rows = "24 per 10 cm"
grist = "190 m / 100 g"
[[tester]]
size = "S"
before = "300 g"
scale = "0.1 g"
)",
                                                                       "totals_from = \"testers\""),
                                                          "vest.toml");
    EXPECT_EQ(read.totals_from, project::TotalsFrom::testers);
    ASSERT_THAT(read.testers, SizeIs(2));
    const project::TesterReturn& one = read.testers[0];
    EXPECT_EQ(one.tester, "first tester");
    EXPECT_EQ(one.role, "MC");
    EXPECT_EQ(one.size, 1U);
    EXPECT_EQ(one.before.shown.text, "412 g");
    ASSERT_TRUE(one.after && one.stitches && one.rows && one.grist);
    EXPECT_EQ(one.after->shown.value, 96.0 * units::gram);
    EXPECT_EQ(*one.grist, units::parse_grist("190 m / 100 g").value());
    EXPECT_FALSE(read.testers[1].after) << "all of it was used";
}

/// The one problem of a file.
std::string problem(const std::string& text) {
    const std::vector<std::string> found =
        exchange::problems_of([&] { return exchange::parse_project(text, "vest.toml"); });
    EXPECT_THAT(found, SizeIs(1)) << text;
    return found.empty() ? "" : found.front();
}

TEST(TestersToml, EveryMistakeIsNamed) {
    const std::string good = "[[tester]]\nsize = \"S\"\nscale = \"1 g\"\n";
    EXPECT_THAT(problem(with_testers(good)), HasSubstr("before"));
    EXPECT_THAT(problem(with_testers(good + "before = \"90 g\"\nafter = \"96 g\"\n")),
                HasSubstr("no less than before"));
    EXPECT_THAT(problem(with_testers("[[tester]]\nscale = \"1 g\"\nbefore = \"90 g\"\n")),
                HasSubstr("one of S, M"));
    EXPECT_THAT(
        problem(with_testers("[[tester]]\nsize = \"L\"\nscale = \"1 g\"\nbefore = \"90 g\"\n")),
        HasSubstr("there is no size \"L\""));
    EXPECT_THAT(problem(with_testers("[[tester]]\nsize = \"S\"\nbefore = \"90 g\"\n")),
                HasSubstr("scale"));
    EXPECT_THAT(problem(with_testers(good + "before = \"90 g\"\nstitches = \"17 per 10 cm\"\n")),
                HasSubstr("half a gauge"));
    EXPECT_THAT(problem(with_testers(good + "before = \"90 g\"\nyarn = \"CC\"\n")),
                HasSubstr("no yarn \"CC\" is described"));
    EXPECT_THAT(problem(with_testers(good + "before = \"90 g\"\nafterr = \"1 g\"\n")),
                HasSubstr("afterr"));
    EXPECT_THAT(problem(with_testers("", "totals_from = \"testers\"")),
                HasSubstr("there are no testers' returns"));
    EXPECT_THAT(problem(with_testers("", "totals_from = \"own make\"")),
                HasSubstr("MC has no total of an own make"));
    EXPECT_THAT(problem(with_testers("", "totals_from = \"guess\"")), HasSubstr("guess"));
    std::string no_grist = with_testers(good + "before = \"90 g\"\n");
    no_grist.erase(no_grist.find("grist"), no_grist.find("rate") - no_grist.find("grist"));
    EXPECT_THAT(problem(no_grist), HasSubstr("MC has no length per mass"));
}

}  // namespace
