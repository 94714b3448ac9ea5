#pragma once
/// \file
/// How many of a thing its words say: "a dozen scarves", "granny squares x 30", "mittens".

#include <cstdint>
#include <optional>
#include <string>

#include "skeinfall/project/thing_words.hpp"

namespace skeinfall::exchange {

/// A number in figures or in a word, from 1 on; "a" and "the" count one.
[[nodiscard]] std::optional<std::int64_t> spoken_number(const std::string& word);

/// The same with the count in figures before the name: "12 scarves", "30 granny squares", "2 mitts"
/// for a pair of them, or "30 x granny square" where the words leave no doubt. As it stands where
/// no words count.
[[nodiscard]] std::string counted_in_figures(const std::string& text);

/// What a name is of, without what is said of it: "socks" of "socks, size 42", "slippers" of
/// "slippers size 8", "granny squares" of "granny squares (4 rounds) in rust".
[[nodiscard]] std::string kind_of(const std::string& name);

/// "squares" of "handful of squares", "family of hats": what is collected, and not how many.
[[nodiscard]] std::optional<std::string> collected_in(const std::string& name);

/// Whether what a name is of is a thing of that kind: "hat for Ann" is a hat, "hat band" is none.
[[nodiscard]] bool is_kind(const std::string& name, project::Thing means);

/// A plural, or one word: what a bare figure before it may count. "2 baby hat" is no such case.
[[nodiscard]] bool may_be_counted(const std::string& name);

/// Words that count what is counted already: "socks (pair)", "sock, make another".
[[nodiscard]] bool counts_again(const std::string& name);

/// What is worn two at a time: common practice, no source.
[[nodiscard]] bool comes_in_pairs(const std::string& name);

/// "potholder" of "double-sided potholder": the name without the words that say that one thing is
/// worked twice over; nothing where none do.
[[nodiscard]] std::optional<std::string> one_side_of(const std::string& name);

/// A name for more than one thing that does not say how many: "scarves", "a few squares", "coaster
/// set".
[[nodiscard]] bool names_several(const std::string& name);

}  // namespace skeinfall::exchange
