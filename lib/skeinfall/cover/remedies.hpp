#pragma once
/// \file
/// What a maker can change when the stash does not cover a make, and what each change saves.

#include <cstddef>
#include <vector>

#include "skeinfall/cover/cover.hpp"

namespace skeinfall::cover {

struct Remedy {
    Change what;
    units::Length saved{};  ///< yarn the make takes less, of the yarns that were not covered
    /// With it: of the whole make, or of the one role it is for.
    Verdict verdict = Verdict::is_short;
    measure::Chance chance;
};

/// The next smaller size that is covered, the most rows of a piece that are, another stitch that
/// the maker's swatches know and that takes less, mixed lots, what is set aside for another
/// project, and another yarn of the stash for a role or several strands of a thinner one (the best
/// three of each). Those that cover it come first, and of them what changes least, with what to buy
/// (buying_list()) as the last of them. Empty when the make is covered.
[[nodiscard]] std::vector<Remedy> remedies(const project::Project& project,
                                           const need::MakeNeed& need,
                                           const std::vector<stash::Skein>& stash,
                                           const Rules& rules, const MakeCover& cover);

/// Other yarns, those with most of it, that are looked at for a role.
inline constexpr std::size_t yarns_tried_at_most = 40;

}  // namespace skeinfall::cover
