#include "skeinfall/store/recorder.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include <SQLiteCpp/Savepoint.h>
#include <sqlite3.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/stash/lines.hpp"
#include "skeinfall/stash/reserve.hpp"
#include "skeinfall/store/rows.hpp"

namespace skeinfall::store {
namespace {

constexpr const char* find_skein_sql =
    "SELECT number, EXISTS (SELECT 1 FROM movement WHERE skein = skein.number),"
    " EXISTS (SELECT 1 FROM standing WHERE skein = skein.number) FROM skein WHERE id = ?";
/// A place for each of the values.
std::string places(std::size_t count) {
    std::string out = "?";
    for (std::size_t i = 1; i < count; ++i) out += ", ?";
    return out;
}

/// As the index yarn_identity has it.
std::string find_yarn_sql() {
    std::string out;
    for (const StoredColumn& column : stored_columns(stash::Owner::yarn)) {
        out += out.empty() ? "SELECT number FROM yarn WHERE " : " AND ";
        const char* const unknown = column.holds == 'I' ? "-1" : column.holds == 'R' ? "0" : "''";
        out += column.holds == 't' ? column.name + " = ?"
                                   : "coalesce(" + column.name + ", " + unknown +
                                         ") = coalesce(?, " + unknown + ")";
    }
    return out;
}

std::string insert_yarn_sql() {
    return "INSERT INTO yarn (" + column_list(stash::Owner::yarn) + ") VALUES (" +
           places(stored_columns(stash::Owner::yarn).size()) + ")";
}

std::string insert_description_sql() {
    return "INSERT INTO description (movement, yarn, " + column_list(stash::Owner::skein) +
           ") VALUES (" + places(2 + stored_columns(stash::Owner::skein).size()) + ")";
}

constexpr const char* insert_movement_sql =
    "INSERT INTO movement (entry, skein, kind, day, amount_text, amount_g, amount_m, scale_text,"
    " scale_g, tare_text, tare_g, other, purpose, note, digest)"
    " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)";
constexpr const char* insert_reading_sql =
    "INSERT INTO reading (entry, project, role, piece, copy, after_row, skein, mass_text, mass_g,"
    " scale_text, scale_g, tare_text, tare_g, afresh, day, note, digest)"
    " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)";

/// Rules that people meet, in their words; the others are told by their names. "@" stands for what
/// is set aside of the skein.
struct Meaning {
    std::string_view rule;
    const char* what;
    const char* expected;
    const char* remedy;
};
constexpr auto meanings = std::to_array<Meaning>({
    {"movement_takes_no_more_than_is_left", "there is less than that left", "at most what is left",
     "If all of it was used, leave the amount out. If it holds more than recorded, weigh it."},
    {"movement_takes_from_what_is_held", "nothing is left of the skein",
     "a skein that has yarn left",
     "\"skeinfall stash history ID\" shows where it went; \"skeinfall stash undo\" takes the last "
     "entry back."},
    {"movement_ripped_back_after_use", "nothing of this skein is recorded as used",
     "a skein of which some was used", "Weigh the skein instead."},
    {"movement_takes_nothing_kept_for_another", "it is set aside: @",
     "a skein that is free, or use in the project it is kept for",
     "Name that project, or release it first with \"skeinfall stash release ID\"."},
    {"movement_leaves_what_is_set_aside", "less would be left than is set aside of it: @",
     "enough left for that",
     "Release it first with \"skeinfall stash release ID\", then set aside anew."},
    {"description_leaves_what_is_set_aside",
     "by that description it holds less than is set aside of it: @", "enough for that",
     "Release it first with \"skeinfall stash release ID\", then set aside anew."},
    {"movement_sets_aside_once_a_project", "some of it is set aside for that project already: @",
     "a skein that is not set aside for it",
     "Release it first with \"skeinfall stash release ID\"."},
    {"movement_sets_aside_no_more_than_is_held",
     "more would be set aside than is known to be left of it@",
     "at most what is left and not set aside",
     "Weigh it when it holds more, set less aside, or release with \"skeinfall stash release "
     "ID\"."},
    {"movement_sets_aside_what_is_held", "nothing is left of the skein",
     "a skein that has yarn left", "\"skeinfall stash history ID\" shows where it went."},
    {"movement_sets_aside_for_a_project", "no project is named", "the project's title", ""},
    {"movement_releases_what_is_set_aside", "nothing of it is set aside for that project",
     "a skein that is set aside for it", "\"skeinfall stash list\" shows what is set aside."},
});

/// The number in an id as new_id() gives them: "s12", not "s012".
std::optional<std::int64_t> number_in(std::string_view id) {
    if (id.size() < 2 || id[0] != 's' || id[1] < '1' || id[1] > '9') return std::nullopt;
    return base::number_of<std::int64_t>(id.substr(1));
}

}  // namespace

Recorder::Recorder(SQLite::Database& database, base::Day entered)
    : database_(database),
      entered_(entered),
      find_skein_(database, find_skein_sql),
      insert_skein_(database, "INSERT INTO skein (id) VALUES (?)"),
      find_class_(database, "SELECT 1 FROM weight_class WHERE number = ?"),
      find_yarn_(database, find_yarn_sql()),
      insert_yarn_(database, insert_yarn_sql()),
      insert_movement_(database, insert_movement_sql),
      insert_description_(database, insert_description_sql()) {
    SQLite::Statement last(database, "SELECT seq FROM sqlite_sequence WHERE name = 'skein'");
    if (last.executeStep()) next_ = last.getColumn(0).getInt64() + 1;
}

void Recorder::reserve(std::string_view id) {
    const auto number = number_in(id);
    if (!number) return;
    reserved_.push_back(*number);
    reserved_sorted_ = false;
}

std::string Recorder::new_id() {
    if (!std::exchange(reserved_sorted_, true)) std::sort(reserved_.begin(), reserved_.end());
    while (true) {
        const std::int64_t number = next_++;
        if (std::binary_search(reserved_.begin(), reserved_.end(), number)) continue;
        std::string id = "s" + std::to_string(number);
        if (!look_up(id)) return id;
    }
}

std::optional<Recorder::Known> Recorder::look_up(const std::string& id) {
    Values(find_skein_).add(id);
    if (!find_skein_.executeStep()) return std::nullopt;
    return Known{find_skein_.getColumn(0).getInt64(), find_skein_.getColumn(1).getInt() != 0,
                 find_skein_.getColumn(2).getInt() != 0};
}

std::int64_t Recorder::make_skein(const std::string& id) {
    Values(insert_skein_).add(id);
    insert_skein_.exec();
    const std::int64_t number = database_.getLastInsertRowid();
    next_ = std::max(next_, number + 1);
    return number;
}

std::int64_t Recorder::number_of_other(const Line& line) {
    const std::string& id = line.movement.other;
    const auto known = look_up(id);
    if (!known || !known->standing) awaited_.emplace(id, line);
    return known ? known->number : make_skein(id);
}

/// The number of the line's skein, made when it begins here; nothing after a problem.
std::optional<std::int64_t> Recorder::skein_of(const Line& line, std::string& id) {
    if (!begins(line.movement.kind)) {
        const auto known = look_up(id);
        if (known && known->standing) return known->number;
        std::vector<std::string> ids;
        SQLite::Statement all(database_,
                              "SELECT id FROM skein JOIN standing_skein"
                              " ON standing_skein.skein = skein.number");
        while (all.executeStep()) ids.push_back(all.getColumn(0).getString());
        const auto near = base::nearest_name(id, ids);
        report(line, "no skein \"" + base::shown_inert(id) + "\" in this stash",
               "the id of a skein",
               base::did_you_mean(near, "\"skeinfall stash list\" shows them."));
        return std::nullopt;
    }
    if (id.empty()) {
        id = new_id();
        return make_skein(id);
    }
    const auto known = look_up(id);
    if (!known) return make_skein(id);
    // A skein that was undone may come again.
    if (!known->standing && (known->told_of || awaited_.contains(id))) {
        awaited_.erase(id);
        return known->number;
    }
    report(line, "the id \"" + base::shown_inert(id) + "\" was used before",
           "an id that no skein of this stash ever had",
           "Choose another, or leave the id empty and the stash gives one.");
    return std::nullopt;
}

std::string Recorder::record(const Line& line) {
    if (std::string fault = fault_of(line.movement); !fault.empty()) {
        report(line, std::move(fault), "a skein that the stash can hold",
               "Correct it, then enter it again.");
        return {};
    }
    if (line.movement.described && !class_known(line.movement.described->yarn)) {
        report(line,
               "there is no weight class " +
                   std::to_string(line.movement.described->yarn.weight->number),
               "a class of the Craft Yarn Council", "Correct it, then enter it again.");
        return {};
    }
    std::string id = line.movement.skein;
    // What every line needs is made before the first point to go back to.
    if (apart_) static_cast<void>(entry());
    std::optional<SQLite::Savepoint> alone;
    if (apart_) alone.emplace(database_, "line");
    try {
        const auto skein = skein_of(line, id);
        if (!skein) return {};
        insert(line, id, *skein);
        if (alone) alone->release();
        return id;
    } catch (const SQLite::Exception& error) {
        if (error.getErrorCode() != SQLITE_CONSTRAINT) throw;
        met_yarns_.clear();  // one that was made for this line goes with it
        report_broken_rule(line, error);
        return {};
    }
}

bool Recorder::class_known(const yarn::Yarn& yarn) {
    if (!yarn.weight) return true;
    Values(find_class_).add(std::int64_t{yarn.weight->number});
    return find_class_.executeStep();
}

std::int64_t Recorder::entry() {
    if (entry_ == 0) {
        SQLite::Statement insert(database_, "INSERT INTO entry (day) VALUES (?)");
        insert.bind(1, base::to_text(entered_));
        insert.exec();
        entry_ = database_.getLastInsertRowid();
    }
    return entry_;
}

const Recorder::MetYarn& Recorder::yarn_of(const stash::Skein& of) {
    std::string key = stash::packed(of, stash::Owner::yarn);
    if (const auto met = met_yarns_.find(key); met != met_yarns_.end()) return met->second;
    MetYarn yarn;
    if (of.yarn.fibre.known()) yarn.fibre = json_of(of.yarn.fibre);
    Values(find_yarn_).add(stash::Owner::yarn, of);
    if (find_yarn_.executeStep()) {
        yarn.number = find_yarn_.getColumn(0).getInt64();
    } else {
        Values(insert_yarn_).add(stash::Owner::yarn, of);
        insert_yarn_.exec();
        yarn.number = database_.getLastInsertRowid();
    }
    return met_yarns_.emplace(std::move(key), std::move(yarn)).first->second;
}

void Recorder::insert(const Line& line, const std::string& id, std::int64_t skein) {
    const stash::Movement& movement = line.movement;
    // Before the movement, so that its broken rules are told first.
    const MetYarn* const yarn = movement.described ? &yarn_of(*movement.described) : nullptr;
    const std::int64_t entry_number = entry();
    Values values(insert_movement_);
    values.add(entry_number)
        .add(skein)
        .add(std::string(word(movement.kind)))
        .add_known(movement.day)
        .add_known(movement.amount)
        .add_known(movement.scale, units::gram)
        .add_known(movement.tare, units::gram);
    movement.other.empty() ? values.add_unknown() : values.add(number_of_other(line));
    values.add(movement.purpose).add(movement.note);
    values.add(digest_of(movement, id, entered_, yarn == nullptr ? nullptr : &yarn->fibre));
    insert_movement_.exec();
    if (movement.kind == stash::MovementKind::set_aside) {
        if (!insert_promise_)
            insert_promise_.emplace(database_,
                                    "INSERT INTO promise (movement, role) VALUES (?, ?)");
        Values(*insert_promise_).add(database_.getLastInsertRowid()).add(movement.role);
        insert_promise_->exec();
    }
    if (!movement.described) return;
    Values(insert_description_)
        .add(database_.getLastInsertRowid())
        .add(yarn->number)
        .add(stash::Owner::skein, *movement.described);
    insert_description_.exec();
}

/// "CHECK constraint failed: description_knots_at_least_zero" in words.
void Recorder::report_broken_rule(const Line& line, const SQLite::Exception& error) {
    std::string rule = error.what();
    rule.erase(0, rule.rfind(": ") + 2);
    const auto* const known =
        std::find_if(meanings.begin(), meanings.end(),
                     [&](const Meaning& meaning) { return meaning.rule == rule; });
    if (known != meanings.end()) {
        std::string what = known->what;
        if (what.ends_with('@')) {
            what.pop_back();
            const std::string promises = set_aside_of(line.movement.skein);
            if (!what.ends_with(' ') && !promises.empty()) what += "; set aside: ";
            what += promises;
        }
        std::string remedy = known->remedy;
        if (const std::size_t at = remedy.find(" ID\""); at != std::string::npos)
            remedy.replace(at + 1, 2, base::shown_inert(line.movement.skein));
        report(line, std::move(what), known->expected, std::move(remedy));
        return;
    }
    std::replace(rule.begin(), rule.end(), '_', ' ');
    report(line, "it breaks the rule \"" + rule + "\"", "a skein that the stash can hold",
           "Correct it, then enter it again.");
}

/// "60 m for Lantern cowl (MC), all for Hat"
std::string Recorder::set_aside_of(const std::string& id) {
    SQLite::Statement rows(database_,
                           "SELECT project, role, amount_text FROM set_aside"
                           " WHERE skein = (SELECT number FROM skein WHERE id = ?)"
                           " ORDER BY number");
    rows.bind(1, id);
    std::vector<std::string> out;
    while (rows.executeStep()) {
        stash::Promise promise;
        promise.project = rows.getColumn(0).getString();
        promise.role = rows.getColumn(1).getString();
        if (!rows.isColumnNull(2))
            promise.amount =
                units::Printed<units::Mass>{rows.getColumn(2).getString(), units::Mass{}};
        out.push_back(base::shown_inert(stash::promise_text(promise)));
    }
    return base::join(out, ", ");
}

void Recorder::record(const stash::WorkReading& reading) {
    const Line line;
    if (std::string fault = fault_of(reading); !fault.empty()) {
        report(line, std::move(fault), "a reading that the stash can hold", "Type it anew.");
        return;
    }
    SQLite::Statement insert(database_, insert_reading_sql);
    Values(insert)
        .add(entry())
        .add(reading.project)
        .add(reading.role)
        .add(reading.piece)
        .add(std::int64_t{reading.copy})
        .add(std::int64_t{reading.row})
        .add(reading.skein)
        .add(reading.mass, units::gram)
        .add(reading.scale, units::gram)
        .add_known(reading.tare, units::gram)
        .add(std::int64_t{reading.afresh ? 1 : 0})
        .add(base::to_text(reading.day))
        .add(reading.note)
        .add(digest_of(reading, entered_));
    try {
        insert.exec();
    } catch (const SQLite::Exception& error) {
        if (error.getErrorCode() != SQLITE_CONSTRAINT) throw;
        report_broken_rule(line, error);
    }
}

void Recorder::report(const Line& line, std::string what, std::string expected,
                      std::string remedy) {
    if (!line.name.empty()) what = base::shown_inert(line.name) + ": " + what;
    problems_.push_back({std::move(what), line.place, std::move(expected), std::move(remedy)});
}

void Recorder::throw_if_any() {
    // A line that failed may have been the one that was awaited.
    if (problems_.empty())
        for (const auto& [id, line] : awaited_)
            report(line, "no skein \"" + base::shown_inert(id) + "\" at the other end",
                   "a skein that begins with the yarn wound off", "Enter both ends together.");
    if (!problems_.empty()) throw base::InputError(problems_);
}

}  // namespace skeinfall::store
