#pragma once
/// \file
/// Yarn per stitch of each kind, from several swatches that mix the kinds differently.
///
/// Weighted non-negative least squares of the swatches' yarn on their stitch counts. A kind that
/// the swatches cannot tell apart from others, that comes out at nothing, or that is no surer than
/// nothing is "not identified": its rate then follows from the ratios of the stitch table, at the
/// level that the swatches do settle, and carries their spread.

#include <cstddef>
#include <string>
#include <vector>

#include "skeinfall/measure/estimate.hpp"
#include "skeinfall/project/stitches.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::need {

/// One swatch by what it holds.
struct CountedSwatch {
    std::vector<project::KindCount> kinds;  ///< a kind may be listed more than once
    measure::Estimate<units::Length> yarn;  ///< ends taken off; the spread is above 0
};

struct KindRate {
    std::string kind;
    measure::Estimate<units::YarnPerStitch> yarn;
    bool identified = true;  ///< the swatches alone tell it
    bool by_ratio = false;   ///< figured with the ratios of the stitch table
};

/// A condition number above this makes single kinds shaky even where they are identified.
inline constexpr units::Ratio shaky_condition = units::Ratio::from_value(30.0);

struct Calibration {
    std::vector<KindRate> kinds;           ///< in the order they are first met
    std::size_t rank = 0;                  ///< kinds that the swatches tell apart
    units::Ratio condition{};              ///< of the counts, each kind's scaled to length 1
    std::vector<units::Length> residuals;  ///< of each swatch, yarn less what the rates say
    std::vector<std::string> notes;

    /// The rate of a kind; nothing for one that no swatch holds.
    [[nodiscard]] const KindRate* find(const std::string& kind) const;
};

/// Throws std::invalid_argument when there is no swatch, one without stitches, or one whose yarn
/// or spread is not above 0.
[[nodiscard]] Calibration calibrate(const std::vector<CountedSwatch>& swatches,
                                    const std::vector<project::OwnStitch>& own = {});

}  // namespace skeinfall::need
