#pragma once
/// \file
/// Cells of tables for other programs, written and read back.

#include <string>
#include <string_view>

namespace skeinfall::base {

/// Text as one cell of a CSV table: between quotes where RFC 4180 wants them. What a spreadsheet
/// would run as a formula, and what would lose blanks at an end, has an apostrophe before it.
/// Numbers need no cell of this kind: write them as they are.
[[nodiscard]] std::string csv_cell(std::string_view text);

/// What csv_cell() was given, from the cell without its quotes; else without blanks at its ends.
[[nodiscard]] std::string_view csv_value(std::string_view cell);

}  // namespace skeinfall::base
