#pragma once
/// \file
/// Core diameter of a yarn from its mass per length.
///
/// Not the same thing as wraps: hand yarns are lofty, makers wrap loosely, and these formulas
/// give two to three times as many diameters per inch as wraps are counted. Never compare them
/// with published wraps. Constants: lib/data/yarn_diameter.csv.

#include <optional>
#include <string_view>

#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/fibre_facts.hpp"

namespace skeinfall::yarn {

/// Diameters per inch = c x sqrt(yards per pound), by the `id` of a row whose constant is "per
/// inch": "ash_firm" 0.9, "ash_soft" 0.84 (Ashenhurst), "taylor_cotton" 0.95 (Taylor, Cotton
/// Weaving and Designing). Nothing for any other id.
[[nodiscard]] std::optional<units::Length> diameter_by_count(units::Grist grist,
                                                             std::string_view id);

/// Diameter of a round yarn: area = linear density / (packing x fibre density), the form Peirce
/// used. `packing` is the share of the yarn's section that fibre fills: 0.6 in cotton sewing and
/// weaving yarns, 0.25 to 0.5 in hand yarns (from memory).
[[nodiscard]] units::Length round_diameter(units::LinearDensity linear_density, Density fibre,
                                           units::Ratio packing);

}  // namespace skeinfall::yarn
