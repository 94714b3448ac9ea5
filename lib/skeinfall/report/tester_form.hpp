#pragma once
/// \file
/// A form for those who test a pattern: what to weigh, when, and what to send back.

#include <string>

#include "skeinfall/project/project.hpp"

namespace skeinfall::report {

/// Plain text with a block for every yarn that is a [[tester]] table of a project file once it is
/// filled in. No figure of the pattern's yarn is in it, so that nobody works towards one.
[[nodiscard]] std::string tester_form(const project::Project& project);

}  // namespace skeinfall::report
