#pragma once
/// \file
/// The chance that a supply is at least a need.

#include "skeinfall/measure/estimate.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::measure {

/// A probability between 0 and 1.
struct Chance {
    units::Ratio value{};
    auto operator<=>(const Chance& other) const { return value.value() <=> other.value.value(); }
    bool operator==(const Chance& other) const { return value.value() == other.value.value(); }
};

/// The chance at which yarn counts as covered unless the maker says otherwise: 95 %.
inline constexpr Chance usual_confidence{units::Ratio::from_value(0.95)};
/// What a maker may ask for.
inline constexpr Chance least_confidence{units::Ratio::from_value(0.5)};
inline constexpr Chance most_confidence{units::Ratio::from_value(0.9999)};

/// A need whose relative spread is above this is taken as lognormal, for a normal one would
/// give weight to yarn amounts below nothing.
inline constexpr units::Ratio lognormal_above = units::Ratio::from_value(0.12);

/// P(supply >= need) for independent estimates; equality counts as enough. Without any spread
/// the answer is 0 or 1. Spreads must not share a common part: take that out first.
[[nodiscard]] Chance chance_enough(const Estimate<units::Length>& supply,
                                   const Estimate<units::Length>& need);

/// The least supply, with the given spread, that covers the need at the given confidence.
[[nodiscard]] units::Length supply_needed(const Estimate<units::Length>& need,
                                          units::Length supply_spread, Chance confidence);

/// The number of standard deviations that a one-sided chance stands for (1.645 for 95 %).
/// Throws std::invalid_argument outside 0.5 <= chance < 1.
[[nodiscard]] units::Ratio deviations_for(Chance chance);

}  // namespace skeinfall::measure
