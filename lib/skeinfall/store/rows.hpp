#pragma once
/// \file
/// Internal to the store: values of ours to cells of a row, and back.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include <SQLiteCpp/SQLiteCpp.h>

#include "skeinfall/base/day.hpp"
#include "skeinfall/stash/fields.hpp"
#include "skeinfall/stash/movement.hpp"
#include "skeinfall/stash/skein.hpp"
#include "skeinfall/stash/work_reading.hpp"
#include "skeinfall/store/connection.hpp"

namespace skeinfall::store {

/// Fills the parameters of a statement from left to right.
class Values {
  public:
    explicit Values(SQLite::Statement& statement) : statement_(statement) {
        // reset() would throw the error of the last run once more.
        statement_.tryReset();
        statement_.clearBindings();
    }

    Values& add(const std::string& text) {
        statement_.bind(++at_, text);
        return *this;
    }
    Values& add(std::int64_t number) {
        statement_.bind(++at_, number);
        return *this;
    }
    Values& add_known(const std::optional<std::string>& text) {
        return text ? add(*text) : add_unknown();
    }
    Values& add_known(const std::optional<base::Day>& day) {
        return day ? add(base::to_text(*day)) : add_unknown();
    }
    template <class Q>
    Values& add(const units::Printed<Q>& printed, const Q& unit) {
        add(printed.text);
        statement_.bind(++at_, static_cast<double>(printed.value / unit));
        return *this;
    }
    template <class Q>
    Values& add_known(const std::optional<units::Printed<Q>>& printed, const Q& unit) {
        return printed ? add(*printed, unit) : add_unknown().add_unknown();
    }
    /// Three cells: the text, the mass, the length.
    Values& add_known(const std::optional<stash::Amount>& amount);
    /// The cells of stored_columns().
    Values& add(stash::Owner owner, const stash::Skein& skein);
    Values& add_unknown() {
        statement_.bind(++at_);
        return *this;
    }

  private:
    SQLite::Statement& statement_;
    int at_ = 0;
};

/// Takes the cells of a row from left to right. What the layout cannot check is checked here.
class Cells {
  public:
    Cells(SQLite::Statement& row, const Source& from) : row_(row), from_(from) {}

    [[nodiscard]] bool unknown() const { return row_.isColumnNull(at_); }

    std::string text();
    int number() { return row_.getColumn(at_++).getInt(); }
    std::int64_t long_number() { return row_.getColumn(at_++).getInt64(); }
    units::Ratio real() { return units::Ratio(row_.getColumn(at_++).getDouble()); }
    std::optional<std::string> known_text() {
        if (unknown()) return nothing<std::string>(1);
        return text();
    }
    std::optional<base::Day> known_day();
    template <class Q>
    units::Printed<Q> printed(const Q& unit) {
        std::string shown = text();
        return {std::move(shown), real() * unit};
    }
    template <class Q>
    std::optional<units::Printed<Q>> known_printed(const Q& unit) {
        if (unknown()) return nothing<units::Printed<Q>>(2);
        return printed(unit);
    }
    std::optional<stash::Amount> known_amount();
    /// The fields that belong to its yarn, or to the skein itself, as stored_columns() has them.
    void take(stash::Owner owner, stash::Skein& skein);

    void pass_over(int cells) { at_ += cells; }

  private:
    template <class T>
    std::optional<T> nothing(int cells) {
        pass_over(cells);
        return std::nullopt;
    }

    SQLite::Statement& row_;
    const Source& from_;
    int at_ = 0;
};

/// A column of the stash file, and by a letter what it holds: t text, i whole number, r number; in
/// capitals where it may be NULL.
struct StoredColumn {
    std::string name;
    char holds = 't';
};

/// The columns of stash::fields() in the table of yarns, or of descriptions.
[[nodiscard]] std::vector<StoredColumn> stored_columns(stash::Owner owner);

/// Their names for a statement: "name, class, ...".
[[nodiscard]] std::string column_list(stash::Owner owner, std::string_view of_table = "");

/// "[["wool",0.8],["nylon",0.2]]"
[[nodiscard]] std::string json_of(const yarn::FibreContent& content);

/// What the layout cannot check by itself (bytes that are not UTF-8, zero bytes, shares of fibre
/// that are not above zero); empty when nothing is wrong.
[[nodiscard]] std::string fault_of(const stash::Movement& movement);

/// The same of a reading.
[[nodiscard]] std::string fault_of(const stash::WorkReading& reading);

/// A check value over everything a movement of skein `id` says and the day it was entered. `fibre`
/// is json_of() of its yarn's fibre, where that is known already: it takes half of the time.
[[nodiscard]] std::int64_t digest_of(const stash::Movement& movement, const std::string& id,
                                     const std::optional<base::Day>& entered,
                                     const std::string* fibre = nullptr);

[[nodiscard]] std::int64_t digest_of(const stash::WorkReading& reading,
                                     const std::optional<base::Day>& entered);

/// Selects movements as `told`, for told(); a WHERE may follow.
[[nodiscard]] const std::string& select_movements();
/// Condition for the movements of entries that were not undone.
extern const char* const that_stands;

/// A movement as its row has it.
struct Told {
    stash::Movement movement;
    std::int64_t entry = 0;
    std::optional<base::Day> entered;
    std::optional<std::int64_t> digest;
    const std::string* fibre = nullptr;  ///< see digest_of()
};
[[nodiscard]] Told told(Cells cells, const Source& from);

/// The yarns of a stash by their numbers, each read once: many skeins are of one yarn.
class Yarns {
  public:
    explicit Yarns(const Connection& from);
    [[nodiscard]] const yarn::Yarn& of(std::int64_t number) { return known(number).yarn; }
    /// json_of() of its fibre; empty when that is not known. Stays where it is.
    [[nodiscard]] const std::string& fibre_of(std::int64_t number) { return known(number).fibre; }

  private:
    struct Known {
        yarn::Yarn yarn;
        std::string fibre;
    };
    const Known& known(std::int64_t number);

    const Connection& from_;
    SQLite::Statement find_;
    std::unordered_map<std::int64_t, Known> read_;
};

/// Selects what is held, for held(); a WHERE on `counted` may follow.
[[nodiscard]] const std::string& select_skeins();
[[nodiscard]] stash::Skein held(Cells cells, Yarns& yarns);

/// Selects what is set aside, for promised(); a WHERE may follow.
extern const char* const select_promises_sql;
struct Promised {
    std::string skein;
    stash::Promise promise;
};
[[nodiscard]] Promised promised(Cells cells);

/// Selects readings as `told`, for noted(); a WHERE may follow.
extern const char* const select_readings_sql;
struct Noted {
    stash::WorkReading reading;
    std::int64_t entry = 0;
    std::optional<base::Day> entered;
    std::optional<std::int64_t> digest;
};
[[nodiscard]] Noted noted(Cells cells, const Source& from);

}  // namespace skeinfall::store
