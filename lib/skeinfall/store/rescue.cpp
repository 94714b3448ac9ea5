#include <algorithm>
#include <new>
#include <optional>
#include <set>
#include <utility>

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/store/care.hpp"
#include "skeinfall/store/rows.hpp"
#include "skeinfall/store/scrap.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::store {
namespace {

/// What no sense can be made of costs one row.
class ScrapSource : public Source {
  private:
    void throw_damaged(const std::string& how) const override {
        throw base::StoreError({how, {}, "", ""});
    }
};

/// Of a row that is not as it was entered the text is believed, not the figure beside it.
template <class Q>
void read_again(units::Printed<Q>& printed, base::Result<Q> (*parse)(std::string_view)) {
    const auto read = parse(printed.text);
    if (!read) throw base::StoreError({read.problem().what, {}, "", ""});
    printed.value = *read;
}
template <class Q>
void read_again(std::optional<units::Printed<Q>>& printed,
                base::Result<Q> (*parse)(std::string_view)) {
    if (printed) read_again(*printed, parse);
}

void read_field_again(std::optional<units::Printed<units::Length>>& printed) {
    read_again(printed, units::parse_length);
}
void read_field_again(std::optional<units::Printed<units::Mass>>& printed) {
    read_again(printed, units::parse_mass);
}
template <class T>
void read_field_again(T& /*no figure*/) {}

void read_again(stash::Movement& movement) {
    if (movement.amount) {
        if (auto* const mass = std::get_if<units::Printed<units::Mass>>(&*movement.amount))
            read_again(*mass, units::parse_mass);
        else
            read_again(std::get<units::Printed<units::Length>>(*movement.amount),
                       units::parse_length);
    }
    read_again(movement.scale, units::parse_mass);
    read_again(movement.tare, units::parse_mass);
    if (!movement.described) return;
    for (const stash::Field& field : stash::fields())
        std::visit([&](const auto& member) { read_field_again(member.of(*movement.described)); },
                   field.held);
}

void read_again(stash::WorkReading& reading) {
    read_again(reading.mass, units::parse_mass);
    read_again(reading.scale, units::parse_mass);
    read_again(reading.tare, units::parse_mass);
}

struct Piece {
    stash::Movement movement;
    bool doubtful = false;
};

/// A movement makes sense by itself only when its skein, and the one at its other end, begin.
std::vector<Piece> what_makes_sense(std::vector<Piece> pieces) {
    using stash::MovementKind;
    std::set<std::string> begun;
    std::set<std::string> whole;
    std::set<std::pair<std::string, std::string>> promised;
    std::vector<Piece> kept;
    for (const Piece& piece : pieces)
        if (begins(piece.movement.kind)) whole.insert(piece.movement.skein);
    for (Piece& piece : pieces) {
        stash::Movement& movement = piece.movement;
        if (begins(movement.kind) == begun.contains(movement.skein)) continue;
        if (movement.kind == MovementKind::wound_from && !whole.contains(movement.other)) continue;
        if (movement.kind == MovementKind::set_aside)
            promised.emplace(movement.skein, movement.purpose);
        if (movement.kind == MovementKind::released &&
            promised.erase({movement.skein, movement.purpose}) == 0)
            continue;
        if (movement.kind == MovementKind::wound_off && !whole.contains(movement.other)) {
            movement.kind = MovementKind::given;
            movement.purpose = "skein " + std::exchange(movement.other, {}) + ", which was lost";
        }
        begun.insert(movement.skein);
        kept.push_back(std::move(piece));
    }
    return kept;
}

/// Stands in for rows that are lost, so that what belongs to them is not: a skein gets another id,
/// a yarn a name and no label, a description that of a part skein. None of these gives a length.
void stand_in_for_the_lost(SQLite::Database& scrap) {
    scrap.exec(
        "INSERT OR IGNORE INTO skein SELECT DISTINCT skein, 'no-id-' || skein FROM movement"
        " WHERE 'no-id-' || skein NOT IN (SELECT id FROM skein)");
    scrap.exec(
        "INSERT OR IGNORE INTO description SELECT number, 0, '', NULL, NULL, 'part', 0, ''"
        " FROM movement WHERE kind IN ('bought', 'wound from', 'corrected')");
    scrap.exec(
        "INSERT OR IGNORE INTO yarn (number, name)"
        " SELECT DISTINCT yarn, 'unknown yarn ' || yarn FROM description");
    scrap.exec("CREATE INDEX undone ON entry (undoes)");
}

/// Reads each row of a table, whole ones and those that lack what belongs to them.
template <class Read>
Tally each_row(SQLite::Database& scrap, const Scrap& found, const std::string& table,
               std::string select, Read read) {
    Tally out;
    const auto counted = found.last_numbers.find(table);
    out.counted = counted != found.last_numbers.end();
    // What a row's number cannot be is no row.
    const std::int64_t last =
        out.counted ? counted->second
                    : scrap.execAndGet("SELECT coalesce(max(number), 0) FROM " + table).getInt64();
    out.entered = static_cast<std::size_t>(last);
    for (std::size_t at = select.find(" JOIN "); at != std::string::npos;
         at = select.find(" JOIN ", at + 12))
        if (!select.substr(0, at).ends_with("LEFT")) select.insert(at, " LEFT");
    SQLite::Statement rows(scrap, select + " WHERE told.number <= ? ORDER BY told.number");
    rows.bind(1, last);
    SQLite::Statement undone(scrap, "SELECT 1 FROM entry WHERE undoes = ?");
    while (rows.executeStep()) {
        try {
            read(rows, undone, out);
        } catch (const base::StoreError&) {
            // Counted as lost below.
            continue;
        }
    }
    return out;
}

void count_lost(Tally& tally) {
    const std::size_t seen = tally.sound + tally.doubtful + tally.undone + tally.left_out;
    tally.lost = tally.entered > seen ? tally.entered - seen : 0;
}

}  // namespace

