#pragma once
/// \file
/// What must be kept out of a yarn, or out of a yarn for a use: a fibre, or a family of fibres.
///
/// Tables: lib/data/fibre_families.csv (what belongs to what), fibre_names.csv (other names),
/// fibre_summary.csv (what stands heat). What none of them knows is never taken for harmless.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/result.hpp"
#include "skeinfall/yarn/fibre.hpp"

namespace skeinfall::yarn {

/// A fibre ("wool", "polyamide", "merino wool") or a family ("animal fibre", "wool family",
/// "plant fibre", "man-made", "synthetic"), in lower case as it was written. A wish ("wool
/// allergy", "no wool") and a word that no table knows are Problems that say what to write.
[[nodiscard]] base::Result<std::string> parse_avoided(std::string_view text);

/// Why a content cannot be said to be free of something, the surest first.
enum class Presence {
    holds,            ///< the fibre, or one of its family
    may_hold,         ///< a family it belongs to ("animal hair"), or what may be a slip for it
    fibre_unknown,    ///< the label names a fibre that no table knows
    content_unknown,  ///< the label names none
    word_unknown      ///< what is to be kept out is no word that is understood
};

struct Objection {
    Presence presence{};
    std::string avoided;  ///< as the wish has it
    std::string printed;  ///< the fibre on the label, as printed; empty where it names none
    std::string perhaps;  ///< the known name that `printed` may be a slip for, or empty

    bool operator==(const Objection&) const = default;
};

/// The surest objection to a content, for the first of `avoid` that has it; nothing when all of
/// them are out of it for certain, by the label.
[[nodiscard]] std::optional<Objection> objection_to(const FibreContent& content,
                                                    const std::vector<std::string>& avoid);

/// "contains merino, and wool must be kept out": a phrase, as the label has it; not yet inert.
[[nodiscard]] std::string text(const Objection& objection);

/// The fibres of a content, as printed, that are not known to stand heat as a pan gives it off
/// (column hot_pad_ok): those that melt, those of which nobody says it, and unknown names.
[[nodiscard]] std::vector<std::string> unproven_in_heat(const FibreContent& content);

}  // namespace skeinfall::yarn
