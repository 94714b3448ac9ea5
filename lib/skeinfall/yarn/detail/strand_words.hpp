#pragma once
/// \file
/// Words of a yarn's description that say how it is worked.

#include <string>
#include <string_view>

namespace skeinfall::yarn {

/// "held double", "2 strands": the words that say how many strands are worked together.
[[nodiscard]] std::string strand_words(std::string_view text);

}  // namespace skeinfall::yarn
