#pragma once
/// \file
/// A materials section as words, plain or as Markdown (CommonMark). Text from the user is never
/// markup: in Markdown its special characters are escaped.

#include <string>

#include "skeinfall/materials/section.hpp"

namespace skeinfall::report {

enum class Markup { plain, markdown };

[[nodiscard]] std::string materials_text(const materials::Section& section, Markup markup);

}  // namespace skeinfall::report
