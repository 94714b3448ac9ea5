#pragma once
/// \file
/// What comes after the pieces, [[finish]], and the trade names of a piece's foundation and
/// bind-off (lib/data/finishing.csv).

#include <cstddef>
#include <optional>
#include <string>

#include "skeinfall/exchange/toml_reader.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::exchange {

/// A [[finish]] table; `role` is the yarn it is worked in. The pieces have to be read already.
[[nodiscard]] project::FinishPart read_finish_part(TomlTable& in, const project::Project& project,
                                                   std::optional<std::size_t> sizes,
                                                   std::string role);

/// "foundation" and "bind_off" of a piece by name, "foundation_rows" and "bind_off_rows" by figure.
void read_ends(TomlTable& in, const project::Project& project, project::Piece& piece);

}  // namespace skeinfall::exchange
