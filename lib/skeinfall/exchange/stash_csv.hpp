#pragma once
/// \file
/// A stash as a spreadsheet exports it: CSV, one row a physical skein.
///
/// Columns in any order, named without regard to case, blanks, "_" and "-": id; yarn (required);
/// colourway, colorway, colour or color; dye_lot or lot; shade_group; class; fibre or fiber;
/// label_length ("170 yd"); label_mass ("3.5 oz"); colour_repeat or color_repeat; state ("whole",
/// the default, or "part"); weighed ("62 g"); scale ("1 g", with weighed only and then required);
/// tare ("40 g", with weighed only); knots; note. An empty cell means "not known". Rows without
/// anything in any cell are passed over.

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/stash/skein.hpp"

namespace skeinfall::exchange {

struct StashTable {
    /// In the order of the rows. A skein without an id keeps an empty one: the store gives it.
    std::vector<stash::Skein> skeins;
    /// "Dye Lot -> dye lot", one line a column in the order of the file.
    std::vector<std::string> understood;
};

/// Throws base::InputError with every mistake of the text; `file` names it in their places.
[[nodiscard]] StashTable parse_stash_csv(std::string_view text, const std::string& file);

/// The same for a file of at most `largest_file` bytes.
[[nodiscard]] StashTable read_stash_csv(const std::filesystem::path& path);

}  // namespace skeinfall::exchange
