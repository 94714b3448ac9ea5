#include "skeinfall/store/scrap.hpp"

#include <algorithm>
#include <set>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "skeinfall/stash/fields.hpp"
#include "skeinfall/store/pages.hpp"
#include "skeinfall/store/rows.hpp"

namespace skeinfall::store {
namespace {

/// The columns of a table, without the number that SQLite keeps apart.
struct Shape {
    std::string table;
    std::string key;
    std::vector<StoredColumn> columns;
};

std::vector<StoredColumn> joined(std::vector<StoredColumn> first,
                                 const std::vector<StoredColumn>& then) {
    first.insert(first.end(), then.begin(), then.end());
    return first;
}

const std::vector<Shape>& shapes() {
    static const std::vector<Shape> all{
        {"entry", "number", {{"day", 'T'}, {"undoes", 'I'}}},
        {"movement",
         "number",
         {{"entry", 'i'},
          {"skein", 'i'},
          {"kind", 't'},
          {"day", 'T'},
          {"amount_text", 'T'},
          {"amount_g", 'R'},
          {"amount_m", 'R'},
          {"scale_text", 'T'},
          {"scale_g", 'R'},
          {"tare_text", 'T'},
          {"tare_g", 'R'},
          {"other", 'I'},
          {"purpose", 't'},
          {"note", 't'},
          {"digest", 'I'}}},
        {"description", "movement", joined({{"yarn", 'i'}}, stored_columns(stash::Owner::skein))},
        {"yarn", "number", stored_columns(stash::Owner::yarn)},
        {"reading",
         "number",
         {{"entry", 'i'},
          {"project", 't'},
          {"role", 't'},
          {"piece", 't'},
          {"copy", 'i'},
          {"after_row", 'i'},
          {"skein", 't'},
          {"mass_text", 't'},
          {"mass_g", 'r'},
          {"scale_text", 't'},
          {"scale_g", 'r'},
          {"tare_text", 'T'},
          {"tare_g", 'R'},
          {"afresh", 'i'},
          {"day", 't'},
          {"note", 't'},
          {"digest", 'I'}}},
        {"skein", "number", {{"id", 't'}}},
        {"promise", "movement", {{"role", 't'}}},
    };
    return all;
}

bool fits(const ScrapCell& cell, char letter) {
    if (std::holds_alternative<std::monostate>(cell)) return letter >= 'A' && letter <= 'Z';
    switch (letter) {
        case 't':
        case 'T':
            return std::holds_alternative<std::string>(cell);
        case 'i':
        case 'I':
            return std::holds_alternative<std::int64_t>(cell);
        default:
            // A number without a fraction is kept as a whole one.
            return !std::holds_alternative<std::string>(cell);
    }
}

bool fits(const ScrapRow& row, const Shape& shape) {
    if (row.number < 1 || row.cells.size() != shape.columns.size() + 1 ||
        !std::holds_alternative<std::monostate>(row.cells.front()))
        return false;
    for (std::size_t i = 0; i < shape.columns.size(); ++i)
        if (!fits(row.cells[i + 1], shape.columns[i].holds)) return false;
    return true;
}

/// Puts rows in; the first of those with one number stays.
class Tables {
  public:
    explicit Tables(SQLite::Database& to) {
        to.exec("BEGIN");
        for (const Shape& shape : shapes()) {
            std::string names = shape.key + " INTEGER PRIMARY KEY";
            std::string marks = "?";
            for (const StoredColumn& column : shape.columns) {
                const bool number = column.holds == 'r' || column.holds == 'R';
                names += ", " + column.name + (number ? " REAL" : "");
                marks += ", ?";
            }
            to.exec("CREATE TABLE " + shape.table + " (" + names + ")");
            inserts_.emplace_back(
                to, "INSERT OR IGNORE INTO " + shape.table + " VALUES (" + marks + ")");
        }
    }
    void put(std::size_t shape, const ScrapRow& row) {
        SQLite::Statement& insert = inserts_[shape];
        insert.reset();
        insert.bind(1, row.number);
        for (std::size_t i = 1; i < row.cells.size(); ++i)
            std::visit(
                [&](const auto& value) {
                    using Value = std::decay_t<decltype(value)>;
                    if constexpr (std::is_same_v<Value, std::monostate>)
                        insert.bind(static_cast<int>(i + 1));
                    else
                        insert.bind(static_cast<int>(i + 1), value);
                },
                row.cells[i]);
        insert.exec();
    }

  private:
    std::vector<SQLite::Statement> inserts_;
};

std::size_t shape_of(std::string_view table) {
    const auto found = std::find_if(shapes().begin(), shapes().end(),
                                    [&](const Shape& shape) { return shape.table == table; });
    return static_cast<std::size_t>(found - shapes().begin());
}

}  // namespace

Scrap collect(const std::filesystem::path& file, SQLite::Database& to) {
    const Pages pages(file);
    const std::size_t shape_of_skein = shape_of("skein");
    const std::size_t shape_of_promise = shape_of("promise");
    Scrap out;
    std::vector<std::vector<ScrapRow>> skeins_or_promises;
    std::set<std::int64_t> set_aside;
    {
        Tables tables(to);
        for (std::size_t page = 1; page <= pages.count(); ++page) {
            std::vector<ScrapRow> named;
            for (ScrapRow& row : pages.rows(page)) {
                // Of the table that counts what numbers were given.
                if (row.cells.size() == 2 && std::holds_alternative<std::string>(row.cells[0]) &&
                    std::holds_alternative<std::int64_t>(row.cells[1])) {
                    std::int64_t& last = out.last_numbers[std::get<std::string>(row.cells[0])];
                    last = std::max(last, std::get<std::int64_t>(row.cells[1]));
                    continue;
                }
                const auto shape = std::find_if(shapes().begin(), shapes().end(),
                                                [&](const Shape& one) { return fits(row, one); });
                if (shape == shapes().end()) continue;
                const auto index = static_cast<std::size_t>(shape - shapes().begin());
                if (index == shape_of_skein) {
                    named.push_back(std::move(row));
                    continue;
                }
                constexpr std::size_t kind_cell = 3;
                if (shape->table == "movement" &&
                    std::get<std::string>(row.cells[kind_cell]) == "set aside")
                    set_aside.insert(row.number);
                tables.put(index, row);
            }
            if (!named.empty()) skeins_or_promises.push_back(std::move(named));
        }
        // A page holds rows of one table: promises have the numbers of movements that set aside.
        for (const auto& rows : skeins_or_promises) {
            const bool promises = std::all_of(rows.begin(), rows.end(), [&](const ScrapRow& row) {
                return set_aside.contains(row.number);
            });
            for (const ScrapRow& row : rows)
                tables.put(promises ? shape_of_promise : shape_of_skein, row);
        }
    }
    to.exec("COMMIT");
    // A row takes ten bytes and more.
    const auto room = static_cast<std::int64_t>(pages.count() * pages.size() / 10);
    std::erase_if(out.last_numbers, [&](const auto& counted) {
        const bool too_many = counted.second < 0 || counted.second > room;
        out.unbelievable_count = out.unbelievable_count || too_many;
        return too_many;
    });
    return out;
}

}  // namespace skeinfall::store
