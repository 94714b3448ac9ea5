// The exact division of skeins against solvers from Debian and against every possibility. The
// model is that of the header; the solvers get it as an LP file, one level of goals after another.

#include "oracle/division.hpp"

#include <array>
#include <cstdlib>
#include <string>

#include <gtest/gtest.h>

namespace {

using namespace skeinfall::cover;
using namespace skeinfall::oracle;

constexpr std::uint32_t usual_seed = 20'260'114;

/// ORACLE_SEED in the environment tries others.
std::uint32_t division_seed() {
    const char* other = std::getenv("ORACLE_SEED");
    return other != nullptr ? static_cast<std::uint32_t>(std::stoul(other)) : usual_seed;
}

std::string trace(int number, const Instance& instance) {
    return "ORACLE_SEED=" + std::to_string(division_seed()) + ", instance " +
           std::to_string(number) + "\n" + describe(instance);
}

std::string shown(const Total& total) {
    std::string out;
    for (const std::int64_t amount : total.amounts) out += std::to_string(amount) + " ";
    return out;
}

constexpr int shards = 10;
constexpr int instances_a_shard = 20;

class AgainstSolvers : public testing::TestWithParam<int> {};

void compare(int shard, Division division, const Size& size) {
    int faulty = 0;
    for (int i = 0; i < instances_a_shard; ++i) {
        const int number = shard * instances_a_shard + i;
        const Instance instance = random_instance(division_seed(), number, division, size);
        SCOPED_TRACE(trace(number, instance));
        const Allocation answer = allocate(instance.skeins, instance.demands, instance.plan);
        ASSERT_TRUE(answer.proven());
        EXPECT_EQ(faults(instance, answer), "");
        int agreed = 0;
        for (const Solver solver : {Solver::cbc, Solver::glpsol}) {
            const Solved solved = solve_with(solver, instance,
                                             std::string(SKEINFALL_BINARY_DIR) + "/oracle/" +
                                                 (division == Division::whole ? "whole" : "split") +
                                                 std::to_string(shard));
            if (solved.solver_fault) {
                ++faulty;
                continue;
            }
            ++agreed;
            EXPECT_EQ(shown(*solved.total), shown(answer.total))
                << (solver == Solver::cbc ? "cbc" : "glpsol");
        }
        EXPECT_GE(agreed, 1) << "no solver proved an optimum";
    }
    testing::Test::RecordProperty("solver_faults", faulty);
    EXPECT_LE(faulty, 2) << "the solvers fail too often to be an oracle";
}

TEST_P(AgainstSolvers, WholeSkeins) {
    compare(GetParam(), Division::whole, {});
}

TEST_P(AgainstSolvers, SplitSkeins) {
    compare(
        GetParam(), Division::split,
        {.skeins_at_least = 4, .skeins_at_most = 8, .demands_at_least = 2, .demands_at_most = 3});
}

INSTANTIATE_TEST_SUITE_P(Shard, AgainstSolvers, testing::Range(0, shards));

class AgainstEverything : public testing::TestWithParam<int> {};

void compare_with_all(int shard, Division division, int instances, const Size& size) {
    for (int i = 0; i < instances; ++i) {
        const int number = 10'000 + shard * instances + i;
        const Instance instance = random_instance(division_seed(), number, division, size);
        SCOPED_TRACE(trace(number, instance));
        const Allocation answer = allocate(instance.skeins, instance.demands, instance.plan);
        ASSERT_TRUE(answer.proven());
        EXPECT_EQ(faults(instance, answer), "");
        EXPECT_EQ(shown(every_division(instance)), shown(answer.total));
    }
}

TEST_P(AgainstEverything, WholeSkeins) {
    compare_with_all(
        GetParam(), Division::whole, 100,
        {.skeins_at_least = 1, .skeins_at_most = 6, .demands_at_least = 1, .demands_at_most = 3});
}

TEST_P(AgainstEverything, SplitSkeins) {
    compare_with_all(
        GetParam(), Division::split, 40,
        {.skeins_at_least = 1, .skeins_at_most = 4, .demands_at_least = 1, .demands_at_most = 3});
}

INSTANTIATE_TEST_SUITE_P(Shard, AgainstEverything, testing::Range(0, 5));

}  // namespace
