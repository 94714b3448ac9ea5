#pragma once
/// \file
/// What a project lacks to be worked out. Files are held to more by their reader; this is for
/// values that a program made.

#include "skeinfall/base/problem.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::project {

/// Everything without which rows cannot be counted or a yarn cannot be found, each a problem that
/// names its piece or yarn: a piece without rows or stitches, lists that do not fit the sizes, a
/// gauge of nothing, yarns that are not described. Empty when nothing is lacking.
[[nodiscard]] base::Problems lacking(const Project& project);

}  // namespace skeinfall::project
