#pragma once
/// \file
/// What is proposed for a row that was not read, in words.

#include <string>

#include "skeinfall/notation/notation.hpp"

namespace skeinfall::notation {

/// "Write "2 sc" for "3 sc": the row then makes 24 stitches, as its count says." A sentence.
[[nodiscard]] std::string text(const Proposal& proposal);

/// Why a line is not read, with what is proposed for it; nothing where it is read.
/// Whether what is proposed stands in the remedy of the problem, too.
[[nodiscard]] bool told_in_remedy(const RowReading& reading);
[[nodiscard]] std::optional<base::Problem> fault_of(const RowReading& reading);

}  // namespace skeinfall::notation
