#pragma once
/// \file
/// Rows of a pattern that do not fit together, as notes on a need.

#include <cstddef>
#include <string>
#include <vector>

#include "skeinfall/project/project.hpp"

namespace skeinfall::need {

/// Says where rows in notation contradict themselves: the need counts them as written.
void note_contradictions(const project::Project& project, const std::string& role, std::size_t size,
                         std::vector<std::string>& notes);

}  // namespace skeinfall::need
