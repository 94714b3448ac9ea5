// What a designer's page offers: every size is the one that fit makes, and what is printed for it
// stands to its need as the materials section's does.

#include "skeinfall/materials/on_offer.hpp"

#include <algorithm>
#include <cstdint>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/fit/fit.hpp"

namespace {

using namespace skeinfall;
using materials::Offer;
using materials::OneSize;

project::Project made(const std::string& pieces, const std::string& top = "") {
    return exchange::parse_project(top + R"(title = "Reed scarf"
craft = "crochet"
[gauge]
stitches = "3 per in"
rows = "2 per in"
stitch = "sc"
[yarn.MC]
class = 4
grist = "170 yd / 3.5 oz"
rate = "2.9 in per stitch"
[yarn.CC1]
class = 4
grist = "170 yd / 3.5 oz"
rate = "2.9 in per stitch"
)" + pieces,
                                   "reed.toml");
}

const char* const scarf_piece =
    "[[piece]]\nname = \"scarf\"\nyarn = \"MC\"\nstitches = 10\nrows = 24\n";
const char* const striped =
    "[[piece]]\nname = \"scarf\"\nstitches = 10\nrows = 24\nmultiple = \"3 + 1\"\n"
    "stripes = [{ yarn = \"MC\", rows = 4 }, { yarn = \"CC1\", rows = 4 }]\n"
    "[[finish]]\nkind = \"fringe\"\nname = \"fringe\"\nyarn = \"MC\"\ntakes = \"10 yd\"\n";
const char* const written =
    "[[piece]]\nname = \"scarf\"\nyarn = \"MC\"\nrows = [\"Ch 7.\", "
    "\"Row 1: sc in 2nd ch from hook and in each ch across. (6 sc)\", "
    "\"Row 2: ch 1, turn, *sc in next st, ch 1, skip next st; rep from * across. (3 sc, 3 ch-1 "
    "sp)\", \"Row 3: ch 1, turn, *sc in next ch-1 sp, sc in next st; rep from * across. (6 sc)\", "
    "\"Rows 4-5: rep rows 2 and 3.\"]\n";

struct Offered {
    explicit Offered(project::Project of, std::optional<std::size_t> piece = std::nullopt)
        : project(std::move(of)),
          section(materials::section_of(project)),
          offer(materials::sizes_on_offer(project, section, piece)) {}
    project::Project project;
    materials::Section section;
    Offer offer;
};

/// Stitches, rows and chains as fit makes them from the counts alone, and the need of that.
void expect_as_fit(const Offered& made) {
    const Offer& offer = made.offer;
    ASSERT_TRUE(offer.piece);
    const std::size_t piece = *offer.piece;
    for (std::size_t i = 0; i < offer.across.size(); ++i)
        for (std::size_t j = 0; j < offer.along.size(); ++j) {
            const auto& size = offer.at(i, j);
            if (!size) continue;
            const materials::OfferedPiece& one = size->pieces.at(piece);
            fit::Wish wish;
            if (i != offer.across.written) wish.stitches = one.stitches;
            if (j != offer.along.written) wish.rows = one.rows;
            const fit::Fitted fitted = fit::fit_piece(made.project, piece, 0, wish);
            EXPECT_EQ(fitted.stitches.taken, one.stitches);
            EXPECT_EQ(fitted.rows.taken, one.rows);
            EXPECT_EQ(fitted.chains, one.foundation);
            EXPECT_EQ(fitted.measures.width, one.measures.width);
            EXPECT_EQ(fitted.measures.length, one.measures.length);
            EXPECT_EQ(one.measures.width, offer.across.measures.at(i));
            const need::MakeNeed need = need::need_of(fitted.project, 0);
            for (std::size_t yarn = 0; yarn < offer.yarns.size(); ++yarn) {
                const materials::YarnLine& line = made.section.yarns.at(yarn);
                const auto role = std::find_if(
                    need.roles.begin(), need.roles.end(),
                    [&](const need::RoleNeed& of) { return of.role == offer.yarns[yarn]; });
                ASSERT_NE(role, need.roles.end());
                EXPECT_NEAR(units::Ratio(size->yarns.at(yarn).total / role->length.centre).value(),
                            units::Ratio(line.total[0] / line.model[0]).value(), 1e-9);
                // The skeins hold what is printed beside them.
                EXPECT_LE(size->yarns[yarn].total, *size->yarns[yarn].skeins_hold);
            }
        }
}

