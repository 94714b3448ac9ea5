#pragma once
/// \file
/// Whether totals grow from size to size as sizes do.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/units/quantity.hpp"

namespace skeinfall::materials {

enum class Step { falls, leaps };

/// A size (index from 1) that is out of line with the one before it.
struct OutOfLine {
    std::size_t size = 0;
    Step step = Step::falls;
    bool operator==(const OutOfLine&) const = default;
};

/// Sizes whose total is below the one before; and, from four sizes on, those that grow by more
/// than two and a half times the usual (median) step and by a twentieth of the total besides (a
/// judgement, not published).
[[nodiscard]] std::vector<OutOfLine> out_of_line(const std::vector<units::Length>& totals);

/// "size XL takes less CC1 than size L".
[[nodiscard]] std::string words_of(Step step, const std::string& role, const std::string& before,
                                   const std::string& size);

inline constexpr std::string_view look_at_the_rows = "Look at the rows and stitches of that size.";

}  // namespace skeinfall::materials
