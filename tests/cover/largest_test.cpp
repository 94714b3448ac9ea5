// How large a make may become, against worked examples.

#include "skeinfall/cover/largest.hpp"

#include <cstdint>

#include <gtest/gtest.h>

#include "skeinfall/base/problem.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using cover::Extent;
using cover::Growth;

/// A piece that grows, worked at a metre a stitch without foundation and bind-off.
project::Project growing_piece(std::int64_t stitches, std::int64_t increase, std::int64_t every) {
    project::Project make = support::rectangle(stitches, 10);
    make.pieces[0].increase = project::PerSize<std::int64_t>(increase);
    make.pieces[0].every = every;
    // A stitch 10 cm wide, for which 1 m is a plausible rate.
    make.gauge.stitches = 10.0 * units::stitch / units::metre;
    make.roles[0].rate = 1.0 * units::metre / units::stitch;
    make.roles[0].total_length = {};
    make.roles[0].total_mass = {};
    make.swatches.clear();
    return make;
}

/// One skein whose supply is sure and which leaves `metres` for the work.
std::vector<stash::Skein> one_skein(double metres) {
    return {support::whole(
        "a", support::yarn_of("Kelpie", support::metres(metres), support::grams(metres / 10.0)),
        "1")};
}

cover::Rules without_tails() {
    cover::Rules rules;
    rules.confidence = {units::Ratio(0.5)};
    rules.tail = units::Length{};
    return rules;
}

std::int64_t largest_rows(const project::Project& make, double metres) {
    const cover::Largest out =
        cover::largest(make, 0, one_skein(metres), without_tails(), {Extent::rows, 0, 1, 0});
    return out.sure ? out.sure->value : 0;
}

