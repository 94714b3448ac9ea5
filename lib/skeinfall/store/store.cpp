#include "skeinfall/store/store.hpp"

#include <algorithm>
#include <cstdint>
#include <map>
#include <set>
#include <utility>

#include <SQLiteCpp/SQLiteCpp.h>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/stash/in_work.hpp"
#include "skeinfall/stash/sheet.hpp"
#include "skeinfall/store/checked.hpp"
#include "skeinfall/store/connection.hpp"
#include "skeinfall/store/recorder.hpp"
#include "skeinfall/store/rows.hpp"

namespace skeinfall::store {
namespace {

using stash::Movement;
using stash::MovementKind;

constexpr const char* select_ids_sql = "SELECT id FROM holding ORDER BY arrival";

/// Asks for the movements that stand of one skein after the other.
class StandingMovements {
  public:
    explicit StandingMovements(const Connection& connection)
        : connection_(connection),
          rows_(connection.database(),
                std::string(select_movements_sql) +
                    " WHERE told.skein = (SELECT number FROM skein WHERE id = ?) AND" +
                    that_stands + " ORDER BY told.number") {}

    std::vector<Movement> of(const std::string& id) {
        Values(rows_).add(id);
        std::vector<Movement> out;
        while (rows_.executeStep())
            out.push_back(told(Cells(rows_, connection_), connection_).movement);
        return out;
    }

