#pragma once
/// \file
/// What stands before all figures of a page. It draws nothing. Inner header of report.

#include <string>
#include <vector>

#include "skeinfall/report/page.hpp"

namespace skeinfall::report {

/// Why the verdict is so, in a line, by the yarn that decides it: "It takes 338 yd (309 m); the
/// skeins hold 400 yd (365 m), 60 yd (55 m) to spare." Empty for a make without yarn.
[[nodiscard]] std::string why_of(const MakePage& page);
/// What would settle a verdict that is open, else how to begin.
[[nodiscard]] std::vector<std::string> next_of(const MakePage& page);

}  // namespace skeinfall::report
