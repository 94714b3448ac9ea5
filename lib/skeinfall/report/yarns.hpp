#pragma once
/// \file
/// What was found out of an unlabelled yarn, of one yarn in place of another, and of strands held
/// together or taken apart: answer first, then reasons, then what to do next. JSON has stable keys
/// in a fixed order and full digits.

#include <string>
#include <vector>

#include "skeinfall/yarn/strands.hpp"
#include "skeinfall/yarn/substitute.hpp"
#include "skeinfall/yarn/unlabelled.hpp"

namespace skeinfall::report {

[[nodiscard]] std::string identify_text(const yarn::Clues& clues, const yarn::Unlabelled& found);

/// {grist_m_per_100g, grist_spread_m_per_100g, left_m, left_spread_m, refused: {needed_g,
/// least_g, most_g, measure_m} or null, classes: [{class, name, score, standing, supports:
/// [{kind, share, agree, charts}]}], contradictions: [{one, other, says}], fibres: [{group,
/// fibres, agree, signs, confidence}], notes, credit, next}
[[nodiscard]] std::string identify_json(const yarn::Clues& clues, const yarn::Unlabelled& found);

[[nodiscard]] std::string substitute_text(const yarn::Swap& swap, const yarn::Substitution& answer);

/// {verdict, want, with, strands, want_strands, findings: [{level, topic, says, source}],
/// purchase: {length_m, own_gauge_m, want_g, with_g, want_balls, with_balls, with_balls_own_gauge:
/// {exact, count, spare_m, tight} or null} or null, credit, next}
[[nodiscard]] std::string substitute_json(const yarn::Swap& swap, const yarn::Substitution& answer);

/// What they make together, what speaks against it, the classes of that, and what to do next.
[[nodiscard]] std::string strands_text(const yarn::Holding& holding, const yarn::Held& held);

/// {strands, grist_m_per_100g, diameter, gauge_least, gauge_most, content: [{fibre, share}],
/// classes as in identify_json(), findings as in substitute_json(), run_out: {first, worked_m,
/// left_m} or null, credit, next}. Diameter and gauge are over those of the first strand.
[[nodiscard]] std::string strands_json(const yarn::Holding& holding, const yarn::Held& held);

/// What a plied yarn gives when it is taken apart; every bundle keeps the length.
[[nodiscard]] std::string plies_text(const std::vector<yarn::PliedStock>& bundles);
/// {bundles: [{plies, length_m, mass_g, grist_m_per_100g}]}
[[nodiscard]] std::string plies_json(const std::vector<yarn::PliedStock>& bundles);

}  // namespace skeinfall::report
