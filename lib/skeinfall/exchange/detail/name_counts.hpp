#pragma once
/// \file
/// Counts in the name of a piece that are said by a range, a list or a figure: "panels A to E",
/// "sleeve 1 and 2", "6 (six) cloths", "48no squares".

#include <cstdint>
#include <optional>
#include <string>

namespace skeinfall::exchange::detail {

/// "bonnet" of "bonnet 3-6 months": the figures of an age count nothing.
[[nodiscard]] std::string without_age(const std::string& name);

/// Things that a name numbers or letters one by one.
struct NamedSeries {
    std::int64_t count = 0;  ///< 0 where it may be either of its ends: "2-3 hats"
    std::string of;          ///< the name without it
};
/// "A to E", "I-V", "1/2/3", "first and second", "panel A, panel B" anywhere in a name; nothing
/// where the figures are of a size, an age or a measure.
[[nodiscard]] std::optional<NamedSeries> series_in(const std::string& name);

/// A figure that is neither of a size, an age, a year, a measure or a yarn count, nor beside a word
/// that it numbers: it may count.
[[nodiscard]] bool holds_unread_figure(const std::string& name);

/// "3", "x3", "three times", "all 5", "make 4" in place of a name.
[[nodiscard]] std::optional<std::int64_t> count_alone(const std::string& name);

/// "6 (six) cloths", "all five cloths", "48no cloth", "1 dz cloths" with the count in the usual
/// words before the name; as it stands where there is none of these.
[[nodiscard]] std::string count_plainly(const std::string& text);

}  // namespace skeinfall::exchange::detail
