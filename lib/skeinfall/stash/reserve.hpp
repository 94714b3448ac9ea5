#pragma once
/// \file
/// What is set aside: what a project finds of a stash of which yarn is promised to others.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/stash/skein.hpp"

namespace skeinfall::stash {

/// What a project still has to come of a promise; nothing when it is all there is, or cannot be
/// told as a length because the label has no length per mass.
[[nodiscard]] std::optional<units::Length> outstanding(const Skein& skein, const Promise& promise);

/// "60 m for Lantern cowl (MC)", "all for Tern's Wing shawl".
[[nodiscard]] std::string promise_text(const Promise& promise);

/// By which promise a skein is kept from a yarn of a project.
struct Kept {
    const Promise* by = nullptr;  ///< of the skein, which must outlive this
    bool other_project = false;   ///< else it is for another yarn of the project
};
/// Nothing when the yarn may take the skein. Titles match without regard to case (ASCII).
[[nodiscard]] std::optional<Kept> kept_from(const Skein& skein, std::string_view project,
                                            std::string_view role);

/// The stash as these projects find it: a part of a skein that is promised to others is taken off
/// it, and the promise with it. Skeins that are promised whole stay, for kept_from() to tell.
[[nodiscard]] std::vector<Skein> as_found_by(std::vector<Skein> skeins,
                                             const std::vector<std::string>& projects);

}  // namespace skeinfall::stash
