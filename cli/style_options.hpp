#pragma once
/// \file
/// How a materials section is worded and printed; materials and report share these options.

#include <vector>

#include "skeinfall/report/materials.hpp"
#include "skeinfall/report/page.hpp"

#include "command.hpp"

namespace skeinfall::cli {

/// --units, --terms, --decimal, --language.
[[nodiscard]] std::vector<Option> style_options();
[[nodiscard]] report::Style style_of(const Values& values);

/// --paper.
[[nodiscard]] Option paper_option();
[[nodiscard]] report::Paper paper_of(const Values& values);

}  // namespace skeinfall::cli
