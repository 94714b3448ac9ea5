#pragma once
/// \file
/// Random panels and stashes for properties, from a little short to a skein to spare.

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

#include <rapidcheck.h>

#include "skeinfall/plan/make_plan.hpp"

#include "plan/makes.hpp"

namespace skeinfall::support {

struct RandomMake {
    project::Project project;
    std::vector<stash::Skein> stash;
};

inline cover::Rules rules_for(const project::Project& project) {
    cover::Rules out;
    out.project = project.title;
    out.tail = project.tail;
    return out;
}

inline plan::MakePlan planned(const project::Project& project,
                              const std::vector<stash::Skein>& stash) {
    return plan::plan_make(project, 0, stash, rules_for(project), {});
}

inline double chance_of(const project::Project& project, const std::vector<stash::Skein>& stash) {
    return planned(project, stash).cover.chance.value.value();
}

inline cover::Verdict verdict_of(const project::Project& project,
                                 const std::vector<stash::Skein>& stash) {
    return planned(project, stash).cover.verdict;
}

/// One to five skeins, one of them perhaps begun and weighed; rows of which a skein holds 3 to 40.
inline RandomMake random_make() {
    const int skeins = *rc::gen::inRange(1, 6);
    const double swatch_g = 0.1 * *rc::gen::inRange(140, 240);
    const double rows_a_skein = *rc::gen::inRange(3, 41);
    const double held = skeins - 0.01 * *rc::gen::inRange(-10, 130);
    const double per_stitch = swatch_g * 2.0 / (28.0 * 20.0);
    RandomMake out;
    const std::int64_t stitches =
        std::max<std::int64_t>(4, std::llround(99.7 / rows_a_skein / per_stitch));
    const double row = static_cast<double>(stitches) * per_stitch;
    const std::int64_t rows = std::max<std::int64_t>(2, std::llround(held * 99.7 / row));
    out.project = panel(stitches, rows, swatch_g);
    out.stash = panel_skeins(skeins);
    if (*rc::gen::arbitrary<bool>()) {
        stash::Skein& part = out.stash.front();
        part.part = true;
        part.weighing = weighed(*rc::gen::inRange(5, 50), 1);
    }
    return out;
}

}  // namespace skeinfall::support
