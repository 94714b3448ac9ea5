#pragma once
/// \file
/// A maker's hand, as text and as JSON.

#include <string>
#include <vector>

#include "skeinfall/need/teach.hpp"
#include "skeinfall/project/hand.hpp"

namespace skeinfall::report {

[[nodiscard]] std::string hand_text(const std::vector<project::TaughtByMake>& makes);
/// {times, spread, makes, taught: [{make, yarn, times, noise}]}.
[[nodiscard]] std::string hand_json(const std::vector<project::TaughtByMake>& makes);

/// "MC: 180 yd, where others' makes let expect 172 yd, give or take 31 yd".
[[nodiscard]] std::string lesson_text(const need::Lesson& lesson);

}  // namespace skeinfall::report
