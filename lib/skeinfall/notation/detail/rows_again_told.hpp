#pragma once
/// \file
/// How often a row is worked, told beside the row itself. Inner part of the notation.

#include "skeinfall/notation/detail/lines.hpp"

namespace skeinfall::notation {

/// "Dc 100 rows.", "sc across (6 rows)", "Row 4: sc across. Repeat 19 more times.", "Rnd 4 (x3):":
/// the same as "for 100 rows" or "Repeat this row 19 more times.", which the other rules know.
void settle_rows_again(Line& line);

/// The same of crochet: "Sc 4 rounds plain", "Work 10 rounds plain (24)".
void settle_plain_rows(Line& line);

}  // namespace skeinfall::notation
