#pragma once
/// \file
/// Answers of conversions, as text and as JSON with full digits.

#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/terms.hpp"
#include "skeinfall/yarn/tools.hpp"

namespace skeinfall::report {

/// A quantity in the units asked for.
struct QuantityAnswer {
    struct Value {
        std::string unit;
        units::Ratio number{};
    };
    std::string text;
    std::string kind;  ///< of the text's own value
    std::vector<Value> values;
    std::vector<std::string> notes;
};

/// "6720 yd/lb" a line, to five figures.
[[nodiscard]] std::string conversion_text(const QuantityAnswer& answer);
/// {text, kind, values: [{unit, value}], notes}
[[nodiscard]] std::string conversion_json(const QuantityAnswer& answer);

/// How a size is put first in its line.
enum class ToolColumn { mm, us, uk };

/// "5.5 mm (US I-9, UK 5)" a line.
[[nodiscard]] std::string tools_text(const yarn::ToolAnswer& answer, ToolColumn first);
/// {text, kind, exact, sizes: [{mm, us, uk, numbering, from_memory, source, note}], notes, credit}
[[nodiscard]] std::string tools_json(std::string_view text, const yarn::ToolWish& wish,
                                     const yarn::ToolAnswer& answer);

/// "US dc (double crochet)".
[[nodiscard]] std::string term_text(const yarn::Term& term, yarn::Naming to);
/// {text, kind, to, abbreviation, name, written, us, uk, turning_chains, from_memory, source, note}
[[nodiscard]] std::string term_json(std::string_view text, const yarn::Term& term, yarn::Naming to);

/// What a term or an abbreviation means in either set, a line each.
[[nodiscard]] std::string meanings_text(const std::vector<yarn::Term>& terms,
                                        const std::vector<yarn::Abbreviation>& abbreviations);
/// {text, kind, readings: [...], abbreviations: [{craft, abbreviation, meaning, ...}], credit}
[[nodiscard]] std::string meanings_json(std::string_view text, const std::vector<yarn::Term>& terms,
                                        const std::vector<yarn::Abbreviation>& abbreviations);

}  // namespace skeinfall::report