// Half an inch a stitch is no fabric at 3 stitches to the inch: the total as written takes
// what fabrics take, and a size beside it may not take less.
TEST(OnOffer, OtherSizesTakeTheWorseReadingToo) {
    project::Project thin = made(scarf_piece);
    thin.roles[0].rate = 0.5 * units::inch / units::stitch;
    const Offered made(thin);
    const Offer& offer = made.offer;
    ASSERT_GT(offer.across.size(), offer.across.written + 1);
    ASSERT_GT(offer.along.size(), offer.along.written + 1);
    const auto total = [&](std::size_t i, std::size_t j) { return offer.at(i, j)->yarns[0].total; };
    for (std::size_t i = 1; i < offer.across.size(); ++i)
        EXPECT_GT(total(i, offer.along.written), total(i - 1, offer.along.written)) << i;
    for (std::size_t j = 1; j < offer.along.size(); ++j)
        EXPECT_GT(total(offer.across.written, j), total(offer.across.written, j - 1)) << j;
}

TEST(OnOffer, EverySizeIsTheOneThatFitMakes) {
    for (const char* piece : {scarf_piece, striped}) expect_as_fit(Offered(made(piece)));
    // What is found in written rows is found once.
    project::Project rows = made(written);
    rows.pieces[0].multiple = fit::stitch_multiple(rows, rows.pieces[0], 0).multiple;
    rows.pieces[0].row_multiple = fit::row_multiple(rows, rows.pieces[0], 0).multiple;
    expect_as_fit(Offered(rows));
}

TEST(OnOffer, TheWrittenSizeIsTheSections) {
    for (const char* piece : {scarf_piece, striped}) {
        const Offered made_of(made(piece));
        const Offer& offer = made_of.offer;
        const auto& size = offer.at(offer.across.written, offer.along.written);
        ASSERT_TRUE(size);
        for (std::size_t yarn = 0; yarn < offer.yarns.size(); ++yarn) {
            EXPECT_EQ(size->yarns[yarn].total, made_of.section.yarns[yarn].total[0]);
            EXPECT_EQ(size->yarns[yarn].skeins, made_of.section.yarns[yarn].skeins[0]);
        }
    }
}

// 19 stitches in a multiple of 3 + 1, 80 rows in stripes of 4 and 4, at 3 and 2 to the inch:
// repeats of 1 in across and stripes of 4 in along. Half to twice is 10 to 37 stitches and 40 to
// 160 rows.
TEST(OnOffer, ComesInWholeRepeatsAboutTheWrittenSize) {
    const Offered made_of(made(striped));
    const Offer& offer = made_of.offer;
    ASSERT_TRUE(offer.piece);
    ASSERT_EQ(offer.across.size(), 5U);
    ASSERT_EQ(offer.along.size(), 5U);
    EXPECT_LE(offer.across.size(), materials::choices_at_most);
    EXPECT_LE(offer.along.size(), materials::choices_at_most);
    EXPECT_NEAR(offer.across.measures.at(offer.across.written) / units::inch, 10 / 3.0, 1e-9);
    for (std::size_t i = 0; i < offer.across.size(); ++i) {
        const auto& size = offer.at(i, offer.along.written);
        ASSERT_TRUE(size);
        EXPECT_EQ(size->pieces[0].stitches % 3, 1);
        EXPECT_EQ(size->pieces[0].repeats, (size->pieces[0].stitches - 1) / 3);
        EXPECT_GE(size->pieces[0].stitches, 7);
        EXPECT_LE(size->pieces[0].stitches, 19);
    }
    for (std::size_t j = 0; j < offer.along.size(); ++j)
        EXPECT_EQ(offer.at(offer.across.written, j)->pieces[0].rows % 8, 0);
    // A fringe follows the width, so that nothing is left as it was.
    EXPECT_THAT(offer.unchanged, ::testing::IsEmpty());
}

