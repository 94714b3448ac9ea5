#include <algorithm>
#include <ostream>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/report/planning.hpp"
#include "skeinfall/units/parse.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "make_options.hpp"
#include "planning.hpp"

namespace skeinfall::cli {
namespace {

using cover::Extent;

Extent extent_of(const Values& values, const project::Project& project) {
    const auto word = values.one("of");
    if (!word) return project.sizes.empty() ? Extent::rows : Extent::size;
    const std::vector<Extent> all{Extent::rows, Extent::width, Extent::count, Extent::size,
                                  Extent::turn};
    std::vector<std::string> words;
    for (const Extent extent : all) {
        words.emplace_back(cover::name_of(extent));
        if (words.back() == *word) return extent;
    }
    const auto near = base::nearest_name(*word, words);
    refuse_option("of", "\"" + base::shown_inert(*word) + "\" is nothing that grows",
                  base::join(words, ", "), near ? "Did you mean \"" + *near + "\"?" : "");
}

std::size_t piece_of(const Values& values, const project::Project& project, std::size_t size) {
    const std::vector<project::Piece>& pieces = project.pieces;
    if (const auto name = values.one("piece")) {
        std::vector<std::string> names;
        for (std::size_t at = 0; at < pieces.size(); ++at) {
            if (base::same_word(pieces[at].name, *name)) return at;
            names.push_back(pieces[at].name);
        }
        refuse_option("piece", "the project has no piece \"" + base::shown_inert(*name) + "\"",
                      base::join(names, ", "), "");
    }
    // The piece with the most stitches.
    std::size_t best = 0;
    double most = -1.0;
    for (std::size_t at = 0; at < pieces.size(); ++at) {
        const project::PieceCounts counts = project::counts(project, pieces[at], size);
        double stitches = 0.0;
        for (long row = 1; row <= counts.rows; ++row)
            stitches += static_cast<double>(project::stitches_in_row(counts, pieces[at], row));
        if (stitches > most) {
            most = stitches;
            best = at;
        }
    }
    return best;
}

/// "8" or "8+2": a repeat, and what stands outside it.
void read_repeat(const std::string& text, cover::Growth& growth) {
    const std::size_t plus = text.find('+');
    growth.step = read_option("repeat", text.substr(0, plus), units::parse_whole);
    if (plus != std::string::npos)
        growth.offset = read_option("repeat", text.substr(plus + 1), units::parse_whole);
    if (growth.step < 1 || growth.step + growth.offset > cover::largest_at_most)
        refuse_option("repeat", "\"" + base::shown_inert(text) + "\" is out of range",
                      "1 to " + std::to_string(cover::largest_at_most), "Write it like 8 or 8+2.");
}

long usual_step(const project::Project& project, const cover::Growth& growth) {
    const project::Piece& piece = project.pieces[growth.piece];
    if (growth.extent == Extent::turn) return piece.every;
    return growth.extent == Extent::rows ? cover::usual_step(piece) : 1;
}

}  // namespace

Command largest_command() {
    Command command;
    command.name = "largest";
    command.arguments = "PROJECT.toml";
    command.summary = "how large a project may become with the yarn there is";
    command.purpose =
        "Finds the most rows, width, copies, the largest size or the last row to turn at that the\n"
        "stash covers, with the other pieces, the finish and all tails held back. Whole repeats\n"
        "only; a piece in stripes grows by whole stripe repeats unless --repeat says otherwise.";
    command.options = {
        {"of",
         "WHAT",
         "rows, width, count, size or turn; else size where there are sizes, or rows",
         false,
         {"rows", "width", "count", "size", "turn"}},
        {"piece", "NAME", "the piece that grows; else the one with the most stitches", false},
        {"repeat", "NUMBER", "grow by so many: a pattern repeat, as 8, or 8+2 with edge stitches",
         false},
        margin_option(),
        confidence_option(),
        size_option(),
        stash_option(),
        format_option("text (default) or json")};
    take_makes(command);
    command.examples = {
        {"skeinfall largest sample_stash/projects/lantern-cowl.toml", "how many rows"},
        {"skeinfall largest sample_stash/projects/wharfside-pullover.toml", "which size"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string format = format_of(values, {"text", "json"});
        Read read = read_asked(values, world);
        const project::Project& project = read.project;
        const std::size_t size = read.size;
        cover::Growth growth;
        growth.extent = extent_of(values, project);
        if (!project.pieces.empty()) {
            growth.piece = piece_of(values, project, size);
            growth.step = usual_step(project, growth);
        }
        if (const auto repeat = values.one("repeat")) read_repeat(*repeat, growth);
        const std::vector<stash::Skein> stash = stash_for(values, world, {&read});
        const cover::Rules& rules = read.rules;
        const cover::Largest largest = cover::largest(project, size, stash, rules, growth);
        *world.out << (format == "json" ? report::largest_json(project, size, largest)
                                        : report::largest_text(project, size, largest, rules));
        return largest.sure ? done : not_so;
    };
    return command;
}

}  // namespace skeinfall::cli
