#pragma once
/// \file
/// Whether repeated weighings may be of one thing.

#include <vector>

#include "skeinfall/measure/estimate.hpp"

namespace skeinfall::measure {

/// Whether readings lie farther apart than those of one thing do: by more than a tenth of the
/// largest and five steps of the scale (a judgement: damp air adds less than a tenth).
[[nodiscard]] bool of_different_things(const std::vector<ScaleReading>& readings);

}  // namespace skeinfall::measure
