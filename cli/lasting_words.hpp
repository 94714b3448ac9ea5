#pragma once
/// \file
/// How makers count what they have worked and what is still to come.

#include <cstdint>
#include <optional>
#include <string>

#include "skeinfall/units/quantity.hpp"

namespace skeinfall::cli {

inline constexpr std::int64_t most_units = 1'000'000;

/// "24 rows", "1.35 repeats", "135 %".
struct Count {
    units::Ratio count{};
    std::string word;  ///< "row"; "%" for a share of what was taken
};

/// Work that goes by its height, "cm" or "in".
[[nodiscard]] bool is_height(const std::string& word);
/// Work that goes by its area, "sq cm" or "sq in".
[[nodiscard]] bool is_area(const std::string& word);
[[nodiscard]] std::string plural(const std::string& word);

/// "24 rows", "24 more rows", "135 %"; nothing for yarn.
[[nodiscard]] std::optional<Count> count_of(const std::string& text);
/// "24 cm" of work, where lengths are no yarn: in inches where it is said in inches or feet, and in
/// the unit of what is worked where that is known.
[[nodiscard]] std::optional<Count> height_of(const std::string& text, const std::string& word = {});
/// Work counted, or measured by its height or its area: "24 rows", "12 cm", "812 sq in".
[[nodiscard]] std::optional<Count> work_of(const std::string& text);
/// What is still to come of a piece that is measured by its area: "812 sq in", "until 74 x 74 in".
[[nodiscard]] std::optional<Count> area_to_come(const std::string& text, const std::string& word,
                                                units::Ratio done);
/// "5 g" of "a border of 5 g" and "5 g for the border".
[[nodiscard]] std::string without_name_of_finish(const std::string& part);
/// "77 %", "30 of 50 rows" or "three quarters" of --done.
[[nodiscard]] units::Ratio share_done(const std::string& text);

}  // namespace skeinfall::cli
