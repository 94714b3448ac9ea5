#pragma once
/// \file
/// The manual page, made from the command table.

#include <string>
#include <vector>

#include "command.hpp"

namespace skeinfall::cli {

/// In mdoc, the macros of manual pages that mandoc and groff read. One page for all commands.
[[nodiscard]] std::string man_page(const std::vector<Command>& table);

}  // namespace skeinfall::cli
