#pragma once
/// \file
/// Skeins that do not match: alternating them, fading one lot into the next, and giving parts
/// that must match skeins that do.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::joins {

/// Skeins worked in turn, so many rows each: {2, 2}, {1, 1, 1}.
using Turns = std::vector<std::int64_t>;

/// Even turns of 1 to `rows_at_most` rows for so many skeins that never need a cut, by
/// cover::carried_without_cutting().
[[nodiscard]] std::vector<Turns> turns_without_cuts(std::size_t skeins, project::Worked worked,
                                                    std::int64_t rows_at_most = 4);

/// Fading lot A into lot B: alternation begins in time, so that A lasts to its end.
struct Fade {
    std::int64_t begin = 0;  ///< first alternated row
    std::int64_t end = 0;    ///< last alternated row; B goes on alone
    units::Length held{};    ///< of A when the alternation begins
    Turns turns;
};

/// `yarn` holds what each row takes, in working order; A covers rows from the first on with
/// `of_a` of usable yarn. The transition is `rows` long and ends where A does. Nothing when A
/// does not reach that far.
[[nodiscard]] std::optional<Fade> fade(const std::vector<units::Length>& yarn, units::Length of_a,
                                       std::int64_t rows, project::Worked worked);

/// What each of several yarns takes when they are worked in turns from the first row to the last.
[[nodiscard]] std::vector<units::Length> yarn_by_turns(const std::vector<units::Length>& rows,
                                                       const Turns& turns);

/// Rows worked in turns for as long as every skein holds its next whole turn, and then from the
/// one that holds most alone.
struct InTurns {
    std::int64_t alternated = 0;
    std::int64_t reached = 0;  ///< rows in all
    std::size_t then = 0;      ///< the one that goes on
};
[[nodiscard]] InTurns work_in_turns(const std::vector<units::Length>& rows, const Turns& turns,
                                    std::vector<units::Length> has);

/// Two alike pieces joined at the same rows: skeins in pairs whose shorter ones sum to the most,
/// neighbours after sorting. Indices into `lengths`; an odd one is left out.
struct Pair {
    std::size_t longer = 0;
    std::size_t shorter = 0;
};
[[nodiscard]] std::vector<Pair> pair_skeins(const std::vector<units::Length>& lengths);

/// A part of the make and the parts it must match (both sleeves, both fronts).
struct MatchedPart {
    std::string name;
    std::string match;  ///< parts with the same word here get one lot
    units::Length need{};
};
struct LotStock {
    std::string lot;
    units::Length usable{};
};
struct LotOfParts {
    std::string match;
    std::vector<std::string> parts;
    std::optional<std::string> lot;  ///< nothing: no lot has enough left, alternate or divide
};

/// Whole groups to lots, exactly: most yarn within one lot, then fewest lots opened; groups in
/// the order of their need, ties by name. At most `groups_at_most` groups.
[[nodiscard]] std::vector<LotOfParts> match_parts(const std::vector<MatchedPart>& parts,
                                                  const std::vector<LotStock>& lots);
inline constexpr std::size_t groups_at_most = 12;

}  // namespace skeinfall::joins
