#pragma once
/// \file
/// Help texts, made from the command table.

#include <string>
#include <vector>

#include "command.hpp"

namespace skeinfall::cli {

/// Options that every command takes.
[[nodiscard]] const std::vector<Option>& common_options();

/// Whether the settings hold for it. What changes them must work when there is a mistake in them.
[[nodiscard]] bool reads_settings(const Command& command);

/// Its own options and those.
[[nodiscard]] std::vector<Option> options_of(const Command& command);

/// What an option does, and whether it may be given again.
[[nodiscard]] std::string option_help(const Option& option);

struct ExitMeaning {
    int code = 0;
    std::string says;
};
/// The exit codes that a command may end with.
[[nodiscard]] std::vector<ExitMeaning> exit_meanings(const Command& command);

/// "skeinfall cover [OPTION]... [PROJECT.toml]".
[[nodiscard]] std::string synopsis(const Command& command);

/// What the program does, the commands to try first, and all of them; set to the terminal's
/// columns, 0 where there is none. So below.
[[nodiscard]] std::string general_help(std::size_t columns);

/// The commands that begin with `group`, such as "stash".
[[nodiscard]] std::string group_help(const std::string& group, std::size_t columns);

/// Synopsis, purpose, options, examples and exit codes of one command.
[[nodiscard]] std::string command_help(const Command& command, std::size_t columns);

/// True for the first word of a two-word command, such as "stash".
[[nodiscard]] bool is_group(const std::string& word);

[[nodiscard]] Command help_command();
[[nodiscard]] Command version_command();

}  // namespace skeinfall::cli
