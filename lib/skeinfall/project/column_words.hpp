#pragma once
/// \file
/// What the headings of makers' own sheets are called. Table: lib/data/column_words.csv.

#include <string_view>
#include <vector>

namespace skeinfall::project {

struct ColumnWords {
    std::string_view words;  ///< lower case, one blank between them
    std::string_view field;  ///< of a skein, or "quantity"
    std::string_view unit;   ///< that the words say; may be empty
};
[[nodiscard]] const std::vector<ColumnWords>& column_words();

}  // namespace skeinfall::project
