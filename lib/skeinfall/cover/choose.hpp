#pragma once
/// \file
/// The exact choice of skeins for one role. Everything here is in whole quanta (decimetres), so
/// that nothing is decided by rounding noise.

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace skeinfall::cover {

/// A length in decimetres, rounded once where a measured length becomes a planned one: needs up,
/// supplies down.
using Quanta = std::int64_t;

struct Item {
    Quanta usable = 0;  ///< length less its tails, > 0
    bool part = false;
    std::size_t lot = 0;  ///< skeins with the same number match
    std::string id;       ///< last tie-break
};

/// What a choice costs; compared member by member from the top.
struct Cost {
    std::size_t extra_lots = 0;
    std::size_t whole_opened = 0;
    std::size_t pieces = 0;
    Quanta opened = 0;
    auto operator<=>(const Cost&) const = default;
};

struct Choice {
    bool covers = false;
    bool proven = true;  ///< false when the search was cut short
    Cost cost;
    std::vector<std::size_t> items;  ///< indices, ascending
};

enum class Lots { one, fewest, free };

/// The cheapest set of items whose usable lengths reach `need` (> 0), within one lot, over as few
/// lots as possible, or without regard for lots. When nothing reaches it, `covers` is false and
/// `items` is the richest permitted set. Among equals the richer lots go first, then those with the
/// least id.
[[nodiscard]] Choice choose(const std::vector<Item>& items, Quanta need, Lots lots);

/// Sets of lots that are looked at before a choice is called not proven.
inline constexpr std::size_t lot_sets_at_most = 2000;

/// Cells of a table of sums (skeins chosen x decimetres to spare), and steps of filling all the
/// tables of one choice; above either the longest skeins are taken without a search for the
/// closest fit, and the choice is called not proven. That bounds memory to some 100 MB and time to
/// about a second.
inline constexpr Quanta table_cells_at_most = 24'000'000;
inline constexpr Quanta table_work_at_most = 1'000'000'000;

}  // namespace skeinfall::cover
