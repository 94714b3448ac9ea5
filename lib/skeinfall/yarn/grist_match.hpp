#pragma once
/// \file
/// How close two lengths per mass are, for one yarn to stand in for another.

#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/finding.hpp"

namespace skeinfall::yarn {

/// Grists that differ by no more than this work up alike. Differences here are natural
/// logarithms of the ratio, so that they read the same both ways; 10 % of grist is 5 % of
/// diameter. A judgement of ours; published rules are 10, 15 and 20 % of the yardage
/// (lib/data/substitution_rules.csv).
inline constexpr units::Ratio close_grist = units::Ratio::from_value(0.10);
/// Up to this a swatch decides; above it the yarn makes another fabric (11 % of diameter).
inline constexpr units::Ratio swatch_grist = units::Ratio::from_value(0.22);

/// |ln(a / b)|.
[[nodiscard]] units::Ratio grist_difference(units::Grist a, units::Grist b);

/// ok, caution (swatch) or stop, naming the published rules that it passes or fails.
[[nodiscard]] Finding compare_grist(units::Grist wanted, units::Grist candidate);

/// Differences carry binary noise; a limit is kept when it is met within this.
inline constexpr units::Ratio limit_noise = units::Ratio::from_value(1e-9);

}  // namespace skeinfall::yarn
