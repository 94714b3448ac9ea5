#include "skeinfall/report/detail/joins_words.hpp"

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

/// Knots inside the planned skeins, each cut out and joined anew.
long knots_of(const joins::Answer& answer) {
    long knots = 0;
    for (const joins::RoleJoins& role : answer.roles)
        for (const joins::Stretch& stretch : role.plan.stretches) knots += stretch.ball.knots;
    return knots;
}

}  // namespace

std::string joins_headline(const joins::Answer& answer) {
    const long knots = knots_of(answer);
    const long joins = static_cast<long>(answer.joins) - knots;
    std::string out = counted(joins, "join", "joins");
    if (answer.perhaps > 0)
        out += fmt::format(", perhaps {}", joins + static_cast<long>(answer.perhaps));
    if (knots > 0) out += " and " + counted(knots, "knot", "knots");
    if (answer.request.pairs) out += " for each of the two";
    constexpr double even = 0.5;
    if (!answer.finishes && answer.lasts.value.value() < even)
        out += ", and the yarn will very likely run out";
    if (answer.lasts < answer.request.confidence)
        out += fmt::format(", chance {} that it lasts", chance_text(answer.lasts));
    if (!answer.rules_kept) out += ", not all where they should be";
    return out;
}

std::optional<std::string> lasts_words(const project::Project& project, const joins::JoinPlan& plan,
                                       measure::Chance confidence) {
    if (!plan.finishes || plan.stretches.empty()) return std::nullopt;
    if (plan.spares.empty() && plan.lasts >= confidence) return std::nullopt;
    const std::string place =
        place_text(project, plan, {plan.stretches.back().earliest, units::Ratio(0.0)});
    if (plan.spares.empty())
        return fmt::format("the yarn lasts with a chance of {}; it may end {}",
                           chance_text(plan.lasts), place);
    std::vector<std::string> ids;
    for (const joins::Spare& spare : plan.spares) ids.push_back(base::shown_inert(spare.ball.id));
    return fmt::format(
        "{} may be needed {}: without, the yarn lasts with a chance of {}, with it {}",
        base::join(ids, ", "), place, chance_text(plan.lasts), chance_text(joins::chance_of(plan)));
}

std::size_t joined_stretches(const joins::JoinPlan& plan) {
    if (plan.stretches.empty()) return 0;
    return plan.stretches.size() - (plan.spares.empty() ? 1 : 0);
}

std::vector<StopLine> stop_lines(const project::Project& project, const joins::RoleJoins& role,
                                 const joins::Scale& scale) {
    std::vector<StopLine> out;
    for (const joins::StopWeight& stop : role.stops) {
        StopLine line{stop.stretch, place_text(project, role.plan, {stop.steps_done, {}}),
                      scale_text(stop.next, scale.step),
                      stop.rest.value() > 0.0 ? scale_text(stop.rest, scale.step) : std::string()};
        if (stop.until > stop.steps_done) {
            const need::Step& last = role.plan.steps[stop.until - 1];
            line.place += fmt::format(
                ", until {} {}", project::row_word(project.pieces[last.piece].worked), last.row);
        }
        out.push_back(std::move(line));
    }
    return out;
}

}  // namespace skeinfall::report
