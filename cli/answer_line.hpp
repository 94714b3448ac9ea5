#pragma once
/// \file
/// A line that a person types in answer to a question.

#include <optional>
#include <string>
#include <vector>

#include "command.hpp"

namespace skeinfall::cli {

/// Asks on world.err and reads a line. On a terminal the line can be edited and one of `likely`
/// completed with Tab. Nothing when there are no more answers.
[[nodiscard]] std::optional<std::string> answer_line(const World& world, const std::string& prompt,
                                                     const std::vector<std::string>& likely);

/// "no", "don't know": the same as an empty line, wherever that is one.
[[nodiscard]] bool says_nothing(const std::string& answer);

/// What the module gives under this name. False at the end of the answers.
inline constexpr const char* line_module = "skeinfall_line.so";
inline constexpr const char* line_entry = "skeinfall_line";
using LineEntry = bool (*)(const std::string& prompt, const std::vector<std::string>& likely,
                           std::string& line);

}  // namespace skeinfall::cli
