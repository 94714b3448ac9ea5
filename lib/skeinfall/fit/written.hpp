#pragma once
/// \file
/// Written rows made wider and longer. Inner part of fit_piece().

#include <cstddef>
#include <cstdint>
#include <optional>

#include "skeinfall/project/project.hpp"

namespace skeinfall::fit {

struct Fitted;

/// The multiple that the foundation must be for every row to come out, as stitches of row 1 and
/// chains beside them. Nothing where no other foundation works.
[[nodiscard]] std::optional<project::Multiple> multiple_of_rows(const project::Project& project,
                                                                const project::Piece& piece,
                                                                std::size_t size);

/// The rows that are repeated to the end: so many, after those that are not. Nothing where none
/// are.
[[nodiscard]] std::optional<project::Multiple> repeat_of_rows(const project::Project& project,
                                                              const project::Piece& piece,
                                                              std::size_t size);

/// Chains or stitches of the foundation as the rows have them.
[[nodiscard]] std::optional<std::int64_t> written_foundation(const project::Project& project,
                                                             const project::Piece& piece,
                                                             std::size_t size);

/// Rewrites the rows for the counts that were taken. Throws base::InputError where they do not
/// come out.
void stretch_written(Fitted& fitted);

}  // namespace skeinfall::fit
