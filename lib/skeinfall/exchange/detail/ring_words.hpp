#pragma once
/// \file
/// A strip whose ends are sewn together, as makers say it.

#include <optional>
#include <string>
#include <vector>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/colour_words.hpp"
#include "skeinfall/exchange/detail/answer_text.hpp"
#include "skeinfall/exchange/make_words.hpp"

namespace skeinfall::exchange::detail {

/// "sewn into a ring", "seamed", "ends sewn together": taken off the text; whether it was there.
bool take_ring(std::string& text);

/// What has no first and last row to sew together.
[[nodiscard]] std::optional<base::Problem> no_ends_to_sew(const WrittenPiece& piece);

/// The seams of rings, each over the width of its strip, in the first of the yarns.
void write_rings(AnswerText& out, const std::vector<WrittenPiece>& pieces,
                 const std::vector<ColourRole>& roles, bool knit);

}  // namespace skeinfall::exchange::detail
