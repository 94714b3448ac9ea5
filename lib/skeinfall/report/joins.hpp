#pragma once
/// \file
/// What is said of joins and of the work in progress: text, JSON, CSV, and a slip to keep beside
/// the work.

#include <optional>
#include <string>
#include <vector>

#include "skeinfall/joins/answer.hpp"
#include "skeinfall/joins/forecast.hpp"
#include "skeinfall/joins/hidden.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::report {

[[nodiscard]] std::string joins_text(const project::Project& project, const joins::Answer& answer);

/// Stop weights only, narrow enough to be cut out and kept beside the work.
[[nodiscard]] std::string slip_text(const project::Project& project, const joins::Answer& answer);

/// One line a stripe with the ball for it; the answer first.
[[nodiscard]] std::string stripe_balls_text(const project::Project& project,
                                            const std::string& role,
                                            const joins::StripeBalls& stripes,
                                            const std::vector<joins::Ball>& balls);

/// {title, joins, perhaps_more, finishes, lasts, chance, chance_by_slip, rules_kept, ends_cut,
/// ends_m, roles: [{role, finishes, against_slip, chance, chance_with_spares, chance_by_slip,
/// missing_m, proven, pieces_at_least, left_m, stretches: [{skein, from, to, earliest, latest,
/// worked_in_m, tails_m, wound_off_m, left_m, knots, weigh_after_steps}], spares: [{skein, holds_m,
/// needed_after}], row_ends: {skeins, finishes, missing_m, cut_off_m, left_m, steps_done},
/// anywhere: {...}, stops:
/// [{skein, place, steps_done, until_steps_done, next_g, rest_g}], lot_changes: [...], by_turns:
/// {without_cuts, with_cuts, suffices, yarns: [{name, takes_m, has_m}]} or null, colours: {...} or
/// null, notes}]}; a place is {place, steps_done, share_of_next}.
[[nodiscard]] std::string joins_json(const project::Project& project, const joins::Answer& answer);

/// One line a skein, from "spare" for those to keep at hand: role, skein, from, to, safe,
/// latest, worked_in_m, tails_m, wound_off_m, left_m. RFC 4180.
[[nodiscard]] std::string joins_csv(const project::Project& project, const joins::Answer& answer);

/// What a progress report is about.
struct ProgressOf {
    const project::Project& project;
    const joins::JoinPlan& plan;  ///< of the role; its steps name the places
    measure::Chance confidence;
    std::vector<std::string> later;  ///< skeins counted beside the one in hand
    std::string in_hand;             ///< taken for the one on the scale; empty: named, or not known
    std::vector<std::string> not_counted;  ///< of which one may be on the scale
    std::vector<std::string> taken;  ///< not counted until weighed: rows took more than is told
    /// The rows should have taken so much more than the scale shows gone; not counted on.
    units::Mass not_told{};
    std::string option_of_skein{};  ///< how the skein on the scale is named; empty: in words
    bool noted = false;             ///< the weighing is kept as one of that skein
    std::vector<std::string>
        worked_before{};            ///< pieces that count as worked, by their order alone
    bool in_hand_by_stash = false;  ///< what it says was used tells the one on the scale
};
[[nodiscard]] std::string progress_text(const ProgressOf& of, const joins::Progress& progress);

/// {title, role, lasts, chance, in_hand_g, have_g, need_g, to_be_sure_g, certain, likely,
/// can_finish, held_back_g, later, not_counted, to_be_weighed, not_told_g, worked_before,
/// next_join: {certain, likely, latest}, drift, drift_low, drift_high, by_scale_least_g,
/// by_scale_most_g, increments}; a place as in joins_json(). `certain` and `likely` hold back what
/// comes after the piece.
[[nodiscard]] std::string progress_json(const ProgressOf& of, const joins::Progress& progress);

/// Which joins hide and which show, where a piece says what could hide them; with the cost where
/// hiding was asked for.
[[nodiscard]] std::string hidden_joins_text(const project::Project& project,
                                            const joins::Answer& answer,
                                            const std::optional<joins::HiddenCost>& cost);

}  // namespace skeinfall::report
