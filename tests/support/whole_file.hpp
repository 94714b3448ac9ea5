#pragma once
/// \file
/// A file as the bytes it holds.

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

namespace skeinfall::support {

/// Empty where there is none.
inline std::string bytes_of(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace skeinfall::support
