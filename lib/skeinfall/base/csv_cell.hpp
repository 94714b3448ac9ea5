#pragma once
/// \file
/// Cells of tables for other programs, written and read back.

#include <string>
#include <string_view>
#include <vector>

namespace skeinfall::base {

/// Text as one cell of a CSV table: between quotes where RFC 4180 wants them. What a spreadsheet
/// would run as a formula, and what would lose blanks at an end, has an apostrophe before it.
/// Numbers need no cell of this kind: write them as they are.
[[nodiscard]] std::string csv_cell(std::string_view text);

/// A CSV table, written cell by cell: no text gets into it but through csv_cell().
class CsvTable {
  public:
    /// RFC 4180 ends lines with CR and LF.
    explicit CsvTable(const std::vector<std::string>& headings, std::string_view line_end = "\r\n");

    CsvTable& text(std::string_view text);
    /// As it stands: one below zero is no formula.
    CsvTable& number(std::string_view number);
    CsvTable& empty() { return number({}); }
    void end_line();

    [[nodiscard]] const std::string& written() const { return written_; }

  private:
    std::string line_end_;
    std::string written_;
    bool begun_ = false;
};

/// What csv_cell() was given, from the cell without its quotes; else without blanks at its ends.
[[nodiscard]] std::string_view csv_value(std::string_view cell);

}  // namespace skeinfall::base
