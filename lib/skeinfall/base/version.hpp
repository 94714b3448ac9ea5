#pragma once
/// \file
/// The version of the library, from the project line of the top CMakeLists.txt.

#include <string_view>

namespace skeinfall::base {
/// "0.1.0"
[[nodiscard]] std::string_view version();
}  // namespace skeinfall::base
