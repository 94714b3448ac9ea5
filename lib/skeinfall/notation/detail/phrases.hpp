#pragma once
/// \file
/// Turns of phrase that mean what the grammar knows under other words:
/// lib/data/notation_phrases.csv. Inner part of the notation.
///
/// A phrase is a list of elements with a blank between them:
///   word|other   one of these words or signs
///   [word]       the same, or nothing
///   #  %  <>     a number, an ordinal, a length
///   @tool+       one or more words of that role, numbers, lengths and fillers
///   @stitch      a word that names a stitch, or "st"
///   @colour+     one to four words that name no stitch, no work and no yarn of the make
///   @words+      one to twelve words and numbers
///   @inner+      one to forty of anything but brackets
///   ^            the beginning of a line
///   $            its end
/// What it reads as holds words, signs, numbers, $n for what element n stood for, $n# for
/// its ordinal as a number, $n% for its number as an ordinal, and $# for the last number. With
/// "aside" in front of it, or nothing else, the words are set aside and told.

#include <vector>

#include "skeinfall/notation/detail/tokens.hpp"
#include "skeinfall/notation/detail/tree.hpp"
#include "skeinfall/notation/notation.hpp"

namespace skeinfall::notation {

/// Puts what phrases mean in their place; what is set aside by it is added to `aside`.
void read_phrases(std::vector<Token>& tokens, StitchBook& book, const NotationOptions& options,
                  std::vector<SetAside>& aside);

}  // namespace skeinfall::notation
