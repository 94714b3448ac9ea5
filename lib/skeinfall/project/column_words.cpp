#include "skeinfall/project/column_words.hpp"

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

}  // namespace skeinfall::project
