#include "skeinfall/yarn/strands.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/grist_match.hpp"

namespace skeinfall::yarn {
namespace {

using units::Ratio;
using units::Rounding;
using units::Step;

/// Powers of the mass per length at which two alike strands give 2/3 and 0.73 of the stitches.
const double most_drop = std::log(3.0 / 2.0) / std::log(2.0);
const double least_drop = -std::log(0.73) / std::log(2.0);

FibreContent blended(const std::vector<Strand>& strands, units::LinearDensity sum) {
    FibreContent out;
    for (const Strand& strand : strands) {
        if (!strand.content.known()) return {};
        const Ratio part(1.0 / strand.grist / sum);
        for (const FibreShare& share : strand.content.shares) {
            const auto same =
                std::find_if(out.shares.begin(), out.shares.end(),
                             [&](const FibreShare& have) { return have.fibre == share.fibre; });
            if (same == out.shares.end())
                out.shares.push_back({share.fibre, share.share * part});
            else
                same->share += share.share * part;
        }
    }
    return out;
}

}  // namespace

Together held_together(const std::vector<Strand>& strands) {
    if (strands.empty()) throw std::invalid_argument("there is no strand to hold");
    units::LinearDensity sum{};
    for (const Strand& strand : strands) sum += 1.0 / strand.grist;
    const double thicker = Ratio(sum * strands.front().grist).value();
    return {1.0 / sum, blended(strands, sum), Ratio(std::sqrt(thicker)),
            Ratio(std::pow(thicker, -most_drop)), Ratio(std::pow(thicker, -least_drop))};
}

RunOut first_to_run_out(const std::vector<units::Length>& supplies) {
    if (supplies.empty()) throw std::invalid_argument("there is no strand to run out");
    const auto least = std::min_element(supplies.begin(), supplies.end());
    RunOut out{static_cast<std::size_t>(std::distance(supplies.begin(), least)), *least, {}};
    for (const units::Length& supply : supplies) out.left.push_back(supply - *least);
    return out;
}

Finding judge_claim(const std::vector<Strand>& strands, WeightClass claimed) {
    const units::Grist together = held_together(strands).grist;
    Finding finding{Level::ok, "class", {}, "lib/data/length_per_mass_by_class.csv"};
    finding.says =
        (strands.size() == 1 ? "One strand is "
                             : std::to_string(strands.size()) + " strands together are ") +
        units::text(together, units::shown::metres_per_100g, Step::one, Rounding::nearest);
    const auto range = published_grist(claimed);
    if (!range) {
        finding.level = Level::caution;
        finding.says += "; no chart knows class " + text(claimed) + ".";
        return finding;
    }
    const bool fits = range->holds(together);
    if (!fits) finding.level = Level::stop;
    finding.says += std::string(fits ? ", within" : ", outside") + " what charts give class " +
                    text(claimed) + " (" + text(*range) + ")" +
                    (fits ? "." : ": class names cannot simply be added.");
    return finding;
}

std::vector<PliedStock> split_plies(const PliedStock& whole, const std::vector<int>& parts) {
    const bool positive =
        !parts.empty() && std::all_of(parts.begin(), parts.end(), [](int n) { return n > 0; });
    if (!positive || std::accumulate(parts.begin(), parts.end(), 0) != whole.plies)
        throw base::InputError(
            base::Problem{"the bundles do not add up to the yarn's plies",
                          {},
                          "numbers above zero that add to " + std::to_string(whole.plies),
                          "A 4 ply yarn parts into 2 and 2, 1 and 3, or four singles."});
    std::vector<PliedStock> out;
    units::Mass rest = whole.mass;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        // The last bundle takes what is left, so that nothing is lost in rounding.
        const units::Mass mass =
            i + 1 == parts.size()
                ? rest
                : whole.mass * static_cast<double>(parts[i]) / static_cast<double>(whole.plies);
        out.push_back({whole.length, mass, parts[i]});
        rest -= mass;
    }
    return out;
}

Ends ends_to_replace(units::Grist cone, units::Grist target) {
    const double ends = std::max(1.0, std::round(Ratio(cone / target).value()));
    const units::Grist together = cone / ends;
    return {static_cast<int>(std::min(ends, 1e6)), together, compare_grist(target, together)};
}

Held hold(const Holding& holding) {
    std::vector<Strand> strands;
    std::vector<units::Length> supplies;
    for (const Description& one : holding.strands) {
        if (!one.grist) throw std::invalid_argument("a strand has no length per weight");
        strands.push_back({*one.grist, one.content});
        if (const auto ball = one.ball_length()) supplies.push_back(*ball);
    }
    Held out;
    out.together = held_together(strands);
    Evidence evidence;
    evidence.grist = measure::Estimate<units::Grist>{out.together.grist, {}};
    out.ranking = rank_classes(evidence);
    if (holding.replaces)
        out.findings.push_back(compare_grist(*holding.replaces, out.together.grist));
    if (holding.claimed) out.findings.push_back(judge_claim(strands, *holding.claimed));
    if (supplies.size() == strands.size()) out.run_out = first_to_run_out(supplies);
    return out;
}

}  // namespace skeinfall::yarn