Rescued rescue(const std::filesystem::path& stash) {
    const ScrapSource source;
    try {
        // In a file of SQLite's own that goes away, when it is large.
        SQLite::Database scrap("", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
        const Scrap found = collect(stash, scrap);
        stand_in_for_the_lost(scrap);
        Rescued out;
        std::vector<Piece> pieces;
        std::size_t read = 0;
        out.of_movements = each_row(
            scrap, found, "movement", select_movements(),
            [&](SQLite::Statement& row, SQLite::Statement& undone, Tally& tally) {
                Told one = told(Cells(row, source), source);
                const bool sound =
                    one.digest &&
                    *one.digest == digest_of(one.movement, one.movement.skein, one.entered);
                Values(undone).add(one.entry);
                if (undone.executeStep()) {
                    ++tally.undone;
                    return;
                }
                if (!sound) read_again(one.movement);
                ++read;
                pieces.push_back({std::move(one.movement), !sound});
            });
        for (Piece& piece : what_makes_sense(std::move(pieces))) {
            ++(piece.doubtful ? out.of_movements.doubtful : out.of_movements.sound);
            out.movements.push_back(std::move(piece.movement));
            out.doubtful_movements.push_back(piece.doubtful);
        }
        out.of_movements.left_out = read - out.movements.size();
        count_lost(out.of_movements);
        out.of_readings = each_row(
            scrap, found, "reading", select_readings_sql,
            [&](SQLite::Statement& row, SQLite::Statement& undone, Tally& tally) {
                Noted one = noted(Cells(row, source), source);
                const bool sound = one.digest && *one.digest == digest_of(one.reading, one.entered);
                Values(undone).add(one.entry);
                if (undone.executeStep()) {
                    ++tally.undone;
                    return;
                }
                if (!sound) read_again(one.reading);
                ++(sound ? tally.sound : tally.doubtful);
                out.readings.push_back(std::move(one.reading));
                out.doubtful_readings.push_back(!sound);
            });
        // A stash in which no work was ever weighed has no count of readings.
        if (out.of_readings.entered == 0 && !found.last_numbers.empty())
            out.of_readings.counted = true;
        count_lost(out.of_readings);
        return out;
    } catch (const SQLite::Exception& error) {
        if (error.getErrorCode() == SQLITE_NOMEM) throw std::bad_alloc();
        throw base::StoreError({"cannot be read: " + base::shown_inert(error.what()),
                                {.file = base::shown_inert(stash.string()), .line = 0, .column = 0},
                                "a file that may be read",
                                "See that there is room for temporary files, then try again."});
    }
}

}  // namespace skeinfall::store
