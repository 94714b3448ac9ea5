#pragma once
/// \file
/// The keys of a project file that say where and how yarn is joined, and how its colours run.

#include "skeinfall/exchange/toml_reader.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::exchange {

/// `join_kind` and `held_with` of [yarn.X]. `before` holds the yarns read so far.
void read_joining(TomlTable& in, const project::Project& before, project::Role& role);

/// `colour_repeat` and `colours` of [yarn.X]; shares become lengths.
void read_colours(TomlTable& in, project::Role& role);

/// `join`, `join_stitches`, `join_free` and `join_prefer` of [[piece]], whose edge and way of
/// working are known already.
void read_join_places(TomlTable& in, project::Piece& piece);

}  // namespace skeinfall::exchange
