#pragma once
/// \file
/// The way round a piece, and edgings that go round it.

#include <cstddef>
#include <cstdint>
#include <optional>

#include "skeinfall/project/project.hpp"

namespace skeinfall::project {

/// Its sides are its width and its length: all rows alike, or corner to corner.
[[nodiscard]] bool has_right_angles(const Project& project, const Piece& piece, std::size_t size);

/// Along all edges of a flat piece as it is finished; of one worked in the round, its widest round.
[[nodiscard]] units::Length way_round(const Project& project, const Piece& piece, std::size_t size);

/// Whether a border with a stated first round goes round this piece: the only one of its project,
/// made once.
[[nodiscard]] bool goes_round(const Project& project, const FinishPart& part, std::size_t piece,
                              std::size_t size);

/// The part that joins the copies of a piece to each other; its index.
[[nodiscard]] std::optional<std::size_t> joining_of(const Project& project, const Piece& piece);

/// So many motifs to a row, as the part that joins them lays them, and along the outside of them.
struct LaidMotifs {
    std::int64_t count = 0;
    std::int64_t columns = 1;
    units::Length way_round{};
};
[[nodiscard]] LaidMotifs laid_motifs(const Project& project, const FinishPart& joining,
                                     std::size_t size);

/// The way round that a border with a stated first round goes: of its piece, see goes_round() or
/// where there are as many borders as pieces, or of all copies of the only piece where a part joins
/// them. Nothing where nobody says what it goes round.
[[nodiscard]] std::optional<units::Length> way_of_edging(const Project& project,
                                                         const FinishPart& part, std::size_t piece,
                                                         std::size_t size);

/// So many stitches go along that way at the project's gauge, over the stated first round. Nothing
/// where way_of_edging() has nothing.
[[nodiscard]] std::optional<units::Ratio> way_over_first_round(const Project& project,
                                                               const FinishPart& part,
                                                               std::size_t size);

/// The width that a fringe is knotted along: of the only piece, made once or joined. Nothing where
/// nobody says which piece has it.
[[nodiscard]] std::optional<units::Length> width_of_fringe(const Project& project,
                                                           const FinishPart& part,
                                                           std::size_t size);

/// Makes a fringe that is counted by its strands, or told by its yarn, so many times as long in one
/// of so many sizes; strands are whole, rounded up.
void lengthen_fringe(FinishPart& part, std::size_t size, std::size_t sizes, units::Ratio by);

/// An edging, a seam or a fringe whose figure is given once, in a project of several sizes: nobody
/// said which size it is for. It is taken as that of the smallest, and grows with the way round the
/// piece (a fringe with the width), so that no larger size is told too little. A list that says
/// the same for all stays as it is.
void grow_with_sizes(Project& project);

/// The same as goes_round(), or a border that names the piece, made once, as what it goes round, or
/// one that is made as often as the only piece.
[[nodiscard]] bool is_border_of(const Project& project, const FinishPart& part, std::size_t piece,
                                std::size_t size);

/// Whether a part is made as often as a piece that is made several times: each copy has one.
[[nodiscard]] bool is_of_each_copy(const Project& project, const FinishPart& part,
                                   std::size_t piece, std::size_t size);

/// The piece made so many times, and with it what every copy has; fewer copies than the project has
/// leave that as it was.
void make_so_many(Project& project, std::size_t piece, std::size_t size, std::int64_t copies);

/// The piece with the borders that go round it, their rounds as high as the project's rows. Nothing
/// without one, or where the outline is neither a rectangle, nor a nape triangle, nor from a
/// centre.
[[nodiscard]] std::optional<FinishedSize> with_borders(const Project& project, std::size_t piece,
                                                       std::size_t size);

/// Copies of a piece, so many to a row and so many rows, as they lie joined: squares and circles
/// edge to edge; hexagons on their points, every second row half a motif over. Nothing for other
/// figures: how they lie nobody said. `motif` is one of them.
[[nodiscard]] std::optional<FinishedSize> laid_together(const Piece& piece,
                                                        const FinishedSize& motif,
                                                        std::int64_t columns, std::int64_t rows);

/// All copies of a piece that a part joins, in whole rows of them. Nothing where none joins two.
[[nodiscard]] std::optional<FinishedSize> laid_size(const Project& project, std::size_t piece,
                                                    std::size_t size);

/// The same with the borders round all of them; nothing without one.
[[nodiscard]] std::optional<FinishedSize> laid_with_borders(const Project& project,
                                                            std::size_t piece, std::size_t size);

/// As it is finished: of joined copies all of them, with the borders that are known to go round.
[[nodiscard]] FinishedSize finished_whole(const Project& project, std::size_t piece,
                                          std::size_t size);

}  // namespace skeinfall::project
