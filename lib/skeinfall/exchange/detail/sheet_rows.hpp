#pragma once
/// \file
/// The rows of a maker's own sheet, skein by skein, as text of a stash table.

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/csv_cell.hpp"
#include "skeinfall/exchange/csv.hpp"
#include "skeinfall/exchange/detail/sheet_cells.hpp"
#include "skeinfall/exchange/detail/sheet_columns.hpp"
#include "skeinfall/exchange/problem_list.hpp"
#include "skeinfall/exchange/source_text.hpp"
#include "skeinfall/units/parse.hpp"

namespace skeinfall::exchange::detail {

/// Figures of all skeins of a row are parted among them. Where two figures of a row contradict each
/// other the row is refused; what is left out or taken from the line above is remarked.
class SheetRows {
  public:
    SheetRows(const SourceText& source, const std::vector<Column>& columns, ProblemList& problems);

    /// `index` is given back by lines().
    void add(const CsvRow& row, std::size_t index);

    /// A stash table with a line of headings.
    [[nodiscard]] const std::string& text() const { return table_.written(); }
    /// The row that each line of the text comes from.
    [[nodiscard]] const std::vector<std::size_t>& lines() const { return lines_; }
    [[nodiscard]] std::vector<std::string> remarks() const;

    /// Whether a column of this field of a sheet fills that field of a skein.
    [[nodiscard]] static bool fills(std::string_view of_sheet, std::string_view of_skein);

  private:
    using Length = units::Printed<units::Length>;
    using Mass = units::Printed<units::Mass>;
    /// What one skein of the row is entered with.
    struct Entry {
        std::optional<Length> length;
        std::optional<Mass> mass;
        std::optional<Mass> weighed;
        bool part = false;
    };

    void take_cells();
    void copy_row(std::size_t index);
    [[nodiscard]] bool count_may_be_several() const;
    [[nodiscard]] bool tells_left() const;
    void take_cell(const Column& column, const std::string& cell);
    void take_amount(const Column& column, const std::string& cell);
    void take_left(const std::string& cell);
    void take_grist(const Column& column, const std::string& cell);
    void settle_grist();
    bool left_out(std::size_t used);
    bool names_yarn();
    void settle_totals();
    [[nodiscard]] std::vector<Entry> entries();
    void part_by_weight(std::vector<Entry>& out);
    void part_by_length(std::vector<Entry>& out);
    void write(const std::vector<Entry>& entries, std::size_t index);
    void write_line(std::size_t index);
    void refuse(std::string_view field, std::string what, std::string expected, std::string remedy);
    void remark(std::string text);
    void add_note(const std::string& text);

    const SourceText& source_;
    const std::vector<Column>& columns_;
    ProblemList& problems_;
    std::vector<std::string> header_;
    bool has_state_ = false;
    bool of_movements_ = false;  ///< rows are entered as they are
    base::CsvTable table_{{}, {}};
    std::vector<std::size_t> lines_{0};
    std::vector<std::string> remarks_;
    std::map<std::string, std::vector<std::size_t>> left_out_;  ///< lines by the reason
    std::vector<std::string> above_;

    // Of the row that is being read.
    const CsvRow* row_ = nullptr;
    std::size_t line_ = 0;
    bool refused_ = false;
    std::vector<std::string> cells_;
    std::map<std::string, std::string, std::less<>> texts_;  ///< by field of a skein
    Quantity count_;
    std::optional<Length> length_;  ///< of one skein
    std::optional<Mass> mass_;
    std::optional<Length> total_length_;  ///< of all of them
    std::optional<Mass> total_mass_;
    std::optional<Length> length_left_;
    std::optional<Mass> weighed_;
    std::optional<Mass> weighed_each_;
    std::optional<Quantity> count_left_;
    std::optional<units::Grist> grist_;  ///< by a column of its own
    bool some_gone_ = false;             ///< by a remark
};

}  // namespace skeinfall::exchange::detail
