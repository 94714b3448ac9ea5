#pragma once
/// \file
/// Which size somebody means.

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "skeinfall/project/project.hpp"

namespace skeinfall::project {

/// The sizes that a text may mean: the one of that name; else those of a grid with that width and
/// length, in whatever way they are written ("105x110 cm", "105 cm × 110 cm"), or with that one
/// measure. One alone is meant.
[[nodiscard]] std::vector<std::size_t> sizes_meant(const Project& project, std::string_view text);

}  // namespace skeinfall::project
