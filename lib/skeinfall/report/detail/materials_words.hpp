#pragma once
/// \file
/// The words of a materials section, by key. Inner header of report.

#include <cstdint>
#include <initializer_list>
#include <map>
#include <string>
#include <string_view>
#include <utility>

#include "skeinfall/project/stitches.hpp"

namespace skeinfall::report {

class MaterialsWords {
  public:
    using Table = std::map<std::string, std::string, std::less<>>;

    /// The rows of a language; a row whose key ends in "_uk" stands for the one without, in UK
    /// terms. Throws std::out_of_range when there are none.
    explicit MaterialsWords(const std::string& language, project::Terms terms = project::Terms::us);
    /// Words from elsewhere, key to text.
    explicit MaterialsWords(Table words) : words_(std::move(words)) {}

    [[nodiscard]] const Table& table() const { return words_; }

    /// The text of a key as it stands.
    [[nodiscard]] const std::string& operator()(std::string_view key) const;

    /// The text with every "{name}" replaced. Throws std::out_of_range for a name without a value.
    using Value = std::pair<std::string_view, std::string>;
    [[nodiscard]] std::string fill(std::string_view key, std::initializer_list<Value> values) const;

    /// The text of KEY_one or KEY_many by the count, "{count}" and the others replaced.
    [[nodiscard]] std::string counted(const std::string& key, std::int64_t count,
                                      std::initializer_list<Value> values = {}) const;

  private:
    [[nodiscard]] std::string filled(std::string_view text, const Value* begin,
                                     const Value* end) const;

    Table words_;
};

}  // namespace skeinfall::report
