#pragma once
/// \file
/// Knitting: pages that came without their line ends, rows repeated between stars that stand in
/// different lines, rows called again by their names. Inner part of the notation.

#include <vector>

#include "skeinfall/notation/detail/lines.hpp"

namespace skeinfall::notation {

/// "... GAUGE: 5 sts = 1 inch BACK: Cast on 53 sts. ... FRONT: Work same as back.": a line each.
void part_pages(std::vector<Line>& lines);

/// "Row 2: *k9, p12, k9", "Row 3: k*", "Rep from * to * until ...": the last 2 rows again.
void repeat_between_stars(std::vector<Line>& lines);

/// "Dec rnd 2." alone behind "Dec rnd 2: k1, k2tog, ...": that row again.
void call_named_rows(std::vector<Line>& lines);

}  // namespace skeinfall::notation
