#pragma once
/// \file
/// Answers as JSON: stable keys in a fixed order, full digits, units in the key names. For other
/// programs; see the key lists below. Every text ends with a newline.

#include <string>
#include <vector>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/cover/remedies.hpp"
#include "skeinfall/materials/section.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::report {

/// {title, size, gauge: {keep, width_ratio, length_ratio, yarn_ratio}, roles: [{role, need_m,
/// spread_m, need_g, found, source, evidence: [{what, source,
/// need_m, relative, weight, off, contradicts}], passed_over: [{what, need_m, relative}],
/// calibration, parts: [{part, length_m}], causes: [{cause, relative, narrowed_by}], notes:
/// [text]}]}; gauge only where the maker's differs from the pattern's, calibration only where
/// swatches told the kinds.
[[nodiscard]] std::string need_json(const project::Project& project, const need::MakeNeed& make);

/// {title, size, verdict, chance, roles: [{role, verdict, chance, confidence, needed_m, supply_m,
/// supply_spread_m, tails_m, wound_off_m, spare_m, to_be_sure_m, label_cancels, proven, chosen:
/// [id], cut: [{id, length_m}], notes: [text], next: [{what, settles}], skeins: [{id, standing,
/// length_m, reason}]}], remedies: [{what, saved_m, verdict, chance}]}; standing is "taken", "fits"
/// or "out".
[[nodiscard]] std::string cover_json(const project::Project& project, const need::MakeNeed& make,
                                     const cover::MakeCover& cover,
                                     const std::vector<cover::Remedy>& remedies);

/// {title, craft, terms, skill, sizes, finished: [{piece, round, sizes: [{count, width_m,
/// length_m}]}], yarns: [{role, name, colour, class, class_name, fibre, put_up_length, put_up_mass,
/// grist_m_per_100g, worked_out_m, total_m, skeins, found, basis, testers: {returns, left_out,
/// least, most, middle, bound, share} or null, one_lot, held_with}], margin, stitches_per_m,
/// rows_per_m, gauge_stitch, hook_mm, needle_mm, notions, care, cautions, credit}; worked_out_m,
/// total_m and skeins have one entry a size, none of them rounded but skeins.
[[nodiscard]] std::string materials_json(const materials::Section& section);

/// {skeins: [{id, yarn, colourway, dye_lot, shade_group, class, fibre: [{fibre, share}],
/// label_length, label_mass, colour_repeat, part, weighed, scale, tare, knots, note, set_aside:
/// [{project, role, amount, length_m}], length_m, spread_m}]}; null for what is not known,
/// set_aside only where something is.
[[nodiscard]] std::string stash_json(const std::vector<stash::Skein>& skeins);

}  // namespace skeinfall::report
