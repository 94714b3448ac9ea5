#pragma once
/// \file
/// A project file: TOML v1.0.0 with the keys described in the manual.

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

#include "skeinfall/project/defaults.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/project/whole.hpp"

namespace skeinfall::exchange {

using project::largest_count;

/// Throws base::InputError with every mistake of the text; `file` names it in their places. What
/// the text leaves out comes from `defaults`.
[[nodiscard]] project::Project parse_project(std::string_view text, const std::string& file,
                                             const project::Defaults& defaults = {});

/// The same for a file of at most `largest_file` bytes.
[[nodiscard]] project::Project read_project(const std::filesystem::path& path,
                                            const project::Defaults& defaults = {});

}  // namespace skeinfall::exchange
