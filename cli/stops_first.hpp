#pragma once
/// \file
/// A project that cannot be as it is written gets no figure.

#include "skeinfall/project/project.hpp"

#include "command.hpp"

namespace skeinfall::cli {

/// Where the cautions of a project go: below an answer in text, or beside it, on stderr, where the
/// answer is words to copy or a file.
enum class Cautions { below, beside };

/// A planning command that looks at the findings of its project files before it answers. With a
/// stop among them it ends with exit code 2 and says the stops alone: on stderr, and with
/// --format json on stdout as "check" would. --despite-stops answers under a banner, where the
/// command can put one. Cautions stand below the answer, in JSON as "cautions".
[[nodiscard]] Command stops_first(Command command, Cautions where = Cautions::below);

/// Throws base::InputError that holds the stops of a project.
void refuse_stops(const project::Project& project);
/// The cautions of a project that no file holds, on stderr.
void tell_cautions(const project::Project& project, const World& world);

}  // namespace skeinfall::cli
