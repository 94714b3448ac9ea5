#pragma once
/// \file
/// Options that several commands share, and option texts to values. A value that does not fit is
/// an InputError that names the option and says what would fit.

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/measure/chance.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/report/records.hpp"
#include "skeinfall/stash/skein.hpp"

#include "command.hpp"

namespace skeinfall::cli {

[[nodiscard]] Option stash_option();
[[nodiscard]] Option size_option();
/// Its words are those of `formats`, such as "text (default), json or csv".
[[nodiscard]] Option format_option(const std::string& formats);
[[nodiscard]] Option confidence_option();

/// --stash, else SKEINFALL_STASH, else the data folder.
[[nodiscard]] std::filesystem::path stash_path(const Values& values, const World& world);

/// The skeins of the stash of stash_path().
[[nodiscard]] std::vector<stash::Skein> skeins_of_stash(const Values& values, const World& world);

/// What --have says there is instead of a stash; nothing when it is not given. A mass alone goes by
/// --label, else by the one label that the project gives.
[[nodiscard]] std::optional<std::vector<stash::Skein>> skeins_had(
    const Values& values, const World& world, const project::Project* project = nullptr);

/// The same as projects with these titles find them: without what is promised to others, as far as
/// it is a part of a skein.
[[nodiscard]] std::vector<stash::Skein> skeins_for(const Values& values, const World& world,
                                                   const std::vector<std::string>& titles,
                                                   const project::Project* project = nullptr);

/// The project of the command line: the file of its one positional argument, or what the options of
/// make_options() say. With --save it is written there first. What was taken for granted is told on
/// stderr. InputError when there is neither, or both.
[[nodiscard]] project::Project project_of(const Values& values, const World& world);
/// With options in place of a file, no --have and no stash yet: InputError that says what to say.
void refuse_without_yarn(const Values& values, const World& world);
/// True when options stand in for a project file.
[[nodiscard]] bool is_asked(const Values& values);

/// Index of --size in the project; the first size when it is not given.
[[nodiscard]] std::size_t size_of(const Values& values, const project::Project& project);
/// A note where nobody chose the size that the answer is for.
/// A make in work is in one size, and nobody says which.
[[noreturn]] void refuse_size_not_said(const project::Project& project);
void tell_size_taken(const Values& values, const project::Project& project, const World& world);

/// --format, one of `formats` (the first is the default).
[[nodiscard]] std::string format_of(const Values& values, const std::vector<std::string>& formats);

/// --format of commands whose answer is one table too.
inline constexpr const char* table_formats = "text (default), json, csv or markdown";
[[nodiscard]] std::string table_format_of(const Values& values);

/// An answer in JSON, in one of those formats but text.
[[nodiscard]] std::string data_in(const std::string& format, const std::string& json,
                                  report::Records which);

/// --`option` as the step of a scale, else the setting "scale"; nothing when neither is there.
[[nodiscard]] std::optional<std::string> scale_text(const Values& values,
                                                    const std::string& option = "scale");

/// A project file with what the settings say where it does not.
[[nodiscard]] project::Project project_in(const std::string& file, const Values& values);

/// --confidence, else the setting, as a chance from 50 % up to below 100 %.
[[nodiscard]] measure::Chance confidence_of(const Values& values);

/// The problem of a reader as one of --`option`, with an example that fits it.
[[nodiscard]] base::Problem in_option(const std::string& option, const std::string& text,
                                      base::Problem problem);

/// `text` of --`option` read by a units parser; its problem names the option.
template <class Parse>
[[nodiscard]] auto read_option(const std::string& option, const std::string& text, Parse parse) {
    const auto result = parse(text);
    if (!result) {
        throw base::InputError(in_option(option, text, result.problem()));
    }
    return *result;
}

/// An InputError about one option.
[[noreturn]] void refuse_option(const std::string& option, const std::string& what,
                                const std::string& expected, const std::string& remedy);

/// "2 x 50 g", "3 balls of 100 m", "48 g": how many, at most 1000, and what is said of each.
struct CountedOption {
    std::int64_t count = 1;
    std::string each;
};
[[nodiscard]] CountedOption read_counted(const std::string& option, const std::string& text);

}  // namespace skeinfall::cli
