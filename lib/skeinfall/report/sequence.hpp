#pragma once
/// \file
/// A colour-changing yarn planned before the first stitch, and motifs in each colour as often as
/// its yarn allows: as text and as JSON.

#include <string>

#include "skeinfall/colours/each.hpp"
#include "skeinfall/colours/sequence.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::report {

[[nodiscard]] std::string sequence_text(const project::Project& project,
                                        const colours::SequencePlan& plan);
/// {title, yarn, repeat_m, repeat_spread_m, measured, runs: [{colour, length_m}], pieces: [{piece,
/// copy, begins_with, into_it_m, wind_off_m, known_rows, longest_known_rows, bands: [{colour,
/// from_row, to_row, height_m}], cut_each_repeat_m, cut_in_all_m, cut_joins, pools, pattern,
/// differ_by}], wound_off_m, wind_off_at_most_m, takes_m}.
[[nodiscard]] std::string sequence_json(const project::Project& project,
                                        const colours::SequencePlan& plan);

/// `saved`: the project is kept so, and need not be written by hand.
[[nodiscard]] std::string each_text(const project::Project& project,
                                    const colours::EachColour& each, bool saved = false);
/// {title, piece, wanted, together, enough, short_for_parts, colours: [{role, count, chance,
/// left_m}]}.
[[nodiscard]] std::string each_json(const project::Project& project,
                                    const colours::EachColour& each);

}  // namespace skeinfall::report
