#include "skeinfall/project/maker_gauge.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace skeinfall::project {
namespace {

PerSize<long> times(const PerSize<long>& counts, double by) {
    PerSize<long> out;
    for (const long count : counts.values)
        out.values.push_back(std::max(1L, std::lround(static_cast<double>(count) * by)));
    return out;
}

/// Counts instead of the measurements that they came from.
void count_out(const Project& project, Piece& piece) {
    if (piece.pattern.stated()) return;
    PerSize<long> rows;
    PerSize<long> stitches;
    for (std::size_t size = 0; size < project.size_count(); ++size) {
        const PieceCounts total = counts(project, piece, size);
        rows.values.push_back(total.rows);
        stitches.values.push_back(total.stitches);
    }
    if (!piece.rows.stated()) piece.rows = std::move(rows);
    if (!piece.stitches.stated()) piece.stitches = std::move(stitches);
}

}  // namespace

void work_at(Project& project, const Gauge& maker, Keeping keeping) {
    project.pattern_pieces = project.pieces;
    const double closer = maker.stitches / project.gauge.stitches;
    const double lower = maker.rows / project.gauge.rows;
    for (Piece& piece : project.pieces) {
        if (keeping == Keeping::stitch_counts) {
            count_out(project, piece);
            piece.width = {};
            piece.length = {};
        } else if (!piece.pattern.stated()) {
            if (!piece.width.stated()) piece.stitches = times(piece.stitches, closer);
            if (!piece.length.stated()) piece.rows = times(piece.rows, lower);
            // Both were given: the measurement is what is kept.
            if (piece.width.stated()) piece.stitches = {};
            if (piece.length.stated()) piece.rows = {};
        }
        if (piece.gauge) {
            piece.gauge->stitches = piece.gauge->stitches * closer;
            piece.gauge->rows = piece.gauge->rows * lower;
        }
    }
    project.pattern_gauge = std::exchange(project.gauge, maker);
    if (project.gauge.stitch.empty()) project.gauge.stitch = project.pattern_gauge->stitch;
    project.keeping = keeping;
}

}  // namespace skeinfall::project