TEST(OnOffer, WiderAndLongerTakeMore) {
    const Offered made_of(made(scarf_piece));
    const Offer& offer = made_of.offer;
    for (std::size_t i = 0; i < offer.across.size(); ++i)
        for (std::size_t j = 0; j < offer.along.size(); ++j) {
            const materials::OfferedYarn& yarn = offer.at(i, j)->yarns[0];
            if (i > 0) {
                EXPECT_GT(yarn.total, offer.at(i - 1, j)->yarns[0].total);
            }
            if (j > 0) {
                EXPECT_GT(yarn.total, offer.at(i, j - 1)->yarns[0].total);
            }
        }
}

TEST(OnOffer, SizesWithNamesKeepThem) {
    const std::string three =
        "[[piece]]\nname = \"body\"\nyarn = \"MC\"\nstitches = [60, 70, 80]\nrows = 80\n";
    const Offered named(made(three, "sizes = [\"S\", \"M\", \"L\"]\n"));
    EXPECT_FALSE(named.offer.piece);
    EXPECT_THAT(named.offer.across.names, ::testing::ElementsAre("S", "M", "L"));
    ASSERT_EQ(named.offer.sizes.size(), 3U);
    EXPECT_EQ(named.offer.at(2, 0)->pieces[0].stitches, 80);
    EXPECT_EQ(named.offer.at(2, 0)->yarns[0].total, named.section.yarns[0].total[2]);
    EXPECT_EQ(named.offer.why, OneSize::no);
}

TEST(OnOffer, AGridIsChosenByWidthAndLength) {
    const Offered grid(
        made("[[piece]]\nname = \"body\"\nyarn = \"MC\"\nmultiple = \"3 + 1\"\n",
             "widths = [\"40 in\", \"50 in\"]\nlengths = [\"50 in\", \"60 in\", \"80 in\"]\n"));
    ASSERT_TRUE(grid.offer.grid);
    EXPECT_EQ(grid.offer.across.size(), 2U);
    EXPECT_EQ(grid.offer.along.size(), 3U);
    ASSERT_EQ(grid.offer.sizes.size(), 6U);
    const auto& wide_and_middle = grid.offer.at(1, 1);
    ASSERT_TRUE(wide_and_middle);
    EXPECT_NEAR(wide_and_middle->pieces[0].measures.width / units::inch, 50.0, 0.6);
    EXPECT_NEAR(wide_and_middle->pieces[0].measures.length / units::inch, 60.0, 0.6);
    EXPECT_EQ(wide_and_middle->yarns[0].total, grid.section.yarns[0].total[4]);
}

TEST(OnOffer, SaysWhyThereIsOneSize) {
    const std::string two =
        std::string(scarf_piece) +
        "[[piece]]\nname = \"pocket\"\nyarn = \"CC1\"\nstitches = 12\nrows = 9\n";
    const Offered several(made(two));
    EXPECT_EQ(several.offer.why, OneSize::several_pieces);
    EXPECT_EQ(several.offer.sizes.size(), 1U);
    // Named by the designer, one of them changes and the other stays.
    const Offered one(made(two), 0);
    ASSERT_TRUE(one.offer.piece);
    EXPECT_GT(one.offer.sizes.size(), 20U);
    for (const auto& size : one.offer.sizes)
        if (size) {
            EXPECT_EQ(size->pieces.at(1).stitches, 12);
        }
    project::Project bare = made(scarf_piece);
    bare.pieces.clear();
    bare.roles[0].total_length = project::PerSize<units::Length>(100.0 * units::metre);
    EXPECT_EQ(Offered(bare).offer.why, OneSize::no_pieces);
}

constexpr const char* squares =
    "[[piece]]\nname = \"square\"\nyarn = \"MC\"\ncount = 40\nstitches = 12\nrows = 8\n";
constexpr const char* joined =
    "[[finish]]\nkind = \"joining\"\nyarn = \"MC\"\nof = \"square\"\ncolumns = 5\n";

