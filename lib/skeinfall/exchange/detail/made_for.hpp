#pragma once
/// \file
/// For whom or what a make is, from the answer or from its names.

#include <string>
#include <vector>

#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/project/make_questions.hpp"

namespace skeinfall::exchange::detail {

struct MadeFor {
    std::string words;    ///< as a project file has it; empty where nothing is said
    std::string assumed;  ///< where only a name says so
};

/// "baby" is an infant and "toddler" a child, "age 3" too; a "pot holder" that nobody said more of
/// is for kitchen heat, a "baby blanket" for an infant. An answer that is not known stays as it is.
[[nodiscard]] MadeFor made_for(const project::MakeAnswers& answers,
                               const std::vector<WrittenPiece>& pieces);

}  // namespace skeinfall::exchange::detail
