#include "skeinfall/yarn/label_tail.hpp"

#include <cmath>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/data/label_weighings.hpp"
#include "skeinfall/yarn/yarn.hpp"

namespace skeinfall::yarn {

units::Ratio published_off_label() {
    double squares = 0.0;
    for (const auto& row : data::label_weighings) {
        const double off = base::leading_number<double>(row.off_percent) / 100.0;
        squares += off * off;
    }
    return units::Ratio(std::sqrt(squares / static_cast<double>(data::label_weighings.size())));
}

units::Ratio unweighed_spread(units::Mass nominal) {
    const double by_rule = label_mass_spread(nominal) / nominal;
    const double far = published_off_label().value();
    const double share = off_label_share.value();
    return units::Ratio(std::sqrt((1.0 - share) * by_rule * by_rule + share * far * far));
}

}  // namespace skeinfall::yarn
