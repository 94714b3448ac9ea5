#pragma once
/// \file
/// The key "shape" of a piece and the keys that belong to it: last_stitches or last_width of a
/// trapezoid, corners of a polygon, blocks_wide and blocks_high of corner to corner.

#include <optional>

#include "skeinfall/exchange/toml_reader.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::exchange {

/// Reads the shape into a piece whose counts and measurements are read already. True when the
/// piece has a shape; the rules of plain pieces for rows and stitches do not hold for it then.
bool read_shape(TomlTable& in, const project::Project& project, std::optional<std::size_t> sizes,
                project::Piece& piece);

}  // namespace skeinfall::exchange
