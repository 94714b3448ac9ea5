#pragma once
/// \file
/// Rows that are told rather than written: "knit every 6th and 7th st together". Inner part of the
/// notation.

#include "skeinfall/notation/detail/lines.hpp"

namespace skeinfall::notation {

/// Such a row as the grammar knows it.
void settle_spoken(Line& line);

}  // namespace skeinfall::notation
