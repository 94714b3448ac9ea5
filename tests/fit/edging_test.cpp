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

// Grown to a width, a shape that is told by its width and length is the shape written so.
TEST(FitShapes, GrownIsWrittenDirectly) {
    const auto need = [](const project::Project& one) {
        return need::need_of(one, 0).roles.at(0).length.centre / inch;
    };
    for (const char* shape :
         {"triangle from a corner", "asymmetric triangle", "crescent", "triangle side to side",
          "triangle from the long edge", "trapezoid", "triangle from the nape", "rectangle"}) {
        const auto written = [&](const std::string& sides) {
            return "shape = \"" + std::string(shape) + "\"\n" + sides +
                   (std::string(shape) == "trapezoid" ? "last_width = \"12 in\"\n" : "");
        };
        const std::string small = written("width = \"24 in\"\nlength = \"12 in\"\n");
        const fit::Fitted wider = fit::fit_piece(read_blanket(small), 0, 0, blanket_wish(32, 12));
        EXPECT_NEAR(wider.measures.width / inch, 32.0, 0.2) << shape;
        EXPECT_NEAR(wider.measures.length / inch, 12.0, 0.3) << shape;
        EXPECT_NEAR(need(wider.project),
                    need(read_blanket(written("width = \"32 in\"\nlength = \"12 in\"\n"))), 1.0)
            << shape;
        EXPECT_NEAR(need(read_blanket(
                        saved_blanket(small, wider).substr(std::string(blanket_head).size()))),
                    need(wider.project), 1.0)
            << shape;
        const fit::Fitted longer = fit::fit_piece(read_blanket(small), 0, 0, blanket_wish(24, 20));
        EXPECT_NEAR(need(longer.project),
                    need(read_blanket(written("width = \"24 in\"\nlength = \"20 in\"\n"))), 1.0)
            << shape;
    }
}

// 96 stitches and 24 rows end in the tip as 24 in and 12 in do; who says how it is decreased has
// it so, and no row is left beyond.
TEST(FitShapes, TheLongEdgeEndsInItsTip) {
    const std::string shape = "shape = \"triangle from the long edge\"\n";
    const auto last = [](const project::Project& one) {
        return project::row_widths(one, one.pieces[0], 0).back();
    };
    const project::Project counted = read_blanket(shape + "stitches = 96\nrows = 24\n");
    const project::Project by_size =
        read_blanket(shape + "width = \"24 in\"\nlength = \"12 in\"\n");
    EXPECT_LE(last(counted), 2);
    EXPECT_EQ(project::row_widths(counted, counted.pieces[0], 0),
              project::row_widths(by_size, by_size.pieces[0], 0));
    const project::Project decreased =
        read_blanket(shape + "stitches = 96\nrows = 24\nincrease = -2\n");
    EXPECT_EQ(last(decreased), 96 - 2 * 11);
    EXPECT_THROW(static_cast<void>(fit::fit_piece(decreased, 0, 0, blanket_wish(0, 60))),
                 base::InputError);
}

// 6 by 4 squares of 4 in; 40 in is 10 of them.
TEST(FitShapes, MotifsLaidTogetherBecomeMore) {
    const std::string squares =
        "stitches = 16\nrows = 8\ncount = 24\n[[finish]]\nkind = \"joining\"\nof = "
        "\"blanket\"\ncolumns = 6\nway = \"whip stitch\"\n[[finish]]\nkind = \"border\"\nname = "
        "\"edge\"\nfirst_round = 320\nrounds = 2\n";
    const project::Project project = read_blanket(squares);
    const fit::Fitted wide = fit::fit_piece(project, 0, 0, blanket_wish(40, 0));
    ASSERT_TRUE(wide.motifs);
    EXPECT_EQ(wide.motifs->count, 40);
    EXPECT_EQ(wide.motifs->columns, 10);
    EXPECT_EQ(wide.project.pieces[0].count.at(0), 40);
    EXPECT_EQ(wide.project.finish[0].columns.at(0), 10);
    EXPECT_NEAR(wide.motifs->measures.width / inch, 40.0, 1e-9);
    EXPECT_NEAR(wide.motifs->measures.length / inch, 16.0, 1e-9);
    // 28 sides of 16 stitches go round them.
    ASSERT_EQ(wide.edgings.size(), 1U);
    EXPECT_EQ(wide.edgings[0].now, 448);
    EXPECT_EQ(fit::fit_piece(project, 0, 0, blanket_wish(42, 30), fit::Take::below).motifs->count,
              10 * 7);
    EXPECT_EQ(fit::fit_piece(project, 0, 0, blanket_wish(42, 30), fit::Take::above).motifs->count,
              11 * 8);
    EXPECT_TRUE(fit::fit_piece(project, 0, 0, blanket_wish(24, 16)).same());
    EXPECT_TRUE(fit::fit_piece(project, 0, 0, {}).motifs->same());
    // 20 sides round 24 of them, 28 round 6 by 8.
    project::Project more = project;
    more.pieces[0].count = project::PerSize<std::int64_t>(48);
    const fit::FollowedEdgings edgings = fit::follow_edgings(project, more, 0, 0);
    ASSERT_EQ(edgings.changed.size(), 1U);
    EXPECT_EQ(edgings.changed[0].now, 448);
}

// 2 by 12 squares have 28 sides, 5 by 5 less one would have 20.
TEST(FitShapes, ABorderGoesRoundMotifsAsTheyAreJoined) {
    const auto border_of = [](const std::string& columns) {
        const project::Project laid = read_blanket(
            "stitches = 16\nrows = 8\ncount = 24\n[[finish]]\nkind = \"joining\"\nof = "
            "\"blanket\"\nway = \"whip stitch\"\n" +
            columns + "[[finish]]\nkind = \"border\"\nname = \"edge\"\nof = \"blanket\"\n");
        for (const need::Part& part : need::need_of(laid, 0).roles.at(0).parts)
            if (part.purpose == need::Purpose::border)
                return units::Ratio(part.yarn / inch).value();
        return 0.0;
    };
    EXPECT_NEAR(border_of("columns = 2\n"), 28 * 16 * 3.0, 1e-6);
    EXPECT_NEAR(border_of(""), 20 * 16 * 3.0, 1e-6);
}

}  // namespace
