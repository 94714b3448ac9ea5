#pragma once
/// \file
/// Words in Markdown.

#include <string>

namespace skeinfall::report {

/// Text that stands for itself in CommonMark, as an item of a list, a heading or a cell.
[[nodiscard]] std::string markdown_text(const std::string& text);

}  // namespace skeinfall::report
