#pragma once
/// \file
/// Counts that come in whole repeats, in the trade's words: "multiple of 6 + 5, add 2 for the
/// foundation", "rows 3 to 6".

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "skeinfall/base/result.hpp"

namespace skeinfall::project {

/// n x repeat + plus stitches (or rows), n from 1; a crochet foundation has `foundation` chains
/// more than stitches, where somebody says so.
struct Multiple {
    std::int64_t repeat = 1;
    std::int64_t plus = 0;
    std::optional<std::int64_t> foundation;

    bool operator==(const Multiple&) const = default;

    [[nodiscard]] bool fits(std::int64_t count) const {
        return count >= least() && over(count) == 0;
    }
    /// One repeat and what stands outside it.
    [[nodiscard]] std::int64_t least() const { return repeat + plus; }
    [[nodiscard]] std::int64_t with(std::int64_t repeats) const { return repeats * repeat + plus; }
    /// Whole repeats in it; 0 below least().
    [[nodiscard]] std::int64_t repeats_in(std::int64_t count) const {
        return count < least() ? 0 : (count - plus) / repeat;
    }
    /// The largest count that fits and is not above this one; nothing below least().
    [[nodiscard]] std::optional<std::int64_t> at_most(std::int64_t count) const;
    /// The smallest count that fits and is not below this one.
    [[nodiscard]] std::int64_t at_least(std::int64_t count) const;

  private:
    [[nodiscard]] std::int64_t over(std::int64_t count) const { return (count - plus) % repeat; }
};

/// The largest repeat, and the most beside it, that a multiple may have.
inline constexpr std::int64_t largest_multiple = 100'000;

/// "3 + 1", "12 + 3 and 2 for the turning chain", "multiple of 6 plus 5, add 2", "8".
[[nodiscard]] base::Result<Multiple> parse_multiple(std::string_view text);

/// The same for rows, and "rows 3 to 6": rows 3 to 6 are repeated after rows 1 and 2.
[[nodiscard]] base::Result<Multiple> parse_row_multiple(std::string_view text);

}  // namespace skeinfall::project
