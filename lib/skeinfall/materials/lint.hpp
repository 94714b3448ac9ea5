#pragma once
/// \file
/// What contradicts itself in a finished materials section, in text or Markdown as skeinfall wrote
/// it and people changed it: figures in two systems that are not one figure, skeins that do not
/// hold their total, lists that do not fit the sizes, colours and classes told two ways, sizes out
/// of line, and what the project file says otherwise.

#include <string>
#include <string_view>

#include "skeinfall/materials/section.hpp"
#include "skeinfall/project/finding.hpp"

namespace skeinfall::materials {

/// Findings in the order of the file, with line and column. `section` is what the project makes,
/// for a comparison with it; nullptr for the text alone. Numbers may have a decimal comma.
[[nodiscard]] project::Findings lint(std::string_view text, const std::string& file,
                                     const Section* section = nullptr);

/// Whether a text looks like a materials section: some line gives a length in two systems.
[[nodiscard]] bool looks_like_section(std::string_view text);

}  // namespace skeinfall::materials
