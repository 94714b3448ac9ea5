#include "skeinfall/need/strand.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/data/stitch_yarn.hpp"
#include "skeinfall/need/loop_model.hpp"

namespace skeinfall::need {

using measure::Estimate;
using units::Ratio;

std::optional<Estimate<Ratio>> strand_per_width(std::string_view stitch, project::Terms terms) {
    const double others = measured_by_others_spread.value();
    const std::string name = base::lower(base::trimmed(stitch));
    if (const auto kind = project::stitch_kind(name, project::Craft::crochet, terms)) {
        const auto& rows = data::stitch_yarn;
        const auto row = std::find_if(rows.begin(), rows.end(),
                                      [&](const auto& one) { return one.stitch == *kind; });
        if (row != rows.end()) {
            const double widths = base::leading_number<double>(row->yarn_per_row_in_in);
            return Estimate<Ratio>{Ratio(widths), Ratio(widths * others)};
        }
        const auto of = project::relative_yarn(*kind);
        if (!of) return std::nullopt;
        const double widths =
            base::leading_number<double>(rows.front().yarn_per_row_in_in) * of->value();
        return Estimate<Ratio>{
            Ratio(widths),
            Ratio(widths * std::hypot(others, project::relative_yarn_spread.value()))};
    }
    const bool fabric = name == "stockinette" || name == "garter" || name == "knit";
    if (!fabric && !project::stitch_kind(name, project::Craft::knit, terms)) return std::nullopt;
    return Estimate<Ratio>{Ratio(3.5), Ratio(0.4)};
}

}  // namespace skeinfall::need
