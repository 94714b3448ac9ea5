#pragma once

#include <string>
#include <utility>
#include <vector>

#include "skeinfall/project/make_questions.hpp"

namespace skeinfall::exchange {

/// Answers about a make, as options or an interview hand them over.
inline project::MakeAnswers answers(const std::vector<std::pair<std::string, std::string>>& given) {
    project::MakeAnswers out;
    for (const auto& [id, text] : given) out.add(id, text);
    return out;
}

}  // namespace skeinfall::exchange
