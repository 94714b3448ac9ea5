#pragma once
/// \file
/// Crochet: rows from which on another hook or yarn is used. Inner part of the notation.

#include <string>

#include "skeinfall/notation/document.hpp"

namespace skeinfall::notation {

/// "Switch to 8 mm hook.", "with a smaller hook": told at the next row, as neither the gauge nor
/// the yarn of a stitch is that of the rows before. "Join new colour." where no yarn has a name,
/// too.
void tell_other_tools(Document& document, const std::string& file);

}  // namespace skeinfall::notation
