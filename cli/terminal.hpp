#pragma once
/// \file
/// Finished text as a terminal shows it.

#include <cstddef>
#include <string>
#include <string_view>

namespace skeinfall::cli {

/// Lines folded at the terminal's width, what is folded standing two columns further in; with
/// `colour` the verdicts at the beginning of a line coloured. The words say all that colours do.
[[nodiscard]] std::string for_terminal(std::string_view text, std::size_t columns, bool colour);

}  // namespace skeinfall::cli
