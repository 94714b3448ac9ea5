// Rows in notation from text to need: 400 stitches a row, written out row by row or as two rows
// that are repeated. Peak memory is that of the whole process, so run one case at a time
// (--benchmark_filter) to read it.

#include <cstdint>
#include <string>

#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <sys/resource.h>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/notation/document.hpp"
#include "skeinfall/notation/notation.hpp"

namespace {

using namespace skeinfall;

/// 400 single crochet, in alternate rows with another wording.
std::string row(std::int64_t number) {
    const std::string begin = "Row " + std::to_string(number) + ": ch 1, turn, ";
    return begin +
           (number % 2 == 0
                ? "*sc in next 3 sts, 2 sc in next st, sc2tog, sc in next 2 sts; rep from * "
                  "across. (400 sts)"
                : "sc in first 8 sts, *dc in next 4 sts, sc in next 4 sts; rep from * to "
                  "last 8 sts, sc in last 8 sts. (400 sts)");
}

std::string written_out(std::int64_t rows) {
    std::string out = "Row 1: Ch 401, sc in 2nd ch from hook and in each ch across. (400 sts)\n";
    for (std::int64_t number = 2; number <= rows; ++number) out += row(number) + "\n";
    return out;
}

/// The same with no two rows in the same words.
std::string all_different(std::int64_t rows) {
    std::string out = "Row 1: Ch 401, sc in 2nd ch from hook and in each ch across. (400 sts)\n";
    for (std::int64_t number = 2; number <= rows; ++number) {
        // 7, 11, 9, 13 and 5 have no common factor: 45 045 rows before one comes again.
        const std::int64_t head = 16 + 8 * (number % 7);
        const std::int64_t begin = 1 + number % 11;
        const std::int64_t tail = 24 + 8 * (number % 9);
        const std::int64_t middle = 1 + number % 13;
        const std::int64_t end = 1 + number % 5;
        out += fmt::format(
            "Row {}: ch 1, turn, sc in first {} sts, hdc in next {} sts, *dc in next 4 sts, sc in "
            "next 4 sts; rep from * to last {} sts, sc in next {} sts, hdc in next {} sts, sc in "
            "last {} sts. (400 sts)\n",
            number, begin, head - begin, tail, middle, end, tail - middle - end);
    }
    return out;
}

std::string repeated(std::int64_t rows) {
    return "Row 1: Ch 401, sc in 2nd ch from hook and in each ch across. (400 sts)\n" + row(2) +
           "\n" + row(3) + "\nRows 4-" + std::to_string(rows) + ": rep rows 2 and 3.\n";
}

std::string file_of(const std::string& rows) {
    return "title = \"Long wrap\"\n[gauge]\nstitches = \"14 per 10 cm\"\nrows = \"16 per 10 cm\"\n"
           "stitch = \"sc\"\n[yarn.MC]\nrate = \"5 cm per stitch\"\n[[piece]]\nname = \"Wrap\"\n"
           "rows = \"\"\"\n" +
           rows + "\"\"\"\n";
}

void report_memory(benchmark::State& state, std::int64_t rows) {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    state.counters["peak_MiB"] = static_cast<double>(usage.ru_maxrss) / 1024.0;
    state.counters["rows"] = benchmark::Counter(static_cast<double>(rows),
                                                benchmark::Counter::kIsIterationInvariantRate);
}

template <std::string (*Text)(std::int64_t)>
void work_out(benchmark::State& state) {
    const std::string text = Text(state.range(0));
    for (auto _ : state) benchmark::DoNotOptimize(notation::work_rows(text, {}));
    report_memory(state, state.range(0));
}

template <std::string (*Text)(std::int64_t)>
void file_to_need(benchmark::State& state) {
    const std::string file = file_of(Text(state.range(0)));
    for (auto _ : state) {
        const project::Project project = exchange::parse_project(file, "wrap.toml");
        benchmark::DoNotOptimize(need::need_of(project, 0));
    }
    report_memory(state, state.range(0));
}

/// A knitted row of so many letters in one line, as text without line breaks has it.
void one_long_line(benchmark::State& state) {
    std::string text = "Cloth\n\nCast on 40 sts.\nRow 1: k2, p2";
    while (text.size() < static_cast<std::size_t>(state.range(0))) text += ", k2, p2";
    notation::DocumentOptions options;
    options.craft = project::Craft::knit;
    for (auto _ : state) benchmark::DoNotOptimize(notation::read_document(text + ".\n", options));
    report_memory(state, state.range(0));
}

BENCHMARK(one_long_line)->Arg(30000)->Arg(300000)->Unit(benchmark::kMillisecond)->Iterations(1);
BENCHMARK(work_out<written_out>)->Arg(1000)->Arg(10000)->Arg(100000)->Unit(benchmark::kMillisecond);
BENCHMARK(work_out<all_different>)->Arg(1000)->Arg(10000)->Unit(benchmark::kMillisecond);
BENCHMARK(work_out<repeated>)->Arg(1000)->Arg(10000)->Arg(100000)->Unit(benchmark::kMillisecond);
BENCHMARK(file_to_need<written_out>)->Arg(1000)->Arg(10000)->Unit(benchmark::kMillisecond);
BENCHMARK(file_to_need<all_different>)->Arg(1000)->Arg(10000)->Unit(benchmark::kMillisecond);
BENCHMARK(file_to_need<repeated>)
    ->Arg(1000)
    ->Arg(10000)
    ->Arg(100000)
    ->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
