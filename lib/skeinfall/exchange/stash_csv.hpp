#pragma once
/// \file
/// A stash as a spreadsheet exports it: CSV, one row a physical skein, and one a movement for what
/// happened to it later.
///
/// Columns are the fields of stash_fields.hpp, in any order, named without regard to case, blanks,
/// "_" and "-"; colorway, colour and color stand for colourway, lot for dye_lot, fiber for fibre,
/// color_repeat for colour_repeat, day for date. Only yarn is required. An empty cell means "not
/// known". Rows without anything in any cell are passed over. Blanks around a cell do not count.
///
/// A spreadsheet runs a cell that begins with "=", "+", "-", "@", a tab or a line break as a
/// formula. Such a cell is written with "'" before it, and so is one with blanks at its ends; the
/// "'" is taken off again when the cell is read.

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/exchange/stash_table.hpp"

namespace skeinfall::exchange {

/// Throws base::InputError with every mistake of the text; `file` names it in their places. More
/// than `most` rows are one.
[[nodiscard]] StashTable parse_stash_csv(std::string_view text, const std::string& file,
                                         std::size_t most = most_rows);

/// The same for a file of at most `largest_stash` bytes.
[[nodiscard]] StashTable read_stash_csv(const std::filesystem::path& path);

/// A header and one row for each of rows_of(movements), ended by LF. Read again, they are the same
/// movements.
[[nodiscard]] std::string stash_csv(const std::vector<stash::Movement>& movements);

}  // namespace skeinfall::exchange
