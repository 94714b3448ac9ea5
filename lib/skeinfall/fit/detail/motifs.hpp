#pragma once
/// \file
/// Motifs that are laid together: made wider and longer by more of them.

#include <optional>

#include "skeinfall/fit/fit.hpp"

namespace skeinfall::fit {

/// Two copies of the piece or more, which a part joins.
[[nodiscard]] bool are_laid(const project::Project& project, std::size_t piece, std::size_t size);

/// Changes how many copies of the piece there are, and how many lie in a row, to what comes nearest
/// to the wished width and length of all together. Each of them is as large as it is in `project`,
/// and was as large as in `before`. Nothing where its copies are not joined.
std::optional<Motifs> lay_motifs(const project::Project& before, project::Project& project,
                                 std::size_t piece, std::size_t size, const Wish& wish, Take take);

/// By how much one more in every row, or one row more, makes them wider and longer.
[[nodiscard]] project::FinishedSize each_motif_more(const project::Piece& piece,
                                                    const project::FinishedSize& motif);

}  // namespace skeinfall::fit
