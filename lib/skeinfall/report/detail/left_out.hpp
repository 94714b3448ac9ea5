#pragma once
/// \file
/// Yarn that may be there and is not counted: what has to be found out of it first.

#include <string>
#include <vector>

#include "skeinfall/cover/cover.hpp"

namespace skeinfall::report::detail {

/// Skeins that are left out since nobody read their fibres, where some fibre is kept out.
[[nodiscard]] std::vector<std::string> fibres_unread(const cover::RoleCover& role);

/// Lines for a yarn that is not covered: part skeins that nobody weighed, skeins of unknown fibre
/// where some fibre is kept out, and a name that no skein of the stash has. Empty where nothing of
/// that kind is left out.
[[nodiscard]] std::string left_out_lines(const cover::RoleCover& role);

}  // namespace skeinfall::report::detail
