#pragma once
/// \file
/// A finished make as a teacher: what it took against what others' makes let expect.

#include <string>

#include "skeinfall/measure/estimate.hpp"
#include "skeinfall/project/hand.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::need {

struct Lesson {
    project::TaughtByMake taught;
    measure::Estimate<units::Length> expected;  ///< of a hand that nobody knows
    units::Length used{};
};

/// Of one yarn of a project in one size, which took `used` in all, ends left out, known to
/// `used_spread` (relative). What the project itself says of the yarn (swatches, totals, rates)
/// teaches nothing of the hand and is set aside. Throws what need_of() throws, and base::InputError
/// where the yarn is not used or less than nothing is left for it.
[[nodiscard]] Lesson lesson_of(const project::Project& project, std::size_t size,
                               const std::string& role, units::Length used,
                               units::Ratio used_spread);

}  // namespace skeinfall::need
