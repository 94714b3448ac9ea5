#pragma once
/// \file
/// A yarn, and the label it came with.

#include <optional>
#include <string>

#include "skeinfall/measure/estimate.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/fibre.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::yarn {

/// The put-up as the label prints it. Texts are kept; values are converted once.
struct Label {
    std::optional<units::Printed<units::Length>> length;
    std::optional<units::Printed<units::Mass>> mass;

    bool operator==(const Label&) const = default;
};

struct Yarn {
    std::string name;
    Label label;
    FibreContent fibre;
    std::optional<WeightClass> weight;
    std::optional<units::Printed<units::Length>> colour_repeat;  ///< of a colour-changing yarn

    bool operator==(const Yarn&) const = default;
};

/// Half width of the band a label's length per mass is taken to lie in, and so its standard
/// uncertainty: rectangular, +-3.5 %. A judgement; no rule on labelled metreage was found.
inline constexpr units::Ratio label_grist_half_width = units::Ratio::from_value(0.035);

/// Length per mass by the label, with the label's own spread. Nothing without both figures.
[[nodiscard]] std::optional<measure::Estimate<units::Grist>> label_grist(const Label& label);

/// By how much one skein may weigh less than its label: the tolerable negative error of the
/// packaged-goods rule, which one skein in fifty may exceed by its German form and none twice over
/// (Directive 76/211/EEC, Annex I; lib/data/package_tolerances.csv).
[[nodiscard]] units::Mass tolerable_error(units::Mass nominal);

/// Standard uncertainty of one skein's mass about the label's, from the packaged-goods rule:
/// tolerable error / 2.0537.
[[nodiscard]] units::Mass label_mass_spread(units::Mass nominal);

}  // namespace skeinfall::yarn
