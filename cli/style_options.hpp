#pragma once
/// \file
/// How a report is worded and printed. materials and report have options for it; the other commands
/// follow the settings.

#include <vector>

#include "skeinfall/report/materials.hpp"
#include "skeinfall/report/page.hpp"

#include "command.hpp"

namespace skeinfall::cli {

/// --units, --terms, --decimal, --language.
[[nodiscard]] std::vector<Option> style_options();
[[nodiscard]] report::Style style_of(const Values& values);

/// How numbers are written: --units and --decimal, else the settings.
[[nodiscard]] units::NumberStyle number_style_of(const Values& values);

/// --paper.
[[nodiscard]] Option paper_option();
[[nodiscard]] report::Paper paper_of(const Values& values);

}  // namespace skeinfall::cli
