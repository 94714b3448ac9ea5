// One million label texts parsed and converted by the library, and the same list by GNU units
// (Debian package "units") from a file, in the same run. Allocations are counted by the operator
// new of this program.

#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <new>
#include <random>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include <benchmark/benchmark.h>
#include <sys/resource.h>

#include "skeinfall/units/any.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/units/parse.hpp"

namespace {

std::size_t allocations = 0;

}  // namespace

// Not inlined, for the compiler would take malloc and free for a mismatched pair.
[[gnu::noinline]] void* operator new(std::size_t size) {
    ++allocations;
    if (void* const block = std::malloc(size == 0 ? 1 : size)) return block;
    throw std::bad_alloc();
}
[[gnu::noinline]] void operator delete(void* block) noexcept {
    std::free(block);
}
[[gnu::noinline]] void operator delete(void* block, std::size_t) noexcept {
    std::free(block);
}

namespace {

using namespace skeinfall::units;

constexpr std::size_t list_size = 1'000'000;
constexpr std::uint32_t seed = 20220701;

enum class Kind { length, mass, yarn_size, count };

struct Item {
    Kind kind;
    std::string text;    ///< as a label prints it
    std::string theirs;  ///< the same for GNU units
};

/// Labels as they come: half of them length and mass, the rest lengths, masses and counts.
const std::vector<Item>& items() {
    static const std::vector<Item> list = [] {
        std::mt19937 random(seed);
        const auto whole = [&](int from, int to) {
            return std::to_string(std::uniform_int_distribution<int>(from, to)(random));
        };
        const auto decimal = [&](int from, int to) { return whole(from, to) + "." + whole(1, 9); };
        std::vector<Item> out;
        out.reserve(list_size);
        for (std::size_t i = 0; i < list_size; ++i) {
            const std::string a = whole(20, 900);
            const std::string b = decimal(1, 16);
            switch (i % 10) {
                case 0:
                    out.push_back({Kind::length, a + " yd", a + " yd"});
                    break;
                case 1:
                    out.push_back({Kind::length, a + " metres", a + " metres"});
                    break;
                case 2:
                    out.push_back({Kind::mass, b + " oz", b + " oz"});
                    break;
                case 3:
                    out.push_back({Kind::mass, a + " grams", a + " grams"});
                    break;
                case 4:
                    out.push_back({Kind::count, "2/" + a + " NeW", a + " worstedyarncount/2"});
                    break;
                case 5:
                    out.push_back({Kind::yarn_size, a + " m / 100 g", "(" + a + " m)/(100 g)"});
                    break;
                case 6:
                    out.push_back({Kind::yarn_size, a + " yd/lb", a + " yd/lb"});
                    break;
                default:
                    out.push_back({Kind::yarn_size, a + " yd / " + b + " oz",
                                   "(" + a + " yd)/(" + b + " oz)"});
                    break;
            }
        }
        return out;
    }();
    return list;
}

/// The item in metres, grams or metres per 100 g.
Ratio converted(const Item& item) {
    switch (item.kind) {
        case Kind::length:
            return Ratio(*parse_length(item.text) / metre);
        case Kind::mass:
            return Ratio(*parse_mass(item.text) / gram);
        case Kind::yarn_size:
        case Kind::count:
            break;
    }
    return Ratio(*parse_grist(item.text) / (metre / (100.0 * gram)));
}

double library_rate = 0.0;
double printing_rate = 0.0;
double peer_rate = 0.0;

/// Processor time, user and system, of this program or of the programs it has run. Unlike the
/// clock on the wall it does not depend on what else the machine does.
double processor_seconds(int whose) {
    rusage used{};
    if (getrusage(whose, &used) != 0) throw std::runtime_error("getrusage failed");
    const auto seconds = [](const timeval& time) {
        return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
    };
    return seconds(used.ru_utime) + seconds(used.ru_stime);
}

template <class Do>
void measure(benchmark::State& state, double& rate, Do each) {
    const std::vector<Item>& list = items();
    std::size_t counted = 0;
    double seconds = 0.0;
    for (auto _ : state) {
        const std::size_t before = allocations;
        const double start = processor_seconds(RUSAGE_SELF);
        for (const Item& item : list) each(item);
        seconds += processor_seconds(RUSAGE_SELF) - start;
        counted += allocations - before;
    }
    const double done = static_cast<double>(state.iterations()) * static_cast<double>(list.size());
    rate = done / seconds;
    state.SetItemsProcessed(static_cast<std::int64_t>(done));
    state.counters["allocations_per_text"] = static_cast<double>(counted) / done;
}

void parse_and_convert(benchmark::State& state) {
    measure(state, library_rate,
            [](const Item& item) { benchmark::DoNotOptimize(converted(item)); });
}
BENCHMARK(parse_and_convert)->Unit(benchmark::kMillisecond);

void parse_convert_and_print(benchmark::State& state) {
    measure(state, printing_rate, [](const Item& item) {
        const std::string text = figures_text(converted(item), 8);
        benchmark::DoNotOptimize(text.data());
    });
}
BENCHMARK(parse_convert_and_print)->Unit(benchmark::kMillisecond);

void text_of_any_kind(benchmark::State& state) {
    double rate = 0.0;
    measure(state, rate,
            [](const Item& item) { benchmark::DoNotOptimize(parse_quantity(item.text)->value); });
}
BENCHMARK(text_of_any_kind)->Unit(benchmark::kMillisecond);

void gnu_units_from_a_file(benchmark::State& state) {
    const auto file = std::filesystem::path(SKEINFALL_BINARY_DIR) / "bench_units_list.txt";
    {
        std::ofstream out(file);
        for (const Item& item : items())
            out << item.theirs << "\n"
                << (item.kind == Kind::length ? "m"
                    : item.kind == Kind::mass ? "g"
                                              : "m/(100 g)")
                << "\n";
    }
    const std::string command =
        "LC_ALL=C units --file '' --terse --digits 8 < '" + file.string() + "' > /dev/null";
    double seconds = 0.0;
    for (auto _ : state) {
        const double start = processor_seconds(RUSAGE_CHILDREN);
        if (std::system(command.c_str()) != 0) {
            state.SkipWithError("GNU units did not run: install the package \"units\"");
            break;
        }
        const double used = processor_seconds(RUSAGE_CHILDREN) - start;
        state.SetIterationTime(used);
        seconds += used;
    }
    const double done = static_cast<double>(state.iterations()) * static_cast<double>(list_size);
    peer_rate = done / seconds;
    state.SetItemsProcessed(static_cast<std::int64_t>(done));
}

}  // namespace

int main(int argc, char** argv) {
    const bool peers = argc == 2 && std::string(argv[1]) == "--peers";
    if (peers) {
        argc = 1;
        benchmark::RegisterBenchmark("gnu_units_from_a_file", gnu_units_from_a_file)
            ->UseManualTime()
            ->Iterations(1);
    }
    benchmark::Initialize(&argc, argv);
    benchmark::RunSpecifiedBenchmarks();
    if (peers && peer_rate > 0.0)
        for (const auto& [job, rate] : {std::pair{"read and converted", library_rate},
                                        std::pair{"printed too", printing_rate}})
            std::printf(
                "result\tunits: labels, %s (processor time)\t%zu\t%.6f\t-\tunits\t%.6f\t-\n", job,
                list_size, static_cast<double>(list_size) / rate,
                static_cast<double>(list_size) / peer_rate);
    benchmark::Shutdown();
    return 0;
}
