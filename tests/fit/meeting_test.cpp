// Pieces that meet, motifs that are joined, blocks and triangles: fitted to the size they have
// nothing changes, and what follows from a change follows. Expected counts are worked beside each
// case.

#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/exchange/project_edit.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/fit/fit.hpp"
#include "skeinfall/fit/for_whom.hpp"
#include "skeinfall/fit/met_gauge.hpp"
#include "skeinfall/fit/same_make.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/project/edging.hpp"

namespace {

using namespace skeinfall;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using units::inch;

// 4 stitches and 2 rows to the inch.
constexpr const char* quarter_inch = R"(title = "Reed make"
craft = "crochet"
[gauge]
stitches = "4 per in"
rows = "2 per in"
stitch = "dc"
[yarn.MC]
class = 4
grist = "170 yd / 3.5 oz"
rate = "2.9 in per stitch"
)";

project::Project make_of(const std::string& pieces, const std::string& top = "") {
    return exchange::parse_project(top + quarter_inch + pieces, "reed.toml");
}

fit::Wish wished(double width, double length = 0.0) {
    fit::Wish wish;
    wish.width = width * inch;
    if (length > 0.0) wish.length = length * inch;
    return wish;
}

std::vector<std::int64_t> widths_of(const project::Project& project, std::size_t piece) {
    return project::row_widths(project, project.pieces.at(piece), 0);
}

units::Length yarn_of(const project::Project& project) {
    units::Length out{};
    for (const need::RoleNeed& role : need::need_of(project, 0).roles) out += role.length.centre;
    return out;
}

std::string refusal_of(const project::Project& project, std::size_t piece, const fit::Wish& wish) {
    try {
        static_cast<void>(fit::fit_piece(project, piece, 0, wish));
    } catch (const base::InputError& error) {
        const base::Problem& problem = error.problems().front();
        return problem.what + "; expected " + problem.expected;
    }
    return {};
}

/// What --save would write, read again.
project::Project saved(const std::string& text, const fit::Fitted& fitted) {
    const auto edit = [](const fit::Change& of) {
        exchange::PieceEdit out;
        out.piece = of.piece;
        out.stitches = of.stitches;
        out.rows = of.rows;
        out.last_stitches = of.last_stitches;
        out.written = of.written;
        out.width = of.width;
        out.length = of.length;
        out.blocks_wide = of.blocks_wide;
        out.blocks_high = of.blocks_high;
        return out;
    };
    std::vector<exchange::PieceEdit> edits{edit(fitted.change)};
    for (const fit::Followed& one : fitted.followed) edits.push_back(edit(one.change));
    return exchange::parse_project(exchange::edited_project(text, "reed.toml", edits, {}),
                                   "reed.toml");
}

const std::string hat = R"([[piece]]
name = "crown"
worked = "round"
shape = "circle"
stitches = 8
increase = 8
every = 1
rows = 8
[[piece]]
name = "sides"
worked = "round"
stitches = 64
rows = 12
foundation_rows = 0
)";

// 19 in are 76 stitches. The crown ends with 8 a round: 72 after 9 rounds or 80 after 10; 76 lies
// between, and the smaller is taken.
TEST(Meeting, ACrownFollowsItsSides) {
    const project::Project project = make_of(hat);
    const fit::Fitted fitted = fit::fit_piece(project, 1, 0, wished(19.0));
    EXPECT_EQ(fitted.stitches.from, fit::MultipleFrom::piece_before);
    EXPECT_EQ(fitted.stitches.below, 72);
    EXPECT_EQ(fitted.stitches.above, 80);
    EXPECT_EQ(fitted.stitches.taken, 72);
    ASSERT_EQ(fitted.followed.size(), 1U);
    EXPECT_EQ(fitted.followed[0].piece, 0U);
    EXPECT_EQ(fitted.followed[0].now.rows, 9);
    EXPECT_EQ(widths_of(fitted.project, 0).back(), 72);
    EXPECT_FALSE(fitted.chains);
    EXPECT_TRUE(fit::same_make(fitted.project, saved(quarter_inch + hat, fitted), 0));
}

// Across a crown of 8 rounds are 8 in; 10 in are 10 rounds, which end with 80.
TEST(Meeting, SidesFollowTheirCrown) {
    const fit::Fitted fitted = fit::fit_piece(make_of(hat), 0, 0, wished(10.0));
    EXPECT_EQ(fitted.rows.taken, 10);
    EXPECT_EQ(widths_of(fitted.project, 1).front(), 80);
    ASSERT_EQ(fitted.followed.size(), 1U);
    EXPECT_TRUE(fit::same_make(fitted.project, saved(quarter_inch + hat, fitted), 0));
}

