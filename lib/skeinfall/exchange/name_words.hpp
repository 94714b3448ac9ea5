#pragma once
/// \file
/// What the name of a piece says of yarn that its rows do not hold: "scarf with fringe", "lined
/// hat", "hat and mitts".

#include <optional>
#include <string>
#include <vector>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/make_words.hpp"

namespace skeinfall::exchange {

/// What a name says is there besides the piece, each as it is said: "fringe", "lining", "mitts".
/// Empty where it says nothing or what takes no yarn of its own ("with cables", "for Ann and Bo"
/// is no such case and is told). Common practice, no source.
[[nodiscard]] std::vector<std::string> named_besides(const std::string& name);

/// "two edgings", "both borders", "each sleeve": figures behind it may be of one or of all.
[[nodiscard]] bool says_how_many(const std::string& name);

/// Whether two of these are of one thing: a word of more than three letters in common, with or
/// without its ending.
[[nodiscard]] bool of_one_thing(const std::string& a, const std::string& b);

/// A name that speaks of colours: the question to answer is "stripes".
[[nodiscard]] std::optional<base::Problem> colours_not_told(
    const std::vector<WrittenPiece>& pieces);

/// A felted thing by its size, which may be that of the finished one.
[[nodiscard]] std::optional<base::Problem> shrinks_when_done(
    const std::vector<WrittenPiece>& pieces);

/// The first thing that the name of a piece has besides it and that is neither an extra nor another
/// piece: the question to answer is "plus". Sleeves of a sweater and fingers of gloves are such,
/// and pieces: "make".
[[nodiscard]] std::optional<base::Problem> yarn_not_told(const std::vector<WrittenPiece>& pieces,
                                                         const std::vector<WrittenExtra>& extras);

}  // namespace skeinfall::exchange
