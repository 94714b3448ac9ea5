#pragma once
/// \file
/// A piece as people write it, put into the order that its reader knows, and what is doubtful in
/// its figures.

#include <optional>
#include <string>
#include <vector>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/project/stitches.hpp"

namespace skeinfall::exchange::detail {

/// "blanket 3 ft": a figure behind it is more of the size and no count, and no name ends so.
[[nodiscard]] bool ends_in_length(const std::string& text);

/// "7-7/8 in" as "7 7/8 in", "5'6\"" as "66 in", "90 x 120 cm baby blanket" and "12 6-inch squares"
/// with the name before the size, "*" as "x".
[[nodiscard]] std::string in_usual_order(std::string text);

/// What is wrong where there is a name, and an age at most: "baby blanket", "hat for a 6 year old".
/// `name` is what was read of one before a colon, and `text` the rest.
[[nodiscard]] std::optional<base::Problem> no_size(std::string_view given, const std::string& name,
                                                   const std::string& text);

/// "20 x 1.5 m" may be in two units; "1.500 m" can be read as 1500 m.
[[nodiscard]] std::optional<base::Problem> doubtful_figures(const std::string& name,
                                                            const std::string& sides);

/// How many are counted where that was not said outright; empty where it was, or is one.
[[nodiscard]] std::string counted_text(const WrittenPiece& piece);

/// What is taken of a piece without being said outright: that it tapers from the least to the most
/// of a range, and that a stitch in its name is not the one `counted`.
[[nodiscard]] std::vector<std::string> taken_of_piece(const WrittenPiece& piece,
                                                      const std::string& counted,
                                                      project::Craft craft);

}  // namespace skeinfall::exchange::detail
