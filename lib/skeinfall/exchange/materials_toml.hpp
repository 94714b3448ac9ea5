#pragma once
/// \file
/// The keys of a project file that only its printed materials section needs.

#include "skeinfall/exchange/toml_reader.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::exchange {

/// `totals_from` and every [[tester]]; `project` holds its sizes and yarns already.
void read_materials(TomlTable& top, project::Project& project);

}  // namespace skeinfall::exchange
