#include "skeinfall/joins/detail/nearest.hpp"

#include <algorithm>
#include <cstdint>
#include <optional>

namespace skeinfall::joins {
namespace {

using need::Purpose;
using need::Step;
using units::Length;

/// Two alike halves of all that is there, against what one of the two takes.
Nearest by_halves(const std::vector<Ball>& balls, Length takes, Length tail) {
    Nearest out;
    out.way = Nearest::Way::halves;
    out.takes = takes;
    for (const Ball& ball : balls)
        out.has += 0.5 * (ball.length.centre - 2.0 * (1 + ball.knots) * tail);
    out.works = out.has >= takes;
    return out;
}

/// The piece in which the yarn ends, ended after the last of its rows with which all is finished.
/// Its bind-off is as wide as that row.
std::optional<Nearest> ended_earlier(const project::Project& project, need::RoleNeed role,
                                     const JoinPlan& plan, const std::vector<Ball>& balls,
                                     const Rules& rules) {
    const std::vector<Step>& all = plan.steps;
    std::size_t at = std::min(plan.stretches.back().to.step, all.size() - 1);
    const auto body = [](const Step& step) {
        return step.purpose == Purpose::body && step.row > 0;
    };
    while (at > 0 && !body(all[at])) --at;
    if (project.pieces.empty() || !body(all[at])) return std::nullopt;
    const project::Piece& piece = project.pieces[all[at].piece];
    if (piece.count.stated() && piece.count.at(rules.size) > 1) return std::nullopt;
    const auto of_piece = [&](const Step& step) {
        return step.name.empty() && step.piece == all[at].piece && step.copy == all[at].copy;
    };
    std::vector<std::size_t> rows;
    for (std::size_t i = 0; i < all.size(); ++i)
        if (of_piece(all[i]) && body(all[i])) rows.push_back(i);
    const double relative = role.length.relative();
    const auto works = [&](std::size_t kept) {
        const Step& last = all[rows[kept - 1]];
        const double wider = last.yarn / all[rows.back()].yarn;
        std::vector<Step> steps;
        role.length.centre = Length{};
        for (Step step : all) {
            const bool row = step.purpose == Purpose::body || step.purpose == Purpose::carried;
            if (of_piece(step) && row && step.row > last.row) continue;
            if (of_piece(step) && step.purpose == Purpose::bind_off) step.yarn = wider * step.yarn;
            role.length.centre += step.yarn;
            steps.push_back(step);
        }
        role.length.spread = role.length.centre * relative;
        const JoinPlan shorter = plan_joins(role, steps, balls, rules, &project);
        return shorter.finishes && shorter.rules_kept && is_sure(shorter, rules.confidence);
    };
    std::size_t low = 0;
    std::size_t high = rows.size();  // does not work
    while (high - low > 1) {
        const std::size_t middle = (low + high) / 2;
        (works(middle) ? low : high) = middle;
    }
    if (low == 0) return std::nullopt;
    Nearest out;
    out.way = Nearest::Way::ended_earlier;
    out.piece = all[at].piece;
    out.rows = all[rows[low - 1]].row;
    out.of = all[rows.back()].row;
    return out;
}

}  // namespace

std::vector<Nearest> nearest_that_works(const project::Project& project, const need::RoleNeed& role,
                                        const std::vector<Step>& steps,
                                        const std::vector<Ball>& balls,
                                        const std::vector<Ball>& paired, const Rules& rules,
                                        const RoleJoins& found, bool pairs) {
    std::vector<Nearest> out;
    const JoinPlan& plan = found.plan;
    // Each try is a plan of its own: not where one alone takes long.
    constexpr std::size_t large = 100'000;
    const bool small = plan.steps.size() * paired.size() <= large;
    if (plan.stretches.empty()) return out;
    if (small && !plan.rules_kept && rules.rows_between > 0) {
        std::int64_t low = 0;  // none asked for: works, or the zones are at fault
        std::int64_t high = rules.rows_between;
        Rules nearer = rules;
        while (high - low > 1) {
            nearer.rows_between = (low + high) / 2;
            const JoinPlan kept = plan_joins(role, steps, paired, nearer, &project);
            (kept.finishes && kept.rules_kept ? low : high) = nearer.rows_between;
        }
        if (low > 0) {
            Nearest closer;
            closer.way = Nearest::Way::closer;
            closer.rows = low;
            closer.of = rules.rows_between;
            out.push_back(closer);
        }
    }
    if (plan.finishes && chance_of(plan) >= rules.confidence) return out;
    if (pairs && !plan.finishes) out.push_back(by_halves(balls, role.length.centre, rules.tail));
    const JoinPlan& anywhere = found.anywhere;
    const bool sure = anywhere.finishes && chance_of(anywhere) >= rules.confidence;
    if (sure || (anywhere.finishes && !plan.finishes)) {
        Nearest inside;
        inside.works = sure;
        inside.chance = chance_of(anywhere);
        out.push_back(inside);
    }
    if (!sure && small && !pairs)
        if (const auto shorter = ended_earlier(project, role, plan, paired, rules))
            out.push_back(*shorter);
    return out;
}

}  // namespace skeinfall::joins
