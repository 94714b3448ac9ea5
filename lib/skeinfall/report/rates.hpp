#pragma once
/// \file
/// Where the yarn of a stitch came from, in words: parts of the report on a need.

#include <string>

#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::report {

/// How the maker's gauge stands to the pattern's and what is kept; empty without such a gauge.
[[nodiscard]] std::string gauge_text(const project::Project& project, std::size_t size);

/// What was found out of each kind of stitch, and what was passed over; may be empty.
[[nodiscard]] std::string rate_text(const need::RoleNeed& role);

/// The band, what makes most of it and what would narrow it.
[[nodiscard]] std::string band_text(const need::RoleNeed& role);

}  // namespace skeinfall::report
