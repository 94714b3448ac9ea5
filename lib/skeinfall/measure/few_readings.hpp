#pragma once
/// \file
/// Repeated weighings, and what few of them allow to say: Student's t in place of the normal.

#include <cmath>
#include <vector>

#include "skeinfall/measure/chance.hpp"
#include "skeinfall/measure/estimate.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::measure {

/// Degrees of freedom of a spread that is known and not estimated from readings.
inline const units::Ratio known_spread = units::Ratio::from_value(HUGE_VAL);

/// A spread and how well it is known.
template <class Q>
struct Component {
    Q spread{};
    units::Ratio degrees = known_spread;
};

/// An estimate whose spread rests on few readings.
template <class Q>
struct FewReadings {
    Estimate<Q> estimate;
    units::Ratio degrees = known_spread;
};

/// Effective degrees of freedom of independent components taken together, by Welch and
/// Satterthwaite: u^4 / sum(u_i^4 / nu_i) (JCGM 100:2008, G.4.1, from memory).
template <class Q>
[[nodiscard]] units::Ratio degrees_together(const std::vector<Component<Q>>& components) {
    double variance = 0.0;
    double weighted = 0.0;
    for (const Component<Q>& component : components) {
        const double squared = component.spread.value() * component.spread.value();
        variance += squared;
        weighted += squared * squared / component.degrees.value();
    }
    return weighted > 0.0 ? units::Ratio(variance * variance / weighted) : known_spread;
}

/// Mean of repeated weighings of one thing. The spread holds the scatter of the readings over
/// the root of their number and, once, the scale's step: readings that agree are no proof that
/// the scale shows fractions of its step. Throws std::invalid_argument for an empty list.
[[nodiscard]] FewReadings<units::Mass> mean_mass(const std::vector<ScaleReading>& readings);

/// How many standard deviations a one-sided chance stands for when the spread has `degrees`
/// degrees of freedom (2.353 for 95 % and 3). Throws std::invalid_argument outside
/// 0.5 <= chance < 1 or for less than one degree.
[[nodiscard]] units::Ratio deviations_for(Chance chance, units::Ratio degrees);

}  // namespace skeinfall::measure
