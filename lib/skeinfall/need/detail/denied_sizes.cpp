#include "skeinfall/need/detail/denied_sizes.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "skeinfall/need/check.hpp"
#include "skeinfall/project/shapes.hpp"

namespace skeinfall::need {
namespace {

using units::Length;
using units::Ratio;

bool rows_and_length(const project::Piece& piece) {
    return piece.length.stated() && (piece.rows.stated() || piece.pattern.stated());
}

/// The stitches that a shape begins with deny no width: rows are counted from it, or lead up to it.
bool stitches_and_width(const project::Piece& piece) {
    if (!piece.width.stated()) return false;
    const project::Shape* const shape = piece.pattern.stated() ? nullptr : piece.shape;
    if (shape != nullptr && shape->from_few()) return false;
    if (shape != nullptr && shape->from_centre) return piece.rows.stated() || piece.length.stated();
    return piece.stitches.stated() || piece.pattern.stated();
}

void look_at(const project::Project& project, std::size_t at, std::size_t size,
             std::vector<DeniedSize>& out) {
    const project::Piece& piece = project.pieces[at];
    if (!rows_and_length(piece) && !stitches_and_width(piece)) return;
    const project::Gauge& gauge = gauge_of(project, piece);
    const auto rows = static_cast<double>(project::counts(project, piece, size).rows);
    if (rows <= 0.0) return;
    const auto add = [&](bool length, double counted, Length by_counts, Length stated) {
        DeniedSize found{length, at, counted, by_counts, stated};
        if (found.apart().value() > 1.0 + worth_a_look.value()) out.push_back(found);
    };
    if (rows_and_length(piece))
        add(true, rows, rows * units::row / gauge.rows, piece.length.at(size));
    if (!stitches_and_width(piece)) return;
    project::Piece counted = piece;
    counted.width = {};
    const Length width = project::finished_size(project, counted, size).width;
    add(false, std::round(width * gauge.stitches / units::stitch), width, piece.width.at(size));
}

}  // namespace

Ratio DeniedSize::apart() const {
    return Ratio(std::exp(std::abs(std::log(by_counts / stated))));
}

project::Project as_written(const project::Project& project) {
    project::Project out = project;
    if (!project.pattern_gauge) return out;
    out.gauge = *project.pattern_gauge;
    out.pieces = project.pattern_pieces;
    return out;
}

std::vector<DeniedSize> denied_sizes(const project::Project& project, std::size_t size) {
    std::vector<DeniedSize> out;
    std::optional<project::Project> written;
    if (project.pattern_gauge) written = as_written(project);
    const project::Project& own = written ? *written : project;
    for (std::size_t at = 0; at < own.pieces.size(); ++at) look_at(own, at, size, out);
    return out;
}

std::vector<WorseSize> worse_sizes(const project::Project& project, std::size_t size) {
    std::vector<WorseSize> out(project.pieces.size());
    for (const DeniedSize& one : denied_sizes(project, size)) {
        if (one.piece >= out.size()) continue;
        WorseSize& worse = out[one.piece];
        (one.length ? worse.rows : worse.across) =
            std::max<double>(1.0, one.stated / one.by_counts);
    }
    return out;
}

}  // namespace skeinfall::need
