#include "skeinfall/yarn/yarn.hpp"

#include <cmath>
#include <string_view>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/data/package_tolerances.hpp"
#include "skeinfall/measure/propagate.hpp"

namespace skeinfall::yarn {
namespace {

using base::leading_number;

/// Of a normal distribution, beyond which one in fifty lies: the share that may exceed the error by
/// the German regulation (Fertigpackungsverordnung, section 9; lxgesetze.de/fpackv/9). British
/// guidance (S128) says one in forty, which would be 1.960.
constexpr double deviations_of_tolerance = 2.0537;

}  // namespace

std::optional<measure::Estimate<units::Grist>> label_grist(const Label& label) {
    if (!label.length || !label.mass) return std::nullopt;
    const units::Grist grist = label.length->value / label.mass->value;
    return measure::Estimate<units::Grist>{grist,
                                           grist * measure::within(label_grist_half_width).value()};
}

units::Mass tolerable_error(units::Mass nominal) {
    const double grams = nominal / units::gram;
    // Below the table's 5 g its first row's share is carried on.
    double tolerance = 0.09 * grams;
    for (const auto& row : data::package_tolerances) {
        if (row.jurisdiction != "EU and UK" || row.nominal_min.empty() || row.tolerance.empty())
            continue;
        if (grams < leading_number<double>(row.nominal_min)) continue;
        const auto stated = leading_number<double>(row.tolerance);
        tolerance = row.tolerance_unit.starts_with("%")
                        ? std::ceil(stated / 100.0 * grams * 10.0 - 1e-9) / 10.0
                        : stated;
        if (!row.nominal_max.empty() && grams <= leading_number<double>(row.nominal_max)) break;
    }
    return tolerance * units::gram;
}

units::Mass label_mass_spread(units::Mass nominal) {
    return tolerable_error(nominal) / deviations_of_tolerance;
}

}  // namespace skeinfall::yarn
