#pragma once
/// \file
/// Yarn per stitch of each kind, from several swatches that mix the kinds differently.
///
/// Weighted non-negative least squares of the swatches' yarn on their stitch counts. A kind that
/// the swatches cannot tell apart from others, that comes out at nothing, or that is no surer than
/// nothing is "not identified": its rate then follows from the ratios of the stitch table, at the
/// level that the swatches do settle, and carries their spread. In a mix like that of the swatches
/// such errors cancel.

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

    /// How surely the swatches tell the yarn of so many stitches together: kinds that they tell
    /// apart badly are often surer in sum. Kinds that no swatch holds are left out.
    [[nodiscard]] units::Length spread_of(const std::vector<project::KindCount>& stitches) const;
    /// The rate of a kind; nothing for one that no swatch holds.
    [[nodiscard]] const KindRate* find(const std::string& kind) const;

    /// Of the fit: what each kind counts as in which unknown, its share in the yarn of the kinds
    /// under the table's ratios (0 outside them), and the unknowns' covariance, in (metres per
    /// stitch) squared.
    struct Weighted {
        std::size_t unknown = 0;
        units::Ratio times{};
        units::Ratio share{};
    };
    std::vector<Weighted> weighted;
    std::vector<std::vector<units::Ratio>> covariance;
};

/// Throws std::invalid_argument when there is no swatch, one without stitches, or one whose yarn
/// or spread is not above 0.
[[nodiscard]] Calibration calibrate(const std::vector<CountedSwatch>& swatches,
                                    const std::vector<project::OwnStitch>& own = {});

}  // namespace skeinfall::need
