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

namespace {

/// "bind off", "i-cord bind-off", "long-tail cast-on": the rows that such an edge takes.
const project::FinishWay* knitted_edge(std::string_view name) {
    struct End {
        std::string_view words;
        std::string_view part;
        std::string_view usual;
    };
    static constexpr End ends[] = {
        {"bind off", "bind-off", "plain"},      {"bind-off", "bind-off", "plain"},
        {"binding off", "bind-off", "plain"},   {"cast off", "bind-off", "plain"},
        {"cast-off", "bind-off", "plain"},      {"bo", "bind-off", "plain"},
        {"cast on", "foundation", "long tail"}, {"cast-on", "foundation", "long tail"},
        {"co", "foundation", "long tail"}};
    for (const End& end : ends) {
        if (!name.ends_with(end.words)) continue;
        const std::string_view kind = base::trimmed(name.substr(0, name.size() - end.words.size()));
        if (const auto* way = project::find_finish_way(end.part, kind.empty() ? end.usual : kind,
                                                       project::Craft::knit))
            return way;
    }
    return nullptr;
}

}  // namespace

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
    constexpr double knitted_row = 3.5;
    constexpr double of_row = 0.4;
    if (const project::FinishWay* edge = knitted_edge(name)) {
        constexpr double hands_apart = 0.1;
        const double widths = edge->rows.value() * knitted_row;
        return Estimate<Ratio>{Ratio(widths),
                               Ratio(widths * std::hypot(of_row / knitted_row, hands_apart))};
    }
    const bool fabric = name == "stockinette" || name == "garter" || name == "knit";
    if (!fabric && !project::stitch_kind(name, project::Craft::knit, terms)) return std::nullopt;
    return Estimate<Ratio>{Ratio(knitted_row), Ratio(of_row)};
}

}  // namespace skeinfall::need
