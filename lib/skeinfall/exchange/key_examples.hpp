#pragma once
/// \file
/// What would be right behind a key of a project or a settings file.

#include <string_view>

namespace skeinfall::exchange {

/// "30 cm" for width: of keys whose value is a text. Empty for others.
[[nodiscard]] std::string_view key_example(std::string_view key);

}  // namespace skeinfall::exchange
