#pragma once
/// \file
/// Tables for other programs, written.

#include <string>
#include <string_view>

namespace skeinfall::base {

/// Text as one cell of a CSV table: between quotes where RFC 4180 wants them, and where blanks at
/// an end would be lost.
[[nodiscard]] std::string csv_cell(std::string_view text);

}  // namespace skeinfall::base
