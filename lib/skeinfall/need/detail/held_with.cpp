#include "skeinfall/need/detail/held_with.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/need/rate.hpp"
#include "skeinfall/need/reckoning.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::need {

using units::Length;
using units::Ratio;

void follow_partner(const project::Project& project, const MakeNeed& make, RoleNeed& need,
                    Length& rest) {
    const project::Role& role = *project.role(need.role);
    if (role.held_with.empty()) return;
    const auto partner =
        std::find_if(make.roles.begin(), make.roles.end(),
                     [&](const RoleNeed& other) { return other.role == role.held_with; });
    if (partner == make.roles.end()) return;
    const Length stated = rest;
    rest = std::max(Length{}, partner->length.centre);
    need.source = partner->source;
    need.how = "as long as " + role.held_with + ", with which it is held";
    need.causes = partner->causes;
    if (partner->shared.value() > 0.0)
        need.causes.push_back({"the length per weight of " + role.held_with, partner->shared,
                               "Measure 10 yd of that yarn and weigh it."});
    need.by_mass = false;
    need.shared = Ratio(0.0);
    if (!(stated > Length{})) return;
    need.passed_over.push_back({"the stated total", stated, usual::stated_total});
    const double off = std::log(stated / rest);
    const Ratio beside_spread = combined(partner->causes);
    const double band = std::hypot(usual::stated_total.value(), beside_spread.value());
    if (std::abs(off) <= discord_limit.value() * band) return;
    // Two yarns held together are used up alike: the larger counts until she has checked both.
    need.notes.push_back(
        fmt::format("its stated total, {}, does not agree: yarns held together are used in equal "
                    "lengths. Check both{}",
                    units::yards_and_metres(stated, units::Rounding::nearest),
                    off > 0.0 ? "; the larger is taken" : ""));
    const Evidence beside{
        partner->source, "as " + role.held_with,       rest,
        beside_spread,   Ratio(off > 0.0 ? 0.0 : 1.0), Ratio(std::abs(off) / band),
        off > 0.0};
    const Evidence total{
        Source::stated_total,         "the stated total",          stated,    usual::stated_total,
        Ratio(off > 0.0 ? 1.0 : 0.0), Ratio(std::abs(off) / band), off <= 0.0};
    need.evidence = off > 0.0 ? std::vector{total, beside} : std::vector{beside, total};
    if (off <= 0.0) return;
    rest = stated;
    need.how = "the stated total";
    need.causes.push_back({"a total that contradicts the yarn it is held with", usual::stated_total,
                           "Check the total against the yarn it is held with."});
}

}  // namespace skeinfall::need
