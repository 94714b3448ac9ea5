#include "skeinfall/plan/make_plan.hpp"

#include <utility>

#include "skeinfall/cover/buy_more.hpp"

namespace skeinfall::plan {

joins::BallsOfRoles balls_of(const cover::MakeCover& cover, joins::Request& request) {
    joins::BallsOfRoles balls;
    for (const cover::RoleCover& role : cover.roles) {
        if (!role.in_hand.empty()) request.in_hand[role.role.id] = role.in_hand;
        if (role.label_cancels) request.label_cancels.insert(role.role.id);
        if (!role.balls.empty()) balls[role.role.id] = role.balls;
    }
    return balls;
}

MakePlan plan_make(const project::Project& project, std::size_t size,
                   const std::vector<stash::Skein>& stash, const cover::Rules& rules,
                   joins::Request request) {
    MakePlan out;
    out.need = cover::need_for(project, size, rules);
    out.cover = cover::cover_make(project, out.need, stash, rules);
    cover::count_what_to_buy(project, out.need, rules, out.cover);
    request.size = size;
    request.confidence = rules.confidence;
    const joins::BallsOfRoles balls = balls_of(out.cover, request);
    out.joins = joins::answer_joins(project, out.need, balls, request);
    return out;
}

}  // namespace skeinfall::plan
