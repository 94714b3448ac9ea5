#pragma once

#include <cstdint>
#include <vector>

#include "skeinfall/project/shapes.hpp"

namespace skeinfall::project_tests {

/// Stitches of each row of the first piece.
inline std::vector<std::int64_t> widths(const project::Project& make) {
    return project::row_widths(make, make.pieces[0], 0);
}

}  // namespace skeinfall::project_tests
