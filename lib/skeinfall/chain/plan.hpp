#pragma once
/// \file
/// Where each skein ends in the row sequence, before the first stitch is worked.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/measure/chance.hpp"
#include "skeinfall/measure/estimate.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/need/rest.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::chain {

/// Where new yarn may be joined: as each piece of the project says, between any two rows, or
/// also inside a row.
enum class Where { row_ends, anywhere, as_pieces_say };

/// A skein as the plan sees it. `length` holds its tails still; its spread is the skein's own.
struct Ball {
    std::string id;
    measure::Estimate<units::Length> length;
    int knots = 0;  ///< inside it, at places not known: each is cut out and joined anew
    /// Of a colour-changing yarn: how far into the repeat its outer end lies.
    std::optional<units::Length> phase = std::nullopt;
    std::string lot = {};    ///< empty: not known, and no matter
    units::Length shared{};  ///< spread that all skeins of its yarn have in common: it adds up
};

/// A place in a role's steps: so many whole steps done, and a share of the next one.
struct Position {
    std::size_t step = 0;
    units::Ratio share{};
};

[[nodiscard]] inline Position after_steps(std::size_t steps) {
    return {steps, units::Ratio(0.0)};
}

/// What one skein is worked into.
struct Stretch {
    Ball ball;
    Position from;
    Position to;
    units::Length used{};       ///< worked into the piece
    units::Length tails{};      ///< held back for its ends, those of its knots included
    units::Length left{};       ///< cut off or left over at its end
    units::Length wound_off{};  ///< before it is joined, so that its colours go on in order
    /// Where the skein may really end, by the law of the whole chain at the confidence asked for
    /// (steps done; the last skein ends early when `earliest` is not the end). `earliest` is safe:
    /// so many steps are surely done.
    std::size_t earliest = 0;
    std::size_t latest = 0;
    /// Between these it has to be weighed: it all but surely ends neither sooner nor later.
    std::size_t weigh_from = 0;
    std::size_t weigh_to = 0;
    /// Steps that it all but surely does by itself, wherever it begins: after so many of them it
    /// has to be weighed for the first time.
    std::size_t weigh_after = 0;
};

/// A skein that is only joined when those before it end early.
struct Spare {
    Ball ball;
    measure::Chance lasts;  ///< that the yarn lasts with it and the spares before it
};

struct JoinPlan {
    std::string role;
    Where where = Where::row_ends;
    std::vector<need::Step> steps;  ///< the role's own steps, in working order
    std::vector<Stretch> stretches;
    /// As is expected, no row counted on that the slip forbids; `lasts` says how sure that is.
    bool finishes = false;
    /// That the skeins of the stretches reach the end, a row that runs short being taken back and
    /// begun with the next skein.
    measure::Chance lasts;
    /// The same, spares included, for a maker who joins whenever the slip says so and never tries
    /// a row that may not fit.
    measure::Chance by_slip;
    /// The longest of the skeins left over, until they make it all but sure. The first may be
    /// needed from the last stretch's `earliest` on.
    std::vector<Spare> spares;
    /// Only rows that the slip forbids would finish it: the plan does not count on them.
    bool against_slip = false;
    units::Length missing{};  ///< of yarn after the last skein, tails of one more skein included
    bool proven = true;       ///< false: the search was cut short; `pieces_at_least` is its bound
    std::size_t pieces_at_least = 0;  ///< no plan needs fewer skeins
    bool rules_kept = true;  ///< false: no plan keeps the distances and free zones; this one is
                             ///< the best without them
    units::Length unworked_by_rules{};  ///< what keeping them would leave unworked; else 0
};

