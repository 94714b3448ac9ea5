#pragma once
/// \file
/// Remarks on what was entered.

#include <iosfwd>
#include <vector>

#include "skeinfall/stash/skein.hpp"

namespace skeinfall::cli {

/// What is odd about labels and weighings, said once a yarn; it stops nothing.
void note_odd_figures(const std::vector<stash::Skein>& skeins, std::ostream& err);

}  // namespace skeinfall::cli
