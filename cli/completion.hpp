#pragma once
/// \file
/// Completion scripts for shells, made from the command table.

#include <string>
#include <vector>

#include "command.hpp"

namespace skeinfall::cli {

/// What fits where a value or an argument is asked for.
struct Fits {
    enum class Kind {
        anything,  ///< nothing can be offered
        word,      ///< one of `words`
        file,      ///< a file, whose name ends in `suffix`
        folder,
        skein,    ///< an id of the usual stash
        command,  ///< a name of the command table
    };
    Kind kind = Kind::anything;
    std::vector<std::string> words{};
    std::string suffix{};
};

/// By the words "FILE", "PROJECT.toml", "FOLDER", "ID", "COMMAND", or the option's choices.
[[nodiscard]] Fits fits_option(const Option& option);

/// One argument of a command, as its synopsis tells of it.
struct Place {
    std::string name;  ///< "PROJECT.toml"
    Fits fits;
    bool repeated = false;  ///< "..."
};
[[nodiscard]] std::vector<Place> places_of(const Command& command);

/// First words of commands of two words, such as "stash".
[[nodiscard]] std::vector<std::string> groups_of(const std::vector<Command>& table);

[[nodiscard]] std::string bash_completion(const std::vector<Command>& table);
[[nodiscard]] std::string zsh_completion(const std::vector<Command>& table);
[[nodiscard]] std::string fish_completion(const std::vector<Command>& table);

}  // namespace skeinfall::cli
