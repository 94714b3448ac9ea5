#pragma once
/// \file
/// "progress" without a project: what was taken, what is left, what is to come.

#include "command.hpp"

namespace skeinfall::cli {

/// --taken, --to-come, --done, --strand, --row-width.
void take_lasting(Command& command);
/// True when these options ask, and no project does.
[[nodiscard]] bool asks_lasting(const Values& values);
[[nodiscard]] int run_lasting(const Values& values, const World& world);

}  // namespace skeinfall::cli
