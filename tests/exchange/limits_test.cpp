// What a project may hold is bounded, and what is beyond is one clear error, told at once.

#include <string>

#include <fmt/format.h>
#include <gmock/gmock.h>

#include "skeinfall/exchange/project_toml.hpp"

#include "exchange/problems_of.hpp"

namespace skeinfall::exchange {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

const std::string limits_head =
    "craft = 'crochet'\n[gauge]\nstitches = '20 per 10 cm'\nrows = '20 per 10 cm'\n"
    "stitch = 'sc'\n[yarn.MC]\ngrist = '200 m / 100 g'\nclass = 4\n";

std::string piece(const std::string& name, const std::string& more) {
    return "[[piece]]\nname = '" + name + "'\nstitches = 40\n" + more + "\n";
}

std::vector<std::string> limit_problems(const std::string& text, const std::string& sizes = "") {
    return problems_of(
        [&] { return parse_project("title = 'T'\n" + sizes + limits_head + text, "p"); });
}

TEST(Limits, OfPieces) {
    std::string many;
    for (int i = 0; i < 300; ++i) many += piece(fmt::format("p{}", i), "rows = 4");
    EXPECT_THAT(limit_problems(many), IsEmpty());
    EXPECT_THAT(limit_problems(many + piece("last", "rows = 4")),
                ElementsAre(HasSubstr("301 tables [[piece]]; expected at most 300")));
}

TEST(Limits, OfRowsInAllSizesTogether) {
    EXPECT_THAT(limit_problems(piece("p", "rows = 200000")), IsEmpty());
    EXPECT_THAT(limit_problems(piece("p", "rows = 200000") + piece("q", "rows = 1")),
                ElementsAre(HasSubstr("too many rows in the project up to here, all sizes "
                                      "together; expected at most 200000")));
    EXPECT_THAT(limit_problems(piece("p", "rows = [1000, 199001]"), "sizes = ['S', 'L']\n"),
                ElementsAre(HasSubstr("too many rows")));
    EXPECT_THAT(limit_problems(piece("p", "rows = 400\ncount = 1000000")),
                ElementsAre(HasSubstr("too many rows")));
}

TEST(Limits, OfGaugesWhereverTheyStand) {
    const std::string fine = "stitches = '100000 per 10 cm'\nrows = '20 per 10 cm'\n";
    const auto too_fine =
        ElementsAre(HasSubstr("finer than anybody works by hand; expected at "
                              "most 1000 stitches per 10 cm"));
    EXPECT_THAT(
        limit_problems(piece("p",
                             "rows = 4\ngauge = { stitches = '100000 per 10 cm', rows = '20 "
                             "per 10 cm' }")),
        too_fine);
    EXPECT_THAT(limit_problems(piece("p", "rows = 4") + "[maker_gauge]\nkeep = 'size'\n" + fine),
                too_fine);
    EXPECT_THAT(limit_problems(piece("p", "rows = 4") +
                               "[[tester]]\nbefore = '90 g'\nafter = '2 g'\n"
                               "scale = '1 g'\n" +
                               fine),
                too_fine);
}

TEST(Limits, OfCountsAtAnotherGauge) {
    EXPECT_THAT(
        limit_problems(piece("p", "rows = 200000") +
                       "[maker_gauge]\nkeep = 'size'\nstitches = '20 per 10 cm'\nrows = '990 "
                       "per 10 cm'\n"),
        ElementsAre(HasSubstr("at these gauges a piece gets too many rows or stitches; "
                              "expected at most 1000000")));
}

}  // namespace
}  // namespace skeinfall::exchange
