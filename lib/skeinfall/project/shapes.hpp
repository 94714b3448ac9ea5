#pragma once
/// \file
/// Shapes by their trade names: how many stitches each row or round has. A shape is nothing but
/// the law of a piece's rows, so that need, cover, joins, largest and the pictures see rows and
/// no shape. Names and usual figures stand in lib/data/shapes.csv.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "skeinfall/project/stitches.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::project {

struct Gauge;
struct Piece;
struct PieceCounts;
struct Project;

/// How the stitches (or groups of stitches) of row r follow from those of row 1, s, of R rows.
enum class RowLaw {
    growing,         ///< s + increase * floor((r - 1) / every)
    even,            ///< from s to the last row's, the shaping rows spread evenly
    there_and_back,  ///< growing to the middle row, then the same rows the other way round
    doubling,  ///< one round of s, then 2 s for 1 + 3 rounds, 4 s for 1 + 6, 8 s for 1 + 12 ...
    diagonal   ///< 1, 2, 3 ... up to s, as many as there are in between, then 3, 2, 1
};

struct Shape {
    std::string_view name;
    RowLaw law = RowLaw::growing;
    std::optional<std::int64_t> first;     ///< usual stitches or groups of row 1
    std::optional<std::int64_t> increase;  ///< usual; nothing where `flat`
    std::int64_t every = 1;
    bool flat = false;         ///< first and increase are what lies flat at the gauge
    bool from_centre = false;  ///< rounds about a centre: rows are a radius
    bool rounds = false;       ///< worked in the round
    std::int64_t corners = 0;  ///< of a figure from the centre; 0 for a circle
    /// Two of them side by side, each growing from the nape: the rows lie along the lower edges, so
    /// that neither width nor length is that of a row.
    bool wings = false;
    /// What the law counts, if not stitches: one cluster of a granny square, one block of corner to
    /// corner; and what each round has beside them.
    std::vector<KindCount> group;
    std::vector<KindCount> extra;
    std::string_view note;

    /// Begun with a few stitches, flat and in rows: its width is that of the finished shape.
    [[nodiscard]] bool from_few() const {
        return !from_centre && group.empty() && first && increase.value_or(0) > 0;
    }
};

/// A triangle of two wings by its width along the upper edge and its length down the middle: the
/// height of a wing over its rows, and both lower edges, along which its last row lies.
struct Wings {
    units::Length high{};
    units::Length along{};
};
[[nodiscard]] Wings wings_of(units::Length width, units::Length length);

/// Rounds about a centre that lie flat: by its shape, or written or growing rounds the last of which
/// is the longest and about as long as such a figure's edge. Its rounds are a radius.
[[nodiscard]] bool lies_flat(const Project& project, const Piece& piece, std::size_t size);

/// The same of a piece that is told by its counts: more rounds make it wider, and it begins without
/// a foundation.
[[nodiscard]] bool grows_from_centre(const Project& project, const Piece& piece, std::size_t size);

/// Blocks across and up of RowLaw::diagonal.
struct Blocks {
    std::int64_t wide = 0;
    std::int64_t high = 0;
};
[[nodiscard]] Blocks blocks_of(const Piece& piece, const PieceCounts& counts, std::size_t size);

/// The side of such a block: it lies across and upright by turns, so that a side is half its three
/// stitches and the chains beside them, half the height of a row. Own geometry, no source.
[[nodiscard]] units::Length block_side(const Gauge& gauge);

/// Every shape, in the table's order.
[[nodiscard]] const std::vector<Shape>& shapes();

/// The shape of that name or of one of its other names, without regard to case; nullptr if none.
[[nodiscard]] const Shape* find_shape(std::string_view name);

/// Stitches to be added each round so that a figure of rounds lies flat: 2 pi h/w for a circle (no
/// corners), 2 n tan(pi/n) h/w for n corners, h being the height and w the width of a stitch. Own
/// geometry: the rounds' circumferences.
[[nodiscard]] units::Ratio flat_increase(std::int64_t corners, const Gauge& gauge);

/// The same in whole stitches: rounded up for a circle (one too few cups), to the nearest multiple
/// of the corners for a figure that has them.
[[nodiscard]] std::int64_t whole_flat_increase(std::int64_t corners, const Gauge& gauge);

/// Makes a piece of that shape. What the piece states already (stitches, increase) stays; the
/// shape's usual figures fill in the rest, and `every` is set to the shape's.
void give_shape(Piece& piece, const Shape& shape);

/// Puts into the counts of a piece with a shape what follows from the shape: stitches that lie
/// flat, rows from the width of a round figure, rows down to a tip, diagonal rows from blocks.
void count_by_shape(const Project& project, const Piece& piece, std::size_t size,
                    PieceCounts& counts);

}  // namespace skeinfall::project
