// Speed of join plans and colour previews, and the first size beside cbc on the arc-flow model.

#include <chrono>
#include <cmath>
#include <cstdio>
#include <optional>
#include <random>
#include <string>

#include <benchmark/benchmark.h>

#include "skeinfall/joins/colour.hpp"
#include "skeinfall/joins/plan.hpp"

#include "joins/arc_flow.hpp"
#include "support/joins.hpp"

namespace {

using namespace skeinfall;
using units::metre;

constexpr unsigned seed = 60'612;

struct Work {
    support::Work rows;
    std::vector<joins::Ball> balls;
    joins::Rules rules = support::rules_with_tail(0.15);
};

std::vector<double> growing(std::size_t count) {
    std::mt19937 random(seed);
    std::vector<double> rows;
    for (std::size_t i = 0; i < count; ++i)
        rows.push_back(2.0 + 0.001 * static_cast<double>(i) +
                       0.1 * static_cast<double>(random() % 10));
    return rows;
}

double sum(const std::vector<double>& rows) {
    double out = 0.0;
    for (const double row : rows) out += row;
    return out;
}

/// So many skeins, all of different length, that hardly suffice.
Work distinct(std::size_t skeins, std::size_t rows_count) {
    const std::vector<double> rows = growing(rows_count);
    Work out{support::rows_of(rows), {}};
    const double each = sum(rows) / static_cast<double>(skeins) * 1.02 + 1.0;
    for (std::size_t i = 0; i < skeins; ++i)
        out.balls.push_back(support::ball(
            "b" + std::to_string(100 + i),
            each + 0.37 * (static_cast<double>(i) - static_cast<double>(skeins) / 2.0)));
    return out;
}

Work whole_and_part(std::size_t whole, std::size_t part, std::size_t rows_count) {
    const std::vector<double> rows = growing(rows_count);
    Work out{support::rows_of(rows), {}};
    const double each = sum(rows) / (static_cast<double>(whole) + 0.5 * static_cast<double>(part));
    for (std::size_t i = 0; i < whole; ++i)
        out.balls.push_back(support::ball("w" + std::to_string(100 + i), each * 1.04 + 1.5));
    for (std::size_t i = 0; i < part; ++i)
        out.balls.push_back(support::ball("p" + std::to_string(100 + i),
                                          each * (0.3 + 0.05 * static_cast<double>(i)) + 1.5));
    return out;
}

void run(benchmark::State& state, const Work& work) {
    bool proven = true;
    bool finishes = true;
    for (auto step : state) {
        const joins::JoinPlan plan =
            joins::plan_joins(work.rows.need, work.rows.steps, work.balls, work.rules);
        proven = plan.proven;
        finishes = plan.finishes && plan.rules_kept;
        benchmark::DoNotOptimize(plan.stretches.data());
    }
    state.counters["proven"] = proven ? 1 : 0;
    state.counters["finishes"] = finishes ? 1 : 0;
}

void twenty_distinct(benchmark::State& state) {
    run(state, distinct(20, 400));
}
BENCHMARK(twenty_distinct)->Unit(benchmark::kMillisecond);

void thirty_and_eight_with_distances(benchmark::State& state) {
    Work work = whole_and_part(30, 8, 800);
    work.rules.rows_between = 6;
    run(state, work);
}
BENCHMARK(thirty_and_eight_with_distances)->Unit(benchmark::kMillisecond);

void two_hundred_and_ten(benchmark::State& state) {
    run(state, whole_and_part(200, 10, 10'000));
}
BENCHMARK(two_hundred_and_ten)->Unit(benchmark::kMillisecond);

void two_hundred_and_ten_with_distances(benchmark::State& state) {
    Work work = whole_and_part(200, 10, 10'000);
    work.rules.rows_between = 6;
    run(state, work);
}
BENCHMARK(two_hundred_and_ten_with_distances)->Unit(benchmark::kMillisecond)->Iterations(1);

void fabric_preview(benchmark::State& state) {
    const joins::Runs runs{{"a", 3.1 * metre, ""}, {"b", 2.7 * metre, ""}, {"c", 1.9 * metre, ""}};
    const std::vector<joins::ColourRow> rows(10'000, joins::ColourRow{400, 7.3 * metre});
    for (auto step : state) {
        const joins::Fabric fabric =
            joins::fabric_of(runs, 0.4 * metre, rows, project::Worked::flat);
        benchmark::DoNotOptimize(fabric.run.data());
    }
}
BENCHMARK(fabric_preview)->Unit(benchmark::kMillisecond);

void beside_cbc(std::size_t skeins, std::size_t rows_count) {
    const Work work = distinct(skeins, rows_count);
    const auto time = [](auto what) {
        const auto begin = std::chrono::steady_clock::now();
        what();
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
    };
    joins::JoinPlan plan;
    const double ours = time(
        [&] { plan = joins::plan_joins(work.rows.need, work.rows.steps, work.balls, work.rules); });
    oracle::ArcFlow problem;
    for (const need::Step& step : work.rows.steps)
        problem.rows.push_back(std::llround(step.yarn / units::millimetre));
    problem.marks.assign(problem.rows.size(), 0);
    for (const joins::Ball& ball : work.balls)
        problem.classes.push_back(
            {std::llround((ball.length.centre - 2.0 * work.rules.tail) / units::millimetre), 1});
    std::optional<oracle::FlowCost> solved;
    const double theirs = time([&] {
        solved =
            oracle::solve_with_cbc(problem, std::string(SKEINFALL_BINARY_DIR) + "/bench_flow", 1);
    });
    std::printf("%zu skeins x %zu rows: ours %zu pieces, cbc %ld pieces\n", skeins, rows_count,
                plan.stretches.size(), solved ? solved->pieces : -1);
    std::printf("result\tjoins: %zu skeins, so many rows\t%zu\t%.6f\t-\tcbc\t%.6f\t-\n", skeins,
                rows_count, ours, theirs);
}

}  // namespace

int main(int argc, char** argv) {
    if (argc == 2 && std::string(argv[1]) == "--peers") {
        beside_cbc(8, 60);
        beside_cbc(20, 400);
        return 0;
    }
    benchmark::Initialize(&argc, argv);
    benchmark::RunSpecifiedBenchmarks();
    return 0;
}
