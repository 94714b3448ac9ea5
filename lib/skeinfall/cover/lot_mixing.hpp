#pragma once
/// \file
/// Making two or more dye lots look intended: which parts to blend, how much to keep back, and how
/// to alternate without cutting. No plan is verified until a washed swatch of it was looked at in
/// daylight.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/cover/cover.hpp"

namespace skeinfall::cover {

/// Whether yarns worked in turn for so many rows each (2, 2: two rows of one, two of the other) can
/// be carried without cutting. In the round always; worked flat a yarn waits at the right edge only
/// after an even number of rows worked by the others.
[[nodiscard]] bool carried_without_cutting(const std::vector<std::int64_t>& rows_each,
                                           project::Worked worked);

/// How much of the first lot a fade keeps back: the rows to alternate over a height (worked flat
/// whole turns of two rows each), and of those the rows that the first lot works.
struct Fade {
    std::int64_t rows = 0;
    std::int64_t rows_of_first = 0;
    units::Length kept_back{};  ///< of the first lot
};
[[nodiscard]] Fade fade_over(units::Length height, units::RowGauge gauge,
                             units::Length yarn_of_a_row, project::Worked worked);

/// "The beginning in one lot, the rest alternated one to one": it works when the rest needs at most
/// twice the other lot, and the first lot gives the beginning and its half of the rest.
struct Alternation {
    bool works = false;
    units::Length first_needed{};
    units::Length other_needed{};
};
[[nodiscard]] Alternation beginning_in_one(units::Length beginning, units::Length rest,
                                           units::Length first_lot, units::Length other_lot);

/// A part of a make that could be worked in both lots by turns.
struct BlendPart {
    std::string name;
    units::Length yarn{};
};

/// The fewest parts (then the least yarn) to alternate so that the first lot lasts: each gives half
/// its yarn to the other lot, so together they need at least twice the shortage. Parts with the
/// same group name (two sleeves) go together, so that matching parts match. Nothing when even all
/// of them do not suffice.
struct Blend {
    std::vector<std::size_t> parts;
    units::Length moved{};  ///< yarn that the other lot gives
};
[[nodiscard]] std::optional<Blend> smallest_blend(const std::vector<BlendPart>& parts,
                                                  units::Length shortage);

/// Groups of parts above which not every set is tried.
inline constexpr std::size_t blend_parts_at_most = 20;

/// For a role that must come from one lot and cannot: the fewest parts to blend, the beginning in
/// one lot and the rest by turns, and one faded change, as far as the two richest lots permit them.
/// Empty when these do not suffice together.
[[nodiscard]] std::vector<MixingPlan> mixing_plan(const project::Project& project,
                                                  const need::MakeNeed& need, const RoleCover& role,
                                                  const Rules& rules);

}  // namespace skeinfall::cover
