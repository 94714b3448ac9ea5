#include <filesystem>
#include <ostream>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/project_edit.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/fit/fit.hpp"
#include "skeinfall/plan/make_plan.hpp"
#include "skeinfall/report/fit.hpp"
#include "skeinfall/units/parse.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "output_file.hpp"
#include "planning.hpp"

namespace skeinfall::cli {
namespace {

std::size_t piece_named(const Values& values, const project::Project& project, std::size_t size) {
    if (project.pieces.empty())
        throw base::InputError(base::Problem{"the project has no piece that could be fitted",
                                             {project.file, 0, 0},
                                             "a [[piece]] with rows and stitches",
                                             ""});
    const auto name = values.one("piece");
    if (!name) return fit::largest_piece(project, size);
    std::vector<std::string> names;
    for (std::size_t at = 0; at < project.pieces.size(); ++at) {
        if (base::same_word(project.pieces[at].name, *name)) return at;
        names.push_back(project.pieces[at].name);
    }
    const auto near = base::nearest_name(*name, names);
    refuse_option("piece", "the project has no piece " + base::quoted(*name),
                  base::join(names, ", "), near ? "Did you mean \"" + *near + "\"?" : "");
}

void at_most_one(const Values& values, const std::vector<std::string>& options) {
    std::string first;
    for (const std::string& option : options) {
        if (!values.given(option)) continue;
        if (!first.empty())
            refuse_option(option, "--" + first + " is given too, and says the same thing",
                          "one of --" + base::join(options, ", --"), "");
        first = option;
    }
}

fit::Wish wish_of(const Values& values) {
    at_most_one(values, {"width", "stitches", "repeats"});
    at_most_one(values, {"length", "rows"});
    fit::Wish wish;
    const auto length = [&](const char* option) -> std::optional<units::Length> {
        const auto text = values.one(option);
        if (!text) return std::nullopt;
        return read_option(option, *text, units::parse_length);
    };
    const auto whole = [&](const char* option) -> std::optional<long> {
        const auto text = values.one(option);
        if (!text) return std::nullopt;
        return read_option(option, *text, units::parse_whole);
    };
    wish.width = length("width");
    wish.length = length("length");
    wish.stitches = whole("stitches");
    wish.repeats = whole("repeats");
    wish.rows = whole("rows");
    return wish;
}

fit::Take take_of(const Values& values) {
    const std::string word = values.one("take").value_or("nearest");
    if (word == "nearest") return fit::Take::nearest;
    if (word == "below") return fit::Take::below;
    if (word == "above") return fit::Take::above;
    refuse_option("take", base::quoted(word) + " is none of its words", "nearest, below, above",
                  "");
}

/// The counts on the other side of each wish.
std::vector<report::OtherFit> others_of(const project::Project& project, const fit::Wish& wish,
                                        const fit::Fitted& fitted) {
    std::vector<report::OtherFit> out;
    const auto add = [&](const fit::Along& along, bool across) {
        if (!along.wished || along.exact() || !along.below) return;
        const long other = along.taken == along.above ? *along.below : along.above;
        fit::Wish changed = wish;
        if (across) {
            changed.width = std::nullopt;
            changed.repeats = std::nullopt;
            changed.stitches = other;
        } else {
            if (!fitted.stitches.wished) changed.width = std::nullopt;
            changed.length = std::nullopt;
            changed.rows = other;
        }
        report::OtherFit one;
        one.across = across;
        try {
            one.fitted = fit::fit_piece(project, fitted.piece, fitted.size, changed);
        } catch (const base::InputError&) {
            return;  // the other side does not work
        }
        one.need = need::need_of(one.fitted.project, fitted.size);
        out.push_back(std::move(one));
    };
    add(fitted.stitches, true);
    add(fitted.rows, false);
    return out;
}

void add_skeins(const Values& values, const World& world, report::FitAnswer& answer) {
    std::error_code error;
    if (!values.given("stash") && !std::filesystem::exists(stash_path(values, world), error))
        return;
    const project::Project& project = answer.fitted.project;
    const cover::Rules rules = rules_for(values, project, world);
    const std::vector<stash::Skein> stash = skeins_for(values, world, {project.title});
    answer.cover = cover::cover_make(project, answer.need, stash, rules);
    if (answer.cover->verdict != cover::Verdict::covered) return;
    joins::Request request;
    request.size = answer.fitted.size;
    request.confidence = rules.confidence;
    const joins::BallsOfRoles balls = plan::balls_of(*answer.cover, request);
    answer.joins = joins::answer_joins(project, answer.need, balls, request);
}

void save(const std::string& file, const project::Project& project, const fit::Fitted& fitted,
          const Values& values, const World& world) {
    std::vector<exchange::TotalEdit> totals;
    for (const fit::ChangedTotal& total : fitted.totals)
        totals.push_back({total.role, total.length, total.mass});
    const fit::Change& change = fitted.change;
    const std::string text = exchange::edited_project(
        exchange::read_text_file(project.file), project.file,
        {{change.piece, change.stitches, change.rows, change.last_stitches, change.written}},
        totals);
    // What is written has to be a project, before it is.
    static_cast<void>(exchange::parse_project(text, file));
    write_output("save", file, text, values, world);
}

/// Its own options say what the piece becomes, so nothing stands in for the file.
std::string file_of(const Values& values) {
    const auto file = values.one(positional);
    if (!file)
        throw base::InputError(
            base::Problem{"no project file is named",
                          {},
                          "a TOML file",
                          "Name one, such as scarf.toml. \"skeinfall new\" makes "
                          "one from your answers."});
    return *file;
}

int run_fit(const Values& values, const World& world) {
    const std::string format = format_of(values, {"text", "json"});
    project::Project project = project_in(file_of(values), values);
    const std::size_t size = size_of(values, project);
    const fit::Wish wish = wish_of(values);
    const fit::Take take = take_of(values);
    report::FitAnswer answer;
    answer.fitted = fit::fit_piece(project, piece_named(values, project, size), size, wish, take);
    answer.was = need::need_of(project, size);
    answer.need = need::need_of(answer.fitted.project, size);
    // What was found in written rows need not be found again.
    project.pieces[answer.fitted.piece].multiple =
        answer.fitted.project.pieces[answer.fitted.piece].multiple;
    answer.others = others_of(project, wish, answer.fitted);
    answer.each = fit::each_more(answer.fitted.project, answer.fitted.piece, size);
    add_skeins(values, world, answer);
    if (const auto file = values.one("save")) save(*file, project, answer.fitted, values, world);
    *world.out << (format == "json" ? report::fit_json(answer) : report::fit_text(answer));
    return done;
}

}  // namespace

Command fit_command() {
    Command command;
    command.name = "fit";
    command.arguments = "PROJECT.toml";
    command.no.clear();
    command.summary = "a piece in another width and length, in whole repeats";
    command.purpose =
        "Finds the whole repeats of stitches and rows that come nearest to a width and a length,\n"
        "how many chains to begin with, and what yarn that takes. Where the stash has yarn for "
        "it,\n"
        "it says which skeins and where they are joined. Without a width or length it says what\n"
        "the piece is now, and what each repeat more takes.";
    command.options = {
        {"width", "LENGTH", "as wide as this; of a piece from its centre, as far across", false},
        {"length", "LENGTH", "as long as this", false},
        {"stitches", "NUMBER", "so many stitches in row 1, instead of a width", false},
        {"repeats", "NUMBER", "so many repeats of its stitches, instead of a width", false},
        {"rows", "NUMBER", "so many rows, instead of a length", false},
        {"piece", "NAME", "the piece to fit; else the one with the most stitches", false},
        {"take",
         "WHICH",
         "of the two that are near: nearest (default), below or above",
         false,
         {"nearest", "below", "above"}},
        replace_option(),
        {"save", "FILE.toml", "write the project so fitted; all else in it stays as it stands",
         false},
        margin_option(),
        confidence_option(),
        size_option(),
        stash_option(),
        format_option("text (default) or json")};
    command.examples = {
        {"skeinfall fit sample_stash/projects/long-ferry-wrap.toml --width \"7 in\" --length \"50 "
         "in\"",
         "the wrap narrower and shorter"},
        {"skeinfall fit sample_stash/projects/lantern-cowl.toml --length \"12 in\"",
         "the cowl 12 in high"}};
    command.run = run_fit;
    return command;
}

}  // namespace skeinfall::cli
