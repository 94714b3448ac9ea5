#include "skeinfall/stash/sheet.hpp"

#include <array>
#include <cstdint>
#include <map>
#include <set>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/stash/fields.hpp"

namespace skeinfall::stash {
namespace {

std::string key_of(const std::optional<measure::Weighing>& weighing) {
    if (!weighing) return {};
    return fmt::format("{:.9g} {:.9g} {}", weighing->shown.value.value(),
                       weighing->scale.value.value(),
                       weighing->tare ? fmt::format("{:.9g}", weighing->tare->value.value()) : "");
}

/// What a row says, cell by cell: which yarn it is, then how much of it, then the rest.
struct Cell {
    std::string_view name;
    std::string key;
};
/// So many of them must agree for a row to be a reworded one; the likest rows are paired first.
constexpr std::array<std::size_t, 3> cells_of_the_likest{8, 7, 6};

std::vector<Cell> cells_of(const SheetRow& row) {
    std::vector<Cell> out;
    const auto take = [&](bool telling) {
        for (const Field& field : fields())
            if (field.telling == telling) out.push_back({field.title, key_of(field, row.skein)});
    };
    take(true);
    out.push_back({"the weighing", key_of(row.skein.weighing)});
    take(false);
    return out;
}

std::string key_of(const SheetRow& row, std::size_t cells, bool days_count) {
    std::string out = days_count && row.day ? base::to_text(*row.day) : std::string();
    for (std::size_t i = 0; const Cell& cell : cells_of(row)) {
        if (i++ == cells) break;
        out += cell.key;
        out += '\x1f';
    }
    return out;
}

/// The first row of each kind that is still free, in order.
class Free {
  public:
    Free(const std::vector<EarlierRow>& earlier, std::size_t cells, const std::set<std::size_t>& of,
         bool days_count)
        : cells_(cells), days_count_(days_count) {
        for (const std::size_t i : of) rows_.emplace(key_of(earlier[i].row, cells, days_count), i);
    }

    std::optional<std::size_t> take(const SheetRow& row) {
        const std::string key = key_of(row, cells_, days_count_);
        const auto found = rows_.lower_bound(key);
        if (found == rows_.end() || found->first != key) return std::nullopt;
        const std::size_t index = found->second;
        rows_.erase(found);
        return index;
    }

  private:
    std::size_t cells_;
    bool days_count_;
    std::multimap<std::string, std::size_t> rows_;
};

const std::size_t all_cells = fields().size() + 1;

/// The import that has all yarns of the sheet, though how much is left of each is another now.
std::optional<std::int64_t> import_of_all(const std::vector<SheetRow>& sheet,
                                          const std::vector<EarlierRow>& earlier, bool days_count) {
    std::map<std::int64_t, std::set<std::size_t>> imports;
    for (std::size_t i = 0; i < earlier.size(); ++i) imports[earlier[i].entry].insert(i);
    for (const auto& [entry, rows] : imports) {
        if (rows.size() < sheet.size()) continue;
        Free alike(earlier, cells_of_the_likest.back(), rows, days_count);
        bool all = true;
        for (std::size_t i = 0; i < sheet.size() && all; ++i)
            all = alike.take(sheet[i]).has_value();
        if (all) return entry;
    }
    return std::nullopt;
}

}  // namespace

std::string difference_of(const SheetRow& one, const SheetRow& other) {
    const auto here = cells_of(one);
    const auto there = cells_of(other);
    for (std::size_t i = 0; i < here.size(); ++i)
        if (here.at(i).key != there.at(i).key) return std::string(here.at(i).name);
    return {};
}

SheetComparison compare_sheet(const std::vector<SheetRow>& sheet,
                              const std::vector<EarlierRow>& earlier, bool days_count) {
    SheetComparison out;
    out.rows.resize(sheet.size());
    std::set<std::size_t> free;
    for (std::size_t i = 0; i < earlier.size(); ++i) free.insert(i);
    // Imports of which at least one row comes again: of others nothing is missing.
    std::set<std::int64_t> again;
    Free exact(earlier, all_cells, free, days_count);
    for (std::size_t i = 0; i < sheet.size(); ++i)
        if (const auto found = exact.take(sheet[i])) {
            out.rows[i] = {RowIs::seen, *found};
            free.erase(*found);
            again.insert(earlier[*found].entry);
        }
    if (again.empty())
        if (const auto entry = import_of_all(sheet, earlier, days_count)) again.insert(*entry);
    // Another day is another purchase, but for a sheet whose other rows are known.
    const auto pair_up = [&](std::size_t cells, bool of_these_imports) {
        std::set<std::size_t> open;
        for (const std::size_t i : free)
            if (!of_these_imports || again.contains(earlier[i].entry)) open.insert(i);
        Free alike(earlier, cells, open, days_count && !of_these_imports);
        for (std::size_t i = 0; i < sheet.size(); ++i) {
            if (out.rows[i].is != RowIs::fresh) continue;
            if (const auto found = alike.take(sheet[i])) {
                out.rows[i] = {RowIs::reworded, *found};
                free.erase(*found);
            }
        }
    };
    pair_up(cells_of_the_likest.front(), false);
    for (const std::size_t cells : cells_of_the_likest) pair_up(cells, true);
    for (const std::size_t i : free)
        if (again.contains(earlier[i].entry)) out.gone.push_back(i);
    return out;
}

}  // namespace skeinfall::stash
