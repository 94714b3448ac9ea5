#pragma once
/// \file
/// Files that a command writes at a person's wish.

#include <string>

#include "command.hpp"

namespace skeinfall::cli {

/// --replace, of every command that writes such a file.
[[nodiscard]] Option replace_option();

/// Writes the file whole or not at all; whatever ends the program, no half of it stays. A link is
/// followed. An older file of the same kind (a page over a page) is replaced; any other only with
/// --replace; a stash, or another SQLite file, never. An InputError about --`option` else.
void write_output(const std::string& option, const std::string& file, const std::string& bytes,
                  const Values& values, const World& world);

}  // namespace skeinfall::cli
