#pragma once
/// \file
/// What was found out of an unlabelled yarn, and of one yarn in place of another: answer first,
/// then reasons, then what to do next. JSON has stable keys in a fixed order and full digits.

#include <string>

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

}  // namespace skeinfall::report
