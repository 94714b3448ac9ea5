#pragma once
/// \file
/// Where rows begin within a line. Inner part of the notation.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "skeinfall/notation/detail/tokens.hpp"

namespace skeinfall::notation {

/// Where another row begins in the same line: "... across. Row 2: ch 1"; 0 when none does.
[[nodiscard]] std::size_t next_row_at(const std::vector<Token>& tokens);

/// "Row 12: ..." or "Rnd 12: ..." and nothing more before the colon.
struct PlainRow {
    std::int64_t number = 0;
    bool round = false;
    std::string_view body;
};
[[nodiscard]] std::optional<PlainRow> plain_row(std::string_view text);

}  // namespace skeinfall::notation
