#pragma once
/// \file
/// Reads the keys of one TOML table, each in one call, and gathers the mistakes.

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "skeinfall/base/result.hpp"
#include "skeinfall/exchange/problem_list.hpp"
#include "skeinfall/exchange/source_text.hpp"
#include "skeinfall/exchange/toml_tree.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::exchange {

/// A function that reads a text, such as units::parse_length.
template <class T>
using ReadText = base::Result<T> (*)(std::string_view);

/// One table under reading. Every function that takes a key notes it as known; a key that is
/// not there gives nothing, a wrong one adds a problem and gives nothing. finish() reports the
/// keys that nobody asked for.
class TomlTable {
  public:
    /// The longest text a key may hold, in bytes.
    static constexpr std::size_t longest_text = 1000;

    /// `table` has to hold a TomlValue::Table; all three must outlive this object.
    TomlTable(const TomlValue& table, const SourceText& source, ProblemList& problems);

    [[nodiscard]] bool has(std::string_view key) { return find(key) != nullptr; }
    /// Every key of the table, where their names are the maker's own.
    [[nodiscard]] std::vector<std::string> keys() const;

    std::optional<std::string> text(std::string_view key);
    /// `example` is shown when the key is missing.
    std::string required_text(std::string_view key, std::string_view example);
    std::optional<bool> flag(std::string_view key);
    std::optional<std::int64_t> whole(std::string_view key, std::int64_t least, std::int64_t most);
    std::optional<units::Ratio> number(std::string_view key, units::Ratio least, units::Ratio most);
    std::vector<std::string> texts(std::string_view key);
    /// Entries of a list; nothing when the key is missing or holds something else.
    std::optional<std::size_t> list_size(std::string_view key);

    template <class T>
    std::optional<T> parsed(std::string_view key, ReadText<T> read) {
        const TomlValue* value = find(key);
        return value == nullptr ? std::nullopt : parsed_of(key, *value, read);
    }
    template <class Q>
    std::optional<units::Printed<Q>> printed(std::string_view key, ReadText<Q> read) {
        const auto value = parsed(key, read);
        if (!value) return std::nullopt;
        return units::Printed<Q>{std::get<std::string>(find(key)->held), *value};
    }
    /// One of a few words, without regard to case; `otherwise` when the key is missing or wrong.
    template <class E>
    E choice(std::string_view key, const std::vector<std::pair<std::string, E>>& choices,
             E otherwise) {
        std::vector<std::string> words;
        words.reserve(choices.size());
        for (const auto& [word, meaning] : choices) words.push_back(word);
        const auto index = word_of(key, words);
        return index ? choices[*index].second : otherwise;
    }

    /// The table under a key, as in [gauge].
    std::optional<TomlTable> table(std::string_view key);
    /// The tables of an array of tables, as in [[piece]].
    std::vector<TomlTable> tables(std::string_view key);
    /// The tables under a key with their names in the order of the file, as in [yarn.MC].
    std::vector<std::pair<std::string, TomlTable>> named_tables(std::string_view key);

    /// The values of a key: itself, or those of its list. `entries` is how many a list must have.
    std::vector<const TomlValue*> values(std::string_view key, std::optional<std::size_t> entries);

    std::optional<std::string> text_of(std::string_view key, const TomlValue& value,
                                       std::size_t most_bytes = longest_text);
    /// The value of a key as it stands; nothing when it is not there.
    [[nodiscard]] const TomlValue* value(std::string_view key) { return find(key); }
    std::optional<std::int64_t> whole_of(std::string_view key, const TomlValue& value,
                                         std::int64_t least, std::int64_t most);
    template <class T>
    std::optional<T> parsed_of(std::string_view key, const TomlValue& value, ReadText<T> read) {
        const auto written = text_of(key, value);
        if (!written) return std::nullopt;
        const auto result = read(*written);
        if (result) return *result;
        fail_in_text(key, value, result.problem());
        return std::nullopt;
    }

    /// A problem at the value of a key, or at the table when the key is missing or empty.
    void fail(std::string_view key, std::string_view what, std::string expected,
              std::string remedy = {});
    /// A problem with its column inside the text of `value`.
    void fail_in_text(std::string_view key, const TomlValue& value, const base::Problem& given);
    /// Taken back by finish() where a key nobody asked for is this one with a slip in it.
    void missing(std::string_view key, std::string expected, std::string remedy = {});

    /// Where the table begins.
    [[nodiscard]] base::Place place() const { return source_->place(offset_); }

    /// The table's place under `name`, and those of its values under "name.key".
    void note_places(const std::string& name, std::map<std::string, base::Place>& places) const;

    /// Reports the keys that nobody asked for.
    void finish();

  private:
    [[nodiscard]] const TomlEntry* find_entry(std::string_view key) const;
    const TomlValue* find(std::string_view key);
    void fail_at(std::size_t offset, std::string_view key, std::string_view what,
                 std::string expected, std::string remedy);
    void wrong_kind(std::string_view key, const TomlValue& value, std::string expected);
    std::optional<std::size_t> word_of(std::string_view key, const std::vector<std::string>& words);

    const TomlValue::Table* entries_;
    std::size_t offset_;
    const SourceText* source_;
    ProblemList* problems_;
    std::vector<std::string> known_;
    struct Missing {
        std::string key;
        base::Problem problem;
    };
    std::vector<Missing> missing_;
};

}  // namespace skeinfall::exchange
