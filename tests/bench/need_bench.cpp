// A graded garment from its file to the need of every size: 12 sizes, 8 pieces, half of them with
// their rows written out in notation, the numbers of all sizes in each row. The size of a case is
// the rows of a piece.

#include <cstdint>
#include <string>

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/need/need.hpp"

namespace {

using namespace skeinfall;

constexpr std::int64_t sizes = 12;
constexpr std::int64_t pieces = 8;

/// "80 (88, 96 ...)" in rows, "80, 88, 96 ..." in a list; each size `step` more.
std::string graded(std::int64_t first, std::int64_t step, bool in_rows) {
    std::string out = std::to_string(first);
    for (std::int64_t size = 1; size < sizes; ++size)
        out += (in_rows && size == 1 ? " (" : ", ") + std::to_string(first + size * step);
    return in_rows ? out + ")" : out;
}

std::string garment(std::int64_t rows) {
    std::string out =
        "title = \"Cardigan\"\ncraft = \"knit\"\nsizes = [\"1\", \"2\", \"3\", \"4\", \"5\", "
        "\"6\", \"7\", \"8\", \"9\", \"10\", \"11\", \"12\"]\n[gauge]\nstitches = \"22 per 10 "
        "cm\"\nrows = \"30 per 10 cm\"\nstitch = \"stockinette\"\n[yarn.MC]\nname = \"Tarnmoor "
        "DK\"\nrate = \"1.7 cm per stitch\"\n";
    for (std::int64_t piece = 0; piece < pieces; ++piece) {
        out += fmt::format("[[piece]]\nname = \"piece {}\"\nyarn = \"MC\"\n", piece);
        if (piece % 2 == 0) {
            out += fmt::format("stitches = [{}]\nrows = {}\nincrease = 2\nevery = 6\n",
                               graded(80, 8, false), rows);
            continue;
        }
        const std::string before_last = graded(78, 8, true);
        out += "rows = \"\"\"\nCO " + graded(80, 8, true) + "\n";
        for (std::int64_t row = 1; row <= rows; ++row)
            out += row % 2 == 1 ? fmt::format("Row {}: k2, p{}.\n", row, before_last)
                                : fmt::format("Row {}: k{}, p2. ({} sts)\n", row, before_last,
                                              graded(80, 8, true));
        out += "\"\"\"\n";
    }
    return out;
}

void twelve_sizes_of_eight_pieces(benchmark::State& state) {
    const std::string file = garment(state.range(0));
    for (auto _ : state) {
        const project::Project project = exchange::parse_project(file, "cardigan.toml");
        for (std::size_t size = 0; size < project.size_count(); ++size)
            benchmark::DoNotOptimize(need::need_of(project, size));
    }
}

BENCHMARK(twelve_sizes_of_eight_pieces)
    ->Arg(100)
    ->Arg(200)
    ->Arg(2000)
    ->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
