#pragma once
/// \file
/// A pattern that was read, as a project file to go on with.

#include <string>

#include "skeinfall/notation/document.hpp"

namespace skeinfall::exchange {

/// The text of a project file with the rows of the pattern, its gauge and its tools. What the
/// pattern does not say stands there with a remark on what to write.
[[nodiscard]] std::string project_of_pattern(const notation::Document& document);

}  // namespace skeinfall::exchange
