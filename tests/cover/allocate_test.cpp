// Dividing skeins among roles: worked totals that cbc 2.10.8, glpsol 5.0 and an exact trial program
// found alike, properties, and limits.

#include "skeinfall/cover/allocate.hpp"

#include <algorithm>
#include <random>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace {

using namespace skeinfall::cover;
using ::testing::ElementsAre;

/// The five skeins of the worked totals: lot 0 holds two of 150 and a part of 80, lot 1 one of 150
/// and a part of 60; 3 go to the tails of a piece.
std::vector<Stock> five_skeins() {
    return {{150, false, 0, "a", false},
            {150, false, 0, "b", false},
            {80, true, 0, "c", false},
            {150, false, 1, "d", false},
            {60, true, 1, "e", false}};
}

Demand demand(const std::string& id, Quanta need, std::size_t skeins, Lots lots = Lots::fewest) {
    Demand out;
    out.id = id;
    out.need = need;
    out.lots = lots;
    for (std::size_t i = 0; i < skeins; ++i) out.fits.push_back({i, 0});
    return out;
}

Plan plan_with(Quanta tails, Division division = Division::whole) {
    Plan plan;
    plan.tails = tails;
    plan.division = division;
    return plan;
}

/// (uncovered, extra lots, whole skeins, pieces, opened)
std::vector<std::int64_t> totals(const Allocation& out) {
    return {out.total.of(Goal::uncovered), out.total.of(Goal::extra_lots),
            out.total.of(Goal::whole_opened), out.total.of(Goal::pieces),
            out.total.of(Goal::opened)};
}

std::vector<std::int64_t> five_for(const std::vector<std::pair<Quanta, int>>& needs) {
    std::vector<Demand> demands;
    for (const auto& [need, weight] : needs) {
        demands.push_back(demand("r" + std::to_string(demands.size()), need, 5));
        demands.back().weight = weight;
    }
    return totals(allocate(five_skeins(), demands, plan_with(3)));
}

TEST(Allocate, WorkedTotalsOfTheModel) {
    EXPECT_THAT(five_for({{200, 1}}), ElementsAre(0, 0, 1, 2, 210));
    EXPECT_THAT(five_for({{200, 1}, {140, 1}}), ElementsAre(0, 0, 2, 3, 360));
    EXPECT_THAT(five_for({{200, 1}, {140, 1}, {100, 1}}), ElementsAre(0, 0, 3, 4, 510));
    EXPECT_THAT(five_for({{360, 1}}), ElementsAre(0, 0, 2, 3, 380));
    EXPECT_THAT(five_for({{400, 1}, {120, 2}}), ElementsAre(0, 1, 3, 5, 590));
    EXPECT_THAT(five_for({{700, 1}, {140, 1}}), ElementsAre(1, 0, 1, 1, 150));
}

TEST(Allocate, OneSkeinForTwoRolesOnlyWhenSplit) {
    const std::vector<Stock> two{{300, false, 0, "a", false}, {300, false, 0, "b", false}};
    const std::vector<Demand> roles{demand("CC", 140, 2), demand("MC", 130, 2)};
    EXPECT_THAT(totals(allocate(two, roles, plan_with(3))), ElementsAre(0, 0, 2, 2, 600));
    EXPECT_THAT(totals(allocate(two, roles, plan_with(3, Division::split))),
                ElementsAre(0, 0, 1, 2, 300));
}

TEST(Allocate, TwoStrandsTakeBothEndsOfASkeinOnlyWhenSplit) {
    const std::vector<Stock> one{{300, false, 0, "a", false}};
    Demand doubled = demand("MC", 140, 1, Lots::one);
    doubled.strands = 2;
    EXPECT_FALSE(allocate(one, {doubled}, plan_with(3)).served[0].covered);
    const Allocation split = allocate(one, {doubled}, plan_with(3, Division::split));
    ASSERT_TRUE(split.served[0].covered);
    EXPECT_THAT(split.served[0].pieces, ElementsAre(Piece{0, 0, 140}, Piece{0, 1, 140}));
}

TEST(Allocate, StrandsShareOneLotRule) {
    const std::vector<Stock> skeins{{150, false, 0, "a", false}, {150, false, 1, "b", false}};
    Demand doubled = demand("MC", 140, 2, Lots::one);
    doubled.strands = 2;
    EXPECT_FALSE(allocate(skeins, {doubled}, plan_with(3)).served[0].covered);
    doubled.lots = Lots::fewest;
    EXPECT_THAT(totals(allocate(skeins, {doubled}, plan_with(3))), ElementsAre(0, 1, 2, 2, 300));
}

TEST(Allocate, TheMakerMayReorderTheGoals) {
    // One long whole skein or two parts: parts first by default, fewest pieces on request.
    const std::vector<Stock> skeins{
        {200, false, 0, "whole", false}, {100, true, 0, "x", false}, {90, true, 0, "y", false}};
    const std::vector<Demand> roles{demand("MC", 150, 3)};
    Plan plan = plan_with(3);
    EXPECT_THAT(totals(allocate(skeins, roles, plan)), ElementsAre(0, 0, 0, 2, 190));
    plan.goals = {Goal::uncovered,    Goal::pieces,       Goal::extra_lots,
                  Goal::substitution, Goal::whole_opened, Goal::opened};
    EXPECT_THAT(totals(allocate(skeins, roles, plan)), ElementsAre(0, 0, 1, 1, 200));
}

