#pragma once
/// \file
/// Checks a finished materials section, as `check` does with project files.

#include <filesystem>
#include <optional>
#include <string>

#include "skeinfall/project/finding.hpp"

namespace skeinfall::cli {

struct CheckedSection {
    std::string title;  ///< the section's first line
    project::Findings findings;
};

/// A section in a Markdown or text file, by itself and against a project file when one is named.
/// InputError when either cannot be read, or when the text holds no section. `returns` is the
/// sheet of testers' returns that the section was made with.
[[nodiscard]] CheckedSection check_section(const std::filesystem::path& file,
                                           const std::optional<std::string>& project,
                                           const std::optional<std::string>& returns);

}  // namespace skeinfall::cli
