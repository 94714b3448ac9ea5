#pragma once
/// \file
/// A project file: TOML v1.0.0 with the keys described in the manual.

#include <filesystem>
#include <string>
#include <string_view>

#include "skeinfall/project/project.hpp"

namespace skeinfall::exchange {

/// Largest count of rows, stitches, copies or rounds a project may state, and of all its rows
/// together.
inline constexpr long largest_count = 1'000'000;

/// Throws base::InputError with every mistake of the text; `file` names it in their places.
[[nodiscard]] project::Project parse_project(std::string_view text, const std::string& file);

/// The same for a file of at most `largest_file` bytes.
[[nodiscard]] project::Project read_project(const std::filesystem::path& path);

}  // namespace skeinfall::exchange
