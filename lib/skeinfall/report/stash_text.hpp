#pragma once
/// \file
/// What happened to skeins, and totals, as text for a terminal.

#include <string>
#include <vector>

#include "skeinfall/stash/find.hpp"
#include "skeinfall/stash/movement.hpp"
#include "skeinfall/stash/skein.hpp"
#include "skeinfall/stash/work_reading.hpp"

namespace skeinfall::report {

/// "used in Lantern cowl, 20 g of s1 (2024-05-31)"
[[nodiscard]] std::string movement_text(const stash::Movement& movement);

/// "s1: 71 yd (65 m) left", or why that is not known.
[[nodiscard]] std::string left_text(const stash::Skein& skein);

/// "60 m for Lantern cowl (MC)"; empty when nothing is set aside.
[[nodiscard]] std::string set_aside_text(const stash::Skein& skein);

/// "row 40 of sleeve 2: 62 g of gw-01 (2024-05-31)"
[[nodiscard]] std::string reading_text(const stash::WorkReading& reading);

/// One line an event.
[[nodiscard]] std::string history_text(const std::vector<stash::Event>& events);

/// One line a yarn.
[[nodiscard]] std::string totals_text(const std::vector<stash::YarnTotal>& totals);

}  // namespace skeinfall::report