  private:
    const Connection& connection_;
    SQLite::Statement rows_;
};

/// What two movements of one skein differ in; empty when they are alike.
std::string difference(const Movement& a, const Movement& b, bool days_count) {
    if (a.kind != b.kind)
        return std::string(word(a.kind)) + " stands against " + std::string(word(b.kind));
    if (days_count && a.day != b.day) return "the day";
    if (a.amount != b.amount || a.scale != b.scale || a.tare != b.tare) return "the amount";
    if (a.other != b.other) return "the skein at the other end";
    if (a.purpose != b.purpose) return "the purpose";
    if (a.role != b.role) return "the yarn of the project";
    if (a.note != b.note) return "the note";
    if (a.described == b.described) return {};
    if (!a.described || !b.described) return "the description";
    const stash::Skein& x = *a.described;
    const stash::Skein& y = *b.described;
    if (x.yarn.name != y.yarn.name) return "the yarn's name";
    if (x.yarn.weight != y.yarn.weight) return "the class";
    if (x.yarn.fibre != y.yarn.fibre) return "the fibre content";
    if (x.yarn.label != y.yarn.label) return "the label";
    if (x.yarn.colour_repeat != y.yarn.colour_repeat) return "the colour repeat";
    if (x.colourway != y.colourway) return "the colourway";
    if (x.dye_lot != y.dye_lot) return "the dye lot";
    if (x.shade_group != y.shade_group) return "the shade group";
    if (x.part != y.part) return "the state";
    if (x.knots != y.knots) return "the knots";
    return "the note";
}

/// Where the lines of one skein stop agreeing with what is known of it.
struct Clash {
    std::size_t line = 0;
    std::string what;
};

/// Nothing when the lines are the first of what is known.
std::optional<Clash> clash(const std::vector<Line>& lines, const std::vector<std::size_t>& of_skein,
                           const std::vector<Movement>& known, bool days_count) {
    for (std::size_t i = 0; i < of_skein.size(); ++i) {
        if (i == known.size()) return Clash{of_skein[i], "the stash knows nothing of this yet"};
        const std::string differs = difference(known[i], lines[of_skein[i]].movement, days_count);
        if (!differs.empty()) return Clash{of_skein[i], differs};
    }
    return std::nullopt;
}

/// A skein in a row of a sheet: it came, and may have been weighed, and that is all.
bool is_a_row(const std::vector<Line>& lines, const std::vector<std::size_t>& of_skein) {
    const auto kind = [&](std::size_t i) { return lines[of_skein[i]].movement.kind; };
    return kind(0) == MovementKind::bought &&
           (of_skein.size() == 1 || (of_skein.size() == 2 && kind(1) == MovementKind::weighed));
}

std::optional<measure::Weighing> weighing_in(const Movement& movement) {
    const auto* const mass =
        movement.amount ? std::get_if<units::Printed<units::Mass>>(&*movement.amount) : nullptr;
    if (movement.kind != MovementKind::weighed || mass == nullptr || !movement.scale)
        return std::nullopt;
    return measure::Weighing{*mass, *movement.scale, movement.tare};
}

stash::SheetRow row_of(const Movement& came, const Movement* weighed) {
    stash::SheetRow row{*came.described, came.day};
    if (weighed != nullptr) row.skein.weighing = weighing_in(*weighed);
    return row;
}

/// A description as a row of a sheet corrects it: an empty cell, or a column that the sheet lacks,
/// takes nothing away, and a part never becomes whole again.
stash::Skein corrected_by(const stash::Skein& row, stash::Skein was) {
    was.yarn.name = row.yarn.name;
    const auto take = [](auto& into, const auto& cell) {
        if (cell) into = cell;
    };
    take(was.yarn.weight, row.yarn.weight);
    take(was.yarn.label.length, row.yarn.label.length);
    take(was.yarn.label.mass, row.yarn.label.mass);
    take(was.yarn.colour_repeat, row.yarn.colour_repeat);
    take(was.dye_lot, row.dye_lot);
    take(was.shade_group, row.shade_group);
    if (row.yarn.fibre.known()) was.yarn.fibre = row.yarn.fibre;
    if (!row.colourway.empty()) was.colourway = row.colourway;
    if (!row.note.empty()) was.note = row.note;
    if (row.knots > 0) was.knots = row.knots;
    was.part = was.part || row.part;
    return was;
}

/// Whether a row says nothing that its skein was not described by some time.
bool described_so(const stash::Skein& row, const std::vector<Movement>& known) {
    return std::any_of(known.begin(), known.end(), [&](const Movement& movement) {
        return movement.described &&
               stash::difference_of({*movement.described, {}},
                                    {corrected_by(row, *movement.described), {}})
                   .empty();
    });
}

/// The description that holds now; nothing when there is none.
const stash::Skein* description_in(const std::vector<Movement>& known) {
    const stash::Skein* out = nullptr;
    for (const Movement& movement : known)
        if (movement.described) out = &*movement.described;
    return out;
}

/// The same yarn, its name perhaps mended: two sheets may use one id for unlike skeins.
bool may_be_one_yarn(const std::string& name, const std::string& was) {
    return base::same_name(name, was) || base::nearest_name(name, {was}).has_value();
}

/// The same weighing as one that is known, or none at all.
bool weighed_so(const Movement& row, const std::vector<Movement>& known) {
    return std::any_of(known.begin(), known.end(), [&](const Movement& movement) {
        return movement.kind == MovementKind::weighed && weighing_in(movement) == weighing_in(row);
    });
}

/// What came into the stash and stands, with what it weighed when it came.
std::vector<stash::EarlierRow> rows_that_came(const Connection& connection) {
    SQLite::Statement rows(connection.database(), std::string(select_movements_sql) + " WHERE" +
                                                      that_stands + " ORDER BY told.number");
    std::vector<stash::EarlierRow> out;
    std::map<std::string, std::size_t, std::less<>> of_skein;
    while (rows.executeStep()) {
        const Told one = told(Cells(rows, connection), connection);
        const Movement& movement = one.movement;
        if (movement.kind == MovementKind::bought && movement.described) {
            of_skein[movement.skein] = out.size();
            out.push_back(
                {row_of(movement, nullptr), movement.skein, static_cast<long>(one.entry)});
        } else if (movement.kind == MovementKind::weighed) {
            const auto found = of_skein.find(movement.skein);
            if (found == of_skein.end() || out[found->second].entry != one.entry) continue;
            auto& weighing = out[found->second].row.skein.weighing;
            if (!weighing) weighing = weighing_in(movement);
        }
    }
    return out;
}

/// Compares the rows without an id with what came in before, and notes which lines add nothing.
void leave_what_came_before(const std::vector<Line>& lines, const TakeIn& how,
                            const Connection& connection, std::vector<bool>& leave, TakenIn& out) {
    std::vector<stash::SheetRow> sheet;
    std::vector<std::size_t> begins_at;
    std::set<std::string_view> named;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const Movement& movement = lines[i].movement;
        if (!movement.skein.empty()) named.insert(movement.skein);
        if (movement.kind != MovementKind::bought || !movement.skein.empty() || !movement.described)
            continue;
        const bool weighed = i + 1 < lines.size() && lines[i + 1].movement.skein.empty() &&
                             lines[i + 1].movement.kind == MovementKind::weighed;
        sheet.push_back(row_of(movement, weighed ? &lines[i + 1].movement : nullptr));
        begins_at.push_back(i);
    }
    if (sheet.empty()) return;
    std::vector<stash::EarlierRow> earlier = rows_that_came(connection);
    std::erase_if(earlier, [&](const stash::EarlierRow& row) { return named.contains(row.id); });
    const stash::SheetComparison found = stash::compare_sheet(sheet, earlier, how.days_stated);
    for (std::size_t i = 0; i < sheet.size(); ++i) {
        if (found.rows[i].is == stash::RowIs::fresh) continue;
        const stash::EarlierRow& before = earlier[found.rows[i].earlier];
        const std::size_t at = begins_at[i];
        leave[at] = true;
        if (sheet[i].skein.weighing) leave[at + 1] = true;
        if (found.rows[i].is == stash::RowIs::seen)
            out.seen.push_back(before.id);
        else
            out.reworded.push_back(
                {before.id, lines[at].place, stash::difference_of(sheet[i], before.row)});
    }
    for (const std::size_t i : found.gone) out.gone.push_back(earlier[i].id);
}

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

/// Promises come to few skeins; they are read by themselves.
void add_promises(const Connection& connection, std::vector<stash::Skein>& skeins) {
    SQLite::Statement rows(connection.database(),
                           std::string(select_promises_sql) + " ORDER BY set_aside.number");
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

std::vector<stash::WorkReading> standing_readings(const Connection& connection) {
    SQLite::Statement rows(connection.database(), std::string(select_readings_sql) + " WHERE" +
                                                      that_stands + " ORDER BY told.number");
    std::vector<stash::WorkReading> out;
    while (rows.executeStep()) {
        Noted row = noted(Cells(rows, connection), connection);
        expect_as_entered(row, connection);
        out.push_back(std::move(row.reading));
    }
    return out;
}

}  // namespace

Store::Store(std::unique_ptr<Connection> connection) : connection_(std::move(connection)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

Store Store::open(const std::filesystem::path& path, Access access) {
    return Store(std::make_unique<Connection>(path, access));
}

std::size_t changes_kept() {
    return Connection::changes_kept();
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

TakenIn Store::take_in(const std::vector<Line>& lines, const TakeIn& how,
                       const std::vector<stash::WorkReading>& readings) {
    constexpr std::size_t progress_every = 1000;
    std::map<std::string_view, std::vector<std::size_t>> of_skein;
    for (std::size_t i = 0; i < lines.size(); ++i)
        if (!lines[i].movement.skein.empty()) of_skein[lines[i].movement.skein].push_back(i);
    const auto take = [&](SQLite::Database& database) {
        TakenIn out;
        Recorder recorder(database, how.entered);
        if (how.leave_out_faulty) recorder.keep_lines_apart();
        std::vector<bool> leave(lines.size(), false);
        StandingMovements standing(*connection_);
        for (const auto& [id, indexes] : of_skein) {
            recorder.reserve(std::string(id));
            const auto known = standing.of(std::string(id));
            if (known.empty()) continue;
            const auto found = clash(lines, indexes, known, how.days_stated);
            const stash::Skein* const now = description_in(known);
            const auto& row = lines[indexes.front()].movement.described;
            if (found && is_a_row(lines, indexes) && now != nullptr && row &&
                may_be_one_yarn(row->yarn.name, now->yarn.name)) {
                if (!described_so(*row, known)) {
                    Line line = lines[indexes.front()];
                    line.movement.kind = MovementKind::corrected;
                    line.movement.described = corrected_by(*row, *now);
                    recorder.record(line);
                    out.corrected.push_back(std::string(id));
                }
                if (indexes.size() == 2 && !weighed_so(lines[indexes.back()].movement, known))
                    out.reweighed.push_back(std::string(id));
            } else if (found) {
                recorder.report(
                    lines[found->line],
                    "skein \"" + base::shown_inert(id) +
                        "\" is in the stash already, with other content: " + found->what,
                    "the same as in the stash, or an id that was never used",
                    "Mend the file, change the skein with a command of \"skeinfall "
                    "help\", or leave the id empty for another skein.");
            }
            for (const std::size_t index : indexes) leave[index] = true;
        }
        if (!how.as_new) leave_what_came_before(lines, how, *connection_, leave, out);
        std::string newest;  // a weighing in the row of its skein has no id either
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (how.progress && i % progress_every == 0) how.progress(i);
            const bool first = begins(lines[i].movement.kind);
            if (leave[i]) {
                const std::string& id = lines[i].movement.skein;
                const bool corrected = std::find(out.corrected.begin(), out.corrected.end(), id) !=
                                       out.corrected.end();
                if (first && !id.empty() && !corrected) out.left_alone.push_back(id);
                continue;
            }
            if (first || !lines[i].movement.skein.empty()) {
                const std::string id = recorder.record(lines[i]);
                if (first) newest = id;
                if (first) out.added.push_back(id);
            } else if (!newest.empty()) {
                Line line = lines[i];
                line.movement.skein = newest;
                recorder.record(line);
            }
        }
        const auto known =
            readings.empty() ? std::vector<stash::WorkReading>() : standing_readings(*connection_);
        for (const stash::WorkReading& reading : readings) {
            if (std::find(known.begin(), known.end(), reading) != known.end()) continue;
            recorder.record(reading);
            ++out.readings;
        }
        if (how.progress) how.progress(lines.size());
        if (how.leave_out_faulty)
            out.left_out = recorder.problems();
        else
            recorder.throw_if_any();
        return out;
    };
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
        SQLite::Statement rows(database, select_movements_sql + of_entry);
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
        SQLite::Statement rows(database, std::string(select_movements_sql) +
                                             " WHERE told.skein = ? AND" + that_stands +
                                             " ORDER BY told.number");
        rows.bind(1, numbers.getColumn(0).getInt64());
        Holding holding;
        std::int64_t count = 0;
        while (rows.executeStep()) {
            const Told row = told(Cells(rows, *connection_), *connection_);
            expect_as_entered(row, *connection_);
            holding.take(row.movement, ++count);
        }
        auto held = holding.held();
        if (!held) return std::nullopt;
        std::vector<stash::Skein> out{std::move(*held)};
        out.front().id = id;
        add_promises(*connection_, out);
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
                               std::string(select_movements_sql) +
                                   " WHERE told.skein = (SELECT number FROM skein WHERE id = ?)"
                                   " ORDER BY told.number");
        rows.bind(1, std::string(id));
        SQLite::Statement undone(database, "SELECT 1 FROM entry WHERE undoes = ?");
        std::vector<Event> out;
        while (rows.executeStep()) {
            Told row = told(Cells(rows, *connection_), *connection_);
            expect_as_entered(row, *connection_);
            Values(undone).add(row.entry);
            out.push_back({std::move(row.movement), static_cast<long>(row.entry), row.entered,
                           undone.executeStep()});
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
