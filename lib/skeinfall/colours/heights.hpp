#pragma once
/// \file
/// Heights of stripes in whole rows that differ from the wanted ones as little as need be: an exact
/// search through every set of heights, those that differ least first.

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "skeinfall/units/quantity.hpp"

namespace skeinfall::colours {

/// One stripe whose height is to be chosen.
struct Band {
    std::size_t colour = 0;
    std::int64_t wanted = 1;   ///< rows
    std::int64_t at_most = 0;  ///< rows; 0: no bound
};

struct HeightRules {
    std::vector<Band> bands;
    /// Heights are whole multiples of it, and at least one of them: 2 keeps every change of flat
    /// work at one edge.
    std::int64_t step = 1;
    /// All heights together, rows; nothing: that may change too.
    std::optional<std::int64_t> sum;
    /// Of each colour all its heights together, where a bound is known; empty: none is.
    std::vector<std::int64_t> colour_at_most = {};
};

/// Heights of each band, rows.
using Heights = std::vector<std::int64_t>;

/// By how many rows heights differ from the wanted ones, all bands added up. A row that goes from
/// one band to another counts twice.
[[nodiscard]] std::int64_t rows_changed(const HeightRules& rules, const Heights& heights);

/// The most rows by which one band differs.
[[nodiscard]] std::int64_t most_changed(const HeightRules& rules, const Heights& heights);

/// Every set of heights that differs by just so many rows, in the order of its first band, then of
/// its second and so on.
struct Level {
    std::vector<Heights> heights;
    bool complete = true;  ///< false: the search was cut short
};
/// `may_do` lets heights in; `steps` are used up, and when none is left the level is not complete.
[[nodiscard]] Level heights_that_differ_by(const HeightRules& rules, std::int64_t rows,
                                           const std::function<bool(const Heights&)>& may_do,
                                           std::size_t& steps);

/// No heights differ by more rows when their sum is kept; without a sum, a bound that is ours:
/// every band up to twice its wanted height and four rows.
[[nodiscard]] std::int64_t farthest(const HeightRules& rules);

/// Of the heights that `accept` takes those that differ least, then those whose most changed band
/// differs least, then the first in order. `proven`: nothing nearer was passed over unseen.
struct Nearest {
    Heights heights;
    bool proven = true;
};
[[nodiscard]] std::optional<Nearest> nearest_heights(
    const HeightRules& rules, const std::function<bool(const Heights&)>& accept,
    std::size_t steps_at_most);

/// Whole rows in the shares of `parts`, at least one `step` each, that add up to `rows`: each gets
/// the whole steps of its share, what is left goes to the largest rests, the first of equals.
/// Nothing when there are fewer steps than parts.
[[nodiscard]] std::optional<Heights> in_shares(const std::vector<units::Ratio>& parts,
                                               std::int64_t rows, std::int64_t step);

}  // namespace skeinfall::colours
