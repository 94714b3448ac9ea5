#include <cstdint>
#include <filesystem>
#include <ostream>
#include <system_error>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/own_sheet.hpp"
#include "skeinfall/exchange/stash_csv.hpp"
#include "skeinfall/exchange/stash_json.hpp"
#include "skeinfall/exchange/text_file.hpp"
#include "skeinfall/report/rescue_text.hpp"
#include "skeinfall/report/words.hpp"
#include "skeinfall/store/care.hpp"

#include "busy.hpp"
#include "commands.hpp"
#include "exit_code.hpp"
#include "odd_figures.hpp"
#include "options.hpp"
#include "stash_options.hpp"

namespace skeinfall::cli {
namespace {

std::string skeins_text(std::size_t count) {
    return report::counted(static_cast<std::int64_t>(count), "skein", "skeins");
}

/// By the end of its name; anything but .json is taken for CSV.
exchange::StashTable table_in(const std::string& file,
                              const std::vector<exchange::ColumnMeaning>& columns = {}) {
    const bool json = base::lower(std::filesystem::path(file).extension().string()) == ".json";
    return json ? exchange::read_stash_json(file) : exchange::read_own_sheet(file, columns);
}

/// What a heading means is said by an option here.
base::Problems naming_column_option(base::Problems problems) {
    for (base::Problem& problem : problems)
        for (const std::string_view says :
             {"Say what it is: ", "Say what one of them is: ", "Say which it is: "})
            if (problem.remedy.starts_with(says)) problem.remedy.insert(says.size(), "--column ");
    return problems;
}

exchange::StashTable sheet_in(const std::string& file,
                              const std::vector<exchange::ColumnMeaning>& columns,
                              const World& world) {
    try {
        exchange::StashTable table = table_in(file, columns);
        base::Problems problems;
        for (const stash::Line& line : table.lines) {
            const stash::Movement& movement = line.movement;
            if (movement.day && is_to_come(*movement.day, world))
                problems.push_back({base::to_text(*movement.day) + " is still to come", line.place,
                                    "today, " + base::to_text(world.today) + ", or a day before it",
                                    ""});
            if (!movement.described) continue;
            auto problem = impossible_label(movement.described->yarn.label);
            if (!problem) continue;
            problem->place = line.place;
            // One line may hold many skeins.
            if (problems.empty() || problems.back().what != problem->what)
                problems.push_back(*std::move(problem));
        }
        if (!problems.empty()) throw base::InputError(std::move(problems));
        if (table.lines.empty() && table.readings.empty())
            throw base::InputError(base::Problem{"there is no skein in it",
                                                 {.file = file, .line = 0, .column = 0},
                                                 "a line for each skein below the headings",
                                                 ""});
        return table;
    } catch (const base::InputError& error) {
        throw base::InputError(naming_column_option(error.problems()));
    }
}

/// Prints all that is given; CSV has no place for readings and says so.
void write(const std::vector<stash::Movement>& movements,
           const std::vector<stash::WorkReading>& readings, const std::string& format,
           const World& world) {
    if (format == "json") {
        *world.out << exchange::stash_json(movements, readings);
        return;
    }
    *world.out << exchange::stash_csv(movements);
    if (!readings.empty())
        *world.err << "note: "
                   << report::counted(static_cast<std::int64_t>(readings.size()), "reading",
                                      "readings")
                   << " of work in progress left out; --format json has them too\n";
}

std::string ids_text(const std::vector<std::string>& ids) {
    constexpr std::size_t most = 8;
    std::vector<std::string> shown;
    for (const std::string& id : ids)
        if (shown.size() < most) shown.push_back(base::shown_inert(id));
    if (ids.size() > most) shown.push_back(std::to_string(ids.size() - most) + " more");
    return base::join(shown, ", ");
}

/// A sheet that comes again, or names skeins of the stash.
void tell_what_was_known(const store::TakenIn& taken, bool only_try, const World& world) {
    std::ostream& out = *world.out;
    if (!taken.seen.empty())
        out << skeins_text(taken.seen.size())
            << (taken.seen.size() == 1 ? " was imported before and is not added again"
                                       : " were imported before and are not added again")
            << " (--as-new adds them as new skeins)\n";
    if (!taken.corrected.empty())
        out << (only_try ? "would correct " : "corrected ") << ids_text(taken.corrected)
            << ", as \"skeinfall stash history\" shows\n";
    for (std::size_t at = 0; at < taken.reworded.size();) {
        const store::TakenIn::Reworded& row = taken.reworded[at];
        std::vector<std::string> ids;  // one line may hold many skeins
        for (; at < taken.reworded.size() && taken.reworded[at].differs == row.differs &&
               taken.reworded[at].place.line == row.place.line;
             ++at)
            ids.push_back(taken.reworded[at].id);
        const bool of_amount = row.differs == "the state" || row.differs == "the weighing";
        out << "line " << row.place.line << " is like " << ids_text(ids) << " but for "
            << row.differs << ", and adds nothing: "
            << (of_amount
                    ? "\"skeinfall stash weigh\" records what is left, --as-new adds it as new "
                      "skeins\n"
                    : "write that id in its row to correct the skein, or --as-new\n");
    }
    if (!taken.reweighed.empty())
        out << "the sheet has a different weighing; the stash keeps its own: "
            << ids_text(taken.reweighed) << " (\"skeinfall stash weigh\" records one)\n";
    if (!taken.gone.empty())
        out << "no longer in the sheet, kept in the stash: " << ids_text(taken.gone)
            << " (\"skeinfall stash give\" and \"stash use\" take out what is gone)\n";
    if (!taken.gone.empty() && !taken.added.empty())
        out << "If a row was only changed, its skein is in the stash twice now: \"skeinfall stash "
               "undo\", write the old id into that row, and import again.\n";
}

store::TakeIn progress_of(const World& world, std::size_t lines) {
    store::TakeIn how;
    how.entered = world.today;
    if (world.busy == nullptr) return how;
    how.progress = [&world, lines](std::size_t done_so_far) {
        world.busy->say(std::to_string(done_so_far) + " of " + std::to_string(lines) + " rows");
    };
    return how;
}

/// In the notes, so that it goes wherever the rows go.
void mark_doubtful(store::Rescued& rescued) {
    const auto mark = [](std::string& note) {
        note = note.empty() ? "doubtful: not as it was entered"
                            : "doubtful, not as it was entered: " + note;
    };
    for (std::size_t i = 0; i < rescued.movements.size(); ++i) {
        if (!rescued.doubtful_movements[i]) continue;
        stash::Movement& movement = rescued.movements[i];
        mark(movement.described ? movement.described->note : movement.note);
    }
    for (std::size_t i = 0; i < rescued.readings.size(); ++i)
        if (rescued.doubtful_readings[i]) mark(rescued.readings[i].note);
}

/// Where that may be written; a small one is checked whenever it is opened.
void note_large_was_checked(const std::filesystem::path& path, const World& world) {
    std::error_code trouble;
    const auto size = std::filesystem::file_size(path, trouble);
    if (trouble || size <= store::Store::checked_when_opened) return;
    try {
        store::note_whole_check(path, world.today);
    } catch (const base::StoreError&) {
        // A copy on a disk that may not be written is sound all the same.
        return;
    }
}

void put_into(const std::string& file, const store::Rescued& rescued, const World& world) {
    if (std::error_code none; std::filesystem::exists(file, none))
        refuse_option("into", base::quoted(file) + " exists already", "the name of a new file", "");
    const stash::Lines lines(rescued.movements);
    store::TakeIn how = progress_of(world, lines.size());
    how.leave_out_faulty = true;
    auto store = store::Store::open(file, store::Access::write);
    const auto taken = store.take_in(lines, how, rescued.readings);
    *world.out << "added " << skeins_text(taken.added.size()) << " to " << base::shown_inert(file)
               << "\n";
    for (const base::Problem& problem : taken.left_out)
        *world.err << "left out: " << to_text(problem) << "\n";
}

/// What headings mean is kept, so that the next sheet of this maker needs no options.
void remember(const std::vector<std::string>& said, const World& world) {
    const auto path = exchange::settings_path(world.xdg_config_home, world.home);
    if (said.empty() || !path) return;
    std::error_code none;
    std::string text = std::filesystem::exists(*path, none) ? exchange::read_text_file(*path) : "";
    for (const std::string& one : said) {
        const auto meaning = exchange::parse_column_meaning(one);
        text = exchange::with_setting(
            text, exchange::column_key(meaning->heading),
            meaning->field + (meaning->unit.empty() ? "" : " in " + meaning->unit));
    }
    exchange::write_settings(*path, text);
    *world.err << "note: what these headings mean is remembered; \"skeinfall settings show\" lists "
                  "it\n";
}

}  // namespace

Command stash_import_command() {
    Command command;
    command.name = "stash import";
    command.no.clear();
    command.arguments = "FILE";
    command.summary = "load skeins from a table";
    command.purpose =
        "Reads a CSV table or, named *.json, a JSON file, and takes in all of it, or nothing when\n"
        "anything in it is wrong. A row is a skein; columns in any order: id, yarn, colourway, "
        "dye\n"
        "lot, shade group, class, fibre, label length, label mass, colour repeat, state (whole or\n"
        "part), weighed, scale, tare, knots, note, date. Only yarn is required. A sheet with\n"
        "headings of its own is matched by its words and shown: \"Total yards\" and \"Grams "
        "left\"\n"
        "are of all skeins of the row, \"Put-up\" is 50 g / 120 m in one cell. Use --column for\n"
        "headings it does not understand. A sheet may come again: rows that were imported before "
        "add nothing, "
        "rows "
        "that\n"
        "are new are added, and what is gone from the sheet stays in the stash. A row with the id\n"
        "of a skein corrects how it is described; what was used and weighed stays as it is.";
    command.options = {
        {"dry-run", "", "only show what would happen", false},
        {"as-new", "", "rows without an id are new skeins, seen before or not", false},
        {"column", "HEADING=FIELD",
         "what a heading of your own sheet means: \"Ball grams=label mass in g\", "
         "\"Shelf=note\", \"Price=nothing\"",
         true},
        stash_option()};
    command.examples = {
        {"skeinfall stash import sample_stash/stash.csv", "load the sample"},
        {"skeinfall stash import mine.csv --dry-run", "see whether a table would do"}};
    command.keeps = true;
    command.run = [](const Values& values, const World& world) -> int {
        const std::string file = argument(values, 0, "no file is named",
                                          "Name a CSV table: skeinfall stash import stash.csv");
        std::vector<exchange::ColumnMeaning> columns;
        for (const std::string& text : values.all("column"))
            columns.push_back(read_option("column", text, exchange::parse_column_meaning));
        const std::vector<std::string> said = values.all("column");
        columns.insert(columns.end(), values.settings().columns.begin(),
                       values.settings().columns.end());
        exchange::StashTable table = sheet_in(file, columns, world);
        if (!table.days_stated) table.lines.all_on(world.today);
        store::TakeIn how = progress_of(world, table.lines.size());
        how.days_stated = table.days_stated;
        how.only_try = values.given("dry-run");
        how.as_new = values.given("as-new");
        const auto path = stash_path(values, world);
        if (std::error_code none; how.only_try && !std::filesystem::exists(path, none)) {
            std::size_t begun = 0;
            for_each_skein(table, [&](const stash::Skein&) { ++begun; });
            *world.out << "would begin a stash with " << skeins_text(begun) << " in "
                       << path.string() << "\n";
        } else {
            const bool begins = begins_second_stash(values, world);
            const auto taken =
                stash_to_change(values, world).take_in(table.lines, how, table.readings);
            if (begins) note_new_stash(values, world);
            *world.out << (how.only_try ? "would add " : "added ")
                       << skeins_text(taken.added.size()) << " to " << path.string() << "\n";
            if (taken.readings > 0)
                *world.out << (how.only_try ? "would add " : "added ")
                           << report::counted(static_cast<std::int64_t>(taken.readings), "reading",
                                              "readings")
                           << " of work in progress\n";
            tell_what_was_known(taken, how.only_try, world);
            if (!taken.left_alone.empty())
                *world.out << skeins_text(taken.left_alone.size())
                           << (taken.left_alone.size() == 1 ? " was" : " were")
                           << " already there, unchanged\n";
        }
        for (const std::string& line : table.understood) *world.out << "  " << line << "\n";
        if (!how.only_try) remember(said, world);
        OddFigures odd(*world.err);
        for_each_skein(table, [&](const stash::Skein& skein) { odd.look_at(skein); });
        odd.say_how_many_more();
        return done;
    };
    return command;
}

Command stash_export_command() {
    Command command;
    command.name = "stash export";
    command.no.clear();
    command.summary = "the whole stash as a table";
    command.purpose =
        "Prints every skein and what happened to it, as CSV or JSON that \"stash import\" reads\n"
        "again without loss. A cell that a spreadsheet would run as a formula has \"'\" before "
        "it.\n"
        "What was undone is left out.";
    command.options = {format_option("csv (default) or json"), stash_option()};
    command.examples = {
        {"skeinfall stash export > stash.csv", "for a spreadsheet"},
        {"skeinfall stash export --format json > stash.json", "for another program"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string format = format_of(values, {"csv", "json"});
        const auto store = stash_to_read(values, world);
        write(store.movements(), store.readings(), format, world);
        return done;
    };
    return command;
}

Command stash_backup_command() {
    Command command;
    command.name = "stash backup";
    command.no.clear();
    command.arguments = "FILE";
    command.summary = "copy the stash to a new file";
    command.purpose = "Makes a copy and checks it.";
    command.options = {stash_option()};
    command.examples = {{"skeinfall stash backup stash-may.skeinfall", "a copy beside the work"},
                        {"skeinfall stash backup stash-may.skeinfall --stash old.skeinfall",
                         "of another stash file"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string to = argument(values, 0, "where should the copy go? No file is named",
                                        "Write: skeinfall stash backup stash-may.skeinfall");
        store::back_up(stash_path(values, world), to);
        *world.out << "copied and checked: " << base::shown_inert(to) << "\n";
        return done;
    };
    return command;
}

Command stash_verify_command() {
    Command command;
    command.name = "stash verify";
    command.yes = "sound";
    command.no.clear();
    command.summary = "check the whole stash file";
    command.purpose =
        "Checks the whole stash file. Nothing in it changes, except that a large stash remembers\n"
        "the day; after a month without a check you are reminded.";
    command.options = {stash_option()};
    command.examples = {{"skeinfall stash verify", "the usual stash"},
                        {"skeinfall stash verify --stash stash-may.skeinfall", "a copy"}};
    command.run = [](const Values& values, const World& world) -> int {
        const auto path = stash_path(values, world);
        const auto findings = store::verify(path);
        for (const store::Finding& finding : findings)
            *world.out << finding.where << ": " << finding.what << "\n";
        if (findings.empty()) {
            note_large_was_checked(path, world);
            *world.out << "sound: " << base::shown_inert(path.string()) << "\n";
            return done;
        }
        *world.err << "Nothing was changed. \"skeinfall stash restore COPY\" brings a copy back; "
                      "\"skeinfall stash rescue\" prints what can be read.\n";
        return store_fault;
    };
    return command;
}

Command stash_restore_command() {
    Command command;
    command.name = "stash restore";
    command.no.clear();
    command.arguments = "FILE";
    command.summary = "bring the stash back from a copy";
    command.purpose =
        "The copy is checked first and stays where it is. What the stash held is kept in a file\n"
        "beside it.";
    command.options = {stash_option()};
    command.examples = {
        {"skeinfall stash restore stash-may.skeinfall", "the usual stash"},
        {"skeinfall stash restore stash-may.skeinfall --stash new.skeinfall", "as a new file"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string from = argument(values, 0, "which copy? No file is named",
                                          "Write: skeinfall stash restore stash-may.skeinfall");
        const auto path = stash_path(values, world);
        const auto kept = store::restore(from, path);
        *world.out << base::shown_inert(path.string()) << " is now as " << base::shown_inert(from)
                   << "\n";
        if (kept)
            *world.out << "what it held is kept in " << base::shown_inert(kept->string()) << "\n";
        return done;
    };
    return command;
}

Command stash_rescue_command() {
    Command command;
    command.name = "stash rescue";
    command.yes = "everything could be read, as it was entered";
    command.no = "something is lost or doubtful";
    command.summary = "save what can be read of a damaged stash";
    command.purpose =
        "Prints what \"stash export\" would, as far as it can still be read, or puts it into a\n"
        "new stash. Every row is checked; one that is not as it was entered is marked\n"
        "\"doubtful\" in its note. The damaged file is not changed.";
    command.options = {{"into", "FILE", "make a new stash of it instead of printing", false},
                       format_option("csv (default) or json"),
                       stash_option()};
    command.examples = {
        {"skeinfall stash rescue > saved.csv", "look at it first"},
        {"skeinfall stash rescue --into saved.skeinfall", "a new stash of all that can be saved"}};
    command.run = [](const Values& values, const World& world) -> int {
        const std::string format = format_of(values, {"csv", "json"});
        auto rescued = store::rescue(stash_path(values, world));
        mark_doubtful(rescued);
        if (const auto into = values.one("into"))
            put_into(*into, rescued, world);
        else
            write(rescued.movements, rescued.readings, format, world);
        *world.err << report::rescue_text("movement", rescued.of_movements);
        if (rescued.of_readings.entered > 0)
            *world.err << report::rescue_text("reading", rescued.of_readings);
        if (rescued.of_movements.doubtful + rescued.of_readings.doubtful > 0)
            *world.err << "Weigh the skeins whose note says \"doubtful\", and compare them with "
                          "their labels.\n";
        return rescued.complete() ? done : not_so;
    };
    return command;
}

Command stash_upgrade_command() {
    Command command;
    command.name = "stash upgrade";
    command.no.clear();
    command.summary = "bring a stash of an older version up to date";
    command.purpose =
        "Checks the file, keeps a copy beside it and changes its layout to the one this version\n"
        "uses. Every command that changes the stash does the same first.";
    command.options = {stash_option()};
    command.examples = {{"skeinfall stash upgrade", "the usual stash"},
                        {"skeinfall stash upgrade --stash old.skeinfall", "an old copy"}};
    command.run = [](const Values& values, const World& world) -> int {
        const auto path = stash_path(values, world);
        if (std::error_code none; !std::filesystem::exists(path, none))
            static_cast<void>(store::Store::open(path, store::Access::read));
        const auto store = stash_to_change(values, world);
        *world.out << base::shown_inert(path.string()) << " is up to date\n";
        return done;
    };
    return command;
}

}  // namespace skeinfall::cli
