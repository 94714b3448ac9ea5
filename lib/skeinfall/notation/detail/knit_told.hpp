#pragma once
/// \file
/// Sentences of blogs and of makers' own pages as the other rules know them. Inner part of the
/// notation.

#include <vector>

#include "skeinfall/notation/detail/lines.hpp"

namespace skeinfall::notation {

/// "Increase in the 2nd stitch of each row", "Bind (cast) off", "48 sts (16-16-16)": the same in
/// the usual words.
void settle_told(Line& line);

/// "Work in rib for 4 in as follows:" above its rows and "Rep rows 1-4.": the length is that of the
/// repeat.
void carry_lengths(std::vector<Line>& lines);

/// "... in rib. Heel: K15, turn": paragraphs that name parts of a piece, one line each.
void part_at_names(std::vector<Line>& lines);

}  // namespace skeinfall::notation
