#pragma once
/// \file
/// Joins that hide: in a seam, a hem or a fold of their piece, or at an edge that is sewn up.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "skeinfall/joins/answer.hpp"
#include "skeinfall/joins/plan.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::joins {

/// One place where a plan joins yarn inside a piece.
struct JoinSeen {
    std::size_t role = 0;              ///< index into Answer::roles
    std::size_t stretch = 0;           ///< the one that ends there
    std::optional<project::Hides> by;  ///< nothing: it shows
};

/// The joins inside pieces. Where a skein ends with its piece the yarn is cut anyway.
[[nodiscard]] std::vector<JoinSeen> joins_seen(const project::Project& project,
                                               const Answer& answer);

/// True when a piece says where a seam, a hem or a fold lies, or that an edge is sewn up.
[[nodiscard]] bool can_hide(const project::Project& project);

/// The project whose pieces prefer the rows that something hides, and of whose edges those that
/// are sewn up; what a piece keeps free of joins stays free.
[[nodiscard]] project::Project preferring_hidden(const project::Project& project, std::size_t size);

/// What preferring hidden places costs.
struct HiddenCost {
    std::int64_t shown_before = 0;  ///< joins that show, without the preference
    std::int64_t shown_after = 0;
    units::Length cut_off{};  ///< more yarn cut off at joins; below 0: less
    std::int64_t skeins = 0;  ///< more skeins
    bool lasts = true;        ///< false: so joined the yarn would not last as surely; not done
};

struct Hiding {
    Answer answer;  ///< the one to follow
    HiddenCost cost;
};
/// The plan that hides its joins, where it is as sure as the one that need not; else that one.
[[nodiscard]] Hiding answer_hidden(const project::Project& project, const need::MakeNeed& make,
                                   const BallsOfRoles& balls, const Request& request);

}  // namespace skeinfall::joins
