#pragma once
/// \file
/// One stated total of a graded make, shared over its sizes.

#include "skeinfall/project/project.hpp"

namespace skeinfall::exchange {

/// Where the make has sizes and a role one total, which is for one of them: every size gets its
/// share by the stitches that the yarn itself works there; what it takes outright, such as a
/// fringe, is that size's own. The size is Role::total_of_size; where that is empty and the sizes
/// are a grid, it is the one with the fewest stitches, so that no size gets too little, and
/// Role::total_size_assumed says so. Roles with a total a size stay. False where no stitches tell
/// the shares.
bool share_totals(project::Project& project);

}  // namespace skeinfall::exchange
