#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/fit/detail/fitting.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::fit {
namespace {

using project::Blocks;
using project::Piece;
using project::Project;

Blocks blocks_in(const Project& project, const Piece& piece, std::size_t size) {
    return project::blocks_of(piece, project::counts(project, piece, size), size);
}

/// As many blocks as come nearest to a side.
std::int64_t blocks_for(const Fitted& out, units::Length wished, bool across, Take take) {
    const Piece& piece = out.project.pieces[out.piece];
    const units::Length block = project::block_side(project::gauge_of(out.project, piece));
    const units::Ratio exact(wished / block);
    if (exact.value() > static_cast<double>(most_count))
        refuse_wish(across, "this makes too many blocks",
                    fmt::format("at most {} blocks", most_count), "Check the figure and its unit.");
    Along along;
    choose(along, exact, take);
    if (!along.below || along.taken < 1)
        refuse_wish(across,
                    fmt::format("this is less than one block of {}", base::quoted(piece.name)),
                    fmt::format("1 block ({}) or more", units::inches_and_centimetres(block)), "");
    return along.taken;
}

/// Every size's blocks, one of them other ones.
void state_blocks(Fitted& out, const Blocks& blocks) {
    Piece& piece = out.project.pieces[out.piece];
    for (std::size_t size = 0; size < out.project.size_count(); ++size) {
        const Blocks was = blocks_in(out.project, piece, size);
        out.change.blocks_wide.values.push_back(was.wide);
        out.change.blocks_high.values.push_back(was.high);
    }
    out.change.blocks_wide.values.at(out.size) = blocks.wide;
    out.change.blocks_high.values.at(out.size) = blocks.high;
    piece.stitches = out.change.blocks_wide;
    piece.blocks_high = out.change.blocks_high;
    piece.rows = {};
    piece.length = {};
}

}  // namespace

void fit_blocks(Fitted& out, const Wish& wish, Take take) {
    const Piece& piece = out.project.pieces[out.piece];
    const Blocks was = blocks_in(out.project, piece, out.size);
    if (wish.stitches || wish.repeats)
        refuse_piece(
            out.project, out.piece, "shape",
            fmt::format("{} is worked from corner to corner, in blocks", base::quoted(piece.name)),
            "a width and a length", "Both are found in whole blocks.");
    Blocks now = was;
    if (wish.rows) {
        // So many rows to the far corner of a square, which has one row fewer than both its sides.
        const std::int64_t side = (*wish.rows + 1) / 2;
        if (was.wide != was.high || *wish.rows % 2 == 0 || wish.width || side < 1)
            refuse_piece(
                out.project, out.piece, "shape",
                fmt::format("the rows of {} follow from its blocks", base::quoted(piece.name)),
                was.wide == was.high
                    ? fmt::format("{} or {} rows, which make a square", 2 * side - 1, 2 * side + 1)
                    : "a width and a length",
                "Both are found in whole blocks.");
        now = {side, side};
    }
    if (wish.width) now.wide = blocks_for(out, *wish.width, true, take);
    if (wish.length) now.high = blocks_for(out, *wish.length, false, take);
    if (now.wide == was.wide && now.high == was.high) return;
    state_blocks(out, now);
    out.rows.taken = project::counts(out.project, out.project.pieces[out.piece], out.size).rows;
}

}  // namespace skeinfall::fit
