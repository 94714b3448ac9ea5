#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/joins.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;
using units::Rounding;

}  // namespace

std::string hidden_joins_text(const project::Project& project, const joins::Answer& answer,
                              const std::optional<joins::HiddenCost>& cost) {
    if (!joins::can_hide(project))
        return cost ? "\nNo piece says where a seam, a hem or a fold lies, so no join can hide.\n"
                    : "";
    const std::vector<joins::JoinSeen> seen = joins::joins_seen(project, answer);
    std::string out;
    for (const joins::JoinSeen& join : seen) {
        const joins::JoinPlan& plan = answer.roles[join.role].plan;
        const joins::Stretch& stretch = plan.stretches[join.stretch];
        out += fmt::format("  {} to {}, {}: {}\n", shown_inert(stretch.ball.id),
                           shown_inert(plan.stretches[join.stretch + 1].ball.id),
                           place_text(project, plan, stretch.to),
                           join.by ? fmt::format("hidden in the {}", project::name_of(*join.by))
                                   : std::string("shows"));
    }
    if (!out.empty()) out.insert(0, "\nWhere the joins lie\n");
    if (!cost) return out;
    if (!cost->lasts)
        out += "  Joined only where it hides, the yarn would not last as surely: left as it is.\n";
    else if (cost->shown_before == 0)
        out += seen.empty() ? "\nThere is no join to hide.\n" : "  No join shows.\n";
    else if (cost->shown_after == cost->shown_before)
        out += "  No other plan of these skeins hides more of them.\n";
    else
        out += fmt::format(
            "  {} instead of {} show; that costs {}{}.\n", cost->shown_after, cost->shown_before,
            cost->cut_off > units::Length{}
                ? yards_and_metres(cost->cut_off, Rounding::up) + " more cut off at joins"
                : std::string("no yarn"),
            cost->skeins > 0
                ? fmt::format(" and {}", counted(cost->skeins, "skein more", "skeins more"))
                : "");
    return out;
}

}  // namespace skeinfall::report
