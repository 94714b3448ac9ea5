#include "skeinfall/exchange/stash_csv.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/csv_cell.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/exchange/csv.hpp"
#include "skeinfall/exchange/problem_list.hpp"
#include "skeinfall/exchange/text_file.hpp"

namespace skeinfall::exchange {
namespace {

/// Lower case, without blanks, "_" and "-".
std::string bare(std::string_view header) {
    std::string out = base::lower(base::trimmed(header));
    std::erase_if(out, [](char c) { return c == ' ' || c == '_' || c == '-'; });
    return out;
}

const Column* find_column(std::string_view header) {
    const std::string wanted = bare(header);
    if (wanted.empty()) return nullptr;
    for (const Column& column : columns()) {
        if (bare(column.name) == wanted) return &column;
        for (const std::string_view name : column.other_headings)
            if (bare(name) == wanted) return &column;
    }
    return nullptr;
}

std::optional<std::string> nearest_column(std::string_view header) {
    std::vector<std::string> known;
    std::vector<std::string_view> written;
    for (const Column& column : columns()) {
        known.push_back(bare(column.name));
        written.push_back(column.name);
        for (const std::string_view name : column.other_headings) {
            known.push_back(bare(name));
            written.push_back(name);
        }
    }
    const auto near = base::nearest_name(bare(header), known);
    if (!near) return std::nullopt;
    const auto index = std::find(known.begin(), known.end(), *near) - known.begin();
    return std::string(written[static_cast<std::size_t>(index)]);
}

class StashReader : public Fields {
  public:
    StashReader(std::string_view text, const std::string& file, std::size_t most)
        : source_(text, file), taker_(source_, table_, most) {}

    StashTable read() {
        parse_csv(source_, [this](const CsvRow& row) {
            if (layout_.empty())
                read_header(row);
            else
                read_row(row);
        });
        if (layout_.empty())
            throw base::InputError({"the file has no rows", source_.place(0),
                                    "a header row with the names of the columns",
                                    "The first row could be: id,yarn,colourway,dye_lot,"
                                    "label_length,label_mass"});
        problems_.throw_if_any();
        return std::move(table_);
    }

    [[nodiscard]] std::string_view value(std::string_view field) const override {
        const CsvCell* cell = cell_of(field);
        return cell == nullptr ? std::string_view() : base::csv_value(cell->text);
    }

    void fail(std::string_view field, std::size_t at, std::string what, std::string expected,
              std::string remedy) override {
        const CsvCell* cell = cell_of(field);
        // A file without the column is one mistake, not one a row.
        if (cell == nullptr && field == "yarn" && !yarn_column_) return;
        if (cell == nullptr || base::csv_value(cell->text).empty()) {
            fail(source_.place(row_offset_), std::move(what), std::move(expected),
                 std::move(remedy));
            return;
        }
        const auto blanks =
            static_cast<std::size_t>(base::csv_value(cell->text).data() - cell->text.data());
        fail(source_.place_inside(cell->offset, cell->text, blanks + at),
             fmt::format("{}: {}", field, what), std::move(expected), std::move(remedy));
    }

  private:
    void fail(base::Place place, std::string what, std::string expected, std::string remedy) {
        problems_.add({std::move(what), std::move(place), std::move(expected), std::move(remedy)});
    }

    /// Null when the table has no such column.
    [[nodiscard]] const CsvCell* cell_of(std::string_view field) const {
        for (std::size_t c = 0; c < layout_.size(); ++c)
            if (layout_[c] != nullptr && layout_[c]->name == field) return &(*row_)[c];
        return nullptr;
    }

    void read_header(const CsvRow& header) {
        std::map<std::string_view, std::size_t> seen;
        for (const CsvCell& cell : header) {
            const std::string_view name = base::trimmed(cell.text);
            const Column* column = find_column(name);
            layout_.push_back(column);
            if (column == nullptr) {
                const auto near = nearest_column(name);
                fail(source_.place(cell.offset),
                     name.empty() ? "a column without a name" : "unknown column " + in_quotes(name),
                     "one of " + base::join(field_names(), ", "),
                     base::did_you_mean(near, "Rename the column, or leave it out of the file."));
            } else if (const auto [first, fresh] = seen.emplace(column->name, cell.offset);
                       !fresh) {
                fail(
                    source_.place(cell.offset),
                    fmt::format("{} is a second column for {}; the first one is column {} of "
                                "the line",
                                in_quotes(name), column->name, source_.place(first->second).column),
                    "each column once", "Leave one of them out.");
            } else {
                table_.understood.push_back(fmt::format("{} -> {}", name, column->meaning));
            }
        }
        yarn_column_ = seen.contains("yarn");
        table_.days_stated = seen.contains("date");
        if (!yarn_column_)
            fail(source_.place(header.front().offset), "the column \"yarn\" is missing",
                 "a column with the names of the yarns", "Add a column named \"yarn\".");
    }

    void read_row(const CsvRow& row) {
        const bool blank = std::all_of(row.begin(), row.end(), [](const CsvCell& cell) {
            return base::trimmed(cell.text).empty();
        });
        if (blank) return;
        if (row.size() != layout_.size()) {
            const bool many = row.size() > layout_.size();
            fail(source_.place(many ? row[layout_.size()].offset : row.front().offset),
                 many ? fmt::format("the row has {} cells for {} columns", row.size(),
                                    layout_.size())
                      : fmt::format("the row ends after {} of {} columns", row.size(),
                                    layout_.size()),
                 "one cell a column, empty where nothing is known",
                 many ? "A cell with a comma in it has to stand between quotes."
                      : "Add the commas of the empty cells.");
            return;
        }
        row_ = &row;
        row_offset_ = row.front().offset;
        taker_.take(*this, row_offset_);
    }

    SourceText source_;
    ProblemList problems_;
    StashTable table_;
    RowTaker taker_;
    std::vector<const Column*> layout_;  // null for a column that is not understood
    bool yarn_column_ = false;
    const CsvRow* row_ = nullptr;
    std::size_t row_offset_ = 0;
};

}  // namespace

StashTable parse_stash_csv(std::string_view text, const std::string& file, std::size_t most) {
    return StashReader(text, file, most).read();
}

StashTable read_stash_csv(const std::filesystem::path& path) {
    return parse_stash_csv(read_text_file(path, largest_stash), path.string());
}

std::string stash_csv(const std::vector<stash::Movement>& movements) {
    base::CsvTable out(field_names(), "\n");
    for (const auto& row : rows_of(movements)) {
        auto next = row.begin();
        for (const std::string& field : field_names()) {
            if (next == row.end() || next->field != field)
                out.empty();
            else
                out.text((next++)->text);
        }
        out.end_line();
    }
    return out.written();
}

}  // namespace skeinfall::exchange
