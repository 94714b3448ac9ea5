#include "skeinfall/project/maker_gauge.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

namespace skeinfall::project {
namespace {

PerSize<std::int64_t> times(const PerSize<std::int64_t>& counts, double by) {
    PerSize<std::int64_t> out;
    for (const std::int64_t count : counts.values)
        out.values.push_back(
            std::max<std::int64_t>(1, std::llround(static_cast<double>(count) * by)));
    return out;
}

/// So many to every corner, and no corner lost.
PerSize<std::int64_t> times(const PerSize<std::int64_t>& counts, double by, std::int64_t corners) {
    const double each = static_cast<double>(std::max<std::int64_t>(1, corners));
    PerSize<std::int64_t> out = times(counts, by / each);
    for (std::int64_t& count : out.values) count *= std::max<std::int64_t>(1, corners);
    return out;
}

/// What a piece without a pattern comes to in every size.
struct Counted {
    PerSize<std::int64_t> rows;
    PerSize<std::int64_t> stitches;
    PerSize<std::int64_t> increase;
    PerSize<std::int64_t> last;    ///< in the last row
    PerSize<std::int64_t> middle;  ///< in the middle row
};

Counted count_out(const Project& project, const Piece& piece) {
    Counted out;
    for (std::size_t size = 0; size < project.size_count(); ++size) {
        const PieceCounts total = counts(project, piece, size);
        out.rows.values.push_back(total.rows);
        out.stitches.values.push_back(total.stitches);
        out.increase.values.push_back(total.increase);
        out.last.values.push_back(stitches_in_row(total, piece, total.rows));
        out.middle.values.push_back(stitches_in_row(total, piece, (total.rows + 1) / 2));
    }
    return out;
}

/// The counts, in whatever size they come out.
void keep_counts(Piece& piece, Counted counted) {
    const bool flat = piece.shape != nullptr && piece.shape->flat && piece.corners >= 3 &&
                      !piece.stitches.stated() && !piece.increase.stated();
    if (flat) piece.last_stitches = counted.last;
    piece.rows = std::move(counted.rows);
    piece.stitches = std::move(counted.stitches);
    if (piece.shape == nullptr || piece.shape->law == RowLaw::growing)
        piece.increase = std::move(counted.increase);
    const bool from_few = piece.shape != nullptr && piece.shape->from_few() &&
                          (piece.width.stated() || piece.length.stated());
    if (from_few && piece.shape->law == RowLaw::there_and_back)
        piece.last_stitches = std::move(counted.middle);
    else if (piece.last_width.stated() || from_few)
        piece.last_stitches = std::move(counted.last);
    piece.width = {};
    piece.length = {};
    piece.last_width = {};
}

/// The size: where it is measured the measurement, else the counts times the gauge. Increases are
/// spread anew over the rows that there are, so that the outline stays.
void keep_size(Piece& piece, const Counted& counted, double closer, double lower) {
    const RowLaw law = piece.shape == nullptr ? RowLaw::growing : piece.shape->law;
    const bool from_centre = piece.shape != nullptr && piece.shape->from_centre;
    const bool from_few = piece.shape != nullptr && piece.shape->from_few();
    if (from_few && (piece.width.stated() || (piece.shape->wings && piece.length.stated()))) {
        // The finished size is stated: the counts follow from it.
        if (piece.rows.stated()) piece.rows = times(counted.rows, lower);
        return;
    }
    if (piece.length.stated())
        piece.rows = {};
    else if (piece.rows.stated() || !from_centre)
        piece.rows = times(counted.rows, lower);
    if (from_centre) {
        // Rounds are a radius; one cluster stays one cluster.
        if (!piece.shape->group.empty()) return;
        if (piece.stitches.stated())
            piece.stitches = times(piece.stitches, closer / lower, piece.corners);
        if (piece.increase.stated())
            piece.increase = times(piece.increase, closer / lower, piece.corners);
        return;
    }
    if (piece.width.stated())
        piece.stitches = {};
    else
        piece.stitches = times(piece.stitches, closer);
    if (law == RowLaw::even && piece.last_stitches.stated())
        piece.last_stitches = times(piece.last_stitches, closer);
    if (law == RowLaw::there_and_back) piece.last_stitches = times(counted.middle, closer);
    const std::vector<std::int64_t>& increase = counted.increase.values;
    if (law != RowLaw::growing ||
        std::all_of(increase.begin(), increase.end(), [](std::int64_t more) { return more == 0; }))
        return;
    piece.last_stitches = times(counted.last, closer);
    piece.increase = {};
    if (!from_few || !piece.shape->wings) piece.shape = find_shape("trapezoid");
}

/// What goes round a piece that keeps its size has more stitches as well; its rounds are as
/// written.
void keep_way_round(FinishPart& part, double closer) {
    const auto more = [&](PerSize<std::int64_t>& counts) {
        for (std::int64_t& count : counts.values)
            count = std::llround(std::ceil(static_cast<double>(count) * closer - 1e-9));
    };
    more(part.first_round);
    more(part.stitches);
}

}  // namespace

void work_at(Project& project, const Gauge& maker, Keeping keeping) {
    project.pattern_pieces = project.pieces;
    const double closer = maker.stitches / project.gauge.stitches;
    const double lower = maker.rows / project.gauge.rows;
    for (Piece& piece : project.pieces) {
        if (keeping == Keeping::size && !piece.pattern.stated()) {
            keep_size(piece, count_out(project, piece), closer, lower);
        } else if (!piece.pattern.stated()) {
            keep_counts(piece, count_out(project, piece));
        } else {
            piece.width = {};
            piece.length = {};
        }
        if (piece.gauge) {
            piece.gauge->stitches = piece.gauge->stitches * closer;
            piece.gauge->rows = piece.gauge->rows * lower;
        }
    }
    if (keeping == Keeping::size)
        for (FinishPart& part : project.finish) keep_way_round(part, closer);
    project.pattern_gauge = std::exchange(project.gauge, maker);
    if (project.gauge.stitch.empty()) project.gauge.stitch = project.pattern_gauge->stitch;
    project.keeping = keeping;
}

}  // namespace skeinfall::project
