#pragma once
/// \file
/// The need as tables: over the sizes of a graded project, and along the rows of one size.

#include <string>

#include "skeinfall/need/sizes.hpp"
#include "skeinfall/need/used.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::report {

/// The grid of sizes piece by piece (width, length, rows, stitches), then each yarn with what is
/// the same in every size and what grows; sizes that are out of line are named.
[[nodiscard]] std::string sizes_text(const project::Project& project, const need::SizesNeed& need);

/// {title, sizes: [text], pieces: [{piece, sizes: [{size, made, width_cm, length_cm, rows,
/// stitches_first, stitches_widest}]}], roles: [{role, sizes: [{size, need_m, spread_m, fixed_m,
/// scaling_m, printed_m, found, growth}], parts: [{part, fixed, length_m: [number]}]}]}; growth is
/// "falls" or "leaps" where a size is out of line, else null.
[[nodiscard]] std::string sizes_json(const project::Project& project, const need::SizesNeed& need);

enum class UsedAfter { tenths, rows };

/// Where the work stands after each tenth of the yarn, or after each row.
[[nodiscard]] std::string used_text(const project::Project& project, const need::MakeNeed& make,
                                    UsedAfter after);

/// {title, size, roles: [{role, length_m, used: [{after, piece, copy, row, used_m, left_m,
/// share}]}]}; piece is null for what belongs to none.
[[nodiscard]] std::string used_json(const project::Project& project, const need::MakeNeed& make,
                                    UsedAfter after);

}  // namespace skeinfall::report
