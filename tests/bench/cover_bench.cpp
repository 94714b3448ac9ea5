// Dividing a stash among roles and projects, against solvers from Debian on the same groups of
// roles; run.sh tells how to run it.
// The stashes are invented: some two hundred yarns in a few colourways and lots, a quarter of the
// skeins begun.

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <map>
#include <numeric>
#include <random>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include "skeinfall/cover/cover.hpp"

#include "oracle/division.hpp"

namespace {

using namespace skeinfall;
using cover::Allocation;
using cover::Demand;
using cover::Lots;
using cover::Quanta;
using cover::Stock;
using oracle::Instance;

constexpr std::uint32_t seed = 20'260'201;

struct Kind {
    std::size_t yarn = 0;
    std::size_t colour = 0;
};

struct Generated {
    Instance instance;
    std::vector<Kind> kinds;  // of the skeins
};

/// `skeins` skeins; roles ask for a yarn in a colourway or, one in five, in any.
Generated generated(std::size_t skeins, std::size_t projects, std::size_t roles, bool in_turn) {
    std::mt19937 random(seed);
    const auto below = [&](std::size_t bound) {
        return static_cast<std::size_t>(random()) % bound;
    };
    Generated out;
    out.instance.plan.tails = 3;
    const std::size_t yarns = std::max<std::size_t>(10, skeins / 25);
    std::map<std::size_t, Quanta> label;
    std::map<std::pair<std::size_t, std::size_t>, std::vector<std::size_t>> places;
    std::map<std::size_t, std::vector<std::size_t>> of_yarn;
    for (std::size_t i = 0; i < skeins; ++i) {
        const Kind kind{below(yarns), below(3)};
        auto [length, fresh] = label.emplace(kind.yarn, 0);
        if (fresh) length->second = static_cast<Quanta>(500 + below(70) * 50);
        Stock skein;
        skein.part = below(4) == 0;
        skein.length =
            skein.part ? static_cast<Quanta>(10 + below(static_cast<std::size_t>(length->second)))
                       : length->second;
        skein.lot = (kind.yarn * 3 + kind.colour) * 4 + below(2 + below(3));
        skein.id = "s" + std::to_string(1'000'000 + i);
        places[{kind.yarn, kind.colour}].push_back(i);
        of_yarn[kind.yarn].push_back(i);
        out.instance.skeins.push_back(skein);
        out.kinds.push_back(kind);
    }
    for (std::size_t p = 0; p < projects; ++p)
        for (std::size_t r = 0; r < roles; ++r) {
            const Kind wanted = out.kinds[below(skeins)];
            Demand demand;
            demand.id = std::to_string(10'000 + p * 100 + r);
            demand.turn = in_turn ? p : 0;
            demand.lots = below(3) == 0 ? Lots::fewest : Lots::one;
            demand.need = static_cast<Quanta>(800 + below(6000));
            const auto& fits =
                below(5) == 0 ? of_yarn[wanted.yarn] : places[{wanted.yarn, wanted.colour}];
            for (const std::size_t skein : fits) demand.fits.push_back({skein, 0});
            out.instance.demands.push_back(std::move(demand));
        }
    return out;
}

void divide(benchmark::State& state, std::size_t projects, bool in_turn) {
    const Generated made =
        generated(static_cast<std::size_t>(state.range(0)), projects, 12, in_turn);
    const Instance& instance = made.instance;
    Allocation out;
    for (auto _ : state) {
        out = cover::allocate(instance.skeins, instance.demands, instance.plan);
        benchmark::DoNotOptimize(out);
    }
    state.counters["uncovered"] = static_cast<double>(out.total.of(cover::Goal::uncovered));
    state.counters["proven"] = out.proven() ? 1.0 : 0.0;
    state.counters["steps"] = static_cast<double>(out.steps);
    state.SetComplexityN(state.range(0));
}

void one_project(benchmark::State& state) {
    divide(state, 1, false);
}
void twenty_jointly(benchmark::State& state) {
    divide(state, 20, false);
}
void twenty_in_turn(benchmark::State& state) {
    divide(state, 20, true);
}

BENCHMARK(one_project)
    ->RangeMultiplier(10)
    ->Range(1000, 100'000)
    ->Arg(2000)
    ->Unit(benchmark::kMillisecond)
    ->Complexity();
// Of 2 000 skeins the 240 roles want the same ones and have to be searched; among 100 000 hardly
// two of them meet, and the time goes into looking at the skeins, in turn once for each project.
BENCHMARK(twenty_jointly)->Arg(2000)->Arg(100'000)->Unit(benchmark::kMillisecond);
BENCHMARK(twenty_in_turn)->Arg(2000)->Arg(100'000)->Unit(benchmark::kMillisecond);

/// The whole of cover_make() over values as they come from the store.
void cover_of_values(benchmark::State& state) {
    const Generated made = generated(static_cast<std::size_t>(state.range(0)), 1, 12, false);
    std::vector<stash::Skein> skeins;
    for (std::size_t i = 0; i < made.kinds.size(); ++i) {
        const Stock& stock = made.instance.skeins[i];
        stash::Skein skein;
        skein.id = stock.id;
        skein.yarn.name = "Yarn " + std::to_string(made.kinds[i].yarn);
        skein.colourway = "colourway " + std::to_string(made.kinds[i].colour);
        skein.dye_lot = std::to_string(stock.lot);
        const double metres = static_cast<double>(stock.length) / 10.0;
        skein.yarn.label.length = units::Printed<units::Length>{
            std::to_string(stock.length / 10) + " m", metres * units::metre};
        skein.yarn.label.mass = units::Printed<units::Mass>{"100 g", 100.0 * units::gram};
        skeins.push_back(std::move(skein));
    }
    project::Project project;
    need::MakeNeed need;
    for (std::size_t r = 0; r < made.instance.demands.size(); ++r) {
        const Demand& demand = made.instance.demands[r];
        const Kind& kind = made.kinds[demand.fits.front().skein];
        project::Role role;
        role.id = "C" + std::to_string(r);
        role.name = "Yarn " + std::to_string(kind.yarn);
        role.colour = "colourway " + std::to_string(kind.colour);
        need.roles.push_back(
            need::stated_need(static_cast<double>(demand.need) / 10.0 * units::metre));
        need.roles.back().role = role.id;
        project.roles.push_back(std::move(role));
    }
    for (auto _ : state) benchmark::DoNotOptimize(cover::cover_make(project, need, skeins, {}));
    state.SetComplexityN(state.range(0));
}
BENCHMARK(cover_of_values)
    ->RangeMultiplier(10)
    ->Range(1000, 100'000)
    ->Arg(2000)
    ->Unit(benchmark::kMillisecond)
    ->Complexity();

/// One role that all of many skeins fit: alike, or scraps of as many lengths.
void one_wide_role(benchmark::State& state, bool alike) {
    const auto count = static_cast<std::size_t>(state.range(0));
    std::vector<Stock> skeins;
    Demand demand;
    demand.id = "MC";
    demand.need = 60'000;
    demand.lots = Lots::fewest;
    for (std::size_t i = 0; i < count; ++i) {
        const Quanta length = alike ? 2100 : static_cast<Quanta>(10 + i % 5000);
        skeins.push_back({length, !alike, 0, "s" + std::to_string(1'000'000 + i), false});
        demand.fits.push_back({i, 0});
    }
    cover::Plan plan;
    plan.tails = 3;
    Allocation out;
    for (auto _ : state) {
        out = cover::allocate(skeins, {demand}, plan);
        benchmark::DoNotOptimize(out);
    }
    state.counters["proven"] = out.proven() ? 1.0 : 0.0;
}
void skeins_alike(benchmark::State& state) {
    one_wide_role(state, true);
}
void scraps(benchmark::State& state) {
    one_wide_role(state, false);
}
BENCHMARK(skeins_alike)->Arg(10'000)->Arg(100'000)->Unit(benchmark::kMillisecond);
BENCHMARK(scraps)->Arg(2000)->Arg(10'000)->Arg(100'000)->Unit(benchmark::kMillisecond);

/// The groups of roles that compete for skeins, each as an instance of its own.
std::vector<Instance> groups_of(const Instance& whole) {
    std::vector<std::size_t> parent(whole.demands.size());
    std::iota(parent.begin(), parent.end(), std::size_t{0});
    const auto root = [&](std::size_t at) {
        while (parent[at] != at) at = parent[at] = parent[parent[at]];
        return at;
    };
    std::map<std::size_t, std::size_t> first;
    for (std::size_t r = 0; r < whole.demands.size(); ++r)
        for (const cover::Fit& fit : whole.demands[r].fits) {
            const auto [found, fresh] = first.emplace(fit.skein, r);
            if (!fresh) parent[root(r)] = root(found->second);
        }
    std::map<std::size_t, std::vector<std::size_t>> members;
    for (std::size_t r = 0; r < parent.size(); ++r) members[root(r)].push_back(r);
    std::vector<Instance> out;
    for (const auto& [at, demands] : members) {
        if (demands.size() < 2) continue;
        Instance group;
        group.plan = whole.plan;
        std::map<std::size_t, std::size_t> number;
        for (const std::size_t r : demands) {
            Demand demand = whole.demands[r];
            for (cover::Fit& fit : demand.fits) {
                const auto [found, fresh] = number.emplace(fit.skein, group.skeins.size());
                if (fresh) group.skeins.push_back(whole.skeins[fit.skein]);
                fit.skein = found->second;
            }
            group.demands.push_back(std::move(demand));
        }
        out.push_back(std::move(group));
    }
    return out;
}

double median(std::vector<double> values) {
    if (values.empty()) return 0.0;
    std::sort(values.begin(), values.end());
    return values[values.size() / 2];
}

void compare_with_solvers(std::size_t at_most) {
    std::vector<double> ours;
    std::map<oracle::Solver, std::vector<double>> theirs;
    std::map<oracle::Solver, std::vector<double>> ratios;
    std::map<oracle::Solver, int> differ;
    std::map<oracle::Solver, int> faults;
    for (const Instance& group : groups_of(generated(2000, 20, 12, false).instance)) {
        if (ours.size() == at_most) break;
        const auto begin = std::chrono::steady_clock::now();
        const Allocation answer = cover::allocate(group.skeins, group.demands, group.plan);
        const double seconds =
            std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
        if (!answer.proven()) {
            std::printf("a group of %zu roles: not proven in %.3f s\n", group.demands.size(),
                        seconds);
            continue;
        }
        ours.push_back(seconds);
        for (const oracle::Solver solver : {oracle::Solver::cbc, oracle::Solver::glpsol}) {
            const oracle::Solved solved =
                oracle::solve_with(solver, group, std::string(SKEINFALL_BINARY_DIR) + "/bench_lp");
            theirs[solver].push_back(solved.seconds);
            ratios[solver].push_back(solved.seconds / seconds);
            if (solved.solver_fault)
                ++faults[solver];
            else if (!(*solved.total == answer.total))
                ++differ[solver];
        }
    }
    for (const auto& [solver, seconds] : theirs) {
        const char* const name = solver == oracle::Solver::cbc ? "cbc" : "glpsol";
        std::printf("%zu groups beside %s: slower by %.0f at the median; %d differ, %d faults\n",
                    ours.size(), name, median(ratios[solver]), differ[solver], faults[solver]);
        std::printf("result\tcover: competing roles, median group\t-\t%.6f\t-\t%s\t%.6f\t-\n",
                    median(ours), name, median(seconds));
    }
}

}  // namespace

int main(int argc, char** argv) {
    if (argc == 2 && std::string(argv[1]) == "--peers") {
        compare_with_solvers(40);
        return 0;
    }
    benchmark::Initialize(&argc, argv);
    benchmark::RunSpecifiedBenchmarks();
    return 0;
}
