#include "skeinfall/need/rest.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "skeinfall/need/rate.hpp"

namespace skeinfall::need {
namespace {

using units::Length;
using units::Ratio;

bool of(const Step& step, const Worked& worked) {
    return step.role == worked.role && step.yarn > Length{};
}

bool in_piece(const Step& step, const Worked& worked) {
    return step.name.empty() && step.piece == worked.piece && step.copy == worked.copy;
}

bool is_row(const Step& step) {
    return step.purpose == Purpose::body && step.row > 0;
}

/// Steps of the make, from its first, among which all of the role's are done.
std::size_t done_before(const std::vector<Step>& steps, const Worked& worked) {
    std::size_t done = 0;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (!of(steps[i], worked) || !in_piece(steps[i], worked)) continue;
        if (worked.row == 0) return i;
        if (is_row(steps[i]) && steps[i].row <= worked.row) done = i + 1;
    }
    return done;
}

Length yarn_of(const std::vector<Step>& steps, const std::string& role) {
    Length sum{};
    for (const Step& step : steps)
        if (step.role == role) sum += step.yarn;
    return sum;
}

/// The band that readings leave for so much planned yarn.
Ratio band(const Worked& worked, Length planned) {
    double rows = 1.0;
    if (planned > Length{} && worked.row_yarn > Length{}) rows = planned / worked.row_yarn;
    return Ratio(std::hypot(worked.rate_spread.value(),
                            worked.row_spread.value() / std::sqrt(std::max(rows, 1e-6))));
}

void narrow(RoleNeed& need, const project::Project& project, const Worked& worked, Length planned,
            Length of_steps, const std::vector<Step>& steps) {
    double share = 0.0;
    if (of_steps > Length{}) share = planned / of_steps;
    const Length left = need.length.centre * share;
    need.causes = {{"what the readings of the work leave open", band(worked, left),
                    "Weigh again after some rows."}};
    need.by_mass = need.grist.has_value();
    need.shared = Ratio(0.0);
    if (need.by_mass)
        if (const auto grist = grist_of(*project.role(need.role))) need.shared = grist->spread;
    need.length.centre = left * worked.use;
    need.length.spread =
        need.length.centre * std::hypot(combined(need.causes).value(), need.shared.value());
    need.how = "from readings of the work";
    need.source = Source::swatch;
    need.calibration.reset();
    need.passed_over.clear();
    need.contradictions.clear();
    if (worked.odd) need.contradictions.emplace_back(*worked.odd);
    need.stated_between.reset();
    need.may_be_less = Length{};
    need.evidence = {{need.source, need.how, need.length.centre, need.length.relative(), Ratio(1.0),
                      Ratio(0.0), false}};
    std::map<Purpose, Length> parts;
    for (const Step& step : steps)
        if (step.role == need.role) parts[step.purpose] += step.yarn;
    need.parts.clear();
    for (const auto& [purpose, yarn] : parts) need.parts.push_back({purpose, yarn});
}

/// A yarn held with another has rows of its own from now on: the two need not be at one place.
void part_from_partner(MakeNeed& make, const project::Project& project,
                       const std::vector<Worked>& done) {
    const std::vector<Step> before = make.steps;
    for (const Worked& worked : done) {
        const project::Role* const role = project.role(worked.role);
        const auto need =
            std::find_if(make.roles.begin(), make.roles.end(),
                         [&](const RoleNeed& one) { return one.role == worked.role; });
        if (role == nullptr || role->held_with.empty() || need == make.roles.end()) continue;
        const std::vector<Step> own = steps_beside(*need, role->held_with, before);
        std::erase_if(make.steps, [&](const Step& step) { return step.role == worked.role; });
        make.steps.insert(make.steps.end(), own.begin(), own.end());
    }
}

}  // namespace

std::vector<Step> steps_beside(const RoleNeed& role, const std::string& other,
                               const std::vector<Step>& steps) {
    const auto rows_of = [&](const std::string& id) {
        return std::any_of(steps.begin(), steps.end(), [&](const Step& step) {
            return step.role == id && is_row(step) && step.yarn > Length{};
        });
    };
    const std::string& whose = rows_of(role.role) ? role.role : other;
    std::vector<Step> out;
    Length sum{};
    for (const Step& step : steps)
        if (step.role == whose && step.yarn > Length{}) {
            out.push_back(step);
            sum += step.yarn;
        }
    for (Step& step : out) {
        step.role = role.role;
        step.yarn = step.yarn * (role.length.centre / sum);
    }
    return out;
}

MakeNeed rest_of(MakeNeed make, const project::Project& project, const std::vector<Worked>& done) {
    part_from_partner(make, project, done);
    for (const Worked& worked : done) {
        const auto need =
            std::find_if(make.roles.begin(), make.roles.end(),
                         [&](const RoleNeed& one) { return one.role == worked.role; });
        if (need == make.roles.end()) continue;
        const Length before = yarn_of(make.steps, worked.role);
        const std::size_t first = done_before(make.steps, worked);
        std::vector<Step> left;
        for (std::size_t i = 0; i < make.steps.size(); ++i)
            if (i >= first || make.steps[i].role != worked.role) left.push_back(make.steps[i]);
        const Length planned = yarn_of(left, worked.role);
        for (Step& step : left)
            if (step.role == worked.role) step.yarn = step.yarn * worked.use;
        make.steps = std::move(left);
        std::erase_if(make.changes, [&](const Change& change) {
            return change.role == worked.role &&
                   std::tie(change.piece, change.copy, change.row) <=
                       std::tie(worked.piece, worked.copy, worked.row);
        });
        if (planned > Length{})
            narrow(*need, project, worked, planned, before, make.steps);
        else
            make.roles.erase(need);
    }
    return make;
}

}  // namespace skeinfall::need
