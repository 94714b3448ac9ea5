#include "skeinfall/need/teach.hpp"

#include <algorithm>
#include <cmath>

#include "skeinfall/base/text.hpp"
#include "skeinfall/need/need.hpp"

namespace skeinfall::need {
namespace {

/// Without all that tells the yarn of this make itself.
project::Project told_by_others(project::Project project) {
    project.swatches.clear();
    project.earlier_makes.clear();
    project.hand.reset();
    for (project::Role& role : project.roles) {
        role.total_length = {};
        role.total_mass = {};
        role.total_least = {};
        role.total_range = project::TotalRange::none;
        role.total_of_size.clear();
        role.total_for.reset();
        role.rate.reset();
        role.area_rate.reset();
    }
    return project;
}

}  // namespace

Lesson lesson_of(const project::Project& project, std::size_t size, const std::string& role,
                 units::Length used, units::Ratio used_spread) {
    const MakeNeed make = need_of(told_by_others(project), size);
    const auto need = std::find_if(make.roles.begin(), make.roles.end(),
                                   [&](const RoleNeed& one) { return one.role == role; });
    if (need == make.roles.end() || used <= units::Length{})
        throw base::InputError(
            base::Problem{"yarn " + base::quoted(role) + " took nothing in this make",
                          {.file = project.file, .line = 0, .column = 0},
                          "what it took of a yarn that the project uses",
                          ""});
    Lesson out;
    out.expected = need->length;
    out.used = used;
    out.taught.make = project.title;
    out.taught.role = role;
    out.taught.times = units::Ratio(used / need->length.centre);
    // The prior's band holds the hand; what is left of it is stitch, yarn and page.
    constexpr double least = 0.05;
    const double all = need->length.relative().value();
    const double hands = project::unknown_hand.value();
    const double apart = std::sqrt(std::max(0.0, all * all - hands * hands));
    out.taught.noise = units::Ratio(std::max(least, std::hypot(apart, used_spread.value())));
    return out;
}

}  // namespace skeinfall::need
