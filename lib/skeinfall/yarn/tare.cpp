#include "skeinfall/yarn/tare.hpp"

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/data/cone_tares.hpp"
#include "skeinfall/measure/propagate.hpp"

namespace skeinfall::yarn {

std::vector<std::string> tare_names() {
    std::vector<std::string> names;
    names.reserve(data::cone_tares.size());
    for (const auto& row : data::cone_tares) names.emplace_back(row.name);
    return names;
}

std::optional<measure::Estimate<units::Mass>> usual_tare(std::string_view name) {
    for (const auto& row : data::cone_tares) {
        if (!base::same_word(row.name, base::trimmed(name))) continue;
        const units::Mass least = base::leading_number<double>(row.least_g) * units::gram;
        const units::Mass most = base::leading_number<double>(row.most_g) * units::gram;
        return measure::Estimate<units::Mass>{(least + most) / 2.0,
                                              measure::within(units::Mass((most - least) / 2.0))};
    }
    return std::nullopt;
}

}  // namespace skeinfall::yarn
