#pragma once
/// \file
/// Knitting: words that a page writes in another form than the rules know, and pieces it names only
/// later. Inner part of the notation.

#include <vector>

#include "skeinfall/notation/detail/lines.hpp"

namespace skeinfall::notation {

/// "CO: 44 sts", "knit 2, purl 2, rib", "K2, P1, K2, P1 to end": as the rules know them.
void settle_written_forms(Line& line);

/// "Work as back." behind the only piece, which has no name: that piece is the back.
void name_only_piece(std::vector<Line>& lines);

}  // namespace skeinfall::notation
