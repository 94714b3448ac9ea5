#pragma once
/// \file
/// Numbers in the cells of the program's own data tables (lib/data).

#include <charconv>
#include <optional>
#include <string_view>
#include <system_error>

namespace skeinfall::base {

/// The number that a cell is; nothing when it is anything else.
template <class Number>
[[nodiscard]] std::optional<Number> cell_number(std::string_view cell) {
    Number value{};
    const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
    if (error != std::errc() || end != cell.data() + cell.size()) return std::nullopt;
    return value;
}

/// The number that a cell begins with; 0 when it begins with none.
template <class Number>
[[nodiscard]] Number leading_number(std::string_view cell) {
    Number value{};
    std::from_chars(cell.data(), cell.data() + cell.size(), value);
    return value;
}

}  // namespace skeinfall::base
