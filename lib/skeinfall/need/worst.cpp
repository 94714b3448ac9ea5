#include "skeinfall/need/worst.hpp"

#include <algorithm>
#include <map>
#include <string>

#include <fmt/format.h>

#include "skeinfall/need/plausible.hpp"
#include "skeinfall/need/rate.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::need {
namespace {

using units::Length;
using units::Ratio;

/// What is stitches goes by the rate; seams, fringes and ends do not.
bool goes_by_rate(Purpose purpose) {
    switch (purpose) {
        case Purpose::body:
        case Purpose::foundation:
        case Purpose::bind_off:
        case Purpose::border:
        case Purpose::neckband:
            return true;
        default:
            return false;
    }
}

bool always(Purpose /*purpose*/) {
    return true;
}

/// Times the yarn of a role's steps; returns how much more it takes then.
Length take_times(MakeNeed& make, RoleNeed& need, double times, bool (*which)(Purpose)) {
    Length more{};
    for (Step& step : make.steps) {
        if (step.role != need.role || !which(step.purpose)) continue;
        more += (times - 1.0) * step.yarn;
        step.yarn = times * step.yarn;
    }
    for (Part& part : need.parts)
        if (which(part.purpose)) part.yarn = times * part.yarn;
    return more;
}

/// What told it tells it no more: neither weighed in this yarn, nor a range that was stated.
void forget_what_told(RoleNeed& need, Ratio spread) {
    need.causes.push_back({"a rate that no fabric has, taken as what is usual", spread,
                           "Check what tells it, and its units."});
    need.by_mass = false;
    need.shared = Ratio(0.0);
    need.may_be_less = Length{};
    need.stated_between.reset();
}

void lengthen(RoleNeed& need, Length centre) {
    need.length.centre = centre;
    need.length.spread = centre * combined(need.causes);
}

}  // namespace

MakeNeed at_worst(MakeNeed make, const project::Project& project) {
    const PlausibleYarn plausible = plausible_yarn(project.craft);
    std::map<std::string, double> longer;
    for (RoleNeed& need : make.roles) {
        YarnOverWidth& over = need.plain_rows;
        if (!(over.times.value() > 0.0) || over.taken > over.times ||
            !plausible.too_little(over.times))
            continue;
        over.taken = plausible.usual();
        const Length before = need.length.centre;
        const Length more = take_times(make, need, over.taken / over.times, &goes_by_rate);
        forget_what_told(need, plausible.spread());
        lengthen(need, before + more);
        longer[need.role] = need.length.centre / before;
        need.notes.push_back(fmt::format(
            "what tells it says {} times the width of a plain row, less than any fabric takes: "
            "calculated at {}",
            units::number_text(over.times, units::Step::tenth, units::Rounding::nearest),
            units::number_text(over.taken, units::Step::tenth, units::Rounding::nearest)));
    }
    for (RoleNeed& need : make.roles) {
        const auto partner = longer.find(project.role(need.role)->held_with);
        if (partner == longer.end() || longer.contains(need.role)) continue;
        take_times(make, need, partner->second, &always);
        forget_what_told(need, plausible.spread());
        lengthen(need, partner->second * need.length.centre);
    }
    return make;
}

}  // namespace skeinfall::need
