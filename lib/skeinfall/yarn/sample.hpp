#pragma once
/// \file
/// Length per mass of a yarn without a label: a measured length and its mass, or a balance.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "skeinfall/measure/few_readings.hpp"
#include "skeinfall/measure/propagate.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::yarn {

/// A sample must weigh at least this many steps of the scale (ourpastimes.com, grams to yards: 1 yd
/// that reads 2 g on a 1 g scale leaves a ball anywhere from 19 to 32 yd).
inline constexpr units::Ratio least_scale_steps = units::Ratio::from_value(20.0);

/// Half width of the band a tape-measured length of yarn is taken to lie in: +-1 %, for yarn
/// stretches. A judgement, no source.
inline constexpr units::Ratio tape_half_width = units::Ratio::from_value(0.01);

/// Half width of a cut strand's length in the balance method: a quarter of an inch.
inline constexpr units::Length cut_half_width = 0.25 * units::inch;

/// How far the length per mass of a measured sample lies from that of the rest of its yarn: spun
/// yarn is thicker here and thinner there. A judgement, no source for hand yarn; the limit of
/// length tests by the skein in mills is 1 to 2 % (from memory).
inline constexpr units::Ratio unevenness = units::Ratio::from_value(0.02);

/// The air of the day: wool weighs 8 % more at 80 % humidity than at 40 %, cotton 6 % (from memory,
/// lib/data/regain_by_humidity.csv), and a ball that was fetched from elsewhere lags behind. For a
/// sample and a ball weighed on about the same day a judgement.
inline constexpr units::Ratio air_between_weighings = units::Ratio::from_value(0.015);

/// A measured length and what it weighed, once or several times.
struct MeasuredSample {
    units::Length length{};
    std::vector<measure::ScaleReading> weighings;
};

/// The sample weighs too little for its scale. This is an answer and not a mistake of input.
struct TooLight {
    units::Mass needed{};                  ///< 20 steps of the scale
    units::Mass least{};                   ///< what the sample may weigh, half a step down
    units::Mass most{};                    ///< and half a step up
    std::optional<units::Length> measure;  ///< a length that surely weighs `needed`; nothing when
                                           ///< the sample may weigh nothing at all
};

using SampleGrist = std::variant<measure::Estimate<units::Grist>, TooLight>;

/// Grist with its band, from the tape and from the scale. Throws std::invalid_argument without
/// a weighing.
[[nodiscard]] SampleGrist grist_of(const MeasuredSample& sample);

/// A strand trimmed until it balances a known mass (McMorran's way, from memory): its length over
/// that mass, with the cut's error.
[[nodiscard]] measure::Estimate<units::Grist> grist_by_balance(units::Length strand,
                                                               units::Mass against);

/// The mass a balance carries whose strand in inches, times 100, is yards per pound.
[[nodiscard]] units::Mass yarn_balance_mass();

/// Length left of a mass read on a scale. The grist is that of a sample: unevenness and the air
/// between the two weighings widen what it says of the rest.
[[nodiscard]] measure::Estimate<units::Length> length_left(
    const measure::Estimate<units::Grist>& grist, const measure::ScaleReading& have);

}  // namespace skeinfall::yarn
