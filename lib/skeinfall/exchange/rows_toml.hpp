#pragma once
/// \file
/// The rows of a piece in notation or as tables of counts, and stitches that a project describes.
///
/// `rows` in a [[piece]] may be a text with one row a line, or a list whose entries are such texts
/// or tables { rows = 5, stitches = { dc = 12 }, increase = { dc = 12 }, every = 1 }. A stitch is
/// described as [stitch.NAME] with `of` (its make-up) or `yarn` (times the yarn of one sc or k),
/// and with `makes` and `takes`.

#include <cstdint>
#include <string_view>
#include <vector>

#include "skeinfall/exchange/problem_list.hpp"
#include "skeinfall/exchange/source_text.hpp"
#include "skeinfall/exchange/toml_reader.hpp"
#include "skeinfall/notation/notation.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::exchange {

/// Stitches by kind under a key, "{ dc = 12, ch = 4 }"; empty when it is missing or wrong.
[[nodiscard]] std::vector<project::KindCount> read_kinds(TomlTable& in, std::string_view key,
                                                         std::int64_t least);

/// The number of rows of a piece, one or one a size. A text that only counts them is told how to be
/// written.
[[nodiscard]] project::PerSize<std::int64_t> read_row_count(TomlTable& piece,
                                                            std::optional<std::size_t> sizes);

/// Whether the key "rows" of a piece holds rows and not their number.
[[nodiscard]] bool rows_are_written(TomlTable& piece);

/// The entries of "rows" as they stand; empty where one is a table of counts.
[[nodiscard]] std::vector<std::string> written_entries(TomlTable& piece);

/// The rows of a piece, worked out for every size. Empty when there were problems, which are
/// added. `options.size` and `options.locate` are not looked at.
[[nodiscard]] project::PerSize<project::WorkedRows> read_rows(
    TomlTable& piece, const notation::NotationOptions& options, const SourceText& source,
    ProblemList& problems);

/// The options with the yarns that the rows of a piece may name.
[[nodiscard]] notation::NotationOptions with_yarns(notation::NotationOptions options,
                                                   const std::vector<project::Role>& roles,
                                                   const project::Piece& piece);

/// Yarns that the rows name become the stripes of the piece. Stripes that the piece has besides
/// must be the same.
void take_stripes(TomlTable& in, project::Piece& piece);

/// The tables [stitch.NAME].
[[nodiscard]] std::vector<project::OwnStitch> read_own_stitches(TomlTable& top,
                                                                const SourceText& source);

}  // namespace skeinfall::exchange
