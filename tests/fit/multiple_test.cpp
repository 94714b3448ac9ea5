// Multiples in the trade's words, and whole repeats near a count.

#include "skeinfall/project/multiple.hpp"

#include <cstdint>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace skeinfall::project {
namespace {

struct Said {
    const char* text;
    std::int64_t repeat;
    std::int64_t plus;
    std::optional<std::int64_t> foundation;
};

TEST(Multiple, IsReadInTheTradesWords) {
    const Said all[] = {
        {"2", 2, 0, {}},
        {"3 + 1", 3, 1, {}},
        {"12 + 3 and 2 for the turning chain", 12, 3, 2},
        {"multiple of 6 + 5, add 2 for the foundation", 6, 5, 2},
        {"Multiple of 6 sts plus 5 sts (add 2 for base ch)", 6, 5, 2},
        {"a multiple of 8", 8, 0, {}},
        {"4 sts + 3, plus 1 for the turning ch", 4, 3, 1},
        {"any multiple of 10 plus 1.", 10, 1, {}},
        {"mult of 5 + 2", 5, 2, {}},
        {"multiple of 3, plus 1", 3, 1, {}},
        {"multiple of 6, add 2", 6, 0, 2},
        {"multiple of 6, plus 5, add 2", 6, 5, 2},
    };
    for (const Said& one : all) {
        const auto read = parse_multiple(one.text);
        ASSERT_TRUE(read.ok()) << one.text;
        EXPECT_EQ(*read, (Multiple{one.repeat, one.plus, one.foundation})) << one.text;
    }
}

TEST(Multiple, WhatIsNoMultipleIsRefused) {
    for (const char* text : {"", "+ 1", "3 +", "3 + 1 + ", "3 - 1", "three", "0", "0 + 4",
                             "3 + 1 and more", "100001", "3 + 100001", "3 1", "-3", "1.5"})
        EXPECT_FALSE(parse_multiple(text).ok()) << text;
    for (const char* text : {"rows 6 to 3", "rows", "rows 0 to 2", "2, add 2", "rows 3 to"})
        EXPECT_FALSE(parse_row_multiple(text).ok()) << text;
}

TEST(Multiple, RowsMayBeNamed) {
    EXPECT_EQ(*parse_row_multiple("rows 3 to 6"), (Multiple{4, 2, {}}));
    EXPECT_EQ(*parse_row_multiple("Rows 2-3"), (Multiple{2, 1, {}}));
    EXPECT_EQ(*parse_row_multiple("2"), (Multiple{2, 0, {}}));
    EXPECT_EQ(*parse_row_multiple("4 rows + 2"), (Multiple{4, 2, {}}));
}

// Worked by hand: of each multiple the counts that fit on either side of a wish.
struct ByHand {
    const char* multiple;
    std::int64_t wish;
    std::int64_t below;  ///< 0: none
    std::int64_t above;
};

TEST(Multiple, FitsWorkedByHand) {
    const ByHand all[] = {
        {"1", 1, 1, 1},
        {"1", 97, 97, 97},
        {"2", 7, 6, 8},
        {"2", 8, 8, 8},
        {"2 + 1", 8, 7, 9},
        {"2 + 1", 2, 0, 3},
        {"3", 100, 99, 102},
        {"3 + 1", 18, 16, 19},
        {"3 + 1", 19, 19, 19},
        {"3 + 2", 19, 17, 20},
        {"3 + 1", 3, 0, 4},
        {"4 + 1", 40, 37, 41},
        {"4 + 3", 40, 39, 43},
        {"4 + 2", 42, 42, 42},
        {"5 + 2", 50, 47, 52},
        {"5", 63, 60, 65},
        {"6 + 5", 31, 29, 35},
        {"6 + 5", 35, 35, 35},
        {"6 + 1", 60, 55, 61},
        {"6 + 3", 8, 0, 9},
        {"7 + 3", 87, 87, 87},
        {"7", 88, 84, 91},
        {"8 + 1", 72, 65, 73},
        {"8 + 2", 74, 74, 74},
        {"8 + 7", 80, 79, 87},
        {"9 + 4", 100, 94, 103},
        {"10 + 1", 100, 91, 101},
        {"10 + 3", 33, 33, 33},
        {"11 + 2", 60, 57, 68},
        {"12 + 3", 50, 39, 51},
        {"12 + 5", 77, 77, 77},
        {"13", 100, 91, 104},
        {"14 + 1", 127, 127, 127},
        {"16 + 1", 120, 113, 129},
        {"17 + 4", 20, 0, 21},
        {"18 + 7", 97, 97, 97},
        {"20 + 9", 150, 149, 169},
        {"24 + 1", 200, 193, 217},
    };
    static_assert(std::size(all) >= 30);
    for (const ByHand& one : all) {
        const Multiple multiple = *parse_multiple(one.multiple);
        EXPECT_EQ(multiple.at_most(one.wish).value_or(0), one.below)
            << one.multiple << " at most " << one.wish;
        EXPECT_EQ(multiple.at_least(one.wish), one.above)
            << one.multiple << " at least " << one.wish;
    }
}

RC_GTEST_PROP(Multiple, BothSidesFitAndNothingBetweenDoes, ()) {
    const Multiple multiple{*rc::gen::inRange(std::int64_t{1}, std::int64_t{40}),
                            *rc::gen::inRange(std::int64_t{0}, std::int64_t{60}), std::nullopt};
    const std::int64_t wish = *rc::gen::inRange(std::int64_t{1}, std::int64_t{1000});
    const std::int64_t above = multiple.at_least(wish);
    RC_ASSERT(multiple.fits(above));
    RC_ASSERT(above >= wish);
    const auto below = multiple.at_most(wish);
    if (below) {
        RC_ASSERT(multiple.fits(*below));
        RC_ASSERT(*below <= wish);
    }
    for (std::int64_t count = below ? *below + 1 : 1; count < above; ++count)
        RC_ASSERT(!multiple.fits(count));
    RC_ASSERT(multiple.with(multiple.repeats_in(above)) == above);
}

}  // namespace
}  // namespace skeinfall::project