TEST(Allocate, EarlierTurnsAreServedFirst) {
    // By itself the first role takes the skein that the second cannot do without.
    const std::vector<Stock> skeins{{100, true, 0, "a", false}, {160, false, 0, "b", false}};
    Demand first = demand("first", 90, 2);
    Demand second = demand("second", 95, 1);
    EXPECT_THAT(totals(allocate(skeins, {first, second}, plan_with(3))),
                ElementsAre(0, 0, 1, 2, 260));
    second.turn = 1;
    const Allocation in_turn = allocate(skeins, {first, second}, plan_with(3));
    EXPECT_TRUE(in_turn.served[0].covered);
    EXPECT_FALSE(in_turn.served[1].covered);
}

TEST(Allocate, ASkeinBegunInAnEarlierTurnCostsNoOpening) {
    const std::vector<Stock> skeins{{300, false, 0, "a", false}, {130, true, 0, "b", false}};
    Demand first = demand("first", 140, 1);
    Demand second = demand("second", 100, 2);
    second.turn = 1;
    const Allocation out = allocate(skeins, {first, second}, plan_with(3, Division::split));
    EXPECT_THAT(totals(out), ElementsAre(0, 0, 1, 2, 300));
    EXPECT_THAT(out.served[1].pieces, ElementsAre(Piece{0, 0, 100}));
}

TEST(Allocate, ANeedOfNothingTakesNothing) {
    const Allocation out = allocate(five_skeins(), {demand("MC", 0, 5)}, plan_with(3));
    EXPECT_TRUE(out.served[0].covered);
    EXPECT_THAT(totals(out), ElementsAre(0, 0, 0, 0, 0));
}

TEST(Allocate, ARoleThatNothingFits) {
    const Allocation out = allocate(five_skeins(), {demand("MC", 10, 0)}, plan_with(3));
    EXPECT_FALSE(out.served[0].covered);
    EXPECT_TRUE(out.proven());
}

TEST(Allocate, RefusesWhatItCannotMean) {
    Plan plan = plan_with(3);
    std::swap(plan.goals[0], plan.goals[1]);
    EXPECT_THROW(static_cast<void>(allocate(five_skeins(), {}, plan)), std::invalid_argument);
    plan = plan_with(3);
    plan.goals[1] = Goal::opened;
    EXPECT_THROW(static_cast<void>(allocate(five_skeins(), {}, plan)), std::invalid_argument);
    Demand bad = demand("MC", 10, 6);
    EXPECT_THROW(static_cast<void>(allocate(five_skeins(), {bad}, plan_with(3))),
                 std::invalid_argument);
    bad = demand("MC", 10, 5);
    bad.weight = 0;
    EXPECT_THROW(static_cast<void>(allocate(five_skeins(), {bad}, plan_with(3))),
                 std::invalid_argument);
}

