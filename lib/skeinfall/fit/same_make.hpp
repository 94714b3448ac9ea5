#pragma once
/// \file
/// Whether a project that was written and read again is the one that was answered.

#include <cstddef>

#include "skeinfall/project/project.hpp"

namespace skeinfall::fit {

/// The same rows, and as much of every yarn in this size, but for the tenth of a metre or yard that
/// a stated total is rounded up to. `read` is judged by the hand of `made`.
[[nodiscard]] bool same_make(const project::Project& made, project::Project read, std::size_t size);

}  // namespace skeinfall::fit
