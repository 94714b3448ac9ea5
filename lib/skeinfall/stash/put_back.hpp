#pragma once
/// \file
/// How much yarn can come back to a skein: no more than went out of it.

#include <optional>
#include <vector>

#include "skeinfall/stash/movement.hpp"

namespace skeinfall::stash {

/// What the movement is too much by, and what was there.
struct TooMuchBack {
    std::optional<units::Length> used;  ///< recorded as used and not back yet; nothing: none of it
};

/// Whether the yarn that `movement` puts back is more than was ever taken from the skein, by what
/// was entered. A weighing in between tells what was left, not what had been there. Nothing where
/// it fits, or where no length is known of the skein.
[[nodiscard]] std::optional<TooMuchBack> too_much_back(const std::vector<Event>& history,
                                                       const Movement& movement);

}  // namespace skeinfall::stash
