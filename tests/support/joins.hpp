#pragma once
/// \file
/// Rows and balls for join plans.

#include <cstdint>
#include <string>
#include <vector>

#include "skeinfall/joins/plan.hpp"

namespace skeinfall::support {

struct Work {
    need::RoleNeed need;
    std::vector<need::Step> steps;
};

/// Rows of one piece in MC that take the given metres, known exactly.
inline Work rows_of(const std::vector<double>& metres) {
    Work out;
    out.need.role = "MC";
    for (std::size_t i = 0; i < metres.size(); ++i) {
        need::Step step;
        step.role = "MC";
        step.row = static_cast<std::int64_t>(i) + 1;
        step.yarn = metres[i] * units::metre;
        out.need.length.centre += step.yarn;
        out.steps.push_back(step);
    }
    return out;
}

inline joins::Ball ball(const std::string& id, double metres, double spread = 0.0) {
    return {id, {metres * units::metre, spread * units::metre}};
}

/// Joins at row ends, `metres` for one end.
inline joins::Rules rules_with_tail(double metres) {
    joins::Rules out;
    out.tail = metres * units::metre;
    return out;
}

}  // namespace skeinfall::support