// Sides in a multiple of 6 go on from 8 n only where 24 divides them: 48 after 6 rounds, 72
// after 9.
TEST(Meeting, WhatCannotMeetIsRefusedWithTheNearestThatCan) {
    std::string text = hat;
    text.replace(text.find("stitches = 64"), 13, "multiple = \"6\"\nstitches = 48");
    text.replace(text.find("rows = 8"), 8, "rows = 6");
    const project::Project project = make_of(text);
    fit::Wish seven;
    seven.rows = 7;
    EXPECT_EQ(refusal_of(project, 0, seven),
              "\"sides\" goes on from \"crown\", and cannot begin with 56 stitches; expected 6 "
              "rounds, which end with 48 stitches, or 9 rounds, which end with 72 stitches");
    EXPECT_EQ(fit::fit_piece(project, 1, 0, wished(15.0)).stitches.taken, 48);
    EXPECT_EQ(fit::fit_piece(project, 1, 0, wished(15.1)).stitches.taken, 72);
}

// A yoke of 72, 8 more every 2 rounds, ends with 176 after 27; the body takes 140 of them.
TEST(Meeting, StitchesThatAreSharedOutAreNamed) {
    const project::Project project = make_of(R"([[piece]]
name = "yoke"
worked = "round"
stitches = 72
rows = 27
increase = 8
every = 2
[[piece]]
name = "body"
worked = "round"
stitches = 140
rows = 42
foundation_rows = 0
)");
    EXPECT_THAT(fit::fit_piece(project, 1, 0, wished(36.0)).on_live_stitches, ElementsAre("body"));
    fit::Wish longer;
    longer.rows = 31;
    EXPECT_THAT(fit::fit_piece(project, 0, 0, longer).on_live_stitches, ElementsAre("body"));
    EXPECT_THAT(fit::fit_piece(project, 1, 0, {}).on_live_stitches, ::testing::IsEmpty());
}

// One repeat more of the sides is a round more of the crown.
TEST(Meeting, ARepeatMoreTakesTheCrownsYarnToo) {
    const auto each = fit::each_more(make_of(hat), 1, 0);
    ASSERT_TRUE(each);
    EXPECT_EQ(each->stitches, 8);
    ASSERT_EQ(each->followed.size(), 1U);
    EXPECT_EQ(each->followed[0].now.rows - each->followed[0].was.rows, 1);
    // 12 rounds of 8 more, and a round of 72: 168 stitches of 2.9 in.
    EXPECT_NEAR(each->roles.at(0).for_width / inch, 168.0 * 2.9, 10.0);
}

const std::string squares = R"([[piece]]
name = "square"
shape = "granny square"
count = 48
rows = 6
[[finish]]
kind = "joining"
name = "joining"
of = "square"
columns = 6
way = "whip stitch"
[[finish]]
kind = "border"
name = "border"
first_round = 700
increase = 8
rounds = 3
)";

// Six rounds of half an inch either way: 6 in each, 6 x 8 of them are 36 x 48 in, and 39 x 51 in
// with three rounds of border.
TEST(Meeting, MotifsAreMeasuredAsTheyAreJoined) {
    const project::Project project = make_of(squares);
    const fit::Fitted now = fit::fit_piece(project, 0, 0, {});
    ASSERT_TRUE(now.motifs);
    EXPECT_TRUE(now.same());
    EXPECT_NEAR(now.motifs->measures.width / inch, 36.0, 1e-9);
    EXPECT_NEAR(now.with_borders->length / inch, 51.0, 1e-9);
    fit::Wish seven;
    seven.rows = 7;
    const fit::Fitted larger = fit::fit_piece(project, 0, 0, seven);
    EXPECT_NEAR(larger.motifs->measures.width / inch, 42.0, 1e-9);
    EXPECT_NEAR(larger.motifs->was.width / inch, 36.0, 1e-9);
    EXPECT_EQ(larger.motifs->count, 48);
    EXPECT_EQ(larger.edgings.size(), 1U);
    // More rounds and a width: of the squares as they then are.
    fit::Wish both = wished(42.0);
    both.rows = 7;
    EXPECT_EQ(fit::fit_piece(project, 0, 0, both).motifs->columns, 6);
}

