#pragma once
/// \file
/// All that tells one amount of yarn, taken together: each piece of evidence is the amount with a
/// normal error in its logarithm, so the answer is their mean by precision. What contradicts the
/// rest is named and widens the band; nothing is left out.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/units/quantity.hpp"

namespace skeinfall::need {

/// One observation of an amount.
struct Observation {
    units::Length yarn{};   ///< above 0
    units::Ratio spread{};  ///< relative standard deviation, above 0
    /// Of others' makes: how many there are like it is itself a guess, so that its error has
    /// heavier tails (Student's t of `heavy_tail` degrees) and it gives way to evidence far from
    /// it.
    bool heavy = false;
};

struct Reckoned {
    units::Length yarn{};
    units::Ratio spread{};
    std::vector<units::Ratio> weights;   ///< of each observation; they add to 1
    std::vector<units::Ratio> off;       ///< each against the rest, in standard deviations
    std::optional<std::size_t> discord;  ///< the observation farthest off, where it is beyond limit
    units::Ratio widened{};  ///< the factor the spread was widened by; 1 without discord
};

/// Beyond this many standard deviations an observation contradicts the rest; the noise of all is
/// then widened until it is `discord_left`. Judgements.
inline constexpr units::Ratio discord_limit = units::Ratio::from_value(2.6);
inline constexpr units::Ratio discord_left = units::Ratio::from_value(2.0);
inline constexpr units::Ratio heavy_tail = units::Ratio::from_value(4.0);

/// Closed form (Gelman et al., Bayesian Data Analysis, chapter 2, from memory). Throws
/// std::invalid_argument without observations, or for one that is not above 0.
[[nodiscard]] Reckoned reckoned(const std::vector<Observation>& observations);

/// Spread between repeated measurements of one thing beyond their own noise, by the method of
/// moments (DerSimonian and Laird, Controlled Clinical Trials 7, 1986, 177, from memory): a
/// relative standard deviation, 0 where their noise explains all.
[[nodiscard]] units::Ratio spread_between(const std::vector<Observation>& observations);

}  // namespace skeinfall::need
