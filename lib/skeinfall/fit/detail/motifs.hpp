#pragma once
/// \file
/// Motifs that are laid together: made wider and longer by more of them.

#include <optional>

#include "skeinfall/fit/fit.hpp"

namespace skeinfall::fit {

/// Changes how many copies of the piece there are, and how many lie in a row, to what comes nearest
/// to the wished width and length of all together. Nothing where its copies are not joined, or
/// neither is wished.
std::optional<Motifs> lay_motifs(project::Project& project, std::size_t piece, std::size_t size,
                                 const Wish& wish, Take take);

}  // namespace skeinfall::fit
