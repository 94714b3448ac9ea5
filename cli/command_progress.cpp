#include <algorithm>
#include <optional>
#include <ostream>
#include <string_view>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/joins/answer.hpp"
#include "skeinfall/joins/forecast.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/report/joins.hpp"
#include "skeinfall/units/parse.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "options.hpp"

namespace skeinfall::cli {
namespace {

/// A place and a mass as a maker writes them.
struct Note {
    std::string option = "reading";  ///< it was given by
    long row = 0;
    std::string piece;  ///< empty: the first piece of the yarn
    long copy = 1;
    units::Mass mass{};
    std::string skein;
};

long row_number(const std::string& option, std::string_view text) {
    const std::string_view trimmed = base::trimmed(text);
    if (trimmed == "0") return 0;
    return read_option(option, std::string(trimmed), units::parse_whole);
}

/// "sleeve", "sleeve 2".
void set_piece(Note& note, std::string_view text) {
    const std::string_view name = base::trimmed(text);
    const std::size_t blank = name.rfind(' ');
    if (blank != std::string_view::npos) {
        const auto copy = units::parse_whole(name.substr(blank + 1));
        if (copy) {
            note.copy = *copy;
            note.piece = std::string(base::trimmed(name.substr(0, blank)));
            return;
        }
    }
    note.piece = std::string(name);
}

/// "row 20: 86.4 g", "row 20 of sleeve 2: 86.4 g of gw-01".
Note read_note(const std::string& text) {
    Note note;
    const std::size_t colon = text.find(':');
    if (colon == std::string::npos)
        refuse_option("reading", "\"" + base::shown_inert(text) + "\" has no colon",
                      "\"row 20: 86.4 g\"", "");
    std::string_view place = base::trimmed(std::string_view(text).substr(0, colon));
    std::string_view mass = base::trimmed(std::string_view(text).substr(colon + 1));
    for (const std::string_view word : {"row ", "round "})
        if (place.starts_with(word)) place.remove_prefix(word.size());
    const std::size_t of_piece = place.find(" of ");
    note.row = row_number("reading", place.substr(0, of_piece));
    if (of_piece != std::string_view::npos) set_piece(note, place.substr(of_piece + 4));
    if (const std::size_t of_skein = mass.find(" of "); of_skein != std::string_view::npos) {
        note.skein = std::string(base::trimmed(mass.substr(of_skein + 4)));
        mass = mass.substr(0, of_skein);
    }
    note.mass = read_option("reading", std::string(mass), units::parse_mass);
    return note;
}

/// Steps of the role that are done after the note's row.
std::size_t steps_done(const project::Project& project, const std::vector<need::Step>& steps,
                       const Note& note) {
    std::optional<std::size_t> first;
    long last_row = 0;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const need::Step& step = steps[i];
        if (!step.name.empty() || project.pieces.empty()) continue;
        const std::string& piece = project.pieces[step.piece].name;
        if (step.copy != note.copy ||
            !(note.piece.empty() ? !first || step.piece == steps[*first].piece
                                 : base::same_word(piece, note.piece)))
            continue;
        if (!first) first = i;
        if (step.purpose != need::Purpose::body) continue;
        last_row = step.row;
        if (step.row == note.row) return i + 1;
    }
    if (first && note.row == 0) return *first;
    const std::string row = std::to_string(note.row);
    if (!first)
        refuse_option(note.option,
                      "this yarn works no piece \"" + base::shown_inert(note.piece) +
                          (note.copy > 1 ? " " + std::to_string(note.copy) : "") + "\"",
                      "a piece of the project, such as \"row 20 of sleeve 2: 40 g\"", "");
    refuse_option(note.option, "this yarn works no row " + row,
                  "a row it works, the last is " + std::to_string(last_row), "");
}

/// "50 g", "2 x 100 g": skeins not begun yet.
void add_more(const std::string& text, joins::ProgressRules& rules) {
    std::string_view rest = text;
    long count = 1;
    if (const std::size_t times = text.find(" x "); times != std::string::npos) {
        count = read_option("more", text.substr(0, times), units::parse_whole);
        rest.remove_prefix(times + 3);
    }
    const units::Mass one =
        read_option("more", std::string(base::trimmed(rest)), units::parse_mass);
    rules = joins::with_more(rules, one, count);
}

std::vector<Note> notes_of(const Values& values) {
    std::vector<Note> notes;
    for (const std::string& text : values.all("reading")) notes.push_back(read_note(text));
    if (values.given("row") != values.given("mass"))
        refuse_option(values.given("row") ? "row" : "mass", "--row and --mass go together",
                      "--row 40 --mass \"62 g\"", "");
    if (const auto row = values.one("row")) {
        Note now;
        now.option = values.given("piece") ? "piece" : "row";
        now.row = row_number("row", *row);
        now.mass = read_option("mass", *values.one("mass"), units::parse_mass);
        if (const auto piece = values.one("piece")) set_piece(now, *piece);
        // Weighed now: the skein that was weighed last, unless another is named.
        if (!notes.empty()) now.skein = notes.back().skein;
        now.skein = values.one("skein").value_or(now.skein);
        notes.push_back(std::move(now));
    }
    if (notes.empty())
        refuse_option("row", "no reading is given", "--row 40 --mass \"62 g\"",
                      "Weigh the skein you work from and say after which row.");
    return notes;
}

std::string role_of(const Values& values, const project::Project& project) {
    const auto wanted = values.one("yarn");
    if (!wanted) return project.roles.front().id;
    if (project.role(*wanted) != nullptr) return *wanted;
    std::vector<std::string> ids;
    for (const project::Role& role : project.roles) ids.push_back(role.id);
    refuse_option("yarn", "the project has no yarn \"" + base::shown_inert(*wanted) + "\"",
                  "one of " + base::join(ids, ", "), "");
}

int run_progress(const Values& values, const World& world) {
    const std::string format = format_of(values, {"text", "json"});
    const project::Project project = project_of(values);
    joins::Request request;
    request.size = size_of(values, project);
    request.confidence = confidence_of(values);
    const need::MakeNeed make = need::need_of(project, request.size);
    const std::string id = role_of(values, project);
    const auto need = std::find_if(make.roles.begin(), make.roles.end(),
                                   [&](const need::RoleNeed& role) { return role.role == id; });
    if (need == make.roles.end())
        refuse_option("yarn", "yarn " + id + " takes nothing in this project",
                      "a yarn that is used", "");
    if (!need->grist)
        throw base::InputError(base::Problem{"the length per mass of yarn " + id + " is not known",
                                             {.file = project.file, .line = 0, .column = 0},
                                             "grist in [yarn." + id + "]",
                                             "Write grist = \"200 m / 100 g\" as its label says."});

    const joins::Rules plan_rules = joins::rules_of(project, *project.role(id), request);
    const joins::JoinPlan plan = joins::plan_joins(*need, make.steps, {}, plan_rules, &project);
    joins::ProgressRules rules;
    rules.tail = project.tail;
    rules.confidence = request.confidence;
    for (const std::string& text : values.all("more")) add_more(text, rules);

    measure::ScaleReading scale;
    scale.resolution = 1.0 * units::gram;
    if (const auto step = scale_text(values))
        scale.resolution = read_option("scale", *step, units::parse_mass);
    if (const auto tare = values.one("tare"))
        scale.tare = read_option("tare", *tare, units::parse_mass);
    std::vector<joins::Reading> readings;
    for (const Note& note : notes_of(values)) {
        joins::Reading reading{steps_done(project, plan.steps, note), note.skein, scale};
        reading.scale.shown = note.mass;
        readings.push_back(std::move(reading));
    }
    const joins::Progress progress = joins::progress(
        plan.steps, *need->grist, need->without_shared().relative(), readings, rules);
    const report::ProgressOf of{project, plan, request.confidence};
    *world.out << (format == "json" ? report::progress_json(of, progress)
                                    : report::progress_text(of, progress));
    return progress.lasts >= request.confidence ? done : not_so;
}

}  // namespace

