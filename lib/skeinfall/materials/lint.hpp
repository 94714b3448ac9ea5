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

/// Totals of the section that grow out of line from size to size.
[[nodiscard]] project::Findings sizes_out_of_line(const project::Project& project,
                                                  const Section& section);

/// What a project's own totals say out of line from size to size, before anything is printed.
/// Throws what need::need_of() throws.
[[nodiscard]] project::Findings graded(const project::Project& project);

/// The first line of a section, without marks of Markdown.
[[nodiscard]] std::string title_of(std::string_view text);

/// Whether a text looks like a materials section: some line names a yarn or piece and gives a
/// length.
[[nodiscard]] bool looks_like_section(std::string_view text);

}  // namespace skeinfall::materials
