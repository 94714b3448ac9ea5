#pragma once
/// \file
/// How each line of rows was read, for people. Inner part of the notation.

#include <cstdint>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "skeinfall/notation/detail/pattern.hpp"
#include "skeinfall/notation/notation.hpp"

namespace skeinfall::notation {

using State = RowReading::State;

/// What working told of a written line.
struct Told {
    State state = State::read;
    std::int64_t first_row = 0;
    std::int64_t rows = 0;
    std::vector<std::int64_t> apart;  ///< its rows, where they do not follow each other
    bool closed = false;              ///< the last row of its own has been worked
    std::optional<std::int64_t> made;
    std::vector<KindCount> kinds;
    std::vector<project::ColourWork> colours;
    std::vector<Finding> findings;
    std::optional<base::Problem> problem;
    std::optional<Proposal> proposal;
};

/// Findings of lines, by entry and byte.
using FindingsOfLine = std::map<std::pair<std::size_t, std::size_t>, std::vector<Finding>>;

/// The count that a row declares, of all its stitches; nothing where it only names some.
[[nodiscard]] std::optional<std::int64_t> declared_of(const Body& body);

/// One reading a line, in the order of the text. `all` holds what each written line told, `made`
/// the stitches of each row that was followed, `told_behind` what counts behind repeats showed,
/// `more_rows` how many were worked behind a row until it had its stitches.
[[nodiscard]] std::vector<RowReading> readings_of(
    const Pattern& pattern, const NotationOptions& options, const StitchBook& book,
    units::StitchCount foundation, std::vector<Told> all,
    const std::map<std::int64_t, std::int64_t>& made, const FindingsOfLine& told_behind,
    const std::map<std::int64_t, Finding>& stuck,
    const std::map<std::int64_t, std::int64_t>& more_rows);

}  // namespace skeinfall::notation
