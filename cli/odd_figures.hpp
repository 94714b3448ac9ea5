#pragma once
/// \file
/// Remarks on what was entered.

#include <iosfwd>
#include <optional>
#include <vector>

#include "skeinfall/base/day.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/stash/skein.hpp"

#include "command.hpp"

namespace skeinfall::cli {

/// What is odd about labels and weighings, said once a yarn; it stops nothing.
void note_odd_figures(const std::vector<stash::Skein>& skeins, std::ostream& err);

/// Whether a day lies ahead, wherever one is.
[[nodiscard]] bool is_to_come(const base::Day& day, const World& world);

/// A label with a length per mass that no hand yarn has; its place is left open.
[[nodiscard]] std::optional<base::Problem> impossible_label(const yarn::Label& label);

}  // namespace skeinfall::cli
