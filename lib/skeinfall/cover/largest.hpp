#pragma once
/// \file
/// How large a make can become with the yarn there is. Every candidate is worked out step by step
/// like any other make, so the finish, the tails and the other pieces are held back.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/cover/cover.hpp"

namespace skeinfall::cover {

/// What may grow.
enum class Extent {
    rows,   ///< rows of a piece
    width,  ///< stitches in its first row
    count,  ///< how many of it, for motifs
    size,   ///< the size of a graded make
    turn,   ///< the row after which a growing piece is decreased again to where it began
    both,   ///< stitches in its first row, and rows in the same proportion
};
[[nodiscard]] std::string_view name_of(Extent extent);

struct Growth {
    Extent extent = Extent::rows;
    std::size_t piece = 0;
    /// Only offset + n x step is tried: a pattern repeat of rows or stitches and what stands
    /// outside it.
    std::int64_t step = 1;
    std::int64_t offset = 0;
};

struct Tried {
    std::int64_t value = 0;               ///< for Extent::size an index
    measure::Chance chance;               ///< with the margin that was asked for
    Verdict verdict = Verdict::is_short;  ///< for the need itself
    /// Of the piece that grows; nothing for Extent::size.
    project::FinishedSize finished{};
    std::int64_t stitches = 0;  ///< of it in row 1
    std::int64_t rows = 0;
    bool margin_met = true;  ///< the margin that was asked for as well
    bool possible = true;    ///< else smaller than one repeat: there is no such make
};

struct Largest {
    Growth growth;
    std::int64_t planned = 0;              ///< as the project states it
    project::FinishedSize planned_size{};  ///< of the piece that grows
    project::Multiple multiple{};          ///< of what grows: rows, else stitches
    /// The largest at the confidence, with its margin; nothing when not even one step.
    std::optional<Tried> sure;
    std::optional<Tried> half;           ///< half a repeat beyond it, when that is sure too
    std::optional<Tried> likely;         ///< the largest that is more likely to suffice than not
    Tried next;                          ///< one step beyond the sure one
    std::vector<std::string> unchanged;  ///< finishing parts that do not grow with it, by name
    bool endless = false;                ///< the search ended at its limit, not the yarn's
    std::int64_t limit = 0;  ///< that limit: the rows of a pattern that does not repeat at its end
    MakeCover cover;         ///< of the sure one, else of the next; its candidates are left out
    std::vector<Tried> sizes;  ///< Extent::size: all of them
};

/// Rows, stitches or copies above which no further search is made.
inline constexpr std::int64_t largest_at_most = 20'000;

/// Rows by which a piece grows where nobody says otherwise: whole repeats of its stripes; one by
/// one when its rows are written out.
[[nodiscard]] std::int64_t usual_step(const project::Piece& piece);

/// Growth by whole repeats: the piece's own multiple where it has one, else usual_step(). A piece
/// whose width follows from its rows keeps its proportions by Extent::rows.
[[nodiscard]] Growth usual_growth(const project::Project& project, std::size_t size, Extent extent,
                                  std::size_t piece);

/// Throws base::InputError when the piece cannot grow that way: no sizes, no increase to turn. A
/// stated total follows the stitches (fit::follow_totals()).
[[nodiscard]] Largest largest(const project::Project& project, std::size_t size,
                              const std::vector<stash::Skein>& stash, const Rules& rules,
                              const Growth& growth);

/// The project with its piece (or, for Extent::turn, the piece and its mirror) at a value; borders
/// and stated totals follow as fit::fit_piece() has it. Throws
/// base::InputError when written rows are asked for another width, std::invalid_argument when rows
/// that do not repeat at their end are asked to become more.
[[nodiscard]] project::Project grown(const project::Project& project, std::size_t size,
                                     const Growth& growth, std::int64_t value);

/// The same make at another gauge, stitches and rows in proportion.
struct AtGauge {
    units::StitchGauge stitches{};
    units::RowGauge rows{};
    project::FinishedSize finished{};  ///< of the piece
    measure::Chance chance;
    Verdict verdict = Verdict::is_short;
};

/// Which gauge makes the yarn reach. Yarn of a stitch goes with the root of the room it has
/// (need::gauge_change()); how far that holds is part of the band. Gauges are tried in half
/// stitches to 4 in, up to `gauge_at_most` away.
struct LargestByGauge {
    std::size_t piece = 0;
    AtGauge planned;
    /// The pattern's counts at the loosest gauge that is sure: the largest they can come out.
    std::optional<AtGauge> counts;
    /// The planned size at the tightest gauge that is sure, with fewer stitches; nothing where the
    /// planned gauge is sure, or none is.
    std::optional<AtGauge> size;
};
inline constexpr units::Ratio gauge_at_most = units::Ratio::from_value(0.25);

[[nodiscard]] LargestByGauge largest_by_gauge(const project::Project& project, std::size_t size,
                                              const std::vector<stash::Skein>& stash,
                                              const Rules& rules, std::size_t piece);

}  // namespace skeinfall::cover
