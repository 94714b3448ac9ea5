#pragma once
/// \file
/// Crochet: rows from which on another hook is used. Inner part of the notation.

#include <string>

#include "skeinfall/notation/document.hpp"

namespace skeinfall::notation {

/// "Switch to 8 mm hook.", "with a smaller hook": told at the next row, as neither the gauge nor
/// the yarn of a stitch is that of the rows before.
void tell_hooks(Document& document, const std::string& file);

}  // namespace skeinfall::notation