struct Rules {
    Where where = Where::row_ends;
    units::Length tail = 15.0 * units::centimetre;  ///< one end at a join
    /// One end where the work begins and ends; nothing: the same as `tail`.
    std::optional<units::Length> end_tail = std::nullopt;
    measure::Chance confidence = measure::usual_confidence;
    std::size_t size = 0;           ///< of the project
    std::int64_t rows_between = 0;  ///< least distance of two joins in one piece
    /// Plan with the length that each skein surely gives at the confidence, not the likely one.
    bool sure_lengths = false;
    units::Length colour_repeat{};  ///< above zero: skeins with a phase are joined in phase
    /// No join within `rows_between` of these places (of a strand held together with this one).
    std::vector<Position> keep_away;
    /// No row is counted on that the slip would forbid.
    bool keep_to_slip = false;
    /// The id of the skein that the role is being worked from: it goes before all others.
    std::string first = {};
    /// Where distances and free zones cannot be kept, the plan stops where they do, and its chance
    /// is that of keeping them.
    bool keep_rules = false;
    /// For who asks for the chance alone: where skeins may end is not worked out.
    bool only_chance = false;
    units::Mass scale_step = 1.0 * units::gram;  ///< of the scale that the slip is read on
};

/// The rules that a project has for a role: places by its pieces, tails by its join kind.
[[nodiscard]] Rules rules_of(const project::Project& project, const project::Role& role,
                             std::size_t size, measure::Chance confidence);

/// Orders the skeins so that the role is finished with the fewest pieces, then the least length
/// of yarn begun, then the best places; ties go to the longer skein first, then to the id. When
/// the skeins do not suffice, the order that gets farthest. A step longer than every skein can
/// only be worked with joins inside it. Besides the skeins' own ends, tails of the role's further
/// runs are spread over its steps.
///
/// Exact by what each multiset of skeins reaches; with distances, zones, spread
/// joins or colour phases by the set of places it reaches, where places inside a row are taken in
/// eighths. Beyond `states_at_most` a search in depth with a bound, not proven.
///
/// Chances and the rows that may be reached come from law_of().
///
/// `project` is needed for Where::as_pieces_say and for finishing parts that can be divided.
[[nodiscard]] JoinPlan plan_joins(const need::RoleNeed& role, const std::vector<need::Step>& steps,
                                  const std::vector<Ball>& balls, const Rules& rules,
                                  const project::Project* project = nullptr);

/// Yarn between two places where it may be joined, on average; nothing where every place may be.
[[nodiscard]] units::Length mean_row(const need::RoleNeed& role,
                                     const std::vector<need::Step>& steps, const Rules& rules,
                                     const project::Project* project);

/// What a slip keeps in hand of every skein but the last: it forbids a row that may not fit.
[[nodiscard]] units::Length kept_by_slip(const need::RoleNeed& role,
                                         const std::vector<need::Step>& steps, const Rules& rules,
                                         const project::Project* project);

/// That the yarn lasts, spares included.
[[nodiscard]] measure::Chance chance_of(const JoinPlan& plan);

/// Whether it lasts as surely as was asked, without rows that its slip forbids.
[[nodiscard]] bool is_sure(const JoinPlan& plan, measure::Chance confidence);

/// Yarn cut off at the joins of a plan.
[[nodiscard]] units::Length cut_off(const JoinPlan& plan);

/// Yarn left over or cut off, over all skeins of a plan.
[[nodiscard]] units::Length left_over(const JoinPlan& plan);

using need::steps_beside;

/// Those of the make, or beside the yarn that the role is held with.
[[nodiscard]] std::vector<need::Step> course_steps(const project::Project& project,
                                                   const need::MakeNeed& make,
                                                   const need::RoleNeed& role);

/// The length x that a skein surely gives: x + z hypot(u_L, u_c x) = usable.
/// `rate_relative` is u_c. Monotone in `usable`; never below zero.
[[nodiscard]] units::Length sure_length(const measure::Estimate<units::Length>& usable,
                                        units::Ratio rate_relative, measure::Chance confidence);

/// States of the search (which skeins are used up) before it is no longer exact.
inline constexpr std::size_t states_at_most = 5'000'000;

}  // namespace skeinfall::chain
