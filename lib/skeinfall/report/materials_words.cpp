#include "skeinfall/data/materials_words.hpp"

#include <algorithm>
#include <cstdint>
#include <stdexcept>
#include <vector>

#include "skeinfall/report/detail/materials_words.hpp"
#include "skeinfall/report/materials.hpp"

namespace skeinfall::report {

std::vector<std::string> languages() {
    std::vector<std::string> out;
    for (const data::materials_words_row& row : data::materials_words)
        if (std::find(out.begin(), out.end(), row.language) == out.end())
            out.emplace_back(row.language);
    return out;
}

MaterialsWords::MaterialsWords(const std::string& language, project::Terms terms) {
    constexpr std::string_view uk = "_uk";
    for (const data::materials_words_row& row : data::materials_words)
        if (row.language == language) words_.emplace(row.key, row.text);
    if (terms == project::Terms::uk)
        for (auto& [key, text] : words_)
            if (const auto own = words_.find(key + std::string(uk)); own != words_.end())
                text = own->second;
    if (words_.empty()) throw std::out_of_range("no words in this language: " + language);
}

const std::string& MaterialsWords::operator()(std::string_view key) const {
    const auto found = words_.find(key);
    if (found == words_.end()) throw std::out_of_range("no words for " + std::string(key));
    return found->second;
}

std::string MaterialsWords::filled(std::string_view text, const Value* begin,
                                   const Value* end) const {
    std::string out;
    while (!text.empty()) {
        const std::size_t open = text.find('{');
        out += text.substr(0, open);
        if (open == std::string_view::npos) break;
        const std::size_t close = text.find('}', open);
        const std::string_view name = text.substr(open + 1, close - open - 1);
        const Value* value =
            std::find_if(begin, end, [&](const Value& one) { return one.first == name; });
        if (value == end) throw std::out_of_range("no value for " + std::string(name));
        out += value->second;
        text.remove_prefix(close + 1);
    }
    return out;
}

std::string MaterialsWords::fill(std::string_view key, std::initializer_list<Value> values) const {
    return filled((*this)(key), values.begin(), values.end());
}

std::string MaterialsWords::counted(const std::string& key, std::int64_t count,
                                    std::initializer_list<Value> values) const {
    std::vector<Value> all(values);
    all.emplace_back("count", std::to_string(count));
    return filled((*this)(key + (count == 1 ? "_one" : "_many")), all.data(),
                  all.data() + all.size());
}

}  // namespace skeinfall::report
