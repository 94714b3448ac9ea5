#pragma once
/// \file
/// Words of leaflets and old magazines as the other rules know them. Inner part of the notation.

#include "skeinfall/notation/detail/lines.hpp"

namespace skeinfall::notation {

/// "wl.fwd.", "P S S O", "Needle 1" within a row: the same words in their usual form.
void settle_leaflets(Line& line);

/// "14 sts remain" before "Knit across heel sts, pick up ...": those 14. `heel` keeps the count.
void number_heel(Line& line, std::string& heel);

/// "Rep these 2 rows 5 times more, then first row once more": two sentences.
void part_rows_behind(Line& line);

}  // namespace skeinfall::notation
