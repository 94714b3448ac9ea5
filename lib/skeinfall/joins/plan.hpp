#pragma once
/// \file
/// Where each skein ends in the row sequence, before the first stitch is worked.

#include <cstddef>
#include <string>
#include <vector>

#include "skeinfall/measure/chance.hpp"
#include "skeinfall/measure/estimate.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::joins {

/// Where new yarn may be joined: between two rows, or also inside a row.
enum class Where { row_ends, anywhere };

/// A skein as the plan sees it. `length` holds its tails still.
struct Ball {
    std::string id;
    measure::Estimate<units::Length> length;
};

/// A place in a role's steps: so many whole steps done, and a share of the next one.
struct Position {
    std::size_t step = 0;
    units::Ratio share{};
};

/// What one skein is worked into.
struct Stretch {
    Ball ball;
    Position from;
    Position to;
    units::Length used{};   ///< worked into the piece
    units::Length tails{};  ///< held back for its two ends
    units::Length left{};   ///< cut off or left over at its end
    /// Where the skein may really end at the confidence asked for (steps done; only for a skein
    /// that ends in a join).
    std::size_t earliest = 0;
    std::size_t latest = 0;
};

struct JoinPlan {
    std::string role;
    Where where = Where::row_ends;
    std::vector<need::Step> steps;  ///< the role's own steps, in working order
    std::vector<Stretch> stretches;
    bool finishes = false;
    units::Length missing{};  ///< of yarn after the last skein, tails of one more skein included
    bool proven = true;       ///< false: too many different skeins, longest first was taken
};

struct Rules {
    Where where = Where::row_ends;
    units::Length tail = 15.0 * units::centimetre;
    measure::Chance confidence = measure::usual_confidence;
};

/// Orders the skeins so that the role is finished with the fewest pieces, then the least waste;
/// ties go to the longer skein first, then to the id. When the skeins do not suffice, the order
/// that gets farthest. A step longer than every skein can only be worked with Where::anywhere.
/// Besides the skeins' own ends, tails of the role's further runs are spread over its steps.
[[nodiscard]] JoinPlan plan_joins(const need::RoleNeed& role, const std::vector<need::Step>& steps,
                                  const std::vector<Ball>& balls, const Rules& rules);

/// States of the search (which skeins are used up) before longest-first is taken instead.
inline constexpr std::size_t states_at_most = 1'000'000;

}  // namespace skeinfall::joins
