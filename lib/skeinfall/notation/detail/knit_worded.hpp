#pragma once
/// \file
/// Knitting: places, holders, edges and repeats in makers' own words, as the other rules know
/// them. Inner part of the notation.

#include <vector>

#include "skeinfall/notation/detail/lines.hpp"

namespace skeinfall::notation {

void settle_worded(Line& line);
void settle_taken_up(Line& line);

/// Lines that a page cut before words which begin no sentence: "K 1 round" and "even.", "Round"
/// and "6: k2", "five" and "more times."
void join_cut_words(std::vector<Line>& lines);

}  // namespace skeinfall::notation
