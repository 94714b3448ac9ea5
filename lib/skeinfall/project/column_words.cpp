#include "skeinfall/project/column_words.hpp"

#include <array>
#include <utility>

#include "skeinfall/base/text.hpp"
#include "skeinfall/data/cell_words.hpp"
#include "skeinfall/data/column_words.hpp"

namespace skeinfall::project {

const std::vector<ColumnWords>& column_words() {
    static const std::vector<ColumnWords> all = [] {
        std::vector<ColumnWords> out;
        for (const auto& row : data::column_words) out.push_back({row.words, row.field, row.unit});
        return out;
    }();
    return all;
}

std::optional<CellWord> cell_word(std::string_view cell) {
    static constexpr std::array<std::pair<std::string_view, CellWord>, 5> meanings{
        {{"unknown", CellWord::unknown},
         {"above", CellWord::as_above},
         {"total", CellWord::total},
         {"whole", CellWord::whole},
         {"part", CellWord::part}}};
    const std::string_view text = base::trimmed(cell);
    for (const auto& row : data::cell_words)
        if (base::same_word(row.word, text))
            for (const auto& [name, meaning] : meanings)
                if (row.means == name) return meaning;
    return std::nullopt;
}

}  // namespace skeinfall::project
