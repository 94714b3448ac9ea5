#pragma once
/// \file
/// Counts that come in whole repeats, in the trade's words: "multiple of 6 + 5, add 2 for the
/// foundation", "rows 3 to 6".

#include <optional>
#include <string>
#include <string_view>

#include "skeinfall/base/result.hpp"

namespace skeinfall::project {

/// n x repeat + plus stitches (or rows), n from 1; a crochet foundation has `foundation` chains
/// more than stitches, where somebody says so.
struct Multiple {
    long repeat = 1;
    long plus = 0;
    std::optional<long> foundation;

    bool operator==(const Multiple&) const = default;

    [[nodiscard]] bool fits(long count) const { return count >= least() && over(count) == 0; }
    /// One repeat and what stands outside it.
    [[nodiscard]] long least() const { return repeat + plus; }
    [[nodiscard]] long with(long repeats) const { return repeats * repeat + plus; }
    /// Whole repeats in it; 0 below least().
    [[nodiscard]] long repeats_in(long count) const {
        return count < least() ? 0 : (count - plus) / repeat;
    }
    /// The largest count that fits and is not above this one; nothing below least().
    [[nodiscard]] std::optional<long> at_most(long count) const;
    /// The smallest count that fits and is not below this one.
    [[nodiscard]] long at_least(long count) const;

  private:
    [[nodiscard]] long over(long count) const { return (count - plus) % repeat; }
};

/// The largest repeat, and the most beside it, that a multiple may have.
inline constexpr long largest_multiple = 100'000;

/// "3 + 1", "12 + 3 and 2 for the turning chain", "multiple of 6 plus 5, add 2", "8".
[[nodiscard]] base::Result<Multiple> parse_multiple(std::string_view text);

/// The same for rows, and "rows 3 to 6": rows 3 to 6 are repeated after rows 1 and 2.
[[nodiscard]] base::Result<Multiple> parse_row_multiple(std::string_view text);

}  // namespace skeinfall::project
