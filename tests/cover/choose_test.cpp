// The exact choice of skeins against every subset, and worked examples.

#include "skeinfall/cover/choose.hpp"

#include <algorithm>
#include <optional>
#include <random>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace {

using namespace skeinfall::cover;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

Quanta sum_of(const std::vector<Item>& items, const std::vector<std::size_t>& taken) {
    Quanta sum = 0;
    for (const std::size_t at : taken) sum += items[at].usable;
    return sum;
}

/// The cost of a set of items, looked at from outside.
Cost cost_of(const std::vector<Item>& items, const std::vector<std::size_t>& taken) {
    std::set<std::size_t> lots;
    Cost cost;
    for (const std::size_t at : taken) {
        lots.insert(items[at].lot);
        if (!items[at].part) ++cost.whole_opened;
    }
    cost.extra_lots = lots.empty() ? 0 : lots.size() - 1;
    cost.pieces = taken.size();
    cost.opened = sum_of(items, taken);
    return cost;
}

struct Oracle {
    std::optional<Cost> cheapest;  ///< nothing when no permitted subset reaches the need
    Quanta richest = 0;            ///< most that a permitted subset gives
};

Oracle every_subset(const std::vector<Item>& items, Quanta need, Lots lots) {
    Oracle out;
    for (std::size_t mask = 1; mask < (std::size_t{1} << items.size()); ++mask) {
        std::vector<std::size_t> taken;
        for (std::size_t i = 0; i < items.size(); ++i)
            if ((mask >> i & 1U) != 0) taken.push_back(i);
        const Cost cost = cost_of(items, taken);
        if (lots == Lots::one && cost.extra_lots > 0) continue;
        out.richest = std::max(out.richest, cost.opened);
        if (cost.opened >= need && (!out.cheapest || cost < *out.cheapest)) out.cheapest = cost;
    }
    return out;
}

std::vector<Item> random_items(std::mt19937& random) {
    std::vector<Item> items(1 + random() % 10);
    const unsigned longest = random() % 2 == 0 ? 12 : 300;  // many equal sums, or few
    for (std::size_t i = 0; i < items.size(); ++i)
        items[i] = {static_cast<Quanta>(1 + random() % longest), random() % 3 == 0, random() % 4,
                    "s" + std::to_string(random() % 1000 * 100 + i)};
    return items;
}

TEST(Choose, AsGoodAsEverySubset) {
    constexpr unsigned seed = 20'240'517;
    std::mt19937 random(seed);
    int covered = 0;
    int beyond = 0;
    for (int instance = 0; instance < 1000; ++instance) {
        const std::vector<Item> items = random_items(random);
        Quanta all = 0;
        for (const Item& item : items) all += item.usable;
        const Quanta need = 1 + static_cast<Quanta>(random() % static_cast<unsigned>(all + 3));
        for (const Lots lots : {Lots::one, Lots::fewest}) {
            SCOPED_TRACE("seed " + std::to_string(seed) + ", instance " + std::to_string(instance));
            const Oracle oracle = every_subset(items, need, lots);
            const Choice choice = choose(items, need, lots);
            ASSERT_EQ(choice.covers, oracle.cheapest.has_value());
            ASSERT_TRUE(choice.proven);
            ASSERT_TRUE(std::is_sorted(choice.items.begin(), choice.items.end()));
            ASSERT_EQ(std::adjacent_find(choice.items.begin(), choice.items.end()),
                      choice.items.end())
                << "an item twice";
            if (choice.covers) {
                ++covered;
                ASSERT_TRUE(choice.cost == *oracle.cheapest);
                ASSERT_TRUE(choice.cost == cost_of(items, choice.items));
            } else {
                ++beyond;
                ASSERT_EQ(sum_of(items, choice.items), oracle.richest);
            }
        }
    }
    EXPECT_GT(covered, 500);
    EXPECT_GT(beyond, 200);
}

