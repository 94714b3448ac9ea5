#pragma once
/// \file
/// What the scale must still show beside the work: the reading below which the next row, or the
/// rest, no longer fits.

#include <cstddef>
#include <vector>

#include "skeinfall/joins/plan.hpp"

namespace skeinfall::joins {

struct Scale {
    units::Mass step = 1.0 * units::gram;
    units::Mass tare{};  ///< needles, hook, bag or cone on the scale with the yarn
};

/// T ((1 + z u) yarn + tail) + half a scale step, plus the tare, rounded up to the scale's step.
/// `relative` is u, the relative spread of the yarn's estimate.
[[nodiscard]] units::Mass stop_weight(units::Length yarn, units::Ratio relative, units::Length tail,
                                      units::Grist grist, const Scale& scale,
                                      measure::Chance confidence);

/// A line of the slip: when so many steps are done, the scale must show at least this.
struct StopWeight {
    std::size_t stretch = 0;  ///< index into JoinPlan::stretches: the skein on the scale
    std::size_t steps_done = 0;
    std::size_t until = 0;  ///< the same holds after each row it works of the piece up to this step
    units::Mass next{};     ///< for one more step and the tail
    units::Mass rest{};     ///< for all that remains; zero for a skein that ends in a join
};

/// Lines for every row in which a skein may end, from the earliest to the latest, and before the
/// finish: from where the last skein may end on, wider apart at first, and the last
/// `lines_at_most` one by one.
[[nodiscard]] std::vector<StopWeight> stop_weights(const JoinPlan& plan, const need::RoleNeed& role,
                                                   units::Grist grist, const Scale& scale,
                                                   const Rules& rules);

inline constexpr std::size_t lines_at_most = 6;

/// A knot is for the last so many steps: it is tied before the first of them.
inline constexpr std::size_t knot_steps = 3;

/// Where a loose knot in what is left of the strand says the same without a scale: the share of
/// the strand, from its far end, that the finish needs of finish and next rows together.
[[nodiscard]] units::Ratio knot_share(units::Length next_rows, units::Length finish);

}  // namespace skeinfall::joins
