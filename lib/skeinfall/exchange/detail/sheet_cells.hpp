#pragma once
/// \file
/// Single cells of a maker's own sheet: how many skeins, which class, how much.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "skeinfall/yarn/yarn.hpp"

namespace skeinfall::exchange::detail {

inline constexpr std::int64_t most_alike = 1000;

/// Skeins of a row: whole ones, and parts of one where the figure is no whole number.
struct Quantity {
    std::int64_t whole = 1;
    std::int64_t parts = 0;

    [[nodiscard]] std::int64_t all() const { return whole + parts; }
};

/// "3", "3 balls", "1,5", "2 1/2", "2 + 1 part", "half", "x4"; "-" and "none" are no skein.
[[nodiscard]] std::optional<Quantity> quantity_in(std::string_view cell);

/// Length and mass as far as the cell shows them, in any order and in one unit or two. `unit`
/// belongs to a bare figure. Nothing where it shows neither, or something else.
[[nodiscard]] std::optional<yarn::Label> amount_in(std::string_view cell, std::string_view unit);

/// "Worsted (4)", "#4", "4 - Medium" as a class that the stash knows; else the cell as it is.
[[nodiscard]] std::string class_in(const std::string& cell);

}  // namespace skeinfall::exchange::detail
