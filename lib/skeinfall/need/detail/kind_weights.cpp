#include "skeinfall/need/detail/kind_weights.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "skeinfall/base/text.hpp"
#include "skeinfall/need/need.hpp"

namespace skeinfall::need {
namespace {

double room(const project::Gauge& gauge) {
    return 1.0 / (gauge.stitches.value() * gauge.rows.value());
}

}  // namespace

std::string kind_of(const std::string& stitch, const project::Project& project) {
    return project::stitch_kind(stitch, project.craft, project.terms)
        .value_or(base::lower(base::trimmed(stitch)));
}

KindWeights::KindWeights(const project::Project& project, const std::vector<project::Row>& rows)
    : project_(&project), rows_(&rows), gauge_kind_(kind_of(project.gauge.stitch, project)) {
    const auto known = project::relative_yarn(gauge_kind_, project.stitches);
    in_table_ = known && known->value() > 0.0;
    basis_ = in_table_ ? known->value() : average({});
}

const KindWeights::Told* KindWeights::told(const std::string& role) const {
    const auto found = told_.find(role);
    return found == told_.end() ? nullptr : &found->second;
}

double KindWeights::by_table(const std::string& kind) {
    const auto known = table_.find(kind);
    if (known != table_.end()) return known->second;
    // A stitch nobody knows counts as a plain one; its finding says that it is unknown.
    const double value =
        project::relative_yarn(kind, project_->stitches).value_or(units::Ratio(1.0)).value();
    table_.emplace(kind, value);
    return value;
}

double KindWeights::relative(const std::string& role, const std::string& kind) {
    const Told* const known = told(role);
    const KindRate* const rate = known == nullptr ? nullptr : known->calibration->find(kind);
    return rate == nullptr ? by_table(kind) : rate->yarn.centre.value() / known->level;
}

double KindWeights::basis(const std::string& role) {
    const Told* const known = told(role);
    return known == nullptr ? basis_ : known->basis;
}

/// Yarn of all rows in kinds over their stitches across.
double KindWeights::average(const std::string& role) {
    double yarn = 0.0;
    double across = 0.0;
    for (const project::Row& row : *rows_) {
        if (row.kinds.empty()) continue;
        across += row.stitches / units::stitch;
        for (const project::KindCount& part : row.kinds)
            yarn += part.count / units::stitch * relative(role, part.kind);
    }
    return across > 0.0 && yarn > 0.0 ? yarn / across : 1.0;
}

units::YarnPerStitch KindWeights::teach(const std::string& role, const Calibration& calibration) {
    // The kind that is known best says what the plain stitch would take.
    const auto best =
        std::min_element(calibration.kinds.begin(), calibration.kinds.end(),
                         [](const KindRate& a, const KindRate& b) {
                             return std::tuple(!a.identified, a.yarn.relative().value()) <
                                    std::tuple(!b.identified, b.yarn.relative().value());
                         });
    const KindRate* const of_gauge = calibration.find(gauge_kind_);
    const KindRate& measure = of_gauge != nullptr ? *of_gauge : *best;
    const double weight = by_table(measure.kind);
    Told& entry = told_[role];
    entry.calibration = &calibration;
    entry.measure = measure.kind;
    entry.level = measure.yarn.centre.value() / (weight > 0.0 ? weight : 1.0);
    entry.basis = of_gauge != nullptr || in_table_ ? relative(role, gauge_kind_) : average(role);
    return units::YarnPerStitch::from_value(entry.level * entry.basis);
}

KindWeights::Plain KindWeights::plain(const project::Row& row) {
    const project::Piece& piece = project_->pieces[row.piece];
    if (!piece.gauge) return {gauge_kind_, 1.0, false};
    const std::string kind = kind_of(piece.gauge->stitch, *project_);
    const Told* const known = told(row.role);
    const bool weighed = known != nullptr && known->calibration->find(kind) != nullptr;
    const bool both_in_table =
        in_table_ && project::relative_yarn(kind, project_->stitches).has_value();
    if (kind != gauge_kind_ && (weighed || both_in_table))
        return {kind, relative(row.role, kind) / basis(row.role), false};
    return {kind, std::sqrt(room(*piece.gauge) / room(project_->gauge)), true};
}

units::StitchCount KindWeights::of(const project::Row& row) {
    if (row.kinds.empty()) return row.stitches * plain(row).times;
    units::StitchCount sum{};
    for (const project::KindCount& part : row.kinds)
        sum += part.count * relative(row.role, part.kind);
    return sum / basis(row.role);
}

KindWeights::Spread KindWeights::spread(const std::vector<project::Row>& rows,
                                        const std::string& role) {
    std::map<std::string, double> stitches;  // of each kind, plain ones by what they count as
    std::map<std::size_t, double> by_room;   // yarn of pieces that go by the room of a stitch
    double all = 0.0;
    for (const project::Row& row : rows) {
        if (row.role != role) continue;
        if (row.kinds.empty()) {
            const Plain each = plain(row);
            const double yarn = row.stitches / units::stitch * each.times * basis(role);
            all += yarn;
            if (each.by_room)
                by_room[row.piece] += yarn;
            else if (const double weight = relative(role, each.kind); weight > 0.0)
                stitches[each.kind] += yarn / weight;
        }
        for (const project::KindCount& part : row.kinds) {
            stitches[part.kind] += part.count / units::stitch;
            all += part.count / units::stitch * relative(role, part.kind);
        }
    }
    if (!(all > 0.0)) return {};
    const Told* const known = told(role);
    std::vector<project::KindCount> told_kinds;
    double model = 0.0;
    for (const auto& [kind, count] : stitches) {
        if (known != nullptr && known->calibration->find(kind) != nullptr)
            told_kinds.push_back({kind, count * units::stitch});
        // A rate that swatches of other stitches tell holds for the gauge's own by the table alone.
        else if (known != nullptr || kind != gauge_kind_) {
            const double yarn = count * relative(role, kind);
            model = std::hypot(model, yarn / all * project::relative_yarn_spread_of(kind).value());
            // Reckoned from what the swatches tell, it is no surer than they are.
            if (known != nullptr && relative(role, known->measure) > 0.0)
                told_kinds.push_back(
                    {known->measure, yarn / relative(role, known->measure) * units::stitch});
        }
    }
    for (const auto& [piece, yarn] : by_room) {
        const double wider =
            std::abs(std::log(room(*project_->pieces[piece].gauge) / room(project_->gauge)));
        model = std::hypot(model, yarn / all * wider * usual::power_of_room.value());
    }
    Spread out{units::Ratio(0.0), units::Ratio(model)};
    if (known != nullptr)
        out.told =
            units::Ratio(known->calibration->spread_of(told_kinds).value() / known->level / all);
    return out;
}

}  // namespace skeinfall::need
