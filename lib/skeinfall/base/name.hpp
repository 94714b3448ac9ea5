#pragma once
/// \file
/// When two names that people typed mean the same thing.

#include <string>
#include <string_view>

namespace skeinfall::base {

/// A name as it is compared: without regard to case (of any script) and to how an accent is
/// written, without blanks at its ends, several blanks within it as one. Bytes that are not UTF-8
/// are compared as they are. What was typed is what is shown; this never is.
[[nodiscard]] std::string name_key(std::string_view name);

/// The same of the number of a dye lot: also without "lot" or "dye lot" before it.
[[nodiscard]] std::string lot_name_key(std::string_view lot);

[[nodiscard]] bool same_name(std::string_view a, std::string_view b);

}  // namespace skeinfall::base
