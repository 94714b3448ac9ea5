// Borders that follow their piece, and shapes that are told by their finished size. By hand.

#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/project_edit.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/fit/fit.hpp"
#include "skeinfall/need/need.hpp"

namespace {

using namespace skeinfall;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using units::inch;

constexpr const char* blanket_head = R"(title = "Reed blanket"
craft = "crochet"
[gauge]
stitches = "4 per in"
rows = "2 per in"
stitch = "dc"
[yarn.MC]
class = 4
grist = "170 yd / 3.5 oz"
rate = "3 in per stitch"
[[piece]]
name = "blanket"
)";

project::Project read_blanket(const std::string& piece) {
    return exchange::parse_project(blanket_head + piece, "reed.toml");
}

fit::Wish blanket_wish(double width, double length) {
    fit::Wish wish;
    if (width > 0.0) wish.width = width * inch;
    if (length > 0.0) wish.length = length * inch;
    return wish;
}

std::string saved_blanket(const std::string& piece, const fit::Fitted& fitted) {
    std::vector<exchange::RoundEdit> rounds;
    for (const fit::ChangedEdging& edging : fitted.edgings)
        rounds.push_back({edging.part, edging.first_round});
    const fit::Change& change = fitted.change;
    return exchange::edited_project(blanket_head + piece, "reed.toml",
                                    {{change.piece,
                                      change.stitches,
                                      change.rows,
                                      change.last_stitches,
                                      change.written,
                                      {},
                                      change.width,
                                      change.length}},
                                    {}, rounds);
}

const std::string bordered =
    "stitches = 40\nrows = 40\n[[finish]]\nkind = \"border\"\nname = \"edge\"\nfirst_round = 244\n"
    "rounds = 3\nincrease = 8\n";

// 10 by 20 in is 60 in round, 20 by 40 in twice as far: 488 stitches, and the rounds behind it
// 496 and 504.
TEST(FitEdging, TheFirstRoundFollowsTheWayRound) {
    const project::Project project = read_blanket(bordered);
    const fit::Fitted fitted = fit::fit_piece(project, 0, 0, blanket_wish(20, 40));
    ASSERT_EQ(fitted.edgings.size(), 1U);
    EXPECT_EQ(fitted.edgings[0].was, 244);
    EXPECT_EQ(fitted.edgings[0].now, 488);
    EXPECT_THAT(fitted.project.finish[0].first_round.values, ElementsAre(488));
    EXPECT_TRUE(fitted.unchanged.empty());
    ASSERT_TRUE(fitted.with_borders);
    EXPECT_NEAR(fitted.with_borders->width / inch, 23.0, 1e-9);
    EXPECT_NEAR(fitted.with_borders->length / inch, 43.0, 1e-9);
    const std::string text = saved_blanket(bordered, fitted);
    EXPECT_THAT(text, HasSubstr("first_round = 488\n"));
    const auto need = [](const project::Project& one) {
        return need::need_of(one, 0).roles.at(0).length.centre / inch;
    };
    EXPECT_NEAR(need(exchange::parse_project(text, "reed.toml")), need(fitted.project), 1e-6);
    EXPECT_NEAR(
        need(fitted.project) - need(fit::fit_piece(read_blanket("stitches = 40\nrows = 40\n"), 0, 0,
                                                   blanket_wish(20, 40))
                                        .project),
        3.0 * (488 + 496 + 504), 40.0)
        << "the tails of a border beside its stitches";
}

// So many stitches in each round are a first round too; only longer, its sides alone grow.
TEST(FitEdging, StitchesOfEachRoundFollowToo) {
    const std::string piece =
        "stitches = 40\nrows = 40\n[[finish]]\nkind = \"border\"\nstitches = 240\nrounds = 2\n";
    const fit::Fitted fitted = fit::fit_piece(read_blanket(piece), 0, 0, blanket_wish(0, 30));
    ASSERT_EQ(fitted.edgings.size(), 1U);
    EXPECT_EQ(fitted.edgings[0].now, 320);  // 80 in of 60
    EXPECT_THAT(saved_blanket(piece, fitted), HasSubstr("stitches = 320\n"));
}

// Round which of two pieces a border goes nobody says: it is told that it stays.
TEST(FitEdging, WhatDoesNotFollowIsTold) {
    const project::Project two = read_blanket(
        "stitches = 40\nrows = 40\n[[piece]]\nname = \"hood\"\nstitches = 20\nrows = 20\n"
        "[[finish]]\nkind = \"border\"\nname = \"edge\"\nfirst_round = 240\nrounds = 3\n");
    const fit::Fitted fitted = fit::fit_piece(two, 0, 0, blanket_wish(20, 0));
    EXPECT_TRUE(fitted.edgings.empty());
    EXPECT_THAT(fitted.unchanged, ElementsAre("edge"));
}

const std::string nape =
    "shape = \"triangle from the nape\"\nwidth = \"60 in\"\nlength = \"30 in\"\n";

// Half as wide is a quarter of the stitches; one measure alone keeps the shape.
TEST(FitShapes, ANapeTriangleKeepsItsMeasures) {
    const project::Project project = read_blanket(nape);
    const fit::Fitted half = fit::fit_piece(project, 0, 0, blanket_wish(30, 0));
    EXPECT_NEAR(half.measures.width / inch, 30.0, 1e-9);
    EXPECT_NEAR(half.measures.length / inch, 15.0, 1e-9);
    const auto need = [](const project::Project& one) {
        return need::need_of(one, 0).roles.at(0).length.centre / inch;
    };
    EXPECT_NEAR(need(half.project) / need(project), 0.25, 0.02);
    const fit::Fitted other = fit::fit_piece(project, 0, 0, blanket_wish(50, 20));
    EXPECT_NEAR(other.measures.width / inch, 50.0, 1e-9);
    EXPECT_NEAR(other.measures.length / inch, 20.0, 1e-9);
    const project::Project again = exchange::parse_project(saved_blanket(nape, other), "reed.toml");
    EXPECT_NEAR(need(again), need(other.project), 1e-6);
    EXPECT_FALSE(fit::each_more(project, 0, 0)) << "a stitch more is no repeat of a triangle";
    // By its rows: the nearest number of them.
    const fit::Fitted rows = fit::fit_piece(
        read_blanket("shape = \"triangle from the nape\"\nrows = 60\n"), 0, 0, blanket_wish(40, 0));
    EXPECT_NEAR(rows.measures.width / inch, 40.0, 1.0);
}

// Such a piece begins with one block, whatever its width.
TEST(FitShapes, BlocksBeginWithOne) {
    const project::Project blocks =
        read_blanket("shape = \"corner to corner\"\nblocks_wide = 20\nblocks_high = 30\n");
    EXPECT_EQ(fit::begins_with(blocks, 0, 0), 6);
}

}  // namespace
