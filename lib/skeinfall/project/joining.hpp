#pragma once
/// \file
/// Where and how new yarn may be joined in a piece, and the colours along a colour-changing yarn.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/result.hpp"
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/fibre.hpp"

namespace skeinfall::project {

/// Places in a piece where new yarn may be joined. Left and right are those of the front, worked
/// by the right hand: row 1 begins at the right edge.
enum class JoinAt {
    edges,        ///< between any two rows; in the round at the round's start
    left_edge,    ///< worked flat: after odd rows
    right_edge,   ///< worked flat: after even rows
    seamed_side,  ///< the edge or edges that a seam will hide
    anywhere,     ///< also inside a row
    stitches,     ///< at listed stitches, counted from the right edge (or from the round's start)
    spread        ///< in the round: at eighths of the round, no two neighbours one above the other
};

/// Rows of a piece, both ends included. `last` 0 means the last row.
struct RowZone {
    std::int64_t first = 1;
    std::int64_t last = 0;
};

/// What will hide a join: a seam, a hem turned up, a fold.
enum class Hides { seam, hem, fold };
[[nodiscard]] std::string_view name_of(Hides hides);

/// Rows that something hides, both ends included. Below zero they count from the end: -1 is the
/// last row.
struct HiddenRows {
    Hides by = Hides::seam;
    std::int64_t first = 1;
    std::int64_t last = 1;
};
/// The rows as they are in a piece of so many.
[[nodiscard]] RowZone zone_in(const HiddenRows& hidden, std::int64_t rows);

/// "1", "1-4", "last", "last 4".
[[nodiscard]] base::Result<HiddenRows> parse_hidden_rows(Hides by, std::string_view text);

struct JoinPlaces {
    JoinAt at = JoinAt::edges;
    std::vector<std::int64_t> stitches;  ///< for JoinAt::stitches, ascending
    /// No join between two rows of such a zone nor inside them.
    std::vector<RowZone> keep_free;
    /// Joins in or at the border of such a zone are better than elsewhere in the piece.
    std::vector<RowZone> prefer;
    std::vector<HiddenRows> hidden;
};

/// "60-80", "12", "all".
[[nodiscard]] base::Result<RowZone> parse_row_zone(std::string_view text);

/// A way to join by its trade name; rows of lib/data/join_kinds.csv.
struct JoinKind {
    std::string_view name;
    units::Length tail{};  ///< yarn that one of the two ends takes
    std::string_view note;
    units::Ratio felting_share{};  ///< of feltable wool the yarn must hold; 0: any fibre
    bool plied_only = false;
};

/// Every kind, in the table's order.
[[nodiscard]] const std::vector<JoinKind>& join_kinds();

/// The kind of that name or of one of its other names, without regard to case; nullptr if none.
[[nodiscard]] const JoinKind* find_join_kind(std::string_view name);

/// Why a yarn cannot be joined that way; empty when it can, or when its content is not known.
[[nodiscard]] std::string join_kind_objection(const JoinKind& kind,
                                              const yarn::FibreContent& fibre);

/// One run of colour along a colour-changing yarn, in the order in which it is worked.
struct ColourRun {
    std::string colour;
    units::Length length{};
    std::string shade;  ///< "#2e8b57" for pictures; may be empty
};

/// Length of one repeat of the runs.
[[nodiscard]] units::Length repeat_of(const std::vector<ColourRun>& runs);

}  // namespace skeinfall::project
