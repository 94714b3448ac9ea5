#include "skeinfall/store/checked.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include <sqlite3.h>

#include "skeinfall/base/text.hpp"

namespace skeinfall::store {
namespace {

/// The rows of one table in the order of their numbers.
class Rows {
  public:
    Rows(const Connection& from, const char* table, const std::string& columns,
         const char* key = "number")
        : from_(from),
          table_(table),
          rows_(from.database(), "SELECT " + std::string(key) + ", " + columns + " FROM " + table +
                                     " ORDER BY " + key) {
        step();
    }

    [[nodiscard]] bool more() const { return more_; }
    /// Of the row that is next.
    [[nodiscard]] std::int64_t number() const { return number_; }
    [[nodiscard]] Cells cells() {
        Cells out(rows_, from_);
        out.pass_over(1);
        return out;
    }
    void step() {
        more_ = rows_.executeStep();
        if (!more_) return;
        const std::int64_t before = number_;
        number_ = rows_.getColumn(0).getInt64();
        if (number_ <= before) fail();
    }
    [[noreturn]] void fail() const {
        from_.fail_damaged("rows of table " + std::string(table_) +
                           " are missing or not in their places");
    }

  private:
    const Connection& from_;
    const char* table_;
    SQLite::Statement rows_;
    std::int64_t number_ = 0;
    bool more_ = false;
};

/// Each row of a table that numbers its rows by itself; all of them.
template <class Take>
void each_row(const Connection& from, const char* table, const std::string& columns, Take take) {
    Rows rows(from, table, columns);
    std::int64_t count = 0;
    for (; rows.more(); rows.step()) {
        if (rows.number() != ++count) rows.fail();
        take(rows.cells());
    }
    SQLite::Statement last(from.database(), "SELECT seq FROM sqlite_sequence WHERE name = ?");
    last.bind(1, std::string(table));
    if ((last.executeStep() ? last.getColumn(0).getInt64() : 0) != count) rows.fail();
}

struct Entries {
    std::vector<std::optional<base::Day>> entered;
    std::vector<bool> undone;
};

Entries entries_of(const Connection& from) {
    Entries out;
    each_row(from, "entry", "day, undoes", [&](Cells cells) {
        out.entered.push_back(cells.known_day());
        out.undone.push_back(false);
        if (cells.unknown()) return;
        const std::int64_t undoes = cells.long_number();
        if (undoes < 1 || undoes > std::ssize(out.undone))
            from.fail_damaged("an entry in it takes back one that is not there");
        out.undone[static_cast<std::size_t>(undoes - 1)] = true;
    });
    return out;
}

/// The element with that number, from 1.
template <class List>
const auto& numbered(const List& list, std::int64_t number, const Connection& from,
                     const char* what) {
    if (number < 1 || number > std::ssize(list))
        from.fail_damaged(std::string(what) + " in it is gone");
    return list[static_cast<std::size_t>(number - 1)];
}

}  // namespace

void expect_as_entered(const Told& row, const Connection& from) {
    const stash::Movement& movement = row.movement;
    if (row.digest && *row.digest != digest_of(movement, movement.skein, row.entered, row.fibre))
        from.fail_damaged("\"" + std::string(word(movement.kind)) + "\" of skein \"" +
                          base::shown_inert(movement.skein) + "\" is not as it was entered");
}

void expect_as_entered(const Noted& row, const Connection& from) {
    if (row.digest && *row.digest != digest_of(row.reading, row.entered))
        from.fail_damaged("the reading \"" + base::shown_inert(row.reading.mass.text) + "\" of \"" +
                          base::shown_inert(row.reading.project) + "\" is not as it was entered");
}

Snapshot::Snapshot(const Connection& connection) {
    if (sqlite3_get_autocommit(connection.database().getHandle()) == 0) return;
    connection.database().exec("BEGIN");
    began_ = &connection.database();
}

Snapshot::~Snapshot() {
    // Nothing was written. Where there was no memory for it once, there may be now.
    if (began_ != nullptr && began_->tryExec("ROLLBACK") != SQLITE_OK) began_->tryExec("ROLLBACK");
}

void for_each_standing(const Connection& connection, const std::function<void(Standing&&)>& take) {
    const Snapshot snapshot(connection);
    std::vector<std::string> ids;
    each_row(connection, "skein", "id", [&](Cells cells) { ids.push_back(cells.text()); });
    const Entries entries = entries_of(connection);
    Yarns yarns(connection);
    Rows descriptions(connection, "description", "yarn, " + column_list(stash::Owner::skein),
                      "movement");
    Rows promises(connection, "promise", "role", "movement");
    std::int64_t number = 0;
    each_row(
        connection, "movement",
        "entry, skein, kind, day, amount_text, amount_g, amount_m, scale_text, scale_g, tare_text,"
        " tare_g, other, purpose, note, digest",
        [&](Cells cells) {
            ++number;
            Told row;
            row.entry = cells.long_number();
            row.entered = numbered(entries.entered, row.entry, connection, "an entry");
            Standing out;
            out.number = number;
            out.skein = cells.long_number();
            stash::Movement& movement = row.movement;
            movement.skein = numbered(ids, out.skein, connection, "a skein");
            const auto kind = stash::parse_movement_kind(cells.text());
            if (!kind) connection.fail_damaged("a movement in it is of no kind that is known");
            movement.kind = *kind;
            movement.day = cells.known_day();
            movement.amount = cells.known_amount();
            movement.scale = cells.known_printed(units::gram);
            movement.tare = cells.known_printed(units::gram);
            if (cells.unknown())
                cells.pass_over(1);
            else
                movement.other = numbered(ids, cells.long_number(), connection, "a skein");
            movement.purpose = cells.text();
            movement.note = cells.text();
            if (!cells.unknown()) row.digest = cells.long_number();
            if (movement.kind == stash::MovementKind::set_aside) {
                if (!promises.more() || promises.number() != number) promises.fail();
                movement.role = promises.cells().text();
                promises.step();
            }
            if (describes(movement.kind)) {
                if (!descriptions.more() || descriptions.number() != number) descriptions.fail();
                Cells described = descriptions.cells();
                movement.described.emplace();
                const std::int64_t yarn = described.long_number();
                movement.described->yarn = yarns.of(yarn);
                row.fibre = &yarns.fibre_of(yarn);
                described.take(stash::Owner::skein, *movement.described);
                descriptions.step();
            }
            expect_as_entered(row, connection);
            if (entries.undone[static_cast<std::size_t>(row.entry - 1)]) return;
            out.movement = std::move(movement);
            take(std::move(out));
        });
    if (descriptions.more()) descriptions.fail();
    if (promises.more()) promises.fail();
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

void Holding::take(stash::Movement&& movement, std::int64_t number, stash::Skein& skein) {
    using stash::MovementKind;
    const bool adds =
        movement.kind == MovementKind::wound_from || movement.kind == MovementKind::ripped_back;
    const bool away = takes(movement.kind);
    if (arrival_ == 0) {
        arrival_ = number;
        wound_ = movement.kind == MovementKind::wound_from;
    }
    if (movement.described) {
        movement.described->weighing = std::move(skein.weighing);
        skein = *std::move(movement.described);
        described_ = true;
    }
    moved_ = moved_ || adds || away;
    if (adds) added_at_ = number;
    if (movement.kind == MovementKind::weighed || (away && !movement.amount)) {
        base_at_ = number;
        base_ = away ? Base::all_taken : Base::weighing;
        skein.weighing.reset();
        if (!away && movement.amount && movement.scale)
            skein.weighing = measure::Weighing{
                std::get<units::Printed<units::Mass>>(*std::move(movement.amount)),
                *std::move(movement.scale), std::move(movement.tare)};
        mass_ = {};
        length_ = {};
        scale_g2_ = 0.0;
        amount_m2_ = 0.0;
        return;
    }
    if (!adds && !away) return;
    const double sense = adds ? 1.0 : -1.0;
    if (movement.scale) scale_g2_ += std::pow(movement.scale->value / units::gram, 2);
    if (!movement.amount) return;
    if (const auto* mass = std::get_if<units::Printed<units::Mass>>(&*movement.amount)) {
        mass_ += sense * mass->value;
    } else {
        const auto& length = std::get<units::Printed<units::Length>>(*movement.amount);
        length_ += sense * length.value;
        amount_m2_ += std::pow(length.value / units::metre, 2);
    }
}

bool Holding::held(stash::Skein& skein) const {
    if (!described_ || (base_ == Base::all_taken && added_at_ < base_at_)) return false;
    const bool whole = !skein.part;
    skein.part = skein.part || moved_;
    const bool nothing = base_ == Base::all_taken || (base_ == Base::none && wound_);
    if (base_ == Base::none && !nothing && !whole) return true;
    stash::Changes since;
    since.from_nothing = nothing;
    since.mass = mass_;
    // A rectangle one step wide for each amount, as for a reading without a tare.
    since.mass_spread = std::sqrt(scale_g2_ / 12.0) * units::gram;
    since.length = length_;
    since.length_spread =
        std::sqrt(amount_m2_ / 3.0) * stash::changed_length_half_width.value() * units::metre;
    if (since != stash::Changes{}) skein.since = since;
    return true;
}

std::vector<stash::Skein> held_skeins(const Connection& connection) {
    // Every skein there ever was, by its number: one list, put in order and thinned out where it
    // lies, for a large stash does not fit twice.
    std::vector<stash::Skein> skeins;
    std::vector<Holding> holdings;
    SQLite::Statement count(connection.database(), "SELECT count(*) FROM skein");
    if (count.executeStep()) {
        const auto known = static_cast<std::size_t>(count.getColumn(0).getInt64());
        skeins.reserve(known);
        holdings.reserve(known);
    }
    for_each_standing(connection, [&](Standing&& row) {
        const auto index = static_cast<std::size_t>(row.skein - 1);
        if (index >= holdings.size()) {
            holdings.resize(index + 1);
            skeins.resize(index + 1);
        }
        std::string id = std::move(row.movement.skein);
        holdings[index].take(std::move(row.movement), row.number, skeins[index]);
        skeins[index].id = std::move(id);
    });
    std::vector<std::pair<std::int64_t, std::size_t>> order;
    order.reserve(holdings.size());
    for (std::size_t i = 0; i < holdings.size(); ++i)
        if (holdings[i].arrival() != 0 && holdings[i].held(skeins[i]))
            order.emplace_back(holdings[i].arrival(), i);
    std::sort(order.begin(), order.end());
    // They nearly always came in the order of their numbers.
    const bool moves_up =
        std::is_sorted(order.begin(), order.end(),
                       [](const auto& a, const auto& b) { return a.second < b.second; });
    if (moves_up) {
        for (std::size_t at = 0; at < order.size(); ++at)
            if (order[at].second != at) skeins[at] = std::move(skeins[order[at].second]);
        skeins.erase(skeins.begin() + static_cast<std::ptrdiff_t>(order.size()), skeins.end());
        return skeins;
    }
    std::vector<stash::Skein> out;
    out.reserve(order.size());
    for (const auto& [arrival, index] : order) out.push_back(std::move(skeins[index]));
    return out;
}

}  // namespace skeinfall::store
