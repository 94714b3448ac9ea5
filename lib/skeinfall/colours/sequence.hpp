#pragma once
/// \file
/// Colour-changing yarn planned before the first stitch: begun at a chosen colour, pieces begun
/// alike, bands kept alike over pieces of unlike width, and the row up to which the colour is
/// known.
///
/// Where a colour lies is known less and less: every repeat is off by a little of its own, all of
/// them by what was not measured, and the fabric's own yarn use by its band. Derivation ours: with
/// n repeats of P behind it (yarn y = n P) the place is off by
/// sqrt((u y)^2 + (m n)^2 + s^2 n), u the band of the yarn use, m the spread of the mean repeat and
/// s that of one.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/joins/colour.hpp"
#include "skeinfall/measure/chance.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::colours {

/// One repeat as it was measured, or as the project states it.
struct Repeat {
    units::Length mean{};
    units::Length spread{};          ///< of one repeat
    units::Length spread_of_mean{};  ///< what so few measurements leave open
    std::size_t measured = 0;        ///< 0: as stated
};

/// What nobody measured: a repeat of a dyed yarn as stated, one in three off by more (a judgement).
inline constexpr units::Ratio usual_repeat_spread = units::Ratio::from_value(0.03);

/// At least one length. With one alone the usual spread is taken.
[[nodiscard]] Repeat measured_repeat(const std::vector<units::Length>& lengths);
[[nodiscard]] Repeat stated_repeat(units::Length length);

/// The runs made as long as one measured repeat, each in its share.
[[nodiscard]] joins::Runs scaled(const joins::Runs& runs, const Repeat& repeat);

/// Rows after which, at the confidence, the place in the repeat may be off by more than half of a
/// run: its colour is no longer known. Nothing: known to the last row.
[[nodiscard]] std::optional<std::int64_t> unknown_after(units::Length run,
                                                        const std::vector<units::Length>& rows,
                                                        units::Ratio yarn_use, const Repeat& repeat,
                                                        measure::Chance confidence);

using joins::phase_of_colour;

/// Bands on a narrower piece made as high as on the widest: of every repeat so much is cut out,
/// spread over its runs by their lengths; one join a run.
struct AlikeBands {
    units::Length each_repeat{};
    units::Length in_all{};
    std::int64_t joins = 0;
};
[[nodiscard]] AlikeBands alike_bands(const joins::Runs& runs, units::Length widest_row,
                                     const std::vector<units::Length>& rows);

struct SequenceWish {
    std::string role;
    std::size_t size = 0;
    std::optional<std::string> colour;    ///< every piece begins with it
    std::optional<units::Length> begins;  ///< phase of the ball's outer end
    Repeat repeat;
    measure::Chance confidence = measure::usual_confidence;
    units::Length tail = project::usual_tail;
};

struct SequencePiece {
    std::size_t piece = 0;
    std::int64_t copy = 1;
    units::Length start{};      ///< phase of its first stitch
    units::Length wound_off{};  ///< before it, so that it begins so
    std::vector<joins::ColourStripe> stripes;
    std::optional<std::int64_t> unknown_after;          ///< rows of it, for the shortest run ...
    std::optional<std::int64_t> longest_unknown_after;  ///< ... and for the longest
    AlikeBands alike;                                   ///< 0 for the widest piece
    bool pools = false;
    joins::Pooling pooling;
    std::optional<std::int64_t> differ_by;  ///< stitches more or fewer, so that it does not pool
};

struct SequencePlan {
    SequenceWish wish;
    joins::Runs runs;
    std::vector<SequencePiece> pieces;
    units::Length wound_off{};  ///< in all
    units::Length at_most{};    ///< at the beginning, where the ball's outer end is not known
    units::Length takes{};      ///< what is worked, ends and what is wound off
};

/// Throws base::InputError when the yarn has no colours or is in no piece, or no run has the
/// colour.
[[nodiscard]] SequencePlan plan_sequence(const project::Project& project, const SequenceWish& wish);

}  // namespace skeinfall::colours
