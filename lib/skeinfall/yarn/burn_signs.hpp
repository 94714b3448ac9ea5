#pragma once
/// \file
/// What a burnt snippet tells of the fibre: a guess with its confidence, never a proof.
///
/// Table: lib/data/burn_signs.csv, partly from memory. Each sign fits some groups of fibres; a
/// group is ranked by how many of the observed signs fit it.

#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/result.hpp"
#include "skeinfall/yarn/finding.hpp"

namespace skeinfall::yarn {

/// Printed with every guess, and before anybody is asked to burn anything.
inline constexpr std::string_view burn_caution =
    "Burn only if you must, outdoors, and never let a child do it. Hold a snippet of 5 cm at most "
    "in metal tongs over a dish of water, hair and sleeves tied back, nothing near that can catch. "
    "Melted drops stick to skin and burn it; do not breathe the smoke. Where safety advice you "
    "trust says "
    "otherwise, follow that.";

struct BurnSign {
    std::string_view sign;     ///< "hair", "hard bead"
    std::string_view kind;     ///< "smell", "residue", "flame"
    std::string_view seen_as;  ///< a phrase
};

/// Every sign of the table, in its order.
[[nodiscard]] std::vector<BurnSign> burn_signs();

/// "hair, crumbles": signs of the table between commas.
[[nodiscard]] base::Result<std::vector<std::string>> parse_burn_signs(std::string_view text);

struct FibreGuess {
    std::string group;   ///< "animal"
    std::string fibres;  ///< what the group holds, as a phrase
    int agree = 0;       ///< observed signs that fit
    int signs = 0;       ///< observed signs
    Confidence confidence = Confidence::unlikely;
};

/// Groups that at least one sign fits, best first, ties in the table's order. Likely needs two
/// signs, all of them to fit, and no other group that they fit as well; a blend shows signs of
/// several groups.
[[nodiscard]] std::vector<FibreGuess> fibre_guesses(const std::vector<std::string>& signs);

}  // namespace skeinfall::yarn
