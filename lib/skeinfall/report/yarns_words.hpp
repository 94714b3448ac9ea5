#pragma once
/// \file
/// Words that the text and the JSON of report/yarns.hpp share.

#include <string>
#include <vector>

#include "skeinfall/yarn/unlabelled.hpp"

namespace skeinfall::report {

/// What to do after identifying, in order.
[[nodiscard]] std::vector<std::string> identify_next(const yarn::Clues& clues,
                                                     const yarn::Unlabelled& found);

}  // namespace skeinfall::report
