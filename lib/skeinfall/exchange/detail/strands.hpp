#pragma once
/// \file
/// Strands held together, wherever an answer says so: neither class nor gauge tells what they take.

#include <string>

#include "skeinfall/project/make_questions.hpp"

namespace skeinfall::exchange::detail {

/// Refuses words of strands where they cannot be taken into account: in the name of the yarn or the
/// stitch, and in the name of the make where neither a weighed swatch nor a total tells its yarn.
/// Throws base::InputError, its place the question.
void refuse_strands(const project::MakeAnswers& answers);

/// The total of all strands: "200 m" of "100 m of each strand", held double. Where the make is of
/// strands and it is not said whether they are in it, throws base::InputError; "total" its place.
[[nodiscard]] std::string total_of_strands(const std::string& total,
                                           const project::MakeAnswers& answers);

}  // namespace skeinfall::exchange::detail
