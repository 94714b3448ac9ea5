#pragma once
/// \file
/// A maker's gauge against the pattern's: what becomes of the size and of the yarn.
///
/// The two ways of working have opposite signs. A tighter maker who keeps the stitch counts makes a
/// smaller piece from less yarn; one who keeps the size works more stitches and takes more yarn.

#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::need {

using project::Keeping;

struct GaugeChange {
    Keeping keeping = Keeping::stitch_counts;
    units::Ratio width{};   ///< of the piece, over the pattern's
    units::Ratio height{};  ///< likewise
    units::Ratio yarn{};    ///< length of yarn over the pattern's
};

/// The loop is taken as long as the root of the room a stitch has (Munden, J. Text. Inst. 50, 1959,
/// T448, from memory), in the same yarn. Both gauges are above 0.
[[nodiscard]] GaugeChange gauge_change(const project::Gauge& pattern, const project::Gauge& maker,
                                       Keeping keeping);

}  // namespace skeinfall::need
