#pragma once
/// \file
/// Files that a command writes at a person's wish.

#include <string>

namespace skeinfall::cli {

/// Writes beside the file and then puts it in place, so that no half of it is ever there. An
/// InputError about --`option` when that cannot be done.
void write_output(const std::string& option, const std::string& file, const std::string& bytes);

}  // namespace skeinfall::cli
