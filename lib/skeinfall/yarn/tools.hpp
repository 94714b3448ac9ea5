#pragma once
/// \file
/// Hook and needle sizes. The millimetre is the size; letters and numbers are only labels of it.

#include <optional>
#include <string>

#include "skeinfall/units/quantity.hpp"

namespace skeinfall::yarn {

/// "I-9" for 5.5 mm (regular hooks, lib/data/hooks.csv); nothing when the table has no US label
/// for exactly this diameter. Steel hooks are left out: their numbers mean different sizes in
/// different charts.
[[nodiscard]] std::optional<std::string> us_hook_label(units::Length diameter);

/// "8" for 5 mm needles (lib/data/needles.csv).
[[nodiscard]] std::optional<std::string> us_needle_label(units::Length diameter);

/// "6.5 mm (US K-10 1/2)"; without the bracket when there is no label.
[[nodiscard]] std::string hook_text(units::Length diameter);
[[nodiscard]] std::string needle_text(units::Length diameter);

}  // namespace skeinfall::yarn
