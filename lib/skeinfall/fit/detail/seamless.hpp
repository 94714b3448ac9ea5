#pragma once
/// \file
/// Pieces that go on from the stitches another one ends with, without a foundation between them.
/// Inner part of fit_piece().

#include <cstddef>
#include <optional>

#include "skeinfall/fit/fit.hpp"

namespace skeinfall::fit {

/// It begins on all the stitches that the piece before it ends with, without a foundation: a split
/// or a pick-up takes others.
[[nodiscard]] bool goes_on(const project::Project& project, std::size_t piece, std::size_t size);

/// What the stitches of its row 1 come in, so that the piece it goes on from ends with as many.
/// Nothing where it goes on from none, or any number will do.
[[nodiscard]] std::optional<project::Multiple> multiple_before(const project::Project& project,
                                                               std::size_t piece, std::size_t size);

/// Gives the pieces that met the fitted one in `before` the stitches with which they meet it
/// again. Throws base::InputError where one cannot, with the nearest that works.
void follow_pieces(const project::Project& before, Fitted& out);

/// fit_piece() without anything beside the piece: no pieces that meet it, no borders, no totals.
[[nodiscard]] Fitted fit_alone(const project::Project& project, std::size_t piece, std::size_t size,
                               const Wish& wish, Take take);

}  // namespace skeinfall::fit