// Squares of 4 by 4 in, five across and eight along: 20 by 32 in. Of 4 by 8 the joined sides are
// 3 x 8 + 4 x 7 = 52, of 5 by 8 they are 67, each of 12 stitches.
TEST(OnOffer, MotifsAreChosenByTheirNumber) {
    const Offered blanket(made(std::string(squares) + joined));
    const Offer& offer = blanket.offer;
    ASSERT_TRUE(offer.motifs && offer.piece);
    EXPECT_EQ(offer.across.motifs.at(offer.across.written), 5);
    EXPECT_EQ(offer.along.motifs.at(offer.along.written), 8);
    for (std::size_t i = 0; i < offer.across.size(); ++i)
        for (std::size_t j = 0; j < offer.along.size(); ++j) {
            const auto& size = offer.at(i, j);
            ASSERT_TRUE(size && size->motifs);
            const std::int64_t count = offer.across.motifs[i] * offer.along.motifs[j];
            EXPECT_EQ(size->motifs->count, count);
            EXPECT_EQ(size->pieces[0].copies, count);
            EXPECT_EQ(size->pieces[0].stitches, 12);
            EXPECT_NEAR(size->motifs->whole->width / units::inch,
                        4.0 * static_cast<double>(offer.across.motifs[i]), 1e-9);
            // More motifs never take less.
            if (i > 0) {
                EXPECT_GT(size->yarns[0].total, offer.at(i - 1, j)->yarns[0].total);
            }
            if (j > 0) {
                EXPECT_GT(size->yarns[0].total, offer.at(i, j - 1)->yarns[0].total);
            }
        }
    // In proportion to what the project with that number of motifs takes.
    project::Project four = blanket.project;
    four.pieces[0].count = project::PerSize<std::int64_t>(32);
    four.finish[0].columns = project::PerSize<std::int64_t>(4);
    const units::Length need = need::need_of(four, 0).roles[0].length.centre;
    const units::Length as_written = need::need_of(blanket.project, 0).roles[0].length.centre;
    const auto at = [&](std::int64_t across) {
        return static_cast<std::size_t>(
            std::find(offer.across.motifs.begin(), offer.across.motifs.end(), across) -
            offer.across.motifs.begin());
    };
    EXPECT_NEAR(offer.at(at(4), offer.along.written)->yarns[0].total /
                    offer.at(at(5), offer.along.written)->yarns[0].total,
                need / as_written, 1e-9);
}

TEST(OnOffer, MotifsThatNobodyJoinsAreChosenByNumberAlone) {
    const Offered loose((made(squares)));
    ASSERT_TRUE(loose.offer.motifs);
    EXPECT_EQ(loose.offer.across.motifs.at(loose.offer.across.written), 40);
    EXPECT_EQ(loose.offer.along.size(), 1U);
    EXPECT_FALSE(loose.offer.sizes.front()->motifs->across);
    // A pair is none.
    const Offered pair(
        made("[[piece]]\nname = \"mitten\"\nyarn = \"MC\"\ncount = 2\nstitches = 24\nrows = 30\n"));
    EXPECT_FALSE(pair.offer.motifs);
}

// A total is for its motifs: twice as many take twice the yarn.
TEST(OnOffer, ATotalFollowsTheMotifs) {
    std::string text = squares;
    project::Project project = made(text);
    project.roles[0].total_length = project::PerSize<units::Length>(400.0 * units::metre);
    project.roles[0].rate = std::nullopt;
    const Offered made_so(project);
    const Offer& offer = made_so.offer;
    const auto& first = offer.sizes.front();
    EXPECT_NEAR(first->yarns[0].total / offer.at(offer.across.written, 0)->yarns[0].total,
                static_cast<double>(first->motifs->count) / 40.0, 0.02);
}

// What grows from a narrow beginning, or from its centre, becomes wider by its rows.
TEST(OnOffer, ATriangleIsOnlyMadeLonger) {
    const Offered triangle(
        made("[[piece]]\nname = \"shawl\"\nyarn = \"MC\"\nstitches = 3\n"
             "increase = 1\nrows = 30\n"));
    EXPECT_EQ(triangle.offer.across.size(), 1U);
    EXPECT_GT(triangle.offer.along.size(), 5U);
}

// Published, it is for other hands than the one that finished makes taught.
TEST(OnOffer, TheDesignersOwnHandIsLeftOut) {
    project::Project own = made(scarf_piece);
    own.hand = project::Hand{units::Ratio(1.3), units::Ratio(0.02), 9};
    const Offered with(own);
    const Offered without(made(scarf_piece));
    ASSERT_EQ(with.offer.sizes.size(), without.offer.sizes.size());
    for (std::size_t i = 0; i < with.offer.sizes.size(); ++i)
        EXPECT_EQ(with.offer.sizes[i]->yarns[0].total, without.offer.sizes[i]->yarns[0].total);
}

}  // namespace
