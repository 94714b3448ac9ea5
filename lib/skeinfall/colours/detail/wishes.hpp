#pragma once
/// \file
/// What each way asks: which heights are chosen and how they lie. Inner header of colours.

#include "skeinfall/colours/detail/search.hpp"

namespace skeinfall::colours {

struct Choosing {
    HeightRules rules;
    Layout layout;
};

[[nodiscard]] Choosing choosing_of(const project::Project& project, const Wish& wish,
                                   const Takes& takes);

/// Throws base::InputError where a wish cannot be planned at all.
void check(const project::Project& project, const Wish& wish);

/// Way::scraps: one stripe a ball.
void plan_scraps(const project::Project& project, const std::vector<stash::Skein>& stash,
                 const cover::Rules& rules, StripePlan& out);

}  // namespace skeinfall::colours
