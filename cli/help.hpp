#pragma once
/// \file
/// Help texts, made from the command table.

#include <string>

#include "command.hpp"

namespace skeinfall::cli {

/// What the program does, the commands to try first, and all of them.
[[nodiscard]] std::string general_help();

/// Purpose, synopsis, options, examples and exit codes of one command.
[[nodiscard]] std::string command_help(const Command& command);

[[nodiscard]] Command help_command();
[[nodiscard]] Command version_command();

}  // namespace skeinfall::cli
