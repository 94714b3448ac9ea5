#pragma once
/// \file
/// What a yarn's table says of its class, label, fibres to keep out and stated total.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/exchange/toml_reader.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::exchange {

/// "class": 4, or "Medium".
void read_class(TomlTable& in, project::Role& role);

/// "label_tolerance": a share of the label's length.
void read_label_tolerance(TomlTable& in, project::Role& role);

/// "avoid". A word that is not understood would keep nothing out, so it is a problem.
void read_avoided(TomlTable& in, project::Role& role);

/// "total": a length, a mass, a range of either, or counted skeins, for every size. The yarn's
/// class and grist must have been read.
void read_total(TomlTable& in, project::Role& role, std::optional<std::size_t> sizes);

/// "total_for_size": the size that the one total is for. The total must have been read.
void read_total_size(TomlTable& in, const std::vector<std::string>& sizes, project::Role& role);

}  // namespace skeinfall::exchange
