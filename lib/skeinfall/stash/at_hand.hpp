#pragma once
/// \file
/// Yarn that is told on the spot and lies in no stash.

#include <string_view>

namespace skeinfall::stash {

/// Its shade group: who has it in hand has seen that it matches.
inline constexpr std::string_view shade_at_hand = "as given";

}  // namespace skeinfall::stash
