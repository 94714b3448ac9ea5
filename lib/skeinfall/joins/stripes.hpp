#pragma once
/// \file
/// Colour changes of striped pieces: carried up the edge or cut, and where the ends lie; and odd
/// balls for stripes that grow.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/joins/plan.hpp"

namespace skeinfall::joins {

/// A yarn begins a stripe. It was carried there, or it starts with a new end and the old one was
/// cut after the row it was last used in.
struct Change {
    std::string role;
    std::size_t piece = 0;
    long copy = 1;
    long row = 0;        ///< the stripe's first row
    long last_used = 0;  ///< in this piece; 0 when it was not
    bool carried = false;
    units::Length strand{};  ///< carried up the edge
    bool right_edge = true;  ///< where the stripe begins; always true in the round
};

struct Ends {
    std::vector<Change> changes;  ///< in working order
    long carried = 0;
    long cut = 0;           ///< ends from these changes, two a cut run
    units::Length tails{};  ///< of those ends
};

/// Every change of a project's striped pieces by the rule of need::can_be_carried().
[[nodiscard]] Ends stripe_ends(const project::Project& project, std::size_t size);

/// One ball a stripe: the smallest that suffice on the shortest stripes.
struct OddBalls {
    std::vector<std::optional<std::size_t>> ball;  ///< of each stripe, an index into the balls
    std::size_t covered = 0;                       ///< stripes, shortest first
    units::Length missing{};  ///< the longest stripes lack together, tails included
};

/// `stripes` holds what each takes; two tails are held back for every ball. As many stripes as
/// possible, shortest first.
[[nodiscard]] OddBalls odd_balls(const std::vector<units::Length>& stripes,
                                 const std::vector<Ball>& balls, units::Length tail);

/// A role's rows in stripes of so many rows, each from a ball of its own.
struct StripeBalls {
    std::vector<units::Length> yarn;  ///< of each stripe
    std::vector<need::Step> first;    ///< the step with which each begins
    OddBalls odd;
};
[[nodiscard]] StripeBalls stripe_balls(const need::RoleNeed& role,
                                       const std::vector<need::Step>& steps,
                                       const std::vector<Ball>& balls, long rows,
                                       units::Length tail);

}  // namespace skeinfall::joins
