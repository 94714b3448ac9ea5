#pragma once
/// \file
/// What the rows of a piece come to, stitch kind by stitch kind. Repeated rows are kept once.

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/project/finding.hpp"
#include "skeinfall/project/stitches.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::project {

/// Stitches in a row that lie side by side in one yarn.
struct ColourBlock {
    std::int64_t first = 0;  ///< stitches of the row before them, as it is worked
    std::int64_t count = 0;

    bool operator==(const ColourBlock&) const = default;
};

/// A row of more blocks than this does not say where they lie.
inline constexpr std::size_t most_colour_blocks = 1000;

/// What one yarn works of a row that several yarns work together.
struct ColourWork {
    std::string role;                 ///< empty: the row's own yarn
    std::vector<KindCount> kinds;     ///< its part of RowWork::kinds
    units::StitchCount stitches{};    ///< of it, those that the next row finds
    units::StitchCount carried{};     ///< stitches of other yarns it passes behind or within
    std::int64_t begun = 0;           ///< times it is begun anew here, where it is not carried
    std::vector<ColourBlock> blocks;  ///< where they lie; empty where they are too many

    bool operator==(const ColourWork&) const = default;
};

/// One row or round worked out.
struct RowWork {
    /// All that yarn goes into, by kind (US abbreviations, in the order of the stitch table):
    /// stitches, chains of spaces and turning chains ("ch"), joinings ("sl st").
    std::vector<KindCount> kinds;
    units::StitchCount made{};      ///< stitches the next row finds, without chain spaces
    units::StitchCount across{};    ///< the same with the chains of its spaces: the row's width
    units::StitchCount consumed{};  ///< stitches of the row below used up, without its spaces
    std::int64_t chain_spaces = 0;
    std::int64_t turning_chain = 0;  ///< chains; 0: none
    bool turning_chain_counts = false;
    /// Each yarn's part where several work the row, the row's own or first named one first.
    std::vector<ColourWork> colours;

    bool operator==(const RowWork&) const = default;
};

/// Rows of one yarn, worked in turn and repeated over the piece.
struct Stripe {
    std::string role;
    std::int64_t rows = 0;

    bool operator==(const Stripe&) const = default;
};

/// The rows of one piece in working order.
struct WorkedRows {
    RowWork foundation;  ///< the chain or cast-on, as far as it is written
    std::vector<RowWork> distinct;
    std::vector<std::uint32_t> order;    ///< of each row, its index in `distinct`
    std::string foundation_text;         ///< as written
    std::vector<std::string> texts;      ///< instructions as written, without their row numbers
    std::vector<std::uint32_t> text_of;  ///< of each row, its index in `texts`
    std::vector<Stripe> stripes;         ///< of all rows; empty where no row names a yarn
    Findings findings;                   ///< sorted by place

    [[nodiscard]] bool stated() const { return !order.empty(); }
    [[nodiscard]] std::int64_t rows() const { return static_cast<std::int64_t>(order.size()); }
    /// `number` from 1.
    [[nodiscard]] const RowWork& row(std::int64_t number) const {
        return distinct[order[static_cast<std::size_t>(number - 1)]];
    }
    /// What is written for a row (`number` from 1); empty where only counts are.
    [[nodiscard]] std::string_view text(std::int64_t number) const;
    /// Takes a last row out that binds everything off: it is no row of the piece's length, and what
    /// it takes is the bind-off's. True where there was one.
    bool take_bind_off_out();
    /// Stitches of each kind in all rows, without the foundation.
    [[nodiscard]] std::vector<KindCount> totals() const;
};

}  // namespace skeinfall::project
