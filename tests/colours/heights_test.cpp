// Heights against every possibility and against solvers from Debian: the same small model as an LP
// file, the least rows changed.

#include "skeinfall/colours/heights.hpp"

#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <numeric>
#include <optional>
#include <random>
#include <sstream>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace {

using namespace skeinfall::colours;

/// A repeat worked so often that colours have a bound on all their rows.
struct Instance {
    HeightRules rules;
    std::int64_t times = 1;
    std::vector<std::int64_t> rows_at_most;  ///< of each colour
};

Instance instance_of(std::uint32_t seed) {
    std::mt19937 random(seed);
    const auto pick = [&](std::int64_t least, std::int64_t most) {
        return least +
               static_cast<std::int64_t>(random() % static_cast<unsigned>(most - least + 1));
    };
    Instance out;
    const std::int64_t colours = pick(2, 4);
    const std::int64_t bands = pick(colours, 6);
    out.times = pick(1, 12);
    std::int64_t sum = 0;
    std::vector<std::int64_t> wanted(static_cast<std::size_t>(colours), 0);
    for (std::int64_t i = 0; i < bands; ++i) {
        const auto colour = static_cast<std::size_t>(i < colours ? i : pick(0, colours - 1));
        const std::int64_t rows = pick(1, 7);
        out.rules.bands.push_back({colour, rows, 0});
        wanted[colour] += rows;
        sum += rows;
    }
    if (pick(0, 2) > 0) out.rules.sum = sum;
    for (const std::int64_t rows : wanted) {
        const std::int64_t share = pick(60, 140);
        out.rows_at_most.push_back(rows * out.times * share / 100);
        if (seed % 2 == 0)  // a bound that the search may use must not change what it finds
            out.rules.colour_at_most.push_back(out.rows_at_most.back() / out.times);
    }
    return out;
}

bool suffices(const Instance& instance, const Heights& heights) {
    std::vector<std::int64_t> rows(instance.rows_at_most.size(), 0);
    for (std::size_t i = 0; i < heights.size(); ++i)
        rows[instance.rules.bands[i].colour] += instance.times * heights[i];
    for (std::size_t c = 0; c < rows.size(); ++c)
        if (rows[c] > instance.rows_at_most[c]) return false;
    return true;
}

std::optional<Nearest> ours(const Instance& instance) {
    return nearest_heights(
        instance.rules, [&](const Heights& heights) { return suffices(instance, heights); },
        5'000'000);
}

/// Every set of heights up to a bound, one band after the other.
void every(const Instance& instance, Heights& now, std::size_t band,
           std::optional<std::int64_t>& best) {
    if (band == now.size()) {
        if (instance.rules.sum &&
            std::accumulate(now.begin(), now.end(), std::int64_t{0}) != *instance.rules.sum)
            return;
        if (!suffices(instance, now)) return;
        const std::int64_t changed = rows_changed(instance.rules, now);
        if (!best || changed < *best) best = changed;
        return;
    }
    for (std::int64_t height = 1; height <= 12; ++height) {
        now[band] = height;
        every(instance, now, band + 1, best);
    }
}

TEST(Heights, AreTheNearestOfAllThereAre) {
    int found = 0;
    for (std::uint32_t seed = 1; seed <= 250; ++seed) {
        Instance instance = instance_of(seed);
        if (instance.rules.bands.size() > 4) continue;
        SCOPED_TRACE(seed);
        std::optional<std::int64_t> best;
        Heights now(instance.rules.bands.size());
        every(instance, now, 0, best);
        const auto answer = ours(instance);
        // Beyond twelve rows a band the walk above does not look.
        if (answer &&
            answer->heights.end() != std::find_if(answer->heights.begin(), answer->heights.end(),
                                                  [](std::int64_t height) { return height > 12; }))
            continue;
        ASSERT_EQ(answer.has_value(), best.has_value());
        if (!answer) continue;
        ++found;
        EXPECT_TRUE(answer->proven);
        EXPECT_EQ(rows_changed(instance.rules, answer->heights), *best);
    }
    EXPECT_GE(found, 60);
}

std::string lp_of(const Instance& instance) {
    std::ostringstream out;
    const auto& bands = instance.rules.bands;
    out << "Minimize\n obj:";
    for (std::size_t i = 0; i < bands.size(); ++i) out << " + d" << i;
    out << "\nSubject To\n";
    if (instance.rules.sum) {
        out << " all:";
        for (std::size_t i = 0; i < bands.size(); ++i) out << " + h" << i;
        out << " = " << *instance.rules.sum << "\n";
    }
    for (std::size_t i = 0; i < bands.size(); ++i)
        out << " up" << i << ": d" << i << " - h" << i << " >= " << -bands[i].wanted << "\n dn" << i
            << ": d" << i << " + h" << i << " >= " << bands[i].wanted << "\n";
    for (std::size_t c = 0; c < instance.rows_at_most.size(); ++c) {
        out << " has" << c << ":";
        for (std::size_t i = 0; i < bands.size(); ++i)
            if (bands[i].colour == c) out << " + " << instance.times << " h" << i;
        out << " <= " << instance.rows_at_most[c] << "\n";
    }
    out << "Bounds\n";
    for (std::size_t i = 0; i < bands.size(); ++i) out << " 1 <= h" << i << " <= 1000\n";
    out << "Generals\n";
    for (std::size_t i = 0; i < bands.size(); ++i) out << " h" << i << "\n";
    out << "End\n";
    return out.str();
}

