#pragma once
/// \file
/// What the page needs to answer beside the work, as one JSON text: all that is judged is judged
/// here. Inner header of report.

#include <cstddef>
#include <string>
#include <vector>

#include "skeinfall/report/page.hpp"

namespace skeinfall::report {

/// Readings a page can take in of one yarn; beyond them it names the command.
inline constexpr int page_readings_at_most = 60;

/// Steps of one yarn that a page holds, rows alike counted once; with more it takes no weighings.
inline constexpr std::size_t page_steps_at_most = 20'000;

/// The yarns with more.
[[nodiscard]] std::vector<std::string> yarns_without_weighings(const MakePage& page);

/// {file, size, confidence, confidence_option, scale: {step_g, text, unit, one_g, tare_g,
/// tare_text}, one_sided: [t], two_sided: [t], yarns: [{id, name, rate, worth, variance, tail_g,
/// link, groups: [{name, word, piece, copy}], steps: [[group, kind, first row, rows, metres each,
/// name]], skeins: [{id, name, g, most_g, variance}]}]}.
///
/// `rate`, `worth` and `variance` are joins::prior_of() in grams and metres: mass per planned
/// metre, the planned metres it weighs as much as, and the row-to-row variance per planned metre.
/// `link` are the planned metres between two places where yarn may be joined, half of which is cut
/// off at each join, on average. `one_sided` and `two_sided` are the deviations of the confidence
/// after so many increments. kind is 0 for a row, 1 for what is no row (foundation, finish), 2 for
/// a strand carried up. A skein's `g` is what is left of it when it is begun, `variance` what of it
/// is not known (joins::with_more()), `most_g` more than it can weigh even when damp. Yarns whose
/// length per mass is not known, or with too many steps, are left out.
[[nodiscard]] std::string work_tables(const MakePage& page);

}  // namespace skeinfall::report
