#pragma once
/// \file
/// Stitch and instruction names, US and UK (lib/data/us_uk_terms.csv), and the abbreviations of
/// pattern writing (lib/data/abbreviations.csv). The same letters name different stitches in the
/// two sets: a UK dc is a US sc.

#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/result.hpp"
#include "skeinfall/yarn/naming.hpp"

namespace skeinfall::yarn {

/// "US" or "UK".
[[nodiscard]] std::string_view text(Naming naming);

/// "US" or "UK", without regard to case.
[[nodiscard]] base::Result<Naming> parse_naming(std::string_view text);

/// One name of a stitch or instruction, as one set writes it.
struct TermName {
    std::string abbreviation;
    std::string name;
    bool operator==(const TermName&) const = default;
};

/// A stitch or instruction under both names.
struct Term {
    Naming written = Naming::us;  ///< the set in which the asked-for text was read
    TermName us;
    TermName uk;
    std::string_view turning_chains;  ///< "3"; empty when it has none
    bool from_memory = false;
    std::string_view source;
    std::string_view note;

    [[nodiscard]] const TermName& in(Naming naming) const { return naming == Naming::us ? us : uk; }
};

/// Every reading of "UK tr", "tr", "treble crochet", "dc2tog", "FPdc". Naming a set leaves the
/// readings of that set; none is left when the table does not know the text. "tr" alone has two
/// readings when they are different stitches, and one when both sets agree.
[[nodiscard]] std::vector<Term> term_readings(std::string_view text);

/// The one reading of `text`, for a conversion to `to`. A text that names different stitches in
/// the two sets is refused with both readings; an unknown one with the nearest known.
[[nodiscard]] base::Result<Term> term_for(std::string_view text, Naming to);

/// One abbreviation of pattern writing.
struct Abbreviation {
    std::string_view craft;  ///< "crochet", "knit" or "both, symbols"
    std::string_view abbreviation;
    std::string_view meaning;
    bool from_memory = false;
    std::string_view source;
};

/// The abbreviations that read as `text`, without regard to case.
[[nodiscard]] std::vector<Abbreviation> abbreviations_of(std::string_view text);

}  // namespace skeinfall::yarn
