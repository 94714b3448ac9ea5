#include "skeinfall/store/store.hpp"

#include <algorithm>
#include <cstdint>
#include <map>
#include <utility>

#include <SQLiteCpp/SQLiteCpp.h>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/base/version.hpp"
#include "skeinfall/stash/in_work.hpp"
#include "skeinfall/store/checked.hpp"
#include "skeinfall/store/connection.hpp"
#include "skeinfall/store/intake.hpp"
#include "skeinfall/store/recorder.hpp"
#include "skeinfall/store/rows.hpp"

namespace skeinfall::store {
namespace {

using stash::Movement;
using stash::MovementKind;

constexpr const char* select_ids_sql = "SELECT id FROM holding ORDER BY arrival";

/// "skein 2 of 5 (Brook)"
std::string name_of(std::size_t index, std::size_t count, const stash::Skein& skein) {
    std::string out = "skein " + std::to_string(index + 1) + " of " + std::to_string(count);
    if (!skein.yarn.name.empty()) out += " (" + skein.yarn.name + ")";
    return out;
}

/// Description alone.
stash::Skein described(stash::Skein skein) {
    skein.id.clear();
    skein.weighing.reset();
    skein.since.reset();
    skein.set_aside.clear();
    return skein;
}

/// Promises come to few skeins; they are read by themselves, by the index that holds them alone:
/// "+" keeps SQLite from going through all movements in their order instead. `only` is the number
/// of the one skein there is.
void add_promises(const Connection& connection, std::vector<stash::Skein>& skeins,
                  std::optional<std::int64_t> only = std::nullopt) {
    SQLite::Statement rows(connection.database(),
                           std::string(select_promises_sql) +
                               (only ? " WHERE set_aside.skein = ? ORDER BY +set_aside.number"
                                     : " ORDER BY +set_aside.number"));
    if (only) rows.bind(1, *only);
    std::map<std::string, std::vector<stash::Promise>> of_skein;
    while (rows.executeStep()) {
        Promised row = promised(Cells(rows, connection));
        of_skein[row.skein].push_back(std::move(row.promise));
    }
    if (of_skein.empty()) return;
    for (stash::Skein& skein : skeins)
        if (const auto found = of_skein.find(skein.id); found != of_skein.end())
            skein.set_aside = std::move(found->second);
}

}  // namespace

Store::Store(std::unique_ptr<Connection> connection) : connection_(std::move(connection)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

Store Store::open(const std::filesystem::path& path, Access access, Waiting waiting) {
    return Store(std::make_unique<Connection>(path, access, Checks::usual, std::move(waiting)));
}

std::optional<KeptEntry> last_kept() {
    return Connection::last_kept();
}

void note_unanswered(const KeptEntry& entry, const std::string& command, base::Day day) {
    Connection(entry.stash, Access::write).change([&](SQLite::Database& database) {
        SQLite::Statement note(database,
                               "INSERT INTO unanswered (entry, day, command) VALUES (?, ?, ?)");
        Values(note).add(entry.number).add(base::to_text(day)).add(command);
        return note.exec();
    });
}

void note_whole_check(const std::filesystem::path& stash, base::Day day) {
    Connection(stash, Access::write).change([&](SQLite::Database& database) {
        SQLite::Statement note(database,
                               "REPLACE INTO whole_check (number, day, version) VALUES (1, ?, ?)");
        Values(note).add(base::to_text(day)).add(std::string(base::version()));
        return note.exec();
    });
}

const std::optional<Upgrade>& Store::upgrade() const {
    return connection_->upgrade();
}

std::vector<std::string> Store::add(const std::vector<stash::Skein>& skeins, base::Day day) {
    return connection_->change([&](SQLite::Database& database) {
        Recorder recorder(database, day);
        for (const stash::Skein& skein : skeins)
            if (!skein.id.empty()) recorder.reserve(skein.id);
        std::vector<std::string> ids;
        ids.reserve(skeins.size());
        for (std::size_t i = 0; i < skeins.size(); ++i) {
            Line line;
            line.name = name_of(i, skeins.size(), skeins[i]);
            line.movement.skein = skeins[i].id;
            line.movement.day = day;
            line.movement.described = described(skeins[i]);
            ids.push_back(recorder.record(line));
            if (ids.back().empty() || !skeins[i].weighing) continue;
            line.movement = {MovementKind::weighed,
                             ids.back(),
                             day,
                             skeins[i].weighing->shown,
                             skeins[i].weighing->scale,
                             skeins[i].weighing->tare,
                             {},
                             {},
                             {},
                             {},
                             {}};
            recorder.record(line);
        }
        recorder.throw_if_any();
        return ids;
    });
}

std::vector<std::string> Store::record(const std::vector<Movement>& movements, base::Day entered) {
    return connection_->change([&](SQLite::Database& database) {
        Recorder recorder(database, entered);
        std::vector<std::string> ids;
        ids.reserve(movements.size());
        for (const Movement& movement : movements)
            ids.push_back(recorder.record({movement, {}, {}}));
        recorder.throw_if_any();
        return ids;
    });
}

std::string Store::wind_off(const Movement& movement, base::Day entered) {
    return connection_->change([&](SQLite::Database& database) {
        Recorder recorder(database, entered);
        Movement off = movement;
        off.kind = MovementKind::wound_off;
        if (off.other.empty()) off.other = recorder.new_id();
        if (recorder.record({off, {}, {}}).empty()) recorder.throw_if_any();
        Movement from = off;
        from.kind = MovementKind::wound_from;
        std::swap(from.skein, from.other);
        from.note.clear();
        from.described = described(*skein(movement.skein));
        from.described->part = true;
        from.described->knots = 0;
        from.described->note = movement.note;
        recorder.record({from, {}, {}});
        recorder.throw_if_any();
        return off.other;
    });
}

void Store::set_aside(const std::vector<Movement>& promises, const std::vector<stash::Skein>& seen,
                      base::Day entered) {
    connection_->change([&](SQLite::Database& database) {
        Recorder recorder(database, entered);
        for (const stash::Skein& before : seen) {
            const auto now = skein(before.id);
            if (now && *now == before) continue;
            Line line;
            line.movement.skein = before.id;
            recorder.report(line,
                            "skein \"" + base::shown_inert(before.id) +
                                "\" was changed by another program meanwhile",
                            "the skein as it was", "Run the command again.");
        }
        recorder.throw_if_any();
        for (const Movement& movement : promises) recorder.record({movement, {}, movement.skein});
        recorder.throw_if_any();
        return true;
    });
}

std::vector<Line> Store::said_of_skeins(const std::vector<stash::WorkReading>& readings) const {
    std::map<std::string, const stash::WorkReading*> latest;
    for (const stash::WorkReading& reading : readings)
        if (!reading.skein.empty()) latest[reading.skein] = &reading;
    std::vector<Line> out;
    for (const auto& [id, reading] : latest)
        if (const auto held = skein(id))
            if (auto movement = stash::movement_of(*reading, *held))
                out.push_back({*movement, {}, {}});
    return out;
}

void Store::note(const std::vector<stash::WorkReading>& readings, base::Day entered) {
    const std::vector<Line> of_skeins = said_of_skeins(readings);
    connection_->change([&](SQLite::Database& database) {
        Recorder recorder(database, entered);
        for (const stash::WorkReading& reading : readings) recorder.record(reading);
        for (const Line& line : of_skeins) recorder.record(line);
        recorder.throw_if_any();
        return true;
    });
}

TakenIn Store::take_in(const stash::Lines& lines, const TakeIn& how,
                       const std::vector<stash::WorkReading>& readings) {
    Intake intake(*connection_, lines, how, readings);
    const auto take = [&intake](SQLite::Database& database) { return intake.run(database); };
    return how.only_try ? connection_->try_change(take) : connection_->change(take);
}

Undone Store::undo(base::Day entered) {
    return connection_->change([&](SQLite::Database& database) {
        SQLite::Statement newest(
            database,
            "SELECT number, day IS NULL FROM entry WHERE undoes IS NULL AND number NOT IN"
            " (SELECT undoes FROM entry WHERE undoes IS NOT NULL) ORDER BY number DESC LIMIT 1");
        if (!newest.executeStep())
            throw base::InputError(base::Problem{"there is nothing to undo", {}, "", ""});
        if (newest.getColumn(1).getInt() != 0)
            throw base::InputError(
                base::Problem{"only what an older version of the stash file kept is left to undo",
                              {},
                              "",
                              "That cannot be undone; correct the skein, or say where it went."});
        const std::int64_t number = newest.getColumn(0).getInt64();
        Undone out;
        const std::string of_entry = " WHERE told.entry = ? ORDER BY told.number";
        SQLite::Statement rows(database, select_movements() + of_entry);
        rows.bind(1, number);
        while (rows.executeStep())
            out.movements.push_back(told(Cells(rows, *connection_), *connection_).movement);
        SQLite::Statement readings(database, select_readings_sql + of_entry);
        readings.bind(1, number);
        while (readings.executeStep())
            out.readings.push_back(noted(Cells(readings, *connection_), *connection_).reading);
        SQLite::Statement undo(database, "INSERT INTO entry (day, undoes) VALUES (?, ?)");
        undo.bind(1, base::to_text(entered));
        undo.bind(2, number);
        undo.exec();
        return out;
    });
}

std::optional<Unanswered> Store::unanswered(const std::string& command) const {
    return connection_->look([&](SQLite::Database& database) -> std::optional<Unanswered> {
        const Snapshot snapshot(*connection_);
        SQLite::Statement newest(
            database,
            "SELECT entry, day FROM unanswered WHERE command = ? AND NOT EXISTS"
            " (SELECT 1 FROM entry AS undoing WHERE undoing.undoes = unanswered.entry)"
            " ORDER BY entry DESC LIMIT 1");
        newest.bind(1, command);
        if (!newest.executeStep()) return std::nullopt;
        Cells cells(newest, *connection_);
        const std::int64_t entry = cells.long_number();
        const auto day = cells.known_day();
        if (!day) connection_->fail_damaged("a day in it is gone");
        Unanswered out{*day, {}};
        SQLite::Statement ids(database,
                              "SELECT DISTINCT id FROM movement JOIN skein ON skein.number = skein"
                              " WHERE entry = ? ORDER BY movement.number");
        ids.bind(1, entry);
        while (ids.executeStep()) out.skeins.push_back(Cells(ids, *connection_).text());
        return out;
    });
}

void Store::forget_unanswered(const std::string& command) {
    connection_->change([&](SQLite::Database& database) {
        SQLite::Statement forget(database, "DELETE FROM unanswered WHERE command = ?");
        forget.bind(1, command);
        return forget.exec();
    });
}

std::optional<base::Day> Store::not_checked_whole_since() const {
    if (!connection_->checked_in_part()) return std::nullopt;
    return connection_->look([&](SQLite::Database& database) -> std::optional<base::Day> {
        SQLite::Statement since(database,
                                "SELECT coalesce((SELECT day FROM whole_check),"
                                " (SELECT day FROM entry WHERE number = 1))");
        since.executeStep();
        return Cells(since, *connection_).known_day();
    });
}

std::vector<stash::Skein> Store::skeins() const {
    return connection_->look([&](SQLite::Database&) {
        const Snapshot snapshot(*connection_);
        std::vector<stash::Skein> out = held_skeins(*connection_);
        add_promises(*connection_, out);
        return out;
    });
}

std::optional<stash::Skein> Store::skein(std::string_view id) const {
    return connection_->look([&](SQLite::Database& database) -> std::optional<stash::Skein> {
        const Snapshot snapshot(*connection_);
        // By its number: SQLite counts every skein before it compares with a subquery.
        SQLite::Statement numbers(database, "SELECT number FROM skein WHERE id = ?");
        numbers.bind(1, std::string(id));
        if (!numbers.executeStep()) return std::nullopt;
        SQLite::Statement rows(database, select_movements() + " WHERE told.skein = ? AND" +
                                             that_stands + " ORDER BY told.number");
        const std::int64_t number = numbers.getColumn(0).getInt64();
        rows.bind(1, number);
        Holding holding;
        std::vector<stash::Skein> out(1);
        std::int64_t count = 0;
        while (rows.executeStep()) {
            Told row = told(Cells(rows, *connection_), *connection_);
            expect_as_entered(row, *connection_);
            holding.take(std::move(row.movement), ++count, out.front());
        }
        if (!holding.held(out.front())) return std::nullopt;
        out.front().id = id;
        add_promises(*connection_, out, number);
        return std::move(out.front());
    });
}

std::vector<std::string> Store::ids() const {
    return connection_->look([&](SQLite::Database& database) {
        SQLite::Statement rows(database, select_ids_sql);
        std::vector<std::string> out;
        while (rows.executeStep()) out.push_back(Cells(rows, *connection_).text());
        return out;
    });
}

std::vector<Event> Store::history(std::string_view id) const {
    return connection_->look([&](SQLite::Database& database) {
        SQLite::Statement rows(database,
                               select_movements() +
                                   " WHERE told.skein = (SELECT number FROM skein WHERE id = ?)"
                                   " ORDER BY told.number");
        rows.bind(1, std::string(id));
        SQLite::Statement undone(database, "SELECT 1 FROM entry WHERE undoes = ?");
        std::vector<Event> out;
        while (rows.executeStep()) {
            Told row = told(Cells(rows, *connection_), *connection_);
            expect_as_entered(row, *connection_);
            Values(undone).add(row.entry);
            out.push_back({std::move(row.movement), static_cast<std::int64_t>(row.entry),
                           row.entered, undone.executeStep()});
        }
        return out;
    });
}

std::vector<Movement> Store::movements() const {
    return connection_->look([&](SQLite::Database&) {
        std::vector<Movement> out;
        for_each_standing(*connection_,
                          [&out](Standing&& row) { out.push_back(std::move(row.movement)); });
        return out;
    });
}

std::vector<stash::WorkReading> Store::readings() const {
    return connection_->look([&](SQLite::Database&) { return standing_readings(*connection_); });
}

std::vector<stash::WorkReading> Store::readings(std::string_view project,
                                                std::string_view role) const {
    std::vector<stash::WorkReading> out;
    for (stash::WorkReading& reading : readings()) {
        if (!base::same_word(reading.project, project) || !base::same_word(reading.role, role))
            continue;
        if (reading.afresh) out.clear();
        out.push_back(std::move(reading));
    }
    return out;
}

}  // namespace skeinfall::store
