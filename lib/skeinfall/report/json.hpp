#pragma once
/// \file
/// Answers as JSON: stable keys in a fixed order, full digits, units in the key names. For other
/// programs; see the key lists below. Every text ends with a newline.

#include <string>
#include <vector>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/joins/plan.hpp"
#include "skeinfall/materials/section.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::report {

/// {title, size, roles: [{role, need_m, spread_m, found, parts: [{part, length_m}], causes:
/// [...]}]}
[[nodiscard]] std::string need_json(const project::Project& project, const need::MakeNeed& make);

/// {title, size, verdict, roles: [{role, verdict, chance, needed_m, supply_m, spread_m, tails_m,
/// spare_m, to_be_sure_m, proven, chosen: [id], next: [text], notes: [text], skeins: [...]}]}
[[nodiscard]] std::string cover_json(const project::Project& project, const need::MakeNeed& make,
                                     const cover::MakeCover& cover);

/// {title, joins, finishes, roles: [{role, finishes, missing_m, stretches: [{skein, from, to,
/// ...}]}]}
[[nodiscard]] std::string joins_json(const project::Project& project,
                                     const std::vector<joins::JoinPlan>& plans);

[[nodiscard]] std::string materials_json(const materials::Section& section);

[[nodiscard]] std::string stash_json(const std::vector<stash::Skein>& skeins);

}  // namespace skeinfall::report
