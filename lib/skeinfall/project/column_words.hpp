#pragma once
/// \file
/// What the headings of makers' own sheets are called, and words that stand in their cells. Tables:
/// lib/data/column_words.csv, lib/data/cell_words.csv.

#include <optional>
#include <string_view>
#include <vector>

namespace skeinfall::project {

struct ColumnWords {
    std::string_view words;  ///< lower case, one blank between them
    /// Of a skein, or "quantity" and the like. Those that begin with "of_" say of what another
    /// word's figure is: of each skein, of all of the row, of what is left of them, of neither.
    std::string_view field;
    std::string_view unit;  ///< that the words say; may be empty
};
[[nodiscard]] const std::vector<ColumnWords>& column_words();

enum class CellWord { unknown, as_above, total, whole, part };
/// Nothing where the whole cell is no such word. Case does not matter.
[[nodiscard]] std::optional<CellWord> cell_word(std::string_view cell);

}  // namespace skeinfall::project
