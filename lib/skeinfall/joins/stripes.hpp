#pragma once
/// \file
/// Colour changes of striped pieces: carried up the edge or cut, and where the ends lie; and odd
/// balls for stripes that grow.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/joins/plan.hpp"
#include "skeinfall/measure/chance.hpp"

namespace skeinfall::joins {

struct Ends {
    std::vector<need::Change> changes;  ///< in working order
    std::int64_t carried = 0;
    std::int64_t cut = 0;   ///< ends from these changes, two a cut run
    units::Length tails{};  ///< of those ends
};

/// The changes that the need counts, summed up; `tail` is one end.
[[nodiscard]] Ends stripe_ends(const need::MakeNeed& make, units::Length tail);

/// One ball a stripe: the smallest that suffice on the shortest stripes.
struct OddBalls {
    std::vector<std::optional<std::size_t>> ball;  ///< of each stripe, an index into the balls
    std::size_t covered = 0;                       ///< stripes, shortest first
    units::Length missing{};  ///< the longest stripes lack together, tails included
};

/// `stripes` holds what each takes; two tails are held back for every ball. As many stripes as
/// possible; where that is not all, from the first on if it can be.
[[nodiscard]] OddBalls odd_balls(const std::vector<units::Length>& stripes,
                                 const std::vector<Ball>& balls, units::Length tail);

/// A role's rows in stripes of so many rows, each from a ball of its own.
struct StripeBalls {
    std::vector<units::Length> yarn;  ///< of each stripe
    std::vector<need::Step> first;    ///< the step with which each begins
    OddBalls odd;
    std::vector<measure::Chance> chances;  ///< that each stripe's ball lasts; 0 without a ball
    /// That all of them last. What the need's error does to one stripe it does to all.
    measure::Chance lasts;
};
/// The smallest balls with which all stripes last at the confidence; where none do, those that
/// leave the fewest stripes without, and of these the surest.
[[nodiscard]] StripeBalls stripe_balls(const need::RoleNeed& role,
                                       const std::vector<need::Step>& steps,
                                       const std::vector<Ball>& balls, std::int64_t rows,
                                       units::Length tail,
                                       measure::Chance confidence = measure::usual_confidence);

}  // namespace skeinfall::joins
