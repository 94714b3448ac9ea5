#pragma once
/// \file
/// A make told by options in place of a project file: one option for each question of
/// exchange::make_questions().

#include "skeinfall/exchange/make_answers.hpp"

#include "command.hpp"

namespace skeinfall::cli {

/// Adds the options that stand in for a project file, --have and --save, leaving out those the
/// command has already, and lets the file be left out.
void take_makes(Command& command);

/// The same without --have, for commands that ask no stash for skeins.
void take_makes_without_skeins(Command& command);

/// The answers that options give.
[[nodiscard]] exchange::MakeAnswers answers_of(const Values& values);

/// The project of these answers; mistakes name the option, and what was assumed is told on stderr.
[[nodiscard]] exchange::AskedProject asked_project(const exchange::MakeAnswers& answers,
                                                   const Values& values, const World& world);

}  // namespace skeinfall::cli
