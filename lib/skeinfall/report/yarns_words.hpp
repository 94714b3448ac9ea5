#pragma once
/// \file
/// Words that the texts and the JSON of report/yarns.hpp share.

#include <string>
#include <vector>

#include "skeinfall/yarn/unlabelled.hpp"

namespace skeinfall::report {

/// What to do after identifying, in order.
[[nodiscard]] std::vector<std::string> identify_next(const yarn::Clues& clues,
                                                     const yarn::Unlabelled& found);
/// And after holding strands together.
[[nodiscard]] std::vector<std::string> strands_next();

/// The classes that figures speak for, with the charts behind each and the Council's credit.
[[nodiscard]] std::string classes_text(const yarn::Ranking& ranking);

/// The gravest first; within a level as they were found.
[[nodiscard]] std::string findings_text(const std::vector<yarn::Finding>& findings);

}  // namespace skeinfall::report
