#include <algorithm>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <ostream>
#include <string_view>

#include <fmt/format.h>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/joins/answer.hpp"
#include "skeinfall/joins/forecast.hpp"
#include "skeinfall/joins/reading_place.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/plan/in_work.hpp"
#include "skeinfall/report/joins.hpp"
#include "skeinfall/report/stash_text.hpp"
#include "skeinfall/report/words.hpp"
#include "skeinfall/stash/in_work.hpp"
#include "skeinfall/stash/reserve.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/yarn/label_check.hpp"
#include "skeinfall/yarn/put_up.hpp"

#include "commands.hpp"
#include "exit_code.hpp"
#include "lasting.hpp"
#include "make_options.hpp"
#include "options.hpp"
#include "planning.hpp"
#include "stash_options.hpp"

namespace skeinfall::cli {
namespace {

/// A reading, and the option that gave it.
struct Note : stash::WorkReading {
    std::string option = "reading";
    std::string skein_option = "reading";
    std::string mass_option = "reading";
    bool tare_said = false;  ///< or that there is none
};

std::int64_t row_number(const std::string& option, std::string_view text) {
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
        refuse_option("reading", base::quoted(text) + " has no colon", "\"row 20: 86.4 g\"", "");
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
    // What lay beside the yarn then: "86.4 g less 15 g"; "86.4 g net" is the yarn alone.
    if (const std::size_t less = mass.find(" less "); less != std::string_view::npos) {
        const std::string beside(base::trimmed(mass.substr(less + 6)));
        note.tare = {beside, read_option("reading", beside, units::parse_mass)};
        note.tare_said = true;
        mass = mass.substr(0, less);
    } else if (base::trimmed(mass).ends_with(" net")) {
        note.tare_said = true;
        mass = base::trimmed(mass);
        mass.remove_suffix(4);
    }
    const std::string shown(base::trimmed(mass));
    note.mass = {shown, read_option("reading", shown, units::parse_mass)};
    return note;
}

/// A piece that is not there, or that is not worked in this yarn.
[[noreturn]] void refuse_piece(const project::Project& project,
                               const std::vector<need::Step>& steps, const Note& note) {
    std::vector<std::string> all;
    std::vector<std::string> of_yarn;
    for (std::size_t at = 0; at < project.pieces.size(); ++at) {
        all.push_back(project.pieces[at].name);
        if (std::any_of(steps.begin(), steps.end(), [&](const need::Step& step) {
                return step.name.empty() && step.piece == at;
            }))
            of_yarn.push_back(base::shown_inert(project.pieces[at].name));
    }
    const bool known = std::any_of(all.begin(), all.end(), [&](const std::string& name) {
        return base::same_word(name, note.piece);
    });
    const std::string copy = note.copy > 1 ? " " + std::to_string(note.copy) : "";
    refuse_option(note.option,
                  (known ? "this yarn is not used in "
                         : base::shown_inert(project.title) + " has no piece ") +
                      "\"" + base::shown_inert(note.piece) + copy + "\"",
                  base::join(of_yarn, ", "),
                  known ? "" : base::did_you_mean(base::nearest_name(note.piece, all)));
}

/// Steps of the role that are done after the note's row.
std::size_t steps_done(const project::Project& project, const std::vector<need::Step>& steps,
                       const Note& note) {
    const joins::ReadingPlace place =
        joins::place_of_reading(project, steps, note.piece, note.copy, note.row);
    if (place.steps_done) return *place.steps_done;
    if (!place.piece_known) refuse_piece(project, steps, note);
    refuse_option(
        note.option, "this yarn is not used in row " + std::to_string(note.row),
        place.behind == 0 ? "a row that uses it; the last is " + std::to_string(place.before)
        : place.before == 0
            ? "a row that uses it; the first is " + std::to_string(place.behind)
            : fmt::format("a row that uses it: {} before, {} after", place.before, place.behind),
        "");
}

constexpr const char* no_more = "none";

/// "50 g", "2 x 100 g": skeins not begun yet; "none".
void add_more(const std::string& text, joins::ProgressRules& rules) {
    if (base::same_word(text, no_more)) return;
    const CountedOption more = read_counted("more", text);
    if (!units::parse_mass(more.each))
        refuse_option("more", base::quoted(text) + " does not say what each of them weighs",
                      "\"50 g\", \"2 balls of 50 g\" or \"none\"", "");
    rules = joins::with_more(rules, read_option("more", more.each, units::parse_mass), more.count);
}

joins::ProgressRules more_of(const Values& values) {
    joins::ProgressRules out;
    const std::vector<std::string> told = values.all("more");
    for (const std::string& text : told) add_more(text, out);
    if (told.size() > 1 && std::any_of(told.begin(), told.end(), [](const std::string& text) {
            return base::same_word(text, no_more);
        }))
        refuse_option("more", "\"none\" cannot go with skeins", "one or the other", "");
    return out;
}

/// The readings that options give. `before`: those that are known already.
std::vector<Note> notes_of(const Values& values, const std::vector<Note>& before) {
    std::vector<Note> notes;
    for (const std::string& text : values.all("reading")) notes.push_back(read_note(text));
    if (values.given("row") != values.given("mass"))
        refuse_option(values.given("row") ? "row" : "mass", "--row and --mass go together",
                      "--row 40 --mass \"62 g\"", "");
    if (const auto row = values.one("row")) {
        Note now;
        now.option = values.given("piece") ? "piece" : "row";
        now.row = row_number("row", *row);
        const std::string shown = *values.one("mass");
        now.mass = {shown, read_option("mass", shown, units::parse_mass)};
        if (const auto piece = values.one("piece")) set_piece(now, *piece);
        // Weighed now: the skein that was weighed last, unless another is named.
        if (!notes.empty() || !before.empty())
            now.skein = notes.empty() ? before.back().skein : notes.back().skein;
        now.skein = values.one("skein").value_or(now.skein);
        now.skein_option = "skein";
        now.mass_option = "mass";
        notes.push_back(std::move(now));
    }
    if (notes.empty() && before.empty())
        refuse_option("row", "no reading is given", "--row 40 --mass \"62 g\"",
                      "Weigh the skein you work from and say after which row.");
    return notes;
}

/// What stands beside every reading of one command line.
void complete(std::vector<Note>& notes, const Values& values, const World& world,
              const std::string& project, const std::string& role) {
    const std::string step = scale_text(values).value_or("1 g");
    const units::Printed<units::Mass> scale{step, read_option("scale", step, units::parse_mass)};
    std::optional<units::Printed<units::Mass>> tare;
    if (const auto text = values.one("tare"))
        tare = {*text, read_option("tare", *text, units::parse_mass)};
    for (Note& note : notes) {
        note.project = project;
        note.role = role;
        note.scale = scale;
        if (tare && note.option == "reading" && !note.tare_said)
            refuse_option("tare", "it may be of the last weighing alone, or of every --reading too",
                          "what lay beside the yarn in each reading, \"row 20: 86.4 g less " +
                              base::shown_inert(tare->text) +
                              "\", or that nothing did, \"row 20: 86.4 g net\"",
                          "");
        if (!note.tare_said) note.tare = tare;
        note.day = day_of(values, world);
        note.note = values.one("note").value_or("");
    }
    if (!notes.empty()) notes.front().afresh = values.given("afresh");
}

/// The same place, skein and figures: told twice, it counts once.
bool alike(const Note& a, const Note& b) {
    return a.row == b.row && a.copy == b.copy && base::same_word(a.piece, b.piece) &&
           a.skein == b.skein && a.mass == b.mass && a.scale == b.scale && a.tare == b.tare;
}

/// By the labels of its skeins in the stash. A length per mass alone is no put-up: where only the
/// project speaks, no less than a large cake.
std::optional<units::Mass> heaviest_of(const project::Role& role,
                                       const std::vector<stash::Skein>& stash) {
    constexpr units::Mass large_cake = 300.0 * units::gram;  // common practice, no source
    std::optional<units::Mass> most;
    const auto take = [&](units::Mass mass) { most = most ? std::max(*most, mass) : mass; };
    for (const stash::Skein& skein : stash) {
        if (role.name.empty() || !base::same_name(skein.yarn.name, role.name)) continue;
        if (skein.yarn.label.mass) take(skein.yarn.label.mass->value);
        if (skein.weighing) take(measure::net_mass(skein.weighing->reading()).centre);
    }
    if (!most && role.grist)
        if (const yarn::Label put_up = yarn::put_up_in(role.grist->text); put_up.mass)
            take(std::max(put_up.mass->value, large_cake));
    return most;
}

/// One digit of an id makes a skein of another yarn.
[[noreturn]] void refuse_other_yarn(const Note& note, const stash::Skein& skein,
                                    const std::vector<stash::Skein>& stash,
                                    const project::Role& role) {
    std::vector<std::string> ids;
    for (const stash::Skein& one : stash)
        if (base::same_name(one.yarn.name, role.name)) ids.push_back(base::shown_inert(one.id));
    refuse_option(note.skein_option,
                  base::shown_inert(skein.id) + " is " + base::shown_inert(skein.yarn.name) +
                      ", and this yarn is " + base::shown_inert(role.name),
                  ids.empty() ? "a skein of that yarn" : "one of " + base::join(ids, ", "),
                  "If you did change the yarn, add --afresh.");
}

/// A skein that is named is one of the stash, where there is one, and nothing on the scale is
/// heavier than the yarn can be.
void check_skeins(const std::vector<Note>& notes, const std::vector<Note>& kept,
                  const std::vector<stash::Skein>& stash, const project::Role& role, bool record,
                  bool afresh) {
    constexpr double damp = 1.4;  // damp yarn weighs a third more: common practice, no source
    for (const Note& note : notes) {
        const auto skein = std::find_if(stash.begin(), stash.end(), [&](const auto& one) {
            return !note.skein.empty() && one.id == note.skein;
        });
        const bool told = std::any_of(kept.begin(), kept.end(),
                                      [&](const Note& one) { return one.skein == note.skein; });
        if (skein == stash.end() && !note.skein.empty() && record && !told) {
            const auto near = nearest_id(note.skein, stash);
            refuse_option(
                note.skein_option,
                "the stash has no skein \"" + base::shown_inert(note.skein) + "\"",
                "a skein of the stash",
                base::did_you_mean(
                    near, "With --no-record a skein may have any name; nothing is kept then."));
        }
        const bool kept_for_it =
            skein != stash.end() &&
            std::any_of(skein->set_aside.begin(), skein->set_aside.end(),
                        [&](const stash::Promise& promise) {
                            return base::same_word(promise.project, note.project);
                        });
        if (skein != stash.end() && !role.name.empty() && record && !afresh && !told &&
            !kept_for_it && !base::same_name(skein->yarn.name, role.name))
            refuse_other_yarn(note, *skein, stash, role);
        units::Mass most = yarn::heaviest_skein;
        std::string what = "any skein or cone";
        if (skein == stash.end())
            if (const auto heaviest = heaviest_of(role, stash)) {
                most = damp * *heaviest;
                what = "a skein of this yarn";
            }
        if (skein != stash.end() && (skein->yarn.label.mass || skein->weighing)) {
            most = {};
            if (skein->yarn.label.mass) most = skein->yarn.label.mass->value;
            if (skein->weighing) most = std::max(most, skein->weighing->shown.value);
            what = base::shown_inert(skein->id) + " (" +
                   report::scale_text(most, 0.1 * units::gram) + ")";
            most = damp * most;
        }
        const units::Mass net = note.mass.value - (note.tare ? note.tare->value : units::Mass{});
        if (net > most)
            refuse_option(
                note.mass_option,
                base::quoted(note.mass.text) + " is more than " + what + " can weigh",
                "the weight of the skein you work from",
                "Weigh only that one, and give unopened ones with --more \"2 x 50 g\". If "
                "needles or a bag lie on the scale too, give their weight as --tare.");
    }
}

/// What a maker can do about readings that contradict those in the stash.
base::Problem with_remedy(base::Problem problem, const std::vector<Note>& kept) {
    std::vector<std::string> shown;
    shown.reserve(kept.size());
    for (const Note& note : kept) shown.push_back(report::reading_text(note));
    if (!problem.remedy.empty()) problem.remedy += " ";
    problem.remedy += "The stash has of this yarn: " + base::join(shown, ", ") +
                      ". After ripping back, or with a different yarn, add --afresh. To take back "
                      "a mistyped weighing: skeinfall stash undo.";
    return problem;
}

std::string role_of(const Values& values, const project::Project& project) {
    const auto wanted = values.one("yarn");
    if (!wanted || is_asked(values)) return project.roles.front().id;
    if (project.role(*wanted) != nullptr) return *wanted;
    std::vector<std::string> ids;
    for (const project::Role& role : project.roles) ids.push_back(role.id);
    refuse_option("yarn", "the project has no yarn \"" + base::shown_inert(*wanted) + "\"",
                  "one of " + base::join(ids, ", "), "");
}

/// What the stash knows of the work: the yarn's readings, and the rest of it.
struct Known {
    std::vector<Note> kept;  ///< of this yarn
    std::vector<stash::Skein> stash;
    plan::Record record;  ///< but for this yarn's readings
};

Known known_of(const Values& values, const World& world, const project::Project& project,
               const std::string& role, bool record) {
    Known out;
    const auto path = stash_path(values, world);
    std::error_code none;
    if (known_title(project, values).empty() || !std::filesystem::exists(path, none)) return out;
    const auto store = stash_to_read(values, world);
    out.record.readings = store.readings();
    out.stash =
        stash::as_found_by(stash::as_worked(store.skeins(), out.record.readings), {project.title});
    out.record.movements = store.movements();
    std::erase_if(out.record.readings, [&](const stash::WorkReading& one) {
        return base::same_word(one.project, project.title) && one.role == role;
    });
    if (!record || values.given("afresh")) return out;
    for (stash::WorkReading& reading : store.readings(project.title, role))
        out.kept.push_back({std::move(reading)});
    return out;
}

/// What is said of the readings that were kept.
void say_kept(const World& world, const std::vector<Note>& fresh, std::size_t kept) {
    *world.err << "kept "
               << report::counted(static_cast<std::int64_t>(fresh.size()), "reading", "readings")
               << " in the stash"
               << (kept == 0 ? std::string() : ", beside " + std::to_string(kept) + " from before")
               << "\n";
}

/// The yarn that is asked about: used, and of a known length per mass.
const need::RoleNeed& need_asked(const Values& values, const project::Project& project,
                                 const need::MakeNeed& make, const std::string& id) {
    const auto need = std::find_if(make.roles.begin(), make.roles.end(),
                                   [&](const need::RoleNeed& role) { return role.role == id; });
    if (need == make.roles.end())
        refuse_option("yarn", "yarn " + id + " takes nothing in this project",
                      "a yarn that is used", "");
    if (!need->grist && !values.given(positional))
        refuse_option("label", "the length per mass of yarn " + id + " is not known",
                      "what its label says", "Write --label \"200 m / 100 g\".");
    if (!need->grist)
        throw base::InputError(base::Problem{"the length per mass of yarn " + id + " is not known",
                                             {.file = project.file, .line = 0, .column = 0},
                                             "grist in [yarn." + id + "]",
                                             "Write grist = \"200 m / 100 g\" as its label says."});
    return *need;
}

int run_progress(const Values& values, const World& world) {
    if (asks_lasting(values)) return run_lasting(values, world);
    const std::string format = format_of(values, {"text", "json"});
    if (!values.given(positional) && !is_asked(values))
        throw base::InputError(base::Problem{"which work is it? No project file is named",
                                             {},
                                             "cowl.toml --row 12 --mass \"60 g\"",
                                             "Without a file: --taken \"12 g over 24 rows\" --mass "
                                             "\"20 g\" --to-come \"13 rows\"."});
    const project::Project project = project_of(values, world);
    joins::Request request;
    request.size = size_of(values, project);
    if (!values.given("size") && project.sizes.size() > 1) refuse_size_not_said(project);
    request.confidence = confidence_of(values);
    const need::MakeNeed make = need::need_of(project, request.size);
    const std::string id = role_of(values, project);
    const need::RoleNeed& need = need_asked(values, project, make, id);

    const joins::Rules plan_rules = joins::rules_of(project, *project.role(id), request);
    const joins::JoinPlan plan =
        joins::plan_joins(need, chain::course_steps(project, make, need), {}, plan_rules, &project);
    const joins::ProgressRules more = more_of(values);

    const std::string title = known_title(project, values);
    const bool record = !values.given("no-record") && !title.empty();
    if (title.empty() && !values.given("no-record"))
        *world.err << "note: this weighing is not kept, because the make has no name: add --title "
                      "\"Scarf\", or --save scarf.toml\n";
    const Known known = known_of(values, world, project, id, record);
    std::vector<Note> fresh = notes_of(values, known.kept);
    complete(fresh, values, world, title, id);
    check_skeins(fresh, known.kept, known.stash, *project.role(id), record, values.given("afresh"));
    std::erase_if(fresh, [&](const Note& note) {
        return std::any_of(known.kept.begin(), known.kept.end(),
                           [&](const Note& one) { return alike(note, one); });
    });
    plan::Asked asked;
    asked.role = id;
    asked.more = more.more;
    asked.more_skeins = more.more_skeins;
    asked.in_stash = !values.given("more") && (!is_asked(values) || !known.stash.empty());
    if (!asked.in_stash && !values.given("more"))
        *world.err << "note: only the skein on the scale counts; add others with --more\n";
    plan::RoleProgress found;
    bool places_known = false;  // else it is no matter of what is kept
    try {
        std::vector<Note> all = known.kept;
        all.insert(all.end(), fresh.begin(), fresh.end());
        for (const Note& note : all) {
            static_cast<void>(steps_done(project, plan.steps, note));
            asked.readings.push_back(note);
        }
        places_known = true;
        cover::Rules rules = rules_for(values, project, world);
        rules.done = plan::in_work(project, request.size, known.stash, known.record, rules).done;
        found = plan::progress_of(project, request.size, known.stash, known.record, rules, asked);
    } catch (const base::InputError& error) {
        if (known.kept.empty() || !places_known) throw;
        throw base::InputError(with_remedy(error.problems().front(), known.kept));
    }
    const bool keeps = record && !fresh.empty();
    // What the plan says of the skein is noted with the weighing: every other make goes by it.
    const bool guessed = found.hand == plan::Hand::by_plan || found.hand == plan::Hand::by_record;
    if (guessed)
        for (Note& note : fresh)
            if (note.skein.empty()) note.skein = found.in_hand;
    if (keeps) stash_to_change(values, world).note({fresh.begin(), fresh.end()}, world.today);
    const report::ProgressOf of{project,
                                found.plan,
                                request.confidence,
                                found.later,
                                guessed ? found.in_hand : "",
                                found.not_counted,
                                found.taken,
                                found.not_told,
                                "--skein",
                                keeps,
                                found.worked_before,
                                found.hand == plan::Hand::by_record};
    *world.out << (format == "json" ? report::progress_json(of, found.progress)
                                    : report::progress_text(of, found.progress));
    if (keeps) say_kept(world, fresh, known.kept.size());
    return found.progress.will_last(request.confidence) ? done : not_so;
}

}  // namespace

Command progress_command() {
    Command command;
    command.name = "progress";
    command.tells_rows = true;
    command.yes = "it will last";
    command.no = "it will not last, or that is undecided";
    command.arguments = "PROJECT.toml";
    command.summary = "half way through: weigh, and see whether the yarn will last";
    command.purpose =
        "Will the yarn last? Takes readings of the skein you work from, each after a\nrow. It "
        "says how many rows are sure, how many are likely, and where the\nnext join falls. It "
        "also says whether you use more than the plan. At first it\ngoes by the plan; the more you "
        "weigh, the more your own rate counts. Readings are kept in the stash and count again the "
        "next time;\n\"skeinfall stash undo\" takes the last ones back.\n\nWithout a project: "
        "--taken, --mass and --to-come say whether what is left\nlasts, in grams or ounces. "
        "Without "
        "--to-come it says how many more will fit;\nwithout --mass, what the rest takes. --done "
        "instead of --to-come goes by share,\n--strand by length; with --row-width nothing needs "
        "to be weighed.";
    command.options = {
        {"row", "NUMBER", "the row just finished", false},
        {"mass", "MASS", "what the scale shows now", false},
        {"piece", "NAME", "the piece that row is in, such as \"sleeve 2\" (default: the first)",
         false},
        {"reading", "TEXT",
         "an earlier one: \"row 20: 86.4 g\", \"row 5 of sleeve 2: 98 g of gw-02\"", true},
        {"skein", "ID", "the skein on the scale now, if it has changed", false},
        {"more", "MASS",
         "skeins not begun yet, instead of those in the stash: \"50 g\", \"2 x 100 g\", \"none\"",
         true},
        {"scale", "MASS", "smallest step the scale shows (default 1 g)", false},
        {"tare", "MASS", "needles, hook or bag on the scale with the yarn", false},
        {"yarn", "NAME", "which yarn of the project (default: the first)", false},
        {"afresh", "", "start afresh after ripping back: earlier weighings no longer count", false},
        {"no-record", "", "keep nothing, and take only the readings given here", false},
        {"note", "TEXT", "anything else, kept with the readings", false},
        date_option(),
        stash_option(),
        confidence_option(),
        size_option(),
        format_option("text (default) or json")};
    take_lasting(command);
    take_makes_without_skeins(command);
    command.examples = {
        {"skeinfall progress sample_stash/projects/tern-shawl.toml --row 60 --mass \"78 g\"",
         "one weighing, with the plan's rate"},
        {"skeinfall progress sample_stash/projects/tern-shawl.toml --reading \"row 0: 99.1 g\" "
         "--reading \"row 40: 90.2 g\" --row 60 --mass \"78.4 g\" --scale \"0.1 g\"",
         "three weighings on a letter scale"},
        {"skeinfall progress --taken \"12 g over 24 rows\" --mass \"20 g\" --to-come \"13 rows\"",
         "without any file"},
        {"skeinfall progress --taken \"8 g over 6 rows\" --mass \"50 g\"",
         "how many more will fit"},
        {"skeinfall progress --strand \"70 in\" --row-width \"50 cm\" --stitch hdc",
         "without a scale: does one more row fit?"}};
    command.keeps = true;
    command.run = run_progress;
    return command;
}

}  // namespace skeinfall::cli
