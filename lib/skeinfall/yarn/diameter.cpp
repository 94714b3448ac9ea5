#include "skeinfall/yarn/diameter.hpp"

#include <cmath>
#include <numbers>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/data/yarn_diameter.hpp"

namespace skeinfall::yarn {

std::optional<units::Length> diameter_by_count(units::Grist grist, std::string_view id) {
    for (const auto& row : data::yarn_diameter) {
        if (row.id != id || row.constant_unit != "per inch") continue;
        const auto constant = base::leading_number<double>(row.constant);
        const units::Ratio yards_per_pound(grist / (units::yard / units::pound));
        return units::inch / (constant * std::sqrt(yards_per_pound.value()));
    }
    return std::nullopt;
}

units::Length round_diameter(units::LinearDensity linear_density, Density fibre,
                             units::Ratio packing) {
    const units::Area section = linear_density / (fibre * packing.value());
    return units::Length::from_value(std::sqrt(4.0 * section.value() / std::numbers::pi));
}

}  // namespace skeinfall::yarn