// A throw of 50 x 70 in has a border of 3 in both sides together: 47 x 67 in, 8 x 11 squares.
TEST(Meeting, ATableMeasuresAllSquaresWithTheirBorder) {
    const project::Project project = make_of(squares);
    const auto wanted = fit::size_for("blanket", "throw", std::nullopt);
    ASSERT_TRUE(wanted);
    const fit::Wish wish = fit::wish_for(project, 0, *wanted);
    const fit::Fitted fitted = fit::fit_piece(project, 0, 0, wish);
    EXPECT_EQ(fitted.motifs->columns, 8);
    EXPECT_EQ(fitted.motifs->count, 88);
}

// At 7 rounds to 4 in a square of 6 is 6.86 in: 36 x 48 in take 5 x 7 of them, not one.
TEST(Meeting, AGaugeAsMetLaysTheMotifsAnew) {
    const project::Project project = make_of(squares);
    project::Gauge met = project.gauge;
    met.rows = 7.0 * units::row / (4.0 * inch);
    const fit::MetGauge answer = fit::meet_gauge(project, 0, 0, met);
    ASSERT_TRUE(answer.instead && answer.instead->motifs);
    EXPECT_EQ(answer.instead->motifs->columns, 5);
    EXPECT_EQ(answer.instead->motifs->count, 35);
    EXPECT_NEAR(answer.planned_all->width / inch, 36.0, 1e-9);
    EXPECT_GT(yarn_of(answer.instead->project), 0.6 * yarn_of(answer.as_written));
}

// Tighter, a shawl of 50 rows that grows by 4 a row takes more of them, and still grows by 4.
TEST(Meeting, AGaugeAsMetKeepsTheIncreases) {
    for (const char* shape : {"triangle from the nape", "crescent"}) {
        const project::Project project =
            make_of(std::string("[[piece]]\nname = \"shawl\"\nshape = \"") + shape +
                    "\"\nstitches = 7\nrows = 50\nincrease = 4\nevery = 1\n");
        project::Gauge met = project.gauge;
        met.stitches = 4.5 * units::stitch / inch;
        met.rows = 2.6 * units::row / inch;
        const fit::MetGauge answer = fit::meet_gauge(project, 0, 0, met);
        ASSERT_TRUE(answer.instead);
        const auto widths = widths_of(answer.instead->project, 0);
        EXPECT_GT(widths.size(), 50U);
        EXPECT_EQ(widths.at(1) - widths.at(0), 4);
        EXPECT_FALSE(answer.instead->shaped_anew);
        EXPECT_NEAR(answer.instead->measures.width / answer.planned.width, 1.0, 0.03);
    }
}

// A block is half of 4 stitches and a row: (1 + 0.5) / 2 = 0.75 in. 48 x 60 in are 64 x 80.
TEST(Meeting, CornerToCornerIsFittedInBlocks) {
    const std::string text =
        "[[piece]]\nname = \"throw\"\nshape = \"corner to corner\"\nblocks_wide = 40\nblocks_high "
        "= 50\n";
    const project::Project project = make_of(text);
    const fit::Fitted fitted = fit::fit_piece(project, 0, 0, wished(48.0, 60.0));
    EXPECT_NEAR(fitted.measures.width / inch, 48.0, 1e-9);
    EXPECT_NEAR(fitted.measures.length / inch, 60.0, 1e-9);
    EXPECT_EQ(fitted.change.blocks_wide.at(0), 64);
    EXPECT_EQ(fitted.change.blocks_high.at(0), 80);
    EXPECT_EQ(fitted.rows.taken, 143);
    EXPECT_TRUE(fit::same_make(fitted.project, saved(quarter_inch + text, fitted), 0));
    EXPECT_EQ(refusal_of(project, 0, wished(0.5)),
              "this is less than one block of \"throw\"; expected 1 block (0.7 in (1.9 cm)) or "
              "more");
    fit::Wish rows;
    rows.rows = 90;
    EXPECT_THAT(refusal_of(project, 0, rows), HasSubstr("expected a width and a length"));
}

const std::string shawl =
    "[[piece]]\nname = \"shawl\"\nshape = \"triangle from the nape\"\n"
    "stitches = 7\nrows = 50\nincrease = 4\nevery = 1\n";

