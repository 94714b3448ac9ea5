#pragma once
/// \file
/// Lines after the rows that take yarn and are no rows: fringe, pompoms, an edging told in a
/// sentence. Their words are `finish_words.csv`.

#include <string_view>

#include "skeinfall/notation/document.hpp"

namespace skeinfall::notation {

/// Whether a sentence of it makes something: "Cut 112 strands for fringe", "Work crab stitch round
/// the edge", "Line the bag". Sewing up, weaving in and blocking take none to speak of.
[[nodiscard]] bool finish_takes_yarn(std::string_view text);

/// Marks the lines below the first row of `document` that do as work of the finish.
void mark_finish(Document& document);

}  // namespace skeinfall::notation
