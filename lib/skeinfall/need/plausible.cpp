#include "skeinfall/need/plausible.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string_view>
#include <utility>

#include "skeinfall/need/detail/kind_weights.hpp"
#include "skeinfall/project/stitches.hpp"

namespace skeinfall::need {

using units::Ratio;

Ratio PlausibleYarn::usual() const {
    return Ratio(std::sqrt(least.value() * most.value()));
}

Ratio PlausibleYarn::spread() const {
    constexpr double both_ends_at_95 = 2.0 * 1.96;
    return Ratio(std::log(most.value() / least.value()) / both_ends_at_95);
}

Ratio PlausibleYarn::doubt_of(Ratio times, bool measured) const {
    const Ratio from = measured ? least_measured : least;
    if (!(times < from)) return Ratio(0.0);
    constexpr double one_end_at_95 = 1.645;
    const double below = std::min(1.0, std::log(from / times) / std::log(2.0 * (from / least)));
    const double reached = from.value() * std::pow(usual() / from, below);
    return Ratio((reached / times.value() - 1.0) / one_end_at_95);
}

PlausibleYarn plausible_yarn(project::Craft craft) {
    if (craft == project::Craft::knit) return {Ratio(2.5), Ratio(9.0), Ratio(2.2)};
    return {Ratio(6.0), Ratio(22.0), Ratio(4.0)};
}

Ratio with_gauge_open(Ratio times, const project::Project& project) {
    const project::Craft craft = project.craft;
    const bool by_counts =
        std::any_of(project.pieces.begin(), project.pieces.end(),
                    [](const project::Piece& piece) { return piece.stitches.stated(); });
    const double open = by_counts ? 4.0 : 2.0;
    const Ratio usual = plausible_yarn(craft).usual();
    return times < usual ? std::min(usual, open * times) : std::max(usual, times / open);
}

PlainRows plain_rows(const project::Project& project, const std::vector<project::Row>& rows,
                     const std::string& role) {
    // By piece and kind, "" for that of the gauge: each is looked up once, not in every row.
    std::vector<std::vector<std::pair<std::string_view, units::StitchCount>>> counts(
        project.pieces.size());
    const auto add = [&](std::size_t piece, std::string_view kind, units::StitchCount count) {
        auto& of_piece = counts[piece];
        const auto known = std::find_if(of_piece.begin(), of_piece.end(),
                                        [&](const auto& one) { return one.first == kind; });
        if (known == of_piece.end())
            of_piece.emplace_back(kind, count);
        else
            known->second += count;
    };
    for (const project::Row& row : rows) {
        if (row.role != role) continue;
        if (row.kinds.empty()) add(row.piece, {}, row.stitches);
        for (const project::KindCount& kind : row.kinds) add(row.piece, kind.kind, kind.count);
    }
    PlainRows out;
    for (std::size_t piece = 0; piece < counts.size(); ++piece) {
        const project::Gauge& gauge = gauge_of(project, project.pieces[piece]);
        for (const auto& [kind, count] : counts[piece]) {
            const auto weight = project::relative_yarn(
                kind.empty() ? kind_of(gauge.stitch, project) : std::string(kind),
                project.stitches);
            out.all_known = out.all_known && weight.has_value();
            out.width += weight.value_or(Ratio(1.0)) * count / gauge.stitches;
        }
    }
    return out;
}

std::int64_t strands_of(const project::Project& project, const project::Role& role) {
    const bool has_partner =
        !role.held_with.empty() ||
        std::any_of(project.roles.begin(), project.roles.end(),
                    [&](const project::Role& other) { return other.held_with == role.id; });
    std::int64_t strands = 1;
    if (has_partner) return strands;
    for (const project::Swatch& swatch : project.swatches)
        if (swatch.role == role.id) strands = std::max(strands, swatch.strands);
    return strands;
}

}  // namespace skeinfall::need
