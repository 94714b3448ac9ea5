#include <algorithm>
#include <ostream>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/largest.hpp"
#include "skeinfall/fit/fit.hpp"
#include "skeinfall/report/planning.hpp"
#include "skeinfall/units/parse.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "make_options.hpp"
#include "planning.hpp"

namespace skeinfall::cli {
namespace {

using cover::Extent;

constexpr const char* by_gauge = "gauge";

Extent extent_of(const Values& values, const project::Project& project) {
    const auto word = values.one("of");
    if (!word) return project.sizes.empty() ? Extent::rows : Extent::size;
    const std::vector<Extent> all{Extent::rows, Extent::width, Extent::count,
                                  Extent::size, Extent::turn,  Extent::both};
    std::vector<std::string> words;
    for (const Extent extent : all) {
        words.emplace_back(cover::name_of(extent));
        if (words.back() == *word) return extent;
    }
    words.emplace_back(by_gauge);
    const auto near = base::nearest_name(*word, words);
    refuse_option("of", base::quoted(*word) + " is not something that can grow",
                  base::join(words, ", "), base::did_you_mean(near));
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
    return pieces.empty() ? 0 : fit::largest_piece(project, size);
}

/// "8" or "8+2": a repeat, and what stands outside it.
void read_repeat(const std::string& text, cover::Growth& growth) {
    const std::size_t plus = text.find('+');
    const auto half = [&](std::size_t from, std::size_t to) {
        return units::parse_whole(text.substr(from, to - from)).ok();
    };
    if (plus != std::string::npos &&
        (!half(0, plus) || (text.substr(plus + 1) != "0" && !half(plus + 1, text.size()))))
        refuse_option("repeat", base::quoted(text) + " is not understood",
                      "8, or 8+2 with edge stitches", "");
    growth.step = read_option("repeat", text.substr(0, plus), units::parse_whole);
    if (plus != std::string::npos && text.substr(plus + 1) != "0")
        growth.offset = read_option("repeat", text.substr(plus + 1), units::parse_whole);
    if (growth.step < 1 || growth.step + growth.offset > cover::largest_at_most)
        refuse_option("repeat", base::quoted(text) + " is out of range",
                      "1 to " + std::to_string(cover::largest_at_most), "Write it like 8 or 8+2.");
}

int run_largest(const Values& values, const World& world) {
    const std::string format = format_of(values, {"text", "json"});
    Read read = read_asked(values, world);
    const project::Project& project = read.project;
    const std::size_t size = read.size;
    if (values.one("of") == by_gauge) {
        if (project.pieces.empty())
            refuse_option("of", "the project has no piece, so it has no gauge",
                          "rows, width or count of a piece", "");
        if (values.given("repeat"))
            refuse_option("repeat", "a gauge does not come in repeats", "it without --of gauge",
                          "Leave one out.");
        const std::vector<stash::Skein> stash = stash_for(values, world, {&read});
        const cover::LargestByGauge largest = cover::largest_by_gauge(
            project, size, stash, read.rules, piece_of(values, project, size));
        *world.out << (format == "json"
                           ? report::largest_by_gauge_json(project, size, largest)
                           : report::largest_by_gauge_text(project, size, largest, read.rules));
        return largest.counts || largest.size ? done : not_so;
    }
    const Extent extent = extent_of(values, project);
    cover::Growth growth =
        cover::usual_growth(project, size, extent, piece_of(values, project, size));
    if (const auto repeat = values.one("repeat")) read_repeat(*repeat, growth);
    const std::vector<stash::Skein> stash = stash_for(values, world, {&read});
    const cover::Rules& rules = read.rules;
    const cover::Largest largest = cover::largest(project, size, stash, rules, growth);
    *world.out << (format == "json" ? report::largest_json(project, size, largest)
                                    : report::largest_text(project, size, largest, rules));
    return largest.sure ? done : not_so;
}

}  // namespace

Command largest_command() {
    Command command;
    command.name = "largest";
    command.no = "not even the smallest is sure to be covered";
    command.grams_serve = true;
    command.arguments = "PROJECT.toml";
    command.summary = "how large a project may become with the yarn there is";
    command.purpose =
        "How large may it become? Finds the most rows, width, copies, the largest size,\nor the "
        "last row to turn at, that the stash covers, and how many inches that\nis. The other "
        "pieces, the finish and all ends are kept back. Whole repeats\nonly; a piece in stripes "
        "grows by whole stripe repeats unless --repeat says\notherwise. A stated total follows the "
        "size. With --of gauge: at which gauge\nthe yarn is enough, and what size it then comes "
        "out.";
    command.options = {
        {"of",
         "WHAT",
         "rows, width, both (in proportion), count, size, turn or gauge; else size where there "
         "are sizes, or rows",
         false,
         {"rows", "width", "both", "count", "size", "turn", "gauge"}},
        {"piece", "NAME", "the piece that grows; else the one with the most stitches", false},
        {"repeat", "NUMBER",
         "grow by this number: a pattern repeat, as 8, or 8+2 with edge stitches", false},
        margin_option(),
        confidence_option(),
        size_option(),
        stash_option(),
        format_option("text (default) or json")};
    take_makes(command);
    command.examples = {
        {"skeinfall largest sample_stash/projects/lantern-cowl.toml", "how many rows"},
        {"skeinfall largest sample_stash/projects/lantern-cowl.toml --of both",
         "how wide and high, in proportion"},
        {"skeinfall largest sample_stash/projects/lantern-cowl.toml --of gauge",
         "how loosely it may be worked"},
        {"skeinfall largest sample_stash/projects/wharfside-pullover.toml", "which size"}};
    command.run = run_largest;
    return command;
}

}  // namespace skeinfall::cli
