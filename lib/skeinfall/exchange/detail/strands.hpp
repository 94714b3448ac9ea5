#pragma once
/// \file
/// Strands held together, wherever an answer says so: neither class nor gauge tells what they take.

#include <cstdint>
#include <optional>
#include <string>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/project/make_questions.hpp"

namespace skeinfall::exchange::detail {

/// Refuses words of strands where they cannot be taken into account: in the name of the yarn or the
/// stitch, and in the name of the make where neither a weighed swatch nor a total tells its yarn.
/// Throws base::InputError, its place the question.
void refuse_strands(const project::MakeAnswers& answers);

/// A swatch that says of how many strands it is, beside a make that says otherwise.
[[nodiscard]] std::optional<base::Problem> swatch_of_other_strands(
    const project::MakeAnswers& answers, const WrittenSwatch& swatch);

/// How a swatch of a make of several strands is taken that says nothing of its own.
[[nodiscard]] std::optional<std::string> strands_of_swatch_unsaid(
    const project::MakeAnswers& answers, const WrittenSwatch& swatch);

/// How many strands the make is said to be worked with, 0 where it is not.
[[nodiscard]] std::int64_t strands_of_make(const project::MakeAnswers& answers);

/// ", held double" and the like behind the size of a make, taken off it.
[[nodiscard]] std::string take_strands(std::string& text);

/// The total of all strands: "200 m" of "100 m of each strand", held double. Where the make is of
/// strands and it is not said whether they are in it, throws base::InputError; "total" its place.
[[nodiscard]] std::string total_of_strands(const std::string& total,
                                           const project::MakeAnswers& answers);

}  // namespace skeinfall::exchange::detail