TEST(Allocate, TenThousandSkeinsAlike) {
    std::vector<Stock> skeins;
    for (int i = 0; i < 10'000; ++i)
        skeins.push_back({1500, false, 0, "s" + std::to_string(100'000 + i), false});
    const std::vector<Demand> roles{demand("CC", 30'000, skeins.size()),
                                    demand("MC", 50'000, skeins.size())};
    const Allocation out = allocate(skeins, roles, plan_with(3));
    EXPECT_TRUE(out.proven());
    // 1497 each: 21 skeins reach 30 000, 34 reach 50 000.
    EXPECT_THAT(totals(out), ElementsAre(0, 0, 55, 55, 55 * 1500));
}

/// Skeins of odd lengths that all roles want: nothing a search could prove at once.
std::vector<Stock> odd_skeins(unsigned seed, std::size_t count) {
    std::mt19937 random(seed);
    std::vector<Stock> skeins;
    for (std::size_t i = 0; i < count; ++i)
        skeins.push_back({static_cast<Quanta>(400 + random() % 1200), random() % 4 == 0,
                          random() % 3, "s" + std::to_string(1000 + i), false});
    return skeins;
}

TEST(Allocate, ALimitKeepsTheBestSoFarAndABound) {
    const std::vector<Stock> skeins = odd_skeins(7, 60);
    std::vector<Demand> roles;
    for (int r = 0; r < 8; ++r)
        roles.push_back(demand("r" + std::to_string(r), 4000 + 130 * r, skeins.size()));
    Plan plan = plan_with(3);
    plan.steps_at_most = 5000;
    const Allocation out = allocate(skeins, roles, plan);
    ASSERT_FALSE(out.proven());
    EXPECT_EQ(out.limit, Limit::steps);
    ASSERT_TRUE(out.bound.has_value());
    EXPECT_LE(out.bound->by(plan.goals), out.total.by(plan.goals));
    // More steps never make it worse, and the same steps give the same answer.
    const Allocation again = allocate(skeins, roles, plan);
    for (std::size_t r = 0; r < roles.size(); ++r)
        EXPECT_EQ(again.served[r].pieces, out.served[r].pieces);
    plan.steps_at_most = 100'000;
    EXPECT_LE(allocate(skeins, roles, plan).total.by(plan.goals), out.total.by(plan.goals));
}

TEST(Allocate, TheCallerMayStopIt) {
    const std::vector<Stock> skeins = odd_skeins(7, 60);
    std::vector<Demand> roles;
    for (int r = 0; r < 8; ++r)
        roles.push_back(demand("r" + std::to_string(r), 4000 + 130 * r, skeins.size()));
    Plan plan = plan_with(3);
    int asked = 0;
    plan.go_on = [&](const Progress& progress) {
        EXPECT_EQ(progress.roles, 8U);
        return ++asked < 3;
    };
    const Allocation out = allocate(skeins, roles, plan);
    EXPECT_EQ(asked, 3);
    EXPECT_EQ(out.limit, Limit::stopped);
}

TEST(Allocate, HundredsOfSkeinsOfUnknownLotAreProven) {
    // Every skein a lot of its own: the fewest lots are the fewest pieces, so the longest go first,
    // and of those sets the one with the fewest wholes and least left over.
    std::mt19937 random(3);
    std::vector<Stock> skeins;
    for (std::size_t i = 0; i < 400; ++i)
        skeins.push_back({static_cast<Quanta>(300 + random() % 700), random() % 2 == 0, i,
                          "s" + std::to_string(1000 + i), false});
    std::vector<Quanta> lengths;
    for (const Stock& skein : skeins) lengths.push_back(skein.length - 3);
    std::sort(lengths.rbegin(), lengths.rend());
    Quanta sum = 0;
    std::size_t fewest = 0;
    while (sum < 8000) sum += lengths[fewest++];
    const Allocation out = allocate(skeins, {demand("MC", 8000, skeins.size())}, plan_with(3));
    EXPECT_TRUE(out.proven());
    EXPECT_EQ(out.total.of(Goal::pieces), static_cast<std::int64_t>(fewest));
    EXPECT_EQ(out.total.of(Goal::extra_lots), static_cast<std::int64_t>(fewest) - 1);
    // With so many skeins some set comes within a few decimetres of the need.
    EXPECT_LT(out.total.of(Goal::opened) - 3 * static_cast<Quanta>(fewest), 8000 + 5);
}

class AllocateProperty : public testing::TestWithParam<unsigned> {};

TEST_P(AllocateProperty, OrderDoesNotMatterAndMoreIsNeverWorse) {
    std::mt19937 random(GetParam());
    std::vector<Stock> skeins;
    for (std::size_t i = 0; i < 6 + random() % 6; ++i)
        skeins.push_back({static_cast<Quanta>(20 + random() % 8 * 20), random() % 3 == 0,
                          random() % 3, "s" + std::to_string(i + 10), false});
    std::vector<Demand> roles;
    for (std::size_t r = 0; r < 3; ++r) {
        roles.push_back(demand("r" + std::to_string(r), static_cast<Quanta>(50 + random() % 200),
                               skeins.size(), random() % 2 == 0 ? Lots::one : Lots::fewest));
        std::erase_if(roles.back().fits, [&](const Fit&) { return random() % 4 == 0; });
    }
    const Plan plan = plan_with(3, random() % 2 == 0 ? Division::whole : Division::split);
    const Allocation out = allocate(skeins, roles, plan);

    // Shuffled skeins and roles: the same skeins serve the same roles.
    std::vector<std::size_t> place(skeins.size());
    for (std::size_t i = 0; i < place.size(); ++i) place[i] = i;
    std::shuffle(place.begin(), place.end(), random);
    std::vector<Stock> moved(skeins.size());
    for (std::size_t i = 0; i < place.size(); ++i) moved[place[i]] = skeins[i];
    std::vector<Demand> others(roles.rbegin(), roles.rend());
    for (Demand& role : others)
        for (Fit& fit : role.fits) fit.skein = place[fit.skein];
    const Allocation again = allocate(moved, others, plan);
    EXPECT_EQ(again.total, out.total);
    for (std::size_t r = 0; r < roles.size(); ++r) {
        const auto named = [](const std::vector<Stock>& all, const Served& served) {
            std::vector<std::string> ids;
            for (const Piece& piece : served.pieces)
                ids.push_back(all[piece.skein].id + " " + std::to_string(piece.used));
            return ids;
        };
        EXPECT_EQ(named(moved, again.served[roles.size() - 1 - r]), named(skeins, out.served[r]));
    }

    // One more skein for everybody.
    skeins.push_back({static_cast<Quanta>(20 + random() % 160), true, 0, "s99", false});
    for (Demand& role : roles) role.fits.push_back({skeins.size() - 1, 0});
    EXPECT_LE(allocate(skeins, roles, plan).total.by(plan.goals), out.total.by(plan.goals));
}

INSTANTIATE_TEST_SUITE_P(Seeds, AllocateProperty, testing::Range(1U, 101U));

}  // namespace
