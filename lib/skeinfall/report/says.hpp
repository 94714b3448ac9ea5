#pragma once
/// \file
/// Words for what answers say as data (cover/says.hpp, joins/says.hpp). They are not made inert: a
/// name in them stands as it was typed.

#include <string>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/cover/says.hpp"
#include "skeinfall/joins/says.hpp"
#include "skeinfall/stash/skein.hpp"

namespace skeinfall::report {

/// What to do about a length that is not known.
[[nodiscard]] std::string said(stash::SupplyGap gap);

/// Empty when there is no reason.
[[nodiscard]] std::string said(const cover::Reason& reason);
[[nodiscard]] std::string said(const cover::Note& note);
/// Both figures of it, as a phrase.
[[nodiscard]] std::string said(const need::Contradiction& contradiction);
/// A line each, made inert, to stand below the verdict that they keep from being sure.
[[nodiscard]] std::string contradiction_lines(const std::vector<need::Contradiction>& all);
[[nodiscard]] std::string said(const cover::Step& step);
[[nodiscard]] std::string said(const cover::Change& change);
[[nodiscard]] std::string said(const joins::Note& note);

/// The same with how likely it is that the verdict is clear after it.
[[nodiscard]] std::string said(const cover::Settling& step);

}  // namespace skeinfall::report