// Seven stitches and two more every row: 99 rows use 10 395, 100 rows 10 600 (closed form
// s0 R + i R(R-1)/2; a spread of the rate does not move an even chance).
TEST(Largest, RowsOfAGrowingPiece) {
    EXPECT_EQ(largest_rows(growing_piece(7, 2, 1), 10'500), 99);
    EXPECT_EQ(largest_rows(growing_piece(7, 2, 1), 10'600), 100);
    EXPECT_EQ(largest_rows(growing_piece(7, 2, 1), 10'599), 99);
}

// Four by six blocks in proportion: six by nine. Stripes of four rows keep their repeat: in
// proportion 10 stitches by 12 rows, and no row count that no repeat ends with.
TEST(Largest, ProportionsComeInBlocksAndInWholeRepeats) {
    project::Project blocks = growing_piece(4, 0, 1);
    blocks.pieces[0].rows = {};
    blocks.pieces[0].length = {};
    blocks.pieces[0].stitches = project::PerSize<std::int64_t>(4);
    blocks.pieces[0].blocks_high = project::PerSize<std::int64_t>(6);
    blocks.pieces[0].shape = project::find_shape("corner to corner");
    const Growth both = cover::usual_growth(blocks, 0, Extent::both, 0);
    EXPECT_EQ(both.extent, Extent::both);
    const project::Project six = cover::grown(blocks, 0, both, 6);
    EXPECT_EQ(six.pieces[0].stitches.at(0), 6);
    EXPECT_EQ(six.pieces[0].blocks_high.at(0), 9);

    project::Project striped = growing_piece(10, 0, 1);
    striped.pieces[0].rows = project::PerSize<std::int64_t>(12);
    striped.pieces[0].role.clear();
    striped.pieces[0].stripes = {{"MC", 2}, {"MC", 2}};
    striped.roles.push_back(striped.roles[0]);
    striped.roles.back().id = "CC1";
    striped.pieces[0].stripes[1].role = "CC1";
    striped.pieces[0].stripes[0].role = striped.roles[0].id;
    const Growth growth = cover::usual_growth(striped, 0, Extent::both, 0);
    for (std::int64_t stitches = 5; stitches < 30; ++stitches)
        EXPECT_EQ(cover::grown(striped, 0, growth, stitches).pieces[0].rows.at(0) % 4, 0);
}

// Rows written out go on with those that repeat at their end: ten stitches of a metre each, so 105
// m give ten rows and 95 m nine.
TEST(Largest, RowsWrittenOutGoOnAsTheyRepeat) {
    project::Project make = growing_piece(10, 0, 1);
    project::RowWork row;
    row.made = 10.0 * units::stitch;
    row.across = row.made;
    project::WorkedRows rows;
    rows.distinct = {row};
    rows.order = {0, 0, 0, 0};
    make.pieces[0].rows = {};
    make.pieces[0].stitches = {};
    make.pieces[0].increase = {};
    make.pieces[0].pattern = project::PerSize<project::WorkedRows>(rows);
    EXPECT_EQ(largest_rows(make, 105), 10);
    EXPECT_EQ(largest_rows(make, 95), 9);
    EXPECT_EQ(largest_rows(make, 25), 2);
    rows.distinct.push_back(row);
    rows.order = {0, 0, 0, 1};
    make.pieces[0].pattern = project::PerSize<project::WorkedRows>(rows);
    EXPECT_EQ(largest_rows(make, 25), 2) << "fewer rows need no repeat";
    EXPECT_EQ(largest_rows(make, 105), 4) << "and more are not written";
}

// Ten stitches a row at 10 cm and a border of one round of 2 (10 + rows) stitches: with a metre a
// stitch 20 + 12 rows metres in all, so that 140 m give 10 rows, and 139 m nine.
TEST(Largest, ABorderGrowsWithItsPiece) {
    project::Project make = growing_piece(10, 0, 1);
    make.gauge.rows = 10.0 * units::row / units::metre;
    make.pieces[0].rows = project::PerSize<std::int64_t>(5);
    project::FinishPart border;
    border.kind = project::PartKind::border;
    border.name = "border";
    border.role = make.pieces[0].role;
    border.first_round = project::PerSize<std::int64_t>(30);
    make.finish = {border};
    EXPECT_EQ(largest_rows(make, 140.01), 10);
    EXPECT_EQ(largest_rows(make, 139), 9);
    const project::Project grown = cover::grown(make, 0, {Extent::width, 0, 1, 0}, 25);
    EXPECT_EQ(grown.finish[0].first_round.at(0), 60);
    const project::Project turned =
        cover::grown(growing_piece(1, 1, 1), 0, {Extent::turn, 0, 1, 0}, 4);
    EXPECT_EQ(turned.pieces.size(), 2U);
    make.finish[0].first_round = {};
    make.finish[0].yarn = project::PerSize<units::Length>(10.0 * units::metre);
    const cover::Largest told =
        cover::largest(make, 0, one_skein(100), without_tails(), {Extent::rows, 0, 1, 0});
    EXPECT_EQ(told.unchanged, std::vector<std::string>{"border"});
}

// Squares laid four to a row come a row at a time.
TEST(Largest, MotifsGrowByWholeRowsOfThem) {
    project::Project make = growing_piece(10, 0, 1);
    make.pieces[0].count = project::PerSize<std::int64_t>(8);
    project::FinishPart joining;
    joining.kind = project::PartKind::joining;
    joining.role = make.pieces[0].role;
    joining.of = make.pieces[0].name;
    joining.columns = project::PerSize<std::int64_t>(4);
    make.finish = {joining};
    EXPECT_EQ(cover::usual_growth(make, 0, Extent::count, 0).step, 4);
}

// A maker's crescent weighs 2, 4, 6 g in its blocks of ten rows; 200 g give 13 blocks (182 g) and
// not 14 (210 g). The page's own formula loses one (https://blog.trueelena.org/blog/2023/06/
// 16-shawl_calculations/index.html).
TEST(Largest, BlocksOfACrescent) {
    EXPECT_EQ(largest_rows(growing_piece(2, 2, 1), 200), 13);
}

// Four increases every second row from seven: 100 rows take 10 500, 101 take 10 707 (the sum
// s0 R + a floor((R-1)^2/4)).
TEST(Largest, RowsOfATriangle) {
    EXPECT_EQ(largest_rows(growing_piece(7, 4, 2), 10'500), 100);
    EXPECT_EQ(largest_rows(growing_piece(7, 4, 2), 10'706), 100);
    EXPECT_EQ(largest_rows(growing_piece(7, 4, 2), 10'707), 101);
}

// Half the ball up and half down runs short: the widest row is worked once, so the way there may
// take only (all - widest)/2 (a maker's dishcloth, http://thekniftyknitter.blogspot.com/2011/11/
// fool-me-once-shame-on-me-fool-me-twice.html). 1 + 2 + ... + 9 + 10 + 9 + ... + 1 = 100.
TEST(Largest, TurnBeforeHalfOfTheYarnIsUsed) {
    const project::Project cloth = growing_piece(1, 1, 1);
    const Growth turn{Extent::turn, 0, 1, 0};
    const auto turn_at = [&](double metres) {
        return cover::largest(cloth, 0, one_skein(metres), without_tails(), turn).sure->value;
    };
    EXPECT_EQ(turn_at(100), 10);
    EXPECT_EQ(turn_at(120), 10);
    EXPECT_EQ(turn_at(121), 11);
    // Half of 120 would be reached after row 10 (55), but not with row 11 (66).
    const project::Project turned = cover::grown(cloth, 0, turn, 4);
    std::int64_t stitches = 0;
    for (const project::Row& row : project::row_sequence(turned, 0))
        stitches += std::llround(row.stitches / units::stitch);
    EXPECT_EQ(stitches, 16);
}

TEST(Largest, TurnWithIncreasesEverySecondRow) {
    // 1 1 2 2 3 3, then 2 2 1 1.
    const project::Project turned =
        cover::grown(growing_piece(1, 1, 2), 0, {Extent::turn, 0, 2, 0}, 6);
    std::vector<std::int64_t> rows;
    for (const project::Row& row : project::row_sequence(turned, 0))
        rows.push_back(std::llround(row.stitches / units::stitch));
    EXPECT_EQ(rows, (std::vector<std::int64_t>{1, 1, 2, 2, 3, 3, 2, 2, 1, 1}));
}

// A triangle side to side turns by itself at its middle: 3 3 4 4 5, then 5 4 4 3 3 of its own, not
// of a second triangle behind it.
TEST(Largest, AShapeThatTurnsByItselfTurnsOnce) {
    project::Project make = growing_piece(3, 1, 2);
    project::give_shape(make.pieces[0], *project::find_shape("triangle side to side"));
    make.pieces[0].rows = project::PerSize<std::int64_t>(10);
    const Growth turn{Extent::turn, 0, 1, 0};
    const auto widths_at = [&](std::int64_t value) {
        std::vector<std::int64_t> rows;
        for (const project::Row& row : project::row_sequence(cover::grown(make, 0, turn, value), 0))
            rows.push_back(std::llround(row.stitches / units::stitch));
        return rows;
    };
    EXPECT_EQ(widths_at(5), (std::vector<std::int64_t>{3, 3, 4, 4, 5, 4, 4, 3, 3}));
    EXPECT_EQ(widths_at(6), (std::vector<std::int64_t>{3, 3, 4, 4, 5, 5, 4, 4, 3, 3}));
    const cover::Largest found = cover::largest(make, 0, one_skein(33), without_tails(), turn);
    EXPECT_EQ(found.planned, 5);
    ASSERT_TRUE(found.sure);
    EXPECT_EQ(found.sure->value, 5) << "33 stitches, and 38 with another row";
}

TEST(Largest, WholeRepeatsAndHalfOnes) {
    const project::Project make = growing_piece(10, 0, 1);
    const cover::Largest out =
        cover::largest(make, 0, one_skein(270), without_tails(), {Extent::rows, 0, 8, 2});
    EXPECT_EQ(out.sure->value, 26);
    EXPECT_EQ(out.next.value, 34);
    EXPECT_FALSE(out.half);
    const cover::Largest more =
        cover::largest(make, 0, one_skein(300), without_tails(), {Extent::rows, 0, 8, 2});
    EXPECT_EQ(more.sure->value, 26);
    ASSERT_TRUE(more.half);
    EXPECT_EQ(more.half->value, 30);
}

TEST(Largest, WidthAndCount) {
    const project::Project make = growing_piece(10, 0, 1);  // ten rows
    EXPECT_EQ(cover::largest(make, 0, one_skein(259), without_tails(), {Extent::width, 0, 6, 1})
                  .sure->value,
              25);
    EXPECT_EQ(cover::largest(make, 0, one_skein(399), without_tails(), {Extent::count, 0, 1, 0})
                  .sure->value,
              3);
}

TEST(Largest, TheFinishIsHeldBack) {
    project::Project make = growing_piece(10, 0, 1);
    project::FinishPart border;
    border.kind = project::PartKind::border;
    border.name = "border";
    border.role = make.roles[0].id;
    border.yarn = project::PerSize<units::Length>(55.0 * units::metre);
    make.finish = {border};
    EXPECT_EQ(largest_rows(make, 200), 14);
}

TEST(Largest, NotEvenOneRow) {
    const cover::Largest out = cover::largest(growing_piece(10, 0, 1), 0, one_skein(5),
                                              without_tails(), {Extent::rows, 0, 1, 0});
    EXPECT_FALSE(out.sure);
    EXPECT_EQ(out.next.value, 1);
}

TEST(Largest, EndsEvenWhenTheYarnDoesNot) {
    const cover::Largest out = cover::largest(growing_piece(1, 0, 1), 0, one_skein(45'000),
                                              without_tails(), {Extent::rows, 0, 1, 0});
    EXPECT_TRUE(out.endless);
    EXPECT_EQ(out.sure->value, cover::largest_at_most);
}

// A total of 100 m is for ten rows of ten stitches, a metre each: 175 m make 17 rows, and 25
// stitches of a hundred rows' worth. Foundation and bind-off take nothing here.
TEST(Largest, AStatedTotalFollowsTheSize) {
    project::Project make = growing_piece(10, 0, 1);
    make.roles[0].rate.reset();
    make.roles[0].total_length = project::PerSize<units::Length>(100.0 * units::metre);
    EXPECT_EQ(largest_rows(make, 175), 17);
    EXPECT_EQ(cover::largest(make, 0, one_skein(255), without_tails(), {Extent::width, 0, 1, 0})
                  .sure->value,
              25);
    EXPECT_EQ(cover::largest(make, 0, one_skein(399), without_tails(), {Extent::count, 0, 1, 0})
                  .sure->value,
              3);
}

// Ten stitches by ten rows in proportion: n by n takes n squared metres, so 150 m give 12 by 12
// (144), in whole repeats of 3 + 1 ten by ten (100; 13 by 13 take 169).
TEST(Largest, BothInProportion) {
    project::Project make = growing_piece(10, 0, 1);
    const Growth both{Extent::both, 0, 1, 0};
    const cover::Largest out = cover::largest(make, 0, one_skein(150), without_tails(), both);
    ASSERT_TRUE(out.sure);
    EXPECT_EQ(out.sure->stitches, 12);
    EXPECT_EQ(out.sure->rows, 12);
    EXPECT_NEAR(out.sure->finished.width / units::centimetre, 120.0, 1e-9);
    EXPECT_NEAR(out.sure->finished.length / units::inch, 6.0, 1e-9);
    make.pieces[0].multiple = project::Multiple{3, 1, {}};
    const Growth repeats = cover::usual_growth(make, 0, Extent::both, 0);
    EXPECT_EQ(repeats.step, 3);
    EXPECT_EQ(repeats.offset, 1);
    EXPECT_EQ(cover::largest(make, 0, one_skein(150), without_tails(), repeats).sure->value, 10);
    // What grows by its rows keeps its outline by them.
    EXPECT_EQ(cover::usual_growth(growing_piece(7, 2, 1), 0, Extent::both, 0).extent, Extent::rows);
}

// 12 stitches to 4 in. With the counts kept yarn goes with the width of a stitch: 10 m at 12, so
// 9 m last at 12 / 0.9 = 13.33 and tighter, by half stitches at 13.5. With the size kept it goes
// the other way: 12 x 0.9 = 10.8, so 10.5.
TEST(Largest, ByGauge) {
    project::Project make = growing_piece(10, 0, 1);
    make.gauge.stitches = 12.0 * units::shown::per_4in.one;
    make.roles[0].rate = 0.1 * units::metre / units::stitch;
    make.roles[0].name = "Kelpie";
    const auto per_4in = [](units::StitchGauge gauge) {
        return units::Ratio(gauge / units::shown::per_4in.one).value();
    };
    const cover::LargestByGauge out =
        cover::largest_by_gauge(make, 0, one_skein(9), without_tails(), 0);
    EXPECT_NE(out.planned.verdict, cover::Verdict::covered);
    ASSERT_TRUE(out.counts);
    EXPECT_NEAR(per_4in(out.counts->stitches), 13.5, 1e-9);
    EXPECT_NEAR(out.counts->finished.width / out.planned.finished.width, 12.0 / 13.5, 1e-9);
    EXPECT_NEAR(out.counts->finished.length / out.planned.finished.length, 12.0 / 13.5, 1e-9);
    ASSERT_TRUE(out.size);
    EXPECT_NEAR(per_4in(out.size->stitches), 10.5, 1e-9);
    EXPECT_NEAR(out.size->finished.width / out.planned.finished.width, 1.0, 1e-9);
    // Enough and to spare: as loose as 12 x 100/110 = 10.91, so 11.
    const cover::LargestByGauge more =
        cover::largest_by_gauge(make, 0, one_skein(11), without_tails(), 0);
    ASSERT_TRUE(more.counts);
    EXPECT_NEAR(per_4in(more.counts->stitches), 11.0, 1e-9);
    EXPECT_FALSE(more.size);
    // A third is missing: no gauge near makes it reach.
    const cover::LargestByGauge none =
        cover::largest_by_gauge(make, 0, one_skein(6), without_tails(), 0);
    EXPECT_FALSE(none.counts || none.size);
}

TEST(Largest, RefusesWhatCannotGrow) {
    const project::Project straight = growing_piece(10, 0, 1);
    EXPECT_THROW(static_cast<void>(cover::largest(straight, 0, one_skein(5), without_tails(),
                                                  {Extent::turn, 0, 1, 0})),
                 base::InputError);
    EXPECT_THROW(static_cast<void>(cover::largest(straight, 0, one_skein(5), without_tails(),
                                                  {Extent::size, 0, 1, 0})),
                 base::InputError);
    project::Project round = growing_piece(10, 0, 1);
    project::give_shape(round.pieces[0], *project::find_shape("circle"));
    EXPECT_THROW(static_cast<void>(cover::largest(round, 0, one_skein(5), without_tails(),
                                                  {Extent::width, 0, 1, 0})),
                 base::InputError);
}

}  // namespace