Command progress_command() {
    Command command;
    command.name = "progress";
    command.yes = "it will last";
    command.no = "it will not last, or that is undecided";
    command.arguments = "PROJECT.toml";
    command.summary = "while working: will the yarn last, by what the scale says";
    command.purpose =
        "Takes readings of the skein you work from, each after a row, and answers whether it will\n"
        "last, how many rows are certain and likely, where the next join falls, and whether you\n"
        "use more than the plan says. The plan's own rate counts as if it were readings; it gives\n"
        "way to yours the more you weigh.";
    command.options = {
        {"row", "NUMBER", "the row just finished", false},
        {"mass", "MASS", "what the scale shows now", false},
        {"piece", "NAME", "the piece that row is in, such as \"sleeve 2\"; else the first", false},
        {"reading", "TEXT",
         "an earlier one: \"row 20: 86.4 g\", \"row 5 of sleeve 2: 98 g of gw-02\"", true},
        {"skein", "ID", "the skein on the scale now, when it is another than before", false},
        {"more", "MASS", "skeins not begun yet: \"50 g\", \"2 x 100 g\"", true},
        {"scale", "MASS", "step of the scale; else 1 g", false},
        {"tare", "MASS", "needles, hook or bag on the scale with the yarn", false},
        {"yarn", "NAME", "which yarn of the project; else its first", false},
        confidence_option(),
        size_option(),
        format_option("text (default) or json")};
    command.examples = {
        {"skeinfall progress sample_stash/projects/tern-shawl.toml --row 60 --mass \"78 g\"",
         "one weighing, with the plan's rate"},
        {"skeinfall progress sample_stash/projects/tern-shawl.toml --reading \"row 0: 99.1 g\" "
         "--reading \"row 40: 90.2 g\" --row 60 --mass \"78.4 g\" --scale \"0.1 g\"",
         "three weighings on a letter scale"}};
    command.run = run_progress;
    return command;
}

}  // namespace skeinfall::cli
