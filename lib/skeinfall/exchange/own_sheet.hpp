#pragma once
/// \file
/// A maker's own sheet, as it is, turned into a stash table: headings by their words
/// (lib/data/column_words.csv) and by what stands below them, units in headings, a column of
/// quantities, semicolons or tabs between cells, blank columns.

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/exchange/stash_table.hpp"

namespace skeinfall::exchange {

/// Lower case words with one blank between them; brackets and signs part words.
[[nodiscard]] std::string words_of(std::string_view heading);

/// "Ball grams=label mass in g": what a heading means, as the maker says it; "Shelf=nothing" leaves
/// a column out.
struct ColumnMeaning {
    std::string heading;
    std::string field;
    std::string unit;         ///< empty: as the cells or the heading say
    bool remembered = false;  ///< from an earlier sheet: this one need not have it
};
/// Fields are those of stash_fields.hpp, with a blank or "_" between words, "quantity" and
/// "nothing".
[[nodiscard]] base::Result<ColumnMeaning> parse_column_meaning(std::string_view text);

/// As read_stash_csv(), for any sheet. A sheet with our own headings and commas is read as it
/// stands. Throws base::InputError; for a heading that is not understood it says what would be.
[[nodiscard]] StashTable read_own_sheet(const std::filesystem::path& path,
                                        const std::vector<ColumnMeaning>& given);
[[nodiscard]] StashTable parse_own_sheet(std::string_view text, const std::string& file,
                                         const std::vector<ColumnMeaning>& given);

}  // namespace skeinfall::exchange