TEST(Choose, TheOrderOfTheStashDoesNotMatter) {
    constexpr unsigned seed = 91;
    std::mt19937 random(seed);
    for (int instance = 0; instance < 500; ++instance) {
        SCOPED_TRACE("seed " + std::to_string(seed) + ", instance " + std::to_string(instance));
        std::vector<Item> items = random_items(random);
        const Quanta need = 1 + static_cast<Quanta>(random() % 400);
        const auto ids = [&](const Choice& choice) {
            std::set<std::string> out;
            for (const std::size_t at : choice.items) out.insert(items[at].id);
            return out;
        };
        for (const Lots lots : {Lots::one, Lots::fewest}) {
            const std::set<std::string> before = ids(choose(items, need, lots));
            std::shuffle(items.begin(), items.end(), random);
            ASSERT_EQ(ids(choose(items, need, lots)), before);
        }
    }
}

// Worked example of ours (instance T1; two solvers and an exact search agree). Lot 0: 150
// whole, 150 whole, 80 part; lot 1: 150 whole, 60 part; tails of 3; need 200: no extra lot, one
// whole skein, two pieces, 210 opened. Our cost counts usable lengths: 210 less two tails of 3.
TEST(Choose, ModelInstanceOneRole) {
    const std::vector<Item> items{{147, false, 0, "a"},
                                  {147, false, 0, "b"},
                                  {77, true, 0, "c"},
                                  {147, false, 1, "d"},
                                  {57, true, 1, "e"}};
    for (const Lots lots : {Lots::one, Lots::fewest}) {
        const Choice choice = choose(items, 200, lots);
        EXPECT_TRUE(choice.cost == (Cost{0, 1, 2, 210 - 2 * 3}));
        EXPECT_THAT(choice.items, ElementsAre(3, 4));
    }
}

TEST(Choose, PartsBeforeWholesThenPiecesThenLength) {
    const std::vector<Item> items{
        {100, false, 0, "a"}, {60, true, 0, "b"}, {50, true, 0, "c"}, {40, true, 0, "d"}};
    EXPECT_THAT(choose(items, 150, Lots::one).items, ElementsAre(1, 2, 3))
        << "three parts rather than one whole";
    EXPECT_THAT(choose(items, 90, Lots::one).items, ElementsAre(2, 3)) << "the tightest pair";
    EXPECT_THAT(choose(items, 95, Lots::one).items, ElementsAre(1, 3));
    EXPECT_THAT(choose(items, 50, Lots::one).items, ElementsAre(2));
    EXPECT_THAT(choose(items, 151, Lots::one).items, ElementsAre(0, 1))
        << "one whole, then the fewest parts beside it";
}

TEST(Choose, EqualityIsEnough) {
    const std::vector<Item> items{{100, false, 0, "a"}, {100, false, 0, "b"}};
    EXPECT_TRUE(choose(items, 200, Lots::one).covers);
    EXPECT_FALSE(choose(items, 201, Lots::one).covers);
    EXPECT_THAT(choose(items, 201, Lots::one).items, ElementsAre(0, 1));
    EXPECT_FALSE(choose({}, 1, Lots::one).covers);
    EXPECT_THAT(choose({}, 1, Lots::fewest).items, IsEmpty());
}

TEST(Choose, LotsAreCountedBeforeAnythingElse) {
    const std::vector<Item> items{
        {90, true, 0, "a"}, {90, true, 1, "b"}, {100, false, 2, "c"}, {100, false, 2, "d"}};
    EXPECT_THAT(choose(items, 180, Lots::fewest).items, ElementsAre(2, 3));
    EXPECT_EQ(choose(items, 220, Lots::fewest).cost.extra_lots, 1U);
    EXPECT_FALSE(choose(items, 220, Lots::one).covers);
}

