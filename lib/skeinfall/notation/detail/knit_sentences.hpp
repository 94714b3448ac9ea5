#pragma once
/// \file
/// Knitting: sentences of blogs, leaflets and old books as the other rules know them, and names of
/// pieces that end with a full stop. Inner part of the notation.

#include <vector>

#include "skeinfall/notation/detail/lines.hpp"

namespace skeinfall::notation {

void settle_sentences_told(Line& line);

/// "Arms. Knit two." and "Muzzle." above a cast-on: headings. "WTS: bring yarn to front, slip
/// next st, ... turn" names a wrap: so it stands in the rows.
void name_told_lines(std::vector<Line>& lines);

}  // namespace skeinfall::notation
