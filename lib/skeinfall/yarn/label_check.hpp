#pragma once
/// \file
/// Label figures that cannot all be true, found when they are entered. Each finding gives both
/// readings; none is refused, for the label may still be what the ball says.

#include <optional>
#include <vector>

#include "skeinfall/measure/estimate.hpp"
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/fibre.hpp"
#include "skeinfall/yarn/finding.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::yarn {

/// Lengths of one put-up in two units may differ by rounding; beyond this one is wrong.
inline constexpr units::Ratio same_length_within = units::Ratio::from_value(0.005);

/// Length per mass that hand yarns have, from arm-knitting roving to tatting thread: 2 to 4000 m
/// per 100 g. A judgement, no source; published classes end at 40 and 800.
inline constexpr units::Grist least_hand_grist = 2.0 * units::metre / (100.0 * units::gram);
inline constexpr units::Grist most_hand_grist = 4000.0 * units::metre / (100.0 * units::gram);

/// No skein or cone for hand work is heavier or longer: common practice, no source. Industrial
/// cones weigh up to some 2.5 kg; 2.5 kg of fine lace yarn is 40 km.
inline constexpr units::Mass heaviest_skein = 5000.0 * units::gram;
inline constexpr units::Length longest_skein = 50000.0 * units::metre;

/// The figures of a label; leave out what it does not print.
struct LabelFigures {
    std::optional<units::Length> length;
    std::optional<units::Length> other_length;  ///< the same length in another unit
    std::optional<units::Mass> mass;
    std::optional<WeightClass> weight;
};

/// Cautions and stops only; empty when nothing is odd.
[[nodiscard]] std::vector<Finding> check_label(const LabelFigures& label);

/// Parts that should add up to a whole ("33 used, 167 left of 220 yd";
/// cluelesscrafter.blogspot.com).
[[nodiscard]] std::vector<Finding> check_parts(units::Length whole,
                                               const std::vector<units::Length>& parts);

/// A whole skein that weighs less than its label: short of yarn, or dry?
struct ShortWeight {
    units::Length if_short{};  ///< length by the weighing
    units::Length if_dry{};    ///< the label's length
    /// The share of the missing mass that dry air (65 to 40 % humidity) would explain; nothing
    /// when the content is not known to the table.
    std::optional<units::Ratio> dry_explains;
};

/// Nothing when the skein is not lighter than its label by more than 95 % of lawful skeins are,
/// the weighing's own spread counted in.
[[nodiscard]] std::optional<ShortWeight> short_weight(units::Length label_length,
                                                      units::Mass label_mass,
                                                      const measure::Estimate<units::Mass>& weighed,
                                                      const FibreContent& content);

}  // namespace skeinfall::yarn