TEST(Choose, IdenticalSkeinsGoById) {
    const std::vector<Item> items{
        {100, false, 0, "s9"}, {100, false, 0, "s1"}, {100, false, 0, "s5"}};
    EXPECT_THAT(choose(items, 150, Lots::one).items, ElementsAre(1, 2)) << "s1 and s5";
    const std::vector<Item> lots{{100, false, 0, "s2"}, {100, false, 1, "s1"}};
    EXPECT_THAT(choose(lots, 100, Lots::fewest).items, ElementsAre(1));
    EXPECT_THAT(choose(lots, 100, Lots::one).items, ElementsAre(1));
}

// As people count: the second comes before the tenth.
TEST(Choose, IdenticalSkeinsGoByTheNumbersInTheirIds) {
    const std::vector<Item> items{
        {100, false, 0, "yours-10"}, {100, false, 0, "yours-2"}, {100, false, 0, "yours-1"}};
    EXPECT_THAT(choose(items, 150, Lots::one).items, ElementsAre(1, 2));
}

TEST(Choose, TooLongToTabulateIsSaid) {
    std::vector<Item> items;
    for (int i = 1; i <= 40; ++i)
        items.push_back({1'000'000 * i + i, false, 0, "s" + std::to_string(100 + i)});
    const Choice choice = choose(items, 690'000'000, Lots::one);
    EXPECT_TRUE(choice.covers);
    EXPECT_FALSE(choice.proven);
    EXPECT_GE(sum_of(items, choice.items), 690'000'000);
    EXPECT_EQ(choice.items.size(), 25U);
    EXPECT_TRUE(choice.cost == cost_of(items, choice.items));
}

TEST(Choose, LongSkeinsOfNearlyOneLengthAreTabulated) {
    // What counts is what can be spared, not how long the skeins are.
    std::vector<Item> items;
    for (int i = 0; i < 40; ++i)
        items.push_back({10'000'000 + i, false, 0, "s" + std::to_string(100 + i)});
    const Choice choice = choose(items, 250'000'000, Lots::one);
    EXPECT_TRUE(choice.proven);
    EXPECT_EQ(choice.items.size(), 25U);
    // The 25 shortest, which suffice too: 0 + 1 + ... + 24.
    EXPECT_EQ(choice.cost.opened, 250'000'000 + 300);
}

TEST(Choose, ThousandsOfScrapsThatAllDiffer) {
    // 1, 1.1, ... 400.9 m: the twenty longest give 7999 m, and sets of twenty come to the very
    // decimetre from far below.
    std::vector<Item> items;
    for (int i = 0; i < 4000; ++i)
        items.push_back({10 + i, true, 0, "s" + std::to_string(10'000 + i)});
    const Choice choice = choose(items, 79'000, Lots::one);
    EXPECT_TRUE(choice.proven);
    EXPECT_EQ(choice.cost.pieces, 20U);
    EXPECT_EQ(choice.cost.opened, 79'000);
}

TEST(Choose, ManySingleSkeinsOfOwnLotsAreProven) {
    std::vector<Item> items;
    for (std::size_t lot = 0; lot < 40; ++lot)
        items.push_back({100, false, lot, "s" + std::to_string(100 + lot)});
    const Choice choice = choose(items, 1000, Lots::fewest);
    EXPECT_TRUE(choice.covers);
    EXPECT_TRUE(choice.proven);
    EXPECT_EQ(choice.cost.extra_lots, 9U);
}

TEST(Choose, ManyLotsAreCutShortAndSaidSo) {
    std::vector<Item> items;
    for (std::size_t lot = 0; lot < 40; ++lot)
        for (const char* end : {"a", "b"})
            items.push_back({50, false, lot, "s" + std::to_string(100 + lot) + end});
    const Choice choice = choose(items, 1000, Lots::fewest);
    EXPECT_TRUE(choice.covers);
    EXPECT_FALSE(choice.proven);
    EXPECT_EQ(choice.cost.extra_lots, 9U);
}

}  // namespace
