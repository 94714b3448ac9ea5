#pragma once
/// \file
/// Full stops and hyphens of knitting, as magazines and old leaflets set them. Inner part of the
/// notation.

#include "skeinfall/notation/detail/lines.hpp"

namespace skeinfall::notation {

/// "K2 tog. twice", "m.c.", "sl 1-k1-psso": the same words without signs that end no sentence.
void settle_knit_signs(Line& line);

}  // namespace skeinfall::notation
