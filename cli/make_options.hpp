#pragma once
/// \file
/// A make told by options in place of a project file: one option for each question of
/// project::make_questions().

#include <string>
#include <vector>

#include "skeinfall/exchange/make_answers.hpp"

#include "command.hpp"

namespace skeinfall::cli {

/// What a yarn is called that nobody named.
inline constexpr const char* yarn_at_hand = "your yarn";

/// Adds the options that stand in for a project file, --have and --save, leaving out those the
/// command has already, and lets the file be left out.
void take_makes(Command& command);

/// The same without --have, for commands that ask no stash for skeins.
void take_makes_without_skeins(Command& command);

/// The same for commands whose answer is about a piece: a bare need is none.
void take_pieces(Command& command);

/// The option of one question, the same where nothing but questions is asked, and --have.
[[nodiscard]] Option question_option(const project::MakeQuestion& question);
[[nodiscard]] Option interview_option(const project::MakeQuestion& question);
[[nodiscard]] Option have_option();

/// The skeins a name may be looked up in: none where there is no stash yet.
[[nodiscard]] std::vector<stash::Skein> known_skeins(const Values& values, const World& world);

/// Yarn at hand beside a project file is of the project's yarns: of the only one, or of the one
/// whose colour or name is said before it. What is not said of it is as the project has it.
void take_for_project(const Values& values, const World& world, const project::Project& project,
                      std::vector<stash::Skein>& had);

/// A word before the colon of --have that is no yarn, colour or name of these makes.
void refuse_have_of_no_yarn(const Values& values,
                            const std::vector<const project::Project*>& projects);

/// Mistakes that name a question, with its option instead.
[[nodiscard]] base::Problems naming_options(base::Problems problems);

/// The answers that options give.
[[nodiscard]] project::MakeAnswers answers_of(const Values& values);

/// A project with the text that says it, from a file or from options in place of one, before its
/// stops are looked for.
struct Told {
    project::Project project;
    std::string text;
};
[[nodiscard]] Told told_by_file(const std::string& file, const Values& values);
/// Options that stand in for a file are refused beside one, but `meant_otherwise`.
void refuse_beside_file(const Values& values, const std::vector<std::string>& meant_otherwise);
/// Of answers; stops are refused, as with a file.
[[nodiscard]] Told told_by_answers(const project::MakeAnswers& answers, const Values& values,
                                   const World& world);

/// The project of these answers; mistakes name the option, and what was assumed is told on stderr.
[[nodiscard]] exchange::AskedProject asked_project(const project::MakeAnswers& answers,
                                                   const Values& values, const World& world);

/// What it takes and what there is are told as masses of one yarn without a label: a swatch and
/// --have, or a total and --have beside --yarn. Length per mass cancels then.
[[nodiscard]] bool in_grams_alone(const Command& command, const Values& values, const World& world);

}  // namespace skeinfall::cli
