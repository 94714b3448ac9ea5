// How large a make may become, against worked examples.

#include "skeinfall/cover/largest.hpp"

#include <gtest/gtest.h>

#include "skeinfall/base/problem.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using cover::Extent;
using cover::Growth;

/// A piece that grows, worked at a metre a stitch without foundation and bind-off.
project::Project growing_piece(long stitches, long increase, long every) {
    project::Project make = support::rectangle(stitches, 10);
    make.pieces[0].increase = project::PerSize<long>(increase);
    make.pieces[0].every = every;
    make.roles[0].rate = 1.0 * units::metre / units::stitch;
    make.roles[0].total_length = {};
    make.roles[0].total_mass = {};
    make.swatches.clear();
    return make;
}

/// One skein whose supply is sure and which leaves `metres` for the work.
std::vector<stash::Skein> one_skein(double metres) {
    return {support::whole(
        "a", support::yarn_of("Kelpie", support::metres(metres), support::grams(100)), "1")};
}

cover::Rules without_tails() {
    cover::Rules rules;
    rules.confidence = {units::Ratio(0.5)};
    rules.tail = units::Length{};
    return rules;
}

long largest_rows(const project::Project& make, double metres) {
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
    long stitches = 0;
    for (const project::Row& row : project::row_sequence(turned, 0))
        stitches += std::lround(row.stitches / units::stitch);
    EXPECT_EQ(stitches, 16);
}

TEST(Largest, TurnWithIncreasesEverySecondRow) {
    // 1 1 2 2 3 3, then 2 2 1 1.
    const project::Project turned =
        cover::grown(growing_piece(1, 1, 2), 0, {Extent::turn, 0, 2, 0}, 6);
    std::vector<long> rows;
    for (const project::Row& row : project::row_sequence(turned, 0))
        rows.push_back(std::lround(row.stitches / units::stitch));
    EXPECT_EQ(rows, (std::vector<long>{1, 1, 2, 2, 3, 3, 2, 2, 1, 1}));
}

// A triangle side to side turns by itself at its middle: 3 3 4 4 5, then 5 4 4 3 3 of its own, not
// of a second triangle behind it.
TEST(Largest, AShapeThatTurnsByItselfTurnsOnce) {
    project::Project make = growing_piece(3, 1, 2);
    project::give_shape(make.pieces[0], *project::find_shape("triangle side to side"));
    make.pieces[0].rows = project::PerSize<long>(10);
    const Growth turn{Extent::turn, 0, 1, 0};
    const auto widths_at = [&](long value) {
        std::vector<long> rows;
        for (const project::Row& row : project::row_sequence(cover::grown(make, 0, turn, value), 0))
            rows.push_back(std::lround(row.stitches / units::stitch));
        return rows;
    };
    EXPECT_EQ(widths_at(5), (std::vector<long>{3, 3, 4, 4, 5, 4, 4, 3, 3}));
    EXPECT_EQ(widths_at(6), (std::vector<long>{3, 3, 4, 4, 5, 5, 4, 4, 3, 3}));
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
    const cover::Largest out = cover::largest(growing_piece(1, 0, 1), 0, one_skein(1e6),
                                              without_tails(), {Extent::rows, 0, 1, 0});
    EXPECT_TRUE(out.endless);
    EXPECT_EQ(out.sure->value, cover::largest_at_most);
}

TEST(Largest, RefusesWhatCannotGrow) {
    const project::Project straight = growing_piece(10, 0, 1);
    EXPECT_THROW(static_cast<void>(cover::largest(straight, 0, one_skein(5), without_tails(),
                                                  {Extent::turn, 0, 1, 0})),
                 base::InputError);
    EXPECT_THROW(static_cast<void>(cover::largest(straight, 0, one_skein(5), without_tails(),
                                                  {Extent::size, 0, 1, 0})),
                 base::InputError);
}

}  // namespace
