#pragma once
/// \file
/// The whole program as one function: arguments in, text and an exit code out.

#include <string>
#include <vector>

#include "command.hpp"

namespace skeinfall::cli {

/// Runs one command line (without the program's name). Writes data to world.out and messages to
/// world.err; returns an exit code of exit_code.hpp and never throws.
int run(const std::vector<std::string>& arguments, const World& world);

/// The command of that name. InputError with the nearest name when there is none.
[[nodiscard]] const Command& find_command(const std::string& name);

}  // namespace skeinfall::cli
