#include "skeinfall/need/kind_weights.hpp"

#include <cmath>

namespace skeinfall::need {

KindWeights::KindWeights(const project::Project& project, const std::vector<project::Row>& rows)
    : project_(&project) {
    const auto kind = project::stitch_kind(project.gauge.stitch, project.craft, project.terms);
    if (kind) {
        gauge_kind_ = *kind;
        basis_ = relative(*kind);
    }
    if (kind && basis_ > 0.0) return;
    double yarn = 0.0;
    double across = 0.0;
    for (const project::Row& row : rows) {
        if (row.kinds.empty()) continue;
        across += row.stitches / units::stitch;
        for (const project::KindCount& part : row.kinds)
            yarn += part.count / units::stitch * relative(part.kind);
    }
    basis_ = across > 0.0 && yarn > 0.0 ? yarn / across : 1.0;
}

units::Ratio KindWeights::relative(const std::string& kind) {
    const auto known = known_.find(kind);
    if (known != known_.end()) return units::Ratio(known->second);
    // A stitch nobody knows counts as a plain one; its finding says that it is unknown.
    const double value =
        project::relative_yarn(kind, project_->stitches).value_or(units::Ratio(1.0)).value();
    known_.emplace(kind, value);
    return units::Ratio(value);
}

units::StitchCount KindWeights::of(const project::Row& row) {
    if (row.kinds.empty()) return row.stitches;
    units::StitchCount sum{};
    for (const project::KindCount& part : row.kinds) sum += part.count * relative(part.kind);
    return sum / basis_;
}

units::Ratio KindWeights::spread(const std::vector<project::Row>& rows, const std::string& role) {
    std::map<std::string, double> yarn;
    double all = 0.0;
    for (const project::Row& row : rows) {
        if (row.role != role) continue;
        if (row.kinds.empty()) all += row.stitches / units::stitch * basis_;
        for (const project::KindCount& part : row.kinds) {
            const double share = part.count / units::stitch * relative(part.kind);
            yarn[part.kind] += share;
            all += share;
        }
    }
    double sum = 0.0;
    for (const auto& [kind, part] : yarn)
        if (kind != gauge_kind_ && all > 0.0)
            sum = std::hypot(sum, part / all * project::relative_yarn_spread.value());
    return units::Ratio(sum);
}

}  // namespace skeinfall::need
