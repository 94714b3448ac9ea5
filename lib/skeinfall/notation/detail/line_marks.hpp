#pragma once
/// \file
/// Signs of web pages in front of and within a line: tables, pictures, numbers of a list. Inner
/// part of the notation.

#include <cstddef>
#include <string>

#include "skeinfall/notation/detail/lines.hpp"

namespace skeinfall::notation {

/// Takes off small pictures that phones set beside words.
void take_off_pictures(Line& line);

/// "**Materials**", "**Row 1:** sc in ...", "### Leg": what only sets words off on a page.
void take_off_emphasis(Line& line);
/// "1 d.c. into next st., 1 s.s." as "1 dc into next st., 1 ss".
void shorten_dotted(Line& line);

/// "... [8]R2: (2 sc) * 8 [16]R3: ...": a stop before labels that a page ran together.
void part_letter_labels(Line& line);

/// "Rnd.1 4 sc", "2d row", "1ST ROW-12 sc" as labels are mostly written.
void plain_labels(Line& line);

/// "... a magic ring.Round 1: ...": a blank before a label that has none.
void part_labels(Line& line);
/// "13. - 15. unchanged" as "13-15. unchanged".
void close_range(Line& line);

/// "| R1 | 6 sc in ring | 6 |": a row of a table as "R1: 6 sc in ring (6)".
void cells_to_words(Line& line);

/// The length of "2. " or "2) " before a sentence; 0 for others.
[[nodiscard]] std::size_t step_number(const std::string& text);

}  // namespace skeinfall::notation
