#pragma once
/// \file
/// While working: from readings of the yarn that is left, whether it lasts, how many rows are
/// certain, and whether the hands use more than the plan says.
///
/// Work is measured by the plan: the yarn it gives the rows. Readings give increments, never
/// independent points. One model serves none, few and many of them: a normal use with unknown
/// rate and unknown row-to-row variation, its prior from the swatch (normal-inverse-gamma).

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/joins/plan.hpp"
#include "skeinfall/measure/estimate.hpp"

namespace skeinfall::joins {

/// Yarn that went into so much work between two readings of one skein.
struct Increment {
    units::Length work{};
    units::Mass used{};
};

/// What is believed before the first reading.
struct Prior {
    units::LinearDensity rate{};  ///< mass per planned length
    units::Length worth{};        ///< the work it weighs as much as
    units::Ratio shape{};         ///< of its distribution
    units::Mass row_spread{};     ///< standard deviation of what `row` takes
    units::Length row{};          ///< the planned length `row_spread` belongs to
};

/// The plan's own, of a role's steps: see progress().
[[nodiscard]] Prior prior_of(const std::vector<need::Step>& steps, units::Grist grist,
                             units::Ratio relative);

/// What is believed after the readings.
struct Use {
    units::LinearDensity rate{};
    units::Mass row_spread{};  ///< over `row`, not below what the scale's step leaves open
    units::Length row{};
    units::Length worth{};
    units::Ratio degrees{};  ///< of freedom
    /// Of the rate, from the first and last reading of each skein. Without a prior the scatter of
    /// the increments holds it already.
    units::LinearDensity scale_spread{};
};

/// Nothing when there is no prior and fewer than two increments: one interval tells no variance.
/// `skeins` is how many were weighed.
[[nodiscard]] std::optional<Use> learn(const std::optional<Prior>& prior,
                                       const std::vector<Increment>& increments,
                                       units::Mass scale_step, std::size_t skeins = 1);

/// Mass that further work takes: Student t about `centre`.
struct Prediction {
    units::Mass centre{};
    units::Mass scale{};
    units::Ratio degrees{};
};
[[nodiscard]] Prediction predict(const Use& use, units::Length work, units::Mass scale_step);
[[nodiscard]] measure::Chance chance_within(const Prediction& prediction, units::Mass have);
/// The mass that suffices at the confidence.
[[nodiscard]] units::Mass upper(const Prediction& prediction, measure::Chance confidence);

/// Between the least and the most that the scale's steps alone allow, if all rows took the same.
struct ScaleBounds {
    units::Mass least{};
    units::Mass most{};
};
/// Mass that `work` takes when `used`, read as the difference of two readings of `scale_step`,
/// went into `before`.
[[nodiscard]] ScaleBounds bounds_by_scale(const Increment& so_far, units::Length work,
                                          units::Mass scale_step);

/// What the rest takes going by the readings alone, whatever the plan says: both ends of the
/// interval that holds it at the confidence. Rows that differ from each other count on both sides.
struct ByReadings {
    units::Mass least{};
    units::Mass most{};
};
/// Of further `work`, when `used` (read as differences of readings of `scale_step`, of so many
/// `skeins`) went into the work before; `use` says how much rows scatter.
[[nodiscard]] ByReadings by_readings(const Use& use, const Increment& so_far, units::Length work,
                                     units::Mass scale_step, std::size_t skeins,
                                     measure::Chance confidence);

/// A reading: after so many steps of the role, the scale showed that much of a skein.
struct Reading {
    std::size_t steps_done = 0;
    std::string skein;  ///< readings of one skein follow one another
    measure::ScaleReading scale;
};

/// Yarn that is still untouched: mass and what of it is not known.
using Untouched = measure::Estimate<units::Mass>;

/// So far apart no two rates of one hand lie (the judgement of need::Contradiction), beyond so many
/// steps of the scale, which drifts too (a judgement).
inline constexpr units::Ratio most_apart = units::Ratio::from_value(2.0);
inline constexpr units::Ratio drift_in_steps = units::Ratio::from_value(2.0);

/// Rows between two weighings whose yarn is less than half or more than twice what the plan, or
/// two other weighings, say of as much work: one of the two figures must be a slip.
struct OddUse {
    units::Mass used{};
    units::Mass expected{};
    bool by_plan = true;  ///< else by other weighings
};

struct Progress {
    Use use;
    units::Mass in_hand{};  ///< net, of the skein being worked
    units::Mass have{};     ///< with the untouched skeins, tails and their ends taken off
    Prediction need;        ///< of all that is still to be worked
    measure::Chance lasts;
    units::Mass to_be_sure{};  ///< more yarn that would reach the confidence; 0 when it does
    /// The last row after which all that comes behind its piece (bind-off, other pieces, borders,
    /// seams) can still be worked, in steps from the beginning; all steps when all of them fit.
    std::size_t certain = 0;  ///< at the confidence
    std::size_t likely = 0;
    units::Mass held_back{};  ///< of what is left, for what comes after `certain`
    /// Even were no further row of the piece worked, the rest would fit at the confidence.
    bool can_finish = true;
    std::size_t join_certain = 0;  ///< the same with the skein in hand alone: the next join
    std::size_t join_likely = 0;
    std::size_t join_latest = 0;
    std::optional<ByReadings> by_scale;  ///< need of the rest by the readings alone
    units::Ratio drift{};                ///< use over plan, 1 when as planned
    units::Ratio drift_low{};            ///< its interval at the confidence, both sides
    units::Ratio drift_high{};
    std::size_t increments = 0;
    /// Then the plan's rate counts where the readings tell a lower one.
    std::optional<OddUse> odd;

    /// A slip among its figures is settled first.
    [[nodiscard]] bool will_last(measure::Chance confidence) const {
        return !odd && lasts >= confidence;
    }
};

struct ProgressRules {
    units::Length tail = 15.0 * units::centimetre;
    measure::Chance confidence = measure::usual_confidence;
    Untouched more{};             ///< skeins not begun yet
    std::size_t more_skeins = 0;  ///< how many they are
    /// Yarn between two places where they may be joined, on average: half of it is cut off at each
    /// join. Zero where yarn is joined anywhere.
    units::Length link{};
};

/// Of each number of steps done, the yarn of all that comes after the last row of the piece that
/// the last of them belongs to; nothing where that last step is no row. The last entry, for all
/// steps, is zero.
[[nodiscard]] std::vector<std::optional<units::Length>> held_after(
    const std::vector<need::Step>& steps);

/// What a Use leaves open of a rate, relative to it and widened so that a normal law has the same
/// bound at the confidence: of the rate itself, and of what `Use::row` takes.
struct LeftOpen {
    units::Ratio rate{};
    units::Ratio row{};
};
[[nodiscard]] LeftOpen left_open(const Use& use, measure::Chance confidence);

/// `rules` with so many more skeins of that mass by their label.
[[nodiscard]] ProgressRules with_more(ProgressRules rules, units::Mass one, std::int64_t count);

/// `steps` are the role's own in working order (JoinPlan::steps), `grist` its length per mass,
/// `relative` how well the plan knows the rate. Readings in the order they were taken. Throws
/// base::InputError when they contradict one another (work undone, a skein grown heavier).
[[nodiscard]] Progress progress(const std::vector<need::Step>& steps, units::Grist grist,
                                units::Ratio relative, const std::vector<Reading>& readings,
                                const ProgressRules& rules);

}  // namespace skeinfall::joins
