#pragma once
/// \file
/// Stitches of which nothing tells the yarn.

#include <cstddef>
#include <string>
#include <vector>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::need {

/// Kinds of crochet that are neither in the stitch table, nor described by the project, nor in a
/// swatch: those of written rows, and the gauge's where a piece is counts alone and nothing but the
/// stitch's name tells its yarn. Knitted fabrics are all of loops.
[[nodiscard]] std::vector<std::string> unknown_stitches(const project::Project& project,
                                                        std::size_t size);

/// A problem for each, at the piece that has it first. need_of() refuses such a project.
[[nodiscard]] base::Problems problems_of_unknown_stitches(const project::Project& project,
                                                          std::size_t size);

/// The project with each of them described as a plain stitch, for who wants an answer all the same.
[[nodiscard]] project::Project with_plain_stitches(project::Project project);

}  // namespace skeinfall::need
