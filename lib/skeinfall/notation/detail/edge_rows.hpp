#pragma once
/// \file
/// Rows told by what happens at their edges. Inner part of the notation.

#include <optional>
#include <vector>

#include "skeinfall/notation/detail/tree.hpp"

namespace skeinfall::notation {

/// "Bind off 6 sts at beg of next 2 rows", "dec 1 st at each end of every other row 4 times".
struct EdgeRows {
    bool bind = false;  ///< bound off where the row begins; else changed at both ends
    bool more = false;  ///< increased
    long count = 0;     ///< stitches, at each end
    long rows = 1;      ///< so many rows bind off
    long period = 1;    ///< a change every so many rows ...
    long times = 1;     ///< ... so often
    std::vector<Declared> declared;
};

/// Nothing when the tokens say anything else or more.
[[nodiscard]] std::optional<EdgeRows> edge_rows_of(const std::vector<Token>& tokens);

}  // namespace skeinfall::notation
