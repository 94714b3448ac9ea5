#include "skeinfall/colours/layout.hpp"

#include <cstdint>
#include <cstdlib>
#include <map>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace {

using namespace skeinfall::colours;
using skeinfall::project::Stripe;

std::map<std::string, std::int64_t> rows_by_colour(const Stripes& stripes) {
    std::map<std::string, std::int64_t> out;
    for (const Stripe& stripe : stripes) out[stripe.role] += stripe.rows;
    return out;
}

TEST(Layout, CutsTheLastRepeatOff) {
    EXPECT_EQ(laid_out({{"A", 3}, {"B", 2}}, 9), (Stripes{{"A", 3}, {"B", 2}, {"A", 3}, {"B", 1}}));
    EXPECT_EQ(laid_out({{"A", 3}, {"A", 2}}, 9), (Stripes{{"A", 9}}));
}

TEST(Layout, KeepsAnEdgeBack) {
    EXPECT_EQ(*edged({{"A", 2}, {"B", 2}}, 10, {"B", 2}),
              (Stripes{{"B", 2}, {"A", 2}, {"B", 2}, {"A", 2}, {"B", 2}}));
    EXPECT_FALSE(edged({{"A", 2}, {"B", 2}}, 4, {"B", 2}));
}

// Two colours of 10 rows over 20: half the rows of the middle are of the second colour, and the
// shares grow row by row (worked by hand, row pairs 1 to 10: 0.05, 0.15 ... 0.95 of B).
TEST(Layout, FadesInGrowingShares) {
    const Stripes faded_rows = faded({{"A", 10}, {"B", 10}}, 20, 1);
    EXPECT_EQ(rows_by_colour(faded_rows),
              (std::map<std::string, std::int64_t>{{"A", 10}, {"B", 10}}));
    std::vector<std::string> rows;
    for (const Stripe& stripe : faded_rows)
        for (std::int64_t i = 0; i < stripe.rows; ++i) rows.push_back(stripe.role);
    const auto of_b = [&](std::size_t from, std::size_t to) {
        return std::count(rows.begin() + static_cast<std::int64_t>(from),
                          rows.begin() + static_cast<std::int64_t>(to), "B");
    };
    EXPECT_LE(of_b(0, 5), 1);
    EXPECT_LE(of_b(0, 5), of_b(5, 10));
    EXPECT_LE(of_b(5, 10), of_b(10, 15));
    EXPECT_LE(of_b(10, 15), of_b(15, 20));
    EXPECT_GE(of_b(15, 20), 4);
}

RC_GTEST_PROP(Layout, AFadeGivesEveryColourItsRows, ()) {
    const std::int64_t step = *rc::gen::inRange(1, 3);
    const int count = *rc::gen::inRange(2, 6);
    Stripes colours;
    for (int i = 0; i < count; ++i)
        colours.push_back({std::string(1, static_cast<char>('A' + i)),
                           step * static_cast<std::int64_t>(*rc::gen::inRange(1, 30))});
    const std::int64_t over = *rc::gen::inRange(0, 80);
    RC_ASSERT(rows_by_colour(faded(colours, over, step)) == rows_by_colour(colours));
    // Without mixing each colour stands once.
    RC_ASSERT(faded(colours, 0, step) == colours);
    // Pairs of rows leave every yarn at one edge.
    if (step == 2)
        for (const Stripe& stripe : faded(colours, over, step)) RC_ASSERT(stripe.rows % 2 == 0);
}

// First of B in row 4, last of A in row 6: three rows in which both are worked.
TEST(Layout, MixedRowsAreCounted) {
    EXPECT_EQ(mixed_rows({{"A", 3}, {"B", 1}, {"A", 2}, {"B", 4}}, {{"A", 5}, {"B", 5}}),
              (std::vector<std::int64_t>{3}));
    EXPECT_EQ(mixed_rows({{"A", 3}, {"B", 1}, {"C", 2}}, {{"A", 3}, {"B", 1}, {"C", 2}}),
              (std::vector<std::int64_t>{0, 0}));
}

// So many rows as are asked for are mixed, to a pair of rows either way; the law itself was laid
// over so many and mixed half of them or none.
TEST(Layout, AFadeMixesTheRowsThatAreAskedFor) {
    const Stripes colours{{"A", 60}, {"B", 60}};
    for (const std::int64_t over : {4, 8, 12, 20, 40}) {
        const std::vector<std::int64_t> mixed = mixed_rows(faded_over(colours, over, 2), colours);
        ASSERT_EQ(mixed.size(), 1U);
        EXPECT_LE(std::abs(mixed[0] - over), 2) << over;
    }
    EXPECT_EQ(faded_over(colours, 0, 2), colours);
}

RC_GTEST_PROP(Layout, AFillerTakesWhatIsLeft, ()) {
    const Stripes repeat{{"MC", *rc::gen::inRange(1, 9)},
                         {"A", *rc::gen::inRange(1, 9)},
                         {"MC", *rc::gen::inRange(1, 9)},
                         {"B", *rc::gen::inRange(1, 9)}};
    const std::int64_t times = *rc::gen::inRange(1, 6);
    const std::int64_t rows = *rc::gen::inRange(1, 120);
    const auto stripes = filled_up(repeat, "MC", times, rows, 1);
    const std::int64_t bands = times * (repeat[1].rows + repeat[3].rows);
    RC_ASSERT(stripes.has_value() == (rows - bands >= 2 * times + 1));
    if (!stripes) return;
    auto by_colour = rows_by_colour(*stripes);
    RC_ASSERT(by_colour["A"] == times * repeat[1].rows);
    RC_ASSERT(by_colour["MC"] == rows - bands);
    std::int64_t least = rows;
    std::int64_t most = 0;
    for (const Stripe& stripe : *stripes) {
        if (stripe.role != "MC") continue;
        least = std::min(least, stripe.rows);
        most = std::max(most, stripe.rows);
    }
    RC_ASSERT(most - least <= 1);
}

/// Whether any order keeps alike ones apart, by trying all.
bool any_order(std::vector<std::string> words) {
    std::sort(words.begin(), words.end());
    do {
        bool apart = true;
        for (std::size_t i = 1; i < words.size(); ++i) apart = apart && words[i] != words[i - 1];
        if (apart) return true;
    } while (std::next_permutation(words.begin(), words.end()));
    return words.empty();
}

RC_GTEST_PROP(Layout, NoTwoAlikeSideBySideWhereThatCanBe, ()) {
    const auto count = *rc::gen::inRange(1, 8);
    std::vector<std::string> words;
    for (int i = 0; i < count; ++i)
        words.push_back(std::string(1, static_cast<char>('a' + *rc::gen::inRange(0, 3))));
    const auto order = none_side_by_side(words);
    RC_ASSERT(order.has_value() == any_order(words));
    if (!order) return;
    std::vector<bool> used(words.size(), false);
    for (std::size_t i = 0; i < order->size(); ++i) {
        used[(*order)[i]] = true;
        if (i > 0) RC_ASSERT(words[(*order)[i]] != words[(*order)[i - 1]]);
    }
    RC_ASSERT(std::count(used.begin(), used.end(), true) ==
              static_cast<std::int64_t>(words.size()));
}

}  // namespace
