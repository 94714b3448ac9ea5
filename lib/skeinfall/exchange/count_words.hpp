#pragma once
/// \file
/// How many of a thing its words say: "a dozen scarves", "granny squares x 30", "mittens".

#include <optional>
#include <string>

namespace skeinfall::exchange {

/// The same with the count in figures before the name: "12 scarves", "30 granny squares", "2 mitts"
/// for a pair of them. As it stands where no words count.
[[nodiscard]] std::string counted_in_figures(const std::string& text);

/// What is worn two at a time: common practice, no source.
[[nodiscard]] bool comes_in_pairs(const std::string& name);

/// "potholder" of "double-sided potholder": the name without the words that say that one thing is
/// worked twice over; nothing where none do.
[[nodiscard]] std::optional<std::string> one_side_of(const std::string& name);

/// A name for more than one thing that does not say how many: "scarves", "a few squares", "coaster
/// set".
[[nodiscard]] bool names_several(const std::string& name);

}  // namespace skeinfall::exchange
