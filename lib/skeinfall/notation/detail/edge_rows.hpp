#pragma once
/// \file
/// Rows told by what happens at their edges. Inner part of the notation.

#include <cstdint>
#include <optional>
#include <vector>

#include "skeinfall/notation/detail/schedule.hpp"
#include "skeinfall/notation/detail/tree.hpp"

namespace skeinfall::notation {

/// "Bind off 6 sts at beg of next 2 rows", "dec 1 st at each end of every other row 4 times".
struct EdgeRows {
    enum class What { bind, cast, more, less };
    What what = What::bind;
    std::int64_t count = 0;  ///< stitches, at each end
    bool both = false;       ///< at both ends
    std::vector<Turns> turns;
    std::vector<Declared> declared;
};

/// Nothing when the tokens say anything else or more.
[[nodiscard]] std::optional<EdgeRows> edge_rows_of(const std::vector<Token>& tokens);

/// "inc 1 st at each end of rows 3, 5 and 7" behind a label; `rows` are those it names, none where
/// it is the labelled row itself.
[[nodiscard]] std::optional<EdgeRows> edges_of(const std::vector<Token>& tokens, std::size_t from,
                                               std::vector<std::int64_t>& rows);

/// "Decrease at the shoulder portion": a change of which nothing says how many, where or how often.
[[nodiscard]] bool bare_change(const std::vector<Token>& tokens);

}  // namespace skeinfall::notation
