#pragma once
/// \file
/// A pattern pasted whole into a project: pattern = '''...''', or pattern_file = "hat.txt" beside
/// the project file. Each of its sections becomes a piece.

#include <vector>

#include "skeinfall/exchange/problem_list.hpp"
#include "skeinfall/exchange/source_text.hpp"
#include "skeinfall/exchange/toml_reader.hpp"
#include "skeinfall/notation/notation.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::exchange {

/// not_read = ["Edging: ..."]: lines of a pattern that may hold work and were read by nobody are
/// problems, one each.
void refuse_what_is_not_read(TomlTable& top);

/// The pieces of the pattern, in its order, of the project's first yarn. Lines that cannot be
/// followed are problems; what does not agree is a finding of the rows.
[[nodiscard]] std::vector<project::Piece> read_pattern(TomlTable& top,
                                                       const notation::NotationOptions& options,
                                                       const std::string& role,
                                                       const SourceText& source,
                                                       ProblemList& problems);

}  // namespace skeinfall::exchange
