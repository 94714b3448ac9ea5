#pragma once
/// \file
/// Colour-changing yarn: the phase of its repeat, joins in phase, alike pairs, stripes, pooling,
/// and the fabric as it will fall.
///
/// A phase is a length from the beginning of the first run of one repeat, taken in the direction
/// in which the yarn is worked; reversed skeins are rewound first.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::joins {

using Runs = std::vector<project::ColourRun>;

/// `at` less whole repeats, at least 0 and below `repeat`; within a billionth of a repeat it is 0.
[[nodiscard]] units::Length phase_of(units::Length at, units::Length repeat);

/// The phase at which a colour begins; nothing when no run is named so.
[[nodiscard]] std::optional<units::Length> phase_of_colour(const Runs& runs,
                                                           const std::string& colour);

/// Yarn to wind off a skein that begins at phase `begins`, its first `tail` being the tail, so
/// that it goes on where the old yarn ended.
[[nodiscard]] units::Length wind_off(units::Length ended, units::Length begins, units::Length tail,
                                     units::Length repeat);

/// Winding off that so many joins take: on average half a repeat each, at most a whole one.
struct WindOff {
    units::Length expected{};
    units::Length at_most{};
};
[[nodiscard]] WindOff wind_off_for(std::size_t joins, units::Length repeat);

/// Where a skein that was wound the other way begins once it is rewound. `phase` is that of its
/// outer end before, `length` the whole skein.
[[nodiscard]] units::Length phase_when_rewound(units::Length phase, units::Length length,
                                               units::Length repeat);

/// Two alike pieces from one skein: what is wound off between them, and what all of it takes.
struct PairFromOne {
    units::Length wind_off{};
    units::Length total{};
};
[[nodiscard]] PairFromOne pair_from_one(units::Length each, units::Length ends,
                                        units::Length repeat);

/// The most that each of two alike pieces can take of one skein, both begun at the same phase.
struct LargestPair {
    units::Length each{};
    units::Length left{};  ///< wound off between them and left at the end
};
[[nodiscard]] LargestPair largest_pair(units::Length total, units::Length ends,
                                       units::Length repeat);

/// A stretch of one colour in a piece.
struct ColourStripe {
    std::size_t run = 0;
    units::RowCount from{};  ///< rows done when it begins, with a share of the next
    units::RowCount to{};
    units::Length height{};
};

/// `rows` holds what each row takes, `start` the phase of the first stitch.
[[nodiscard]] std::vector<ColourStripe> colour_stripes(const Runs& runs, units::Length start,
                                                       const std::vector<units::Length>& rows,
                                                       units::Length row_height);

/// What a constant row width does with the colours.
enum class Pattern {
    stacks,     ///< colours lie above one another
    diagonals,  ///< worked flat they cross (argyle), in the round they spiral
    breaks_up,  ///< neither: what to wish for against pooling
    alternates  ///< every second row of a side stacks
};
[[nodiscard]] std::string_view name_of(Pattern pattern);

struct Pooling {
    units::Length shift{};  ///< of the next row of the same side; above zero is onwards
    Pattern pattern = Pattern::breaks_up;
};

/// Rows of one side shift by 2 row mod repeat worked flat, by row mod repeat in the round. Below
/// 2 % of a repeat it stacks, up to 15 % it runs in diagonals, above 35 % it alternates (limits
/// of F4, judgements).
[[nodiscard]] Pooling pooling_of(units::Length row, units::Length repeat, project::Worked worked);

/// Row widths near `near` (in stitches) that shift the colours by `shift` stitches from one row
/// of a side to the next, for a repeat of whole stitches: one width, or two in turn. Nearest
/// first; a width a list.
[[nodiscard]] std::vector<std::vector<std::int64_t>> widths_for(std::int64_t repeat,
                                                                std::int64_t shift,
                                                                project::Worked worked,
                                                                std::int64_t near);

/// Rows after which a pattern has moved by a quarter of `run` when every row is off by
/// `row_error`; it must be looked at again by then. Rounded down.
[[nodiscard]] std::int64_t rows_until_drift(units::Length run, units::Length row,
                                            units::Ratio row_error);

/// Colours of a fabric, stitch by stitch as seen from the front: index of the run, row after row
/// from the first, each row from its right edge.
struct Fabric {
    std::vector<std::size_t> row_begin;  ///< of each row in `run`, and one past the last
    std::vector<std::uint8_t> run;
};

/// A row as colours see it: its yarn is spread evenly over its stitches.
struct ColourRow {
    std::int64_t stitches = 0;
    units::Length yarn{};
};

/// Flat rows go to and fro; `start` is the phase of the first stitch.
[[nodiscard]] Fabric fabric_of(const Runs& runs, units::Length start,
                               const std::vector<ColourRow>& rows, project::Worked worked);

}  // namespace skeinfall::joins
