#pragma once
/// \file
/// A TOML text as a tree of plain values that know where they stand.

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "skeinfall/exchange/source_text.hpp"

namespace skeinfall::exchange {

struct TomlEntry;

struct TomlValue {
    using List = std::vector<TomlValue>;
    using Table = std::vector<TomlEntry>;  ///< in the order of the file

    /// monostate stands for dates and times, and for what is nested too deep to mean anything.
    std::variant<std::monostate, bool, std::int64_t, double, std::string, List, Table> held;
    std::size_t offset = 0;  ///< of its first byte

    /// "a text", "a whole number", "a table" ...
    [[nodiscard]] std::string_view kind() const;
};

struct TomlEntry {
    std::string key;
    std::size_t offset = 0;  ///< of the key
    TomlValue value;
};

/// The entry of this key, or null where there is none or `table` is no table.
[[nodiscard]] const TomlEntry* entry_of(const TomlValue& table, std::string_view key);

/// The root table. Throws base::InputError with one problem when the text is not UTF-8 or not
/// TOML (TOML stops at its first syntax error).
[[nodiscard]] TomlValue parse_toml(const SourceText& source);

/// Offset behind the value that begins at `at` of a text that is TOML.
[[nodiscard]] std::size_t end_of_toml_value(std::string_view text, std::size_t at);

}  // namespace skeinfall::exchange
