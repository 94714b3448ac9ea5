#pragma once
/// \file
/// A pattern that was read, as a project file to go on with.

#include <string>

#include "skeinfall/notation/document.hpp"

namespace skeinfall::exchange {

/// The text of a project file with the rows of the pattern, its gauge and its tools. What the
/// pattern does not say stands there with a remark on what to write.
[[nodiscard]] std::string project_of_pattern(const notation::Document& document);

/// Marks lines as such that may hold work: "Make 6." where nothing else counts the pieces, and
/// strands held together where no total holds their yarn.
void mark_what_is_open(notation::Document& document);

}  // namespace skeinfall::exchange