// A size in its own proportions keeps the increases; another spreads them anew and says so.
TEST(Meeting, ATriangleKeepsItsIncreasesWhereItCan) {
    const project::Project project = make_of(shawl);
    const project::FinishedSize now = project::finished_size(project, project.pieces[0], 0);
    const fit::Fitted larger =
        fit::fit_piece(project, 0, 0, wished(1.2 * (now.width / inch), 1.2 * (now.length / inch)));
    EXPECT_FALSE(larger.shaped_anew);
    EXPECT_EQ(widths_of(larger.project, 0).at(1) - widths_of(larger.project, 0).at(0), 4);
    const fit::Fitted flat = fit::fit_piece(project, 0, 0, wished(70.0, 30.0));
    EXPECT_TRUE(flat.shaped_anew);
    EXPECT_TRUE(fit::same_make(flat.project, saved(quarter_inch + shawl, flat), 0));
}

TEST(Meeting, ManyPiecesOfNoLayoutAreAskedAbout) {
    const project::Project project =
        make_of("[[piece]]\nname = \"square\"\nstitches = 20\nrows = 10\ncount = 63\n");
    EXPECT_EQ(refusal_of(project, 0, wished(40.0, 50.0)),
              "\"square\" is made 63 times, and this may be the size of each or of all together; "
              "expected the size of one; or, for all together, 8 by 10 of them, 80 in all, with "
              "the part that joins them");
    EXPECT_EQ(fit::fit_piece(project, 0, 0, wished(5.5)).stitches.taken, 22);
}

/// Pieces of every kind that stretches.
std::vector<std::string> all_kinds() {
    std::vector<std::string> out{
        hat, squares, shawl,
        "[[piece]]\nname = \"throw\"\nshape = \"corner to corner\"\nblocks_wide = 40\nblocks_high "
        "= 50\n",
        "[[piece]]\nname = \"throw\"\nshape = \"corner to corner\"\nrows = 31\n"};
    for (const char* shape : {"crescent", "asymmetric triangle", "triangle from a corner",
                              "triangle from the long edge", "triangle side to side", "circle",
                              "polygon", "doubling circle", "granny square", "trapezoid"}) {
        std::string text = std::string("[[piece]]\nname = \"make\"\nshape = \"") + shape + "\"\n";
        if (std::string(shape) == "trapezoid") text += "last_stitches = 30\n";
        if (std::string(shape) == "trapezoid" ||
            std::string(shape) == "triangle from the long edge")
            text += "stitches = 41\n";
        out.push_back(text + "rows = 31\n");
    }
    return out;
}

// To the tenth of an inch, as it is printed.
TEST(Meeting, FittedToTheSizeItHasNothingChanges) {
    for (const std::string& text : all_kinds()) {
        const project::Project project = make_of(text);
        for (std::size_t piece = 0; piece < project.pieces.size(); ++piece) {
            const project::FinishedSize size =
                project::laid_size(project, piece, 0)
                    .value_or(project::finished_size(project, project.pieces[piece], 0));
            const auto tenth = [](units::Length side) {
                return std::round(10.0 * (side / inch)) / 10.0 * inch;
            };
            for (int which = 1; which <= 3; ++which) {
                fit::Wish wish;
                if (which != 2) wish.width = tenth(size.width);
                if (which != 1) wish.length = tenth(size.length);
                if (which != 1 && !fit::has_length(project, piece, 0)) continue;
                SCOPED_TRACE(text + std::to_string(which));
                fit::Fitted fitted;
                try {
                    fitted = fit::fit_piece(project, piece, 0, wish);
                } catch (const base::InputError&) {
                    continue;  // does not stretch that way
                }
                for (std::size_t at = 0; at < project.pieces.size(); ++at)
                    EXPECT_EQ(widths_of(fitted.project, at), widths_of(project, at));
                EXPECT_NEAR(yarn_of(fitted.project) / yarn_of(project), 1.0, 1e-9);
            }
        }
    }
}

// A wider or longer wish never takes less yarn, and what is saved is the make that was answered.
RC_GTEST_PROP(Meeting, WhatMeetsMeetsStillAndIsSavedAsItIs, ()) {
    const std::vector<std::string> texts{hat, squares, shawl};
    const std::string text = *rc::gen::elementOf(texts);
    const project::Project project = make_of(text);
    const auto piece = *rc::gen::inRange<std::size_t>(0, project.pieces.size());
    const fit::Wish wish = wished(static_cast<double>(*rc::gen::inRange(20, 900)) / 10.0);
    fit::Fitted fitted;
    try {
        fitted = fit::fit_piece(project, piece, 0, wish);
    } catch (const base::InputError&) {
        return;
    }
    if (text == hat)
        RC_ASSERT(widths_of(fitted.project, 0).back() == widths_of(fitted.project, 1).front());
    if (text != squares)
        RC_ASSERT(fit::same_make(fitted.project, saved(quarter_inch + text, fitted), 0));
}

}  // namespace