struct Solved {
    std::optional<std::int64_t> optimum;  ///< nothing: it says that there is none
    bool fault = false;                   ///< it crashed
};

Solved solved(const std::string& solver, const std::string& name) {
    std::filesystem::remove(name + ".out");
    // cbc 2.10.8 calls some feasible models infeasible with its integer preprocessing.
    const std::string command =
        solver == "cbc"
            ? "cbc '" + name + ".lp' -preprocess off -ratio 0 -allow 0 -solve -solution '" + name +
                  ".out' > '" + name + ".log' 2>&1"
            : "glpsol --lp '" + name + ".lp' -o '" + name + ".out' > '" + name + ".log' 2>&1";
    if (std::system(command.c_str()) != 0) return {std::nullopt, true};
    std::ifstream in(name + ".out");
    std::string first;
    std::getline(in, first);
    const std::string text = first + "\n" + std::string(std::istreambuf_iterator<char>(in), {});
    if (solver == "cbc") {
        if (first.find("Optimal") == std::string::npos) return {};
        return {std::llround(std::stod(first.substr(first.find("value") + 5)))};
    }
    if (text.find("INTEGER OPTIMAL") == std::string::npos) return {};
    return {std::llround(std::stod(text.substr(text.find("obj = ") + 6)))};
}

class AgainstSolvers : public testing::TestWithParam<int> {};

TEST_P(AgainstSolvers, TheLeastChangeIsTheirs) {
    const std::string folder =
        std::string(SKEINFALL_BINARY_DIR) + "/oracle/heights" + std::to_string(GetParam());
    std::filesystem::create_directories(folder);
    for (std::uint32_t i = 0; i < 20; ++i) {
        const std::uint32_t seed = 1000 + 20 * static_cast<std::uint32_t>(GetParam()) + i;
        SCOPED_TRACE(seed);
        const Instance instance = instance_of(seed);
        const auto answer = ours(instance);
        std::ofstream(folder + "/heights.lp") << lp_of(instance);
        int agreed = 0;
        for (const char* solver : {"cbc", "glpsol"}) {
            const Solved theirs = solved(solver, folder + "/heights");
            if (theirs.fault) continue;
            ++agreed;
            ASSERT_EQ(answer.has_value(), theirs.optimum.has_value()) << solver;
            if (answer) {
                EXPECT_EQ(rows_changed(instance.rules, answer->heights), *theirs.optimum) << solver;
            }
        }
        EXPECT_GE(agreed, 1) << "no solver came to an end";
    }
}

INSTANTIATE_TEST_SUITE_P(Shard, AgainstSolvers, testing::Range(0, 10));

TEST(Heights, StayAsWantedWhereThatIsEnough) {
    HeightRules rules{{{0, 6, 0}, {1, 4, 0}, {2, 2, 0}}, 1, 12};
    const auto found = nearest_heights(
        rules, [](const Heights&) { return true; }, 1000);
    ASSERT_TRUE(found);
    EXPECT_EQ(found->heights, (Heights{6, 4, 2}));
}

TEST(Heights, GoInPairsWhereAskedTo) {
    HeightRules rules{{{0, 6, 0}, {1, 4, 0}, {2, 2, 0}}, 2, 12};
    const auto found = nearest_heights(
        rules, [](const Heights& heights) { return heights[0] < 6; }, 10'000);
    ASSERT_TRUE(found);
    EXPECT_EQ(found->heights[0], 4);
    EXPECT_EQ(rows_changed(rules, found->heights), 4);
}

TEST(Heights, SayWhenTheSearchWasCutShort) {
    HeightRules rules{{{0, 9, 0}, {1, 9, 0}, {2, 9, 0}, {3, 9, 0}}, 1, 36};
    std::size_t steps = 10;
    const Level level = heights_that_differ_by(
        rules, 6, [](const Heights&) { return true; }, steps);
    EXPECT_FALSE(level.complete);
}

RC_GTEST_PROP(Shares, AddUpAndLeaveNobodyOut, ()) {
    const auto count = static_cast<std::size_t>(*rc::gen::inRange(1, 8));
    std::vector<skeinfall::units::Ratio> parts;
    for (std::size_t i = 0; i < count; ++i)
        parts.emplace_back(static_cast<double>(*rc::gen::inRange(1, 1000)));
    const std::int64_t step = *rc::gen::inRange(1, 3);
    const std::int64_t rows = *rc::gen::inRange(1, 300);
    const auto shares = in_shares(parts, rows, step);
    RC_ASSERT(shares.has_value() == (rows / step >= static_cast<std::int64_t>(count)));
    if (!shares) return;
    RC_ASSERT(std::accumulate(shares->begin(), shares->end(), std::int64_t{0}) == rows);
    for (const std::int64_t height : *shares) RC_ASSERT(height >= step);
}

}  // namespace
