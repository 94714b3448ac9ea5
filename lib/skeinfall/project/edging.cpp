#include "skeinfall/project/edging.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <vector>

namespace skeinfall::project {
namespace {

using units::Length;

bool made_once(const Piece& piece, std::size_t size) {
    return !piece.count.stated() || piece.count.at(size) == 1;
}

bool shaped(const Piece& piece, bool Shape::*what) {
    return piece.shape != nullptr && piece.shape->*what;
}

Length hypotenuse(Length a, Length b) {
    return std::hypot(a / units::metre, b / units::metre) * units::metre;
}

Length round_triangle(const FinishedSize& whole) {
    return whole.width + 2.0 * hypotenuse(0.5 * whole.width, whole.length);
}

/// Along its first and its last row and both slopes.
Length along_rows(const Project& project, const Piece& piece, std::size_t size) {
    const std::vector<std::int64_t> rows = row_widths(project, piece, size);
    if (rows.empty()) return {};
    const Gauge& gauge = gauge_of(project, piece);
    const Length stitch = 1.0 * units::stitch / gauge.stitches;
    const Length high = 1.0 * units::row / gauge.rows;
    Length out = static_cast<double>(rows.front() + rows.back()) * stitch;
    // Of stretches that grow the same way, so that a step every few rows is a slope and no stair.
    for (std::size_t from = 0; from < rows.size();) {
        std::size_t to = from + 1;
        const auto turns = [&](std::size_t at) {
            return (rows[at] - rows[from]) * (rows[at] - rows[at - 1]) < 0;
        };
        while (to < rows.size() && !turns(to)) ++to;
        const double more = std::abs(static_cast<double>(rows[to - 1] - rows[from]));
        out += 2.0 * hypotenuse(static_cast<double>(to - from) * high, 0.5 * more * stitch);
        from = to;
    }
    return out;
}

}  // namespace

bool has_right_angles(const Project& project, const Piece& piece, std::size_t size) {
    if (piece.shape != nullptr && piece.shape->law == RowLaw::diagonal) return true;
    const std::vector<std::int64_t> rows = row_widths(project, piece, size);
    return !rows.empty() && std::all_of(rows.begin(), rows.end(), [&](std::int64_t stitches) {
        return stitches == rows.front();
    });
}

Length way_round(const Project& project, const Piece& piece, std::size_t size) {
    const FinishedSize whole = finished_size(project, piece, size);
    if (lies_flat(project, piece, size)) return std::numbers::pi * whole.width;
    if (piece.worked == Worked::round) return whole.width;
    if (shaped(piece, &Shape::wings)) return round_triangle(whole);
    if (has_right_angles(project, piece, size)) return 2.0 * (whole.width + whole.length);
    return along_rows(project, piece, size);
}

bool goes_round(const Project& project, const FinishPart& part, std::size_t piece,
                std::size_t size) {
    return part.kind == PartKind::border && part.first_round.stated() &&
           project.pieces.size() == 1 && piece == 0 && made_once(project.pieces[0], size);
}

std::optional<std::size_t> joining_of(const Project& project, const Piece& piece) {
    for (std::size_t at = 0; at < project.finish.size(); ++at)
        if (project.finish[at].kind == PartKind::joining && project.finish[at].of == piece.name)
            return at;
    return std::nullopt;
}

std::optional<units::Length> way_of_edging(const Project& project, const FinishPart& part,
                                           std::size_t piece, std::size_t size) {
    if (goes_round(project, part, piece, size))
        return way_round(project, project.pieces[piece], size);
    if (part.kind != PartKind::border || !part.first_round.stated() || project.pieces.size() != 1)
        return std::nullopt;
    const Piece& one = project.pieces[0];
    // As many borders as pieces: each has its own.
    if (part.copies.stated() && one.count.stated() && part.copies.at(size) == one.count.at(size))
        return way_round(project, one, size);
    const auto joining = joining_of(project, one);
    if (!joining) return std::nullopt;
    return laid_motifs(project, project.finish[*joining], size).way_round;
}

std::optional<units::Ratio> way_over_first_round(const Project& project, const FinishPart& part,
                                                 std::size_t size) {
    const auto way = way_of_edging(project, part, 0, size);
    if (!way || !(project.gauge.stitches.value() > 0.0)) return std::nullopt;
    return units::Ratio(*way * project.gauge.stitches / units::stitch /
                        static_cast<double>(part.first_round.at(size)));
}

namespace {

/// Of each size over the smallest.
std::vector<double> growth_of(const Project& project, const FinishPart& part) {
    std::vector<double> out(project.size_count(), 1.0);
    const auto look = [&](const auto& extent) {
        std::vector<Length> each;
        for (std::size_t size = 0; size < out.size(); ++size) {
            const std::optional<Length> one = extent(size);
            if (!one || !(*one > Length{})) return;
            each.push_back(*one);
        }
        const Length least = *std::min_element(each.begin(), each.end());
        for (std::size_t size = 0; size < out.size(); ++size)
            out[size] = std::max<double>(out[size], each[size] / least);
    };
    if (project.pieces.size() == 1 && joining_of(project, project.pieces[0])) {
        look([&](std::size_t size) { return way_of_edging(project, part, 0, size); });
        return out;
    }
    for (const Piece& piece : project.pieces)
        look([&](std::size_t size) -> std::optional<Length> {
            return part.kind == PartKind::fringe ? finished_size(project, piece, size).width
                                                 : way_round(project, piece, size);
        });
    return out;
}

bool grows(PartKind kind) {
    return kind == PartKind::border || kind == PartKind::neckband || kind == PartKind::seam ||
           kind == PartKind::fringe;
}

}  // namespace

std::optional<Length> width_of_fringe(const Project& project, const FinishPart& part,
                                      std::size_t size) {
    if (part.kind != PartKind::fringe || project.pieces.size() != 1) return std::nullopt;
    const Piece& one = project.pieces[0];
    if (one.worked == Worked::round) return std::nullopt;
    if (const auto laid = laid_size(project, 0, size)) return laid->width;
    if (!made_once(one, size)) return std::nullopt;
    return finished_size(project, one, size).width;
}

void lengthen_fringe(FinishPart& part, std::size_t size, std::size_t sizes, units::Ratio wished) {
    double by = wished.value();
    const auto in_all_sizes = [&](auto& values) {
        if (values.values.size() == 1) values.values.assign(sizes, values.values.front());
    };
    if (part.strands.stated()) {
        constexpr double noise = 1e-6;
        const std::int64_t was = part.strands.at(size);
        const std::int64_t now = std::max<std::int64_t>(
            1, std::llround(std::ceil(static_cast<double>(was) * by - noise)));
        in_all_sizes(part.strands);
        part.strands.values.at(size) = now;
        by = was > 0 ? static_cast<double>(now) / static_cast<double>(was) : by;
    }
    for (PerSize<Length>* one : {&part.yarn, &part.length}) {
        if (!one->stated()) continue;
        in_all_sizes(*one);
        one->values.at(size) *= by;
    }
}

void grow_with_sizes(Project& project) {
    for (FinishPart& part : project.finish) {
        const bool once = part.first_round.values.size() == 1 || part.length.values.size() == 1 ||
                          part.yarn.values.size() == 1;
        if (project.size_count() < 2 || !grows(part.kind) || !once) continue;
        const std::vector<double> by = growth_of(project, part);
        constexpr double noticed = 1.001;
        if (*std::max_element(by.begin(), by.end()) < noticed) continue;
        part.grown = true;
        if (part.kind == PartKind::fringe && part.strands.values.size() == 1 &&
            part.yarn.values.size() == 1) {
            for (std::size_t size = 0; size < by.size(); ++size)
                lengthen_fringe(part, size, by.size(), units::Ratio(by[size]));
            continue;
        }
        const auto lengthen = [&](PerSize<Length>& all) {
            if (all.values.size() != 1) return;
            const Length one = all.values.front();
            all.values.clear();
            for (const double times : by) all.values.push_back(times * one);
        };
        lengthen(part.length);
        lengthen(part.yarn);
        if (part.first_round.values.size() != 1) continue;
        const auto first = static_cast<double>(part.first_round.values.front());
        part.first_round.values.clear();
        constexpr double noise = 1e-6;
        for (const double times : by)
            part.first_round.values.push_back(std::llround(std::ceil(times * first - noise)));
    }
}

bool is_border_of(const Project& project, const FinishPart& part, std::size_t piece,
                  std::size_t size) {
    const Piece& one = project.pieces.at(piece);
    // As many borders as pieces that nothing joins: each has its own.
    const bool each = part.kind == PartKind::border && part.first_round.stated() &&
                      project.pieces.size() == 1 && part.copies.stated() && one.count.stated() &&
                      part.copies.at(size) == one.count.at(size) && !joining_of(project, one);
    return each || goes_round(project, part, piece, size) ||
           (part.kind == PartKind::border && part.of == one.name && made_once(one, size));
}

bool is_of_each_copy(const Project& project, const FinishPart& part, std::size_t piece,
                     std::size_t size) {
    const PerSize<std::int64_t>& count = project.pieces.at(piece).count;
    const std::int64_t planned = count.stated() ? count.at(size) : 1;
    return planned > 1 && part.copies.stated() && part.copies.at(size) == planned;
}

void make_so_many(Project& project, std::size_t piece, std::size_t size, std::int64_t copies) {
    Piece& one = project.pieces.at(piece);
    const std::int64_t planned = one.count.stated() ? one.count.at(size) : 1;
    for (FinishPart& part : project.finish)
        if (copies > planned && is_of_each_copy(project, part, piece, size))
            part.copies = PerSize<std::int64_t>(copies);
    one.count = PerSize<std::int64_t>(copies);
}

std::optional<FinishedSize> with_borders(const Project& project, std::size_t piece,
                                         std::size_t size) {
    const Piece& one = project.pieces.at(piece);
    std::int64_t rounds = 0;
    for (const FinishPart& part : project.finish)
        if (is_border_of(project, part, piece, size)) rounds += part.rounds.at(size);
    if (rounds == 0) return std::nullopt;
    const Length high = static_cast<double>(rounds) * units::row / project.gauge.rows;
    const FinishedSize whole = finished_size(project, one, size);
    const bool centre = lies_flat(project, one, size);
    if (shaped(one, &Shape::wings)) {
        // Every side moves out by as much: the triangle about a larger circle.
        const Length inside = whole.width * whole.length / round_triangle(whole);
        const double by = 1.0 + units::Ratio(high / inside).value();
        return FinishedSize{by * whole.width, by * whole.length};
    }
    if (!centre && (one.worked == Worked::round || !has_right_angles(project, one, size)))
        return std::nullopt;
    return FinishedSize{whole.width + 2.0 * high, whole.length + 2.0 * high};
}

std::optional<FinishedSize> laid_together(const Piece& piece, const FinishedSize& motif,
                                          std::int64_t columns, std::int64_t rows) {
    constexpr std::int64_t square = 4;
    constexpr std::int64_t hexagon = 6;
    const bool centre = piece.shape != nullptr && piece.shape->from_centre;
    const std::int64_t corners = piece.corners > 0 ? piece.corners
                                 : centre          ? piece.shape->corners
                                                   : square;
    const auto across = static_cast<double>(columns);
    const auto along = static_cast<double>(rows);
    if (corners == hexagon) {
        const double half_over = rows > 1 ? 0.5 : 0.0;
        const double of_row = std::sqrt(3.0) / 2.0;
        return FinishedSize{(across + half_over) * motif.width,
                            ((along - 1.0) * of_row + 1.0 / of_row) * motif.width};
    }
    if (corners != square && corners != 0) return std::nullopt;
    const bool round = centre || piece.worked == Worked::round;
    return FinishedSize{across * motif.width, along * (round ? motif.width : motif.length)};
}

std::optional<FinishedSize> laid_size(const Project& project, std::size_t piece, std::size_t size) {
    const Piece& one = project.pieces.at(piece);
    const auto joining = joining_of(project, one);
    if (!joining) return std::nullopt;
    const LaidMotifs laid = laid_motifs(project, project.finish[*joining], size);
    if (laid.count < 2 || laid.columns < 1) return std::nullopt;
    return laid_together(one, finished_size(project, one, size), laid.columns,
                         (laid.count + laid.columns - 1) / laid.columns);
}

std::optional<FinishedSize> laid_with_borders(const Project& project, std::size_t piece,
                                              std::size_t size) {
    const auto laid = laid_size(project, piece, size);
    if (!laid || project.pieces.size() != 1) return std::nullopt;
    const Piece& one = project.pieces.at(piece);
    std::int64_t rounds = 0;
    for (const FinishPart& part : project.finish) {
        const bool each = part.copies.stated() && one.count.stated() &&
                          part.copies.at(size) == one.count.at(size);
        // Round all of them: so many stitches, or as many as their way round has.
        const bool round_all = part.first_round.stated() ? !each : part.of == one.name;
        if (part.kind == PartKind::border && round_all) rounds += part.rounds.at(size);
    }
    if (rounds == 0) return std::nullopt;
    const Length more = 2.0 * static_cast<double>(rounds) * units::row / project.gauge.rows;
    return FinishedSize{laid->width + more, laid->length + more};
}

FinishedSize finished_whole(const Project& project, std::size_t piece, std::size_t size) {
    if (const auto laid = laid_size(project, piece, size))
        return laid_with_borders(project, piece, size).value_or(*laid);
    return with_borders(project, piece, size)
        .value_or(finished_size(project, project.pieces.at(piece), size));
}

}  // namespace skeinfall::project
