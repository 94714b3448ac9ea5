#pragma once
/// \file
/// Reading a whole file of text.

#include <cstddef>
#include <filesystem>
#include <string>

namespace skeinfall::exchange {

/// The largest project or stash file that is read: 8 MiB.
inline constexpr std::size_t largest_file = std::size_t{8} * 1024 * 1024;

/// The bytes of a file. Throws base::InputError with one problem when the file is missing, a
/// folder, unreadable or has more than `most_bytes`.
[[nodiscard]] std::string read_text_file(const std::filesystem::path& path,
                                         std::size_t most_bytes = largest_file);

}  // namespace skeinfall::exchange
