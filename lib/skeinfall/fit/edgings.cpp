#include <algorithm>
#include <cmath>
#include <cstdint>

#include "skeinfall/fit/detail/law.hpp"
#include "skeinfall/fit/fit.hpp"
#include "skeinfall/project/edging.hpp"

namespace skeinfall::fit {

FollowedEdgings follow_edgings(const project::Project& before, project::Project& after,
                               std::size_t piece, std::size_t size,
                               std::optional<units::Length> way) {
    FollowedEdgings out;
    for (std::size_t at = 0; at < after.finish.size(); ++at) {
        project::FinishPart& part = after.finish[at];
        const auto was = project::way_of_edging(before, before.finish[at], piece, size);
        const auto now = way ? way : project::way_of_edging(after, part, piece, size);
        if (was && now && *was > units::Length{}) {
            const units::Ratio by(*now / *was);
            const std::int64_t first = part.first_round.at(size);
            const std::int64_t then = std::max<std::int64_t>(
                1,
                std::llround(std::ceil(static_cast<double>(first) * by.value() - rounding_noise)));
            if (then == first) continue;
            if (part.first_round.values.size() == 1)
                part.first_round.values.assign(before.size_count(), first);
            part.first_round.values.at(size) = then;
            out.changed.push_back({at, first, then, part.first_round});
        } else if (const auto wide = project::width_of_fringe(before, before.finish[at], size);
                   wide && *wide > units::Length{}) {
            const units::Ratio by(*project::width_of_fringe(after, part, size) / *wide);
            if (std::abs(by.value() - 1.0) < rounding_noise) continue;
            ChangedFringe fringe{at, std::nullopt, 0, by};
            if (part.strands.stated()) fringe.strands_were = part.strands.at(size);
            project::lengthen_fringe(part, size, before.size_count(), by);
            if (fringe.strands_were) fringe.strands = part.strands.at(size);
            if (fringe.strands_were != fringe.strands) out.fringes.push_back(fringe);
        } else if (part.yarn.stated() || part.length.stated() || part.stitches.stated() ||
                   part.first_round.stated()) {
            out.unchanged.push_back(part.name.empty() ? std::string("a finishing part")
                                                      : part.name);
        }
    }
    return out;
}

}  // namespace skeinfall::fit
