#include "skeinfall/store/scrap.hpp"

#include <algorithm>
#include <array>
#include <set>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "skeinfall/store/pages.hpp"

namespace skeinfall::store {
namespace {

/// A letter a column, without the number that SQLite keeps apart: t text, i whole number, r
/// number; capitals may be NULL too.
struct Shape {
    const char* table;
    std::string_view columns;
    const char* names;
};
constexpr auto shapes = std::to_array<Shape>({
    {"entry", "TI", "number INTEGER PRIMARY KEY, day, undoes"},
    {"movement", "iitTTRRTRTRIttI",
     "number INTEGER PRIMARY KEY, entry, skein, kind, day, amount_text, amount_g REAL,"
     " amount_m REAL, scale_text, scale_g REAL, tare_text, tare_g REAL, other, purpose, note,"
     " digest"},
    {"description", "itTTtit",
     "movement INTEGER PRIMARY KEY, yarn, colourway, dye_lot, shade_group, state, knots, note"},
    {"yarn", "tITTRTRTR",
     "number INTEGER PRIMARY KEY, name, class, fibre_json, label_length_text, label_length_m REAL,"
     " label_mass_text, label_mass_g REAL, colour_repeat_text, colour_repeat_m REAL"},
    {"reading", "itttiittrtrTRittI",
     "number INTEGER PRIMARY KEY, entry, project, role, piece, copy, after_row, skein, mass_text,"
     " mass_g REAL, scale_text, scale_g REAL, tare_text, tare_g REAL, afresh, day, note, digest"},
    {"skein", "t", "number INTEGER PRIMARY KEY, id"},
    {"promise", "t", "movement INTEGER PRIMARY KEY, role"},
});

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
        if (!fits(row.cells[i + 1], shape.columns[i])) return false;
    return true;
}

/// Puts rows in; the first of those with one number stays.
class Tables {
  public:
    explicit Tables(SQLite::Database& to) {
        to.exec("BEGIN");
        for (const Shape& shape : shapes) {
            to.exec("CREATE TABLE " + std::string(shape.table) + " (" + shape.names + ")");
            std::string marks = "?";
            for (std::size_t i = 0; i < shape.columns.size(); ++i) marks += ", ?";
            inserts_.emplace_back(to, "INSERT OR IGNORE INTO " + std::string(shape.table) +
                                          " VALUES (" + marks + ")");
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

constexpr std::size_t shape_of_skein = shapes.size() - 2;
constexpr std::size_t shape_of_promise = shapes.size() - 1;

}  // namespace

Scrap collect(const std::filesystem::path& file, SQLite::Database& to) {
    const Pages pages(file);
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
                const auto* const shape = std::find_if(
                    shapes.begin(), shapes.end(), [&](const Shape& one) { return fits(row, one); });
                if (shape == shapes.end()) continue;
                const auto index = static_cast<std::size_t>(shape - shapes.begin());
                if (index == shape_of_skein) {
                    named.push_back(std::move(row));
                    continue;
                }
                constexpr std::size_t kind_cell = 3;
                if (std::string_view(shape->table) == "movement" &&
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
