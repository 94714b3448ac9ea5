#pragma once
/// \file
/// Words beside rows that are passed over as remarks, and yet say that more is worked.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace skeinfall::notation {

/// "with two strands held together", "yarn held double": the row takes as many yarns.
[[nodiscard]] bool speaks_of_strands(std::string_view words);

/// "Second sock: same as first.", "Keep going until 150 cm.", "Crochet 2 buttons.", "Stripes: 2
/// rows A, 2 rows B": a sentence beside the rows that no count and no row follows from.
[[nodiscard]] bool says_more_is_worked(std::string_view sentence);

/// What a row's brackets, or what stands behind its end, say of it that is not read: "work 10
/// times", "10 rows", "held double". `rows` are those that its label counts.
[[nodiscard]] std::optional<std::string> work_beside_row(std::string_view row, std::int64_t rows);

/// "Four panels", "Pair of panels", "Both sides", "Left and right front": how many a heading
/// names; 0 where it names no number.
[[nodiscard]] std::int64_t pieces_in_heading(std::string_view heading);

}  // namespace skeinfall::notation
