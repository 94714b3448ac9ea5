#pragma once
/// \file
/// What a person writes of yarn in one line: a few letters of its name, its class, what is at hand.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/result.hpp"
#include "skeinfall/exchange/colour_words.hpp"
#include "skeinfall/stash/skein.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::exchange {

/// The yarns of a stash whose name holds `letters` (no regard to case), one skein of each, in the
/// order of adding; one alone where the name is just these letters.
[[nodiscard]] std::vector<stash::Skein> yarns_named(const std::string& letters,
                                                    const std::vector<stash::Skein>& stash);

/// A weight class by number, the Council's name, or a name of the trade on which all charts agree
/// ("worsted", "DK", "AU 8 ply"). A name on which charts differ is refused with what they say.
[[nodiscard]] base::Result<yarn::WeightClass> parse_class(std::string_view text);

/// Skeins told of in one line, as if they lay in the stash: "2 skeins of 170 yd / 100 g", "3 x 200
/// m", "48 g", "2 skeins". What is not said of a skein comes from `like` (its name, label, class,
/// fibre). Mass alone is a part skein on the scale, and needs a label's length per mass. "rust: 2
/// skeins of 170 yd" and "2 skeins of 170 yd in rust" say their colour, else it is `colour`.
[[nodiscard]] base::Result<std::vector<stash::Skein>> parse_having(std::string_view text,
                                                                   const yarn::Yarn& like,
                                                                   const std::string& colour,
                                                                   std::size_t first);

/// A number of skeins, and what is said of each.
struct CountedSkeins {
    std::int64_t count = 1;
    bool counted = false;  ///< a number is said
    std::string rest;
};
/// "2 skeins of 170 yd", "3 x 50 g", "a ball of 120 m", "48 g" (one).
[[nodiscard]] base::Result<CountedSkeins> parse_counted(std::string_view text);

/// Why a text is not what a label prints of length and mass, where it says something else: a weight
/// class, one of the two alone, figures without units.
[[nodiscard]] std::optional<base::Problem> not_a_label(const std::string& text);

/// What parse_having() takes for the colour, and the rest.
[[nodiscard]] OfColour having_of_colour(std::string_view text);

/// "acrylic" is all acrylic: a text without figures becomes "100% acrylic".
[[nodiscard]] std::string fibre_as_said(const std::string& text);
/// "worsted" as "4" where parse_class() knows it, else the text.
[[nodiscard]] std::string class_as_said(const std::string& text);
/// True of a band's text with more than a length and a mass on it.
[[nodiscard]] bool prints_much(std::string_view text);

}  // namespace skeinfall::exchange
