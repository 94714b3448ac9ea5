#pragma once
/// \file
/// A measured or computed amount with its standard uncertainty, and a scale's reading.

#include <cmath>
#include <optional>

#include "skeinfall/units/quantity.hpp"

namespace skeinfall::measure {

/// Centre and standard uncertainty (one standard deviation) in the same unit.
template <class Q>
struct Estimate {
    Q centre{};
    Q spread{};

    /// spread / centre; 0 for an empty estimate.
    [[nodiscard]] units::Ratio relative() const {
        return centre.value() == 0.0 ? units::Ratio(0.0) : units::Ratio(spread / centre);
    }
};

/// Square root of the sum of squares, for independent uncertainties of one kind.
template <class Q>
[[nodiscard]] Q in_quadrature(const Q& a, const Q& b) {
    return Q::from_value(std::hypot(a.value(), b.value()));
}

/// What a scale shows, as it shows it.
///
/// `resolution` is the scale's step (1 g for a usual kitchen scale); a true mass anywhere within
/// half a step either way shows the same figure. `tare` is the mass of the cone, bag or bowl
/// that was on the scale too, read on the same scale.
struct ScaleReading {
    units::Mass shown{};
    units::Mass resolution{};
    std::optional<units::Mass> tare;
    /// Standard uncertainty of a tare that was taken from a table and not weighed.
    units::Mass tare_spread{};
};

/// Net mass of a reading. The spread is resolution / sqrt(12), or resolution / sqrt(6) when a
/// tare was taken off (JCGM 100:2008, F.2.2.1, from memory); a tare that was not weighed adds its
/// own spread instead.
[[nodiscard]] Estimate<units::Mass> net_mass(const ScaleReading& reading);

}  // namespace skeinfall::measure
