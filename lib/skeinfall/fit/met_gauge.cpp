#include "skeinfall/fit/met_gauge.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/fit/detail/law.hpp"
#include "skeinfall/project/edging.hpp"
#include "skeinfall/project/maker_gauge.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/tools.hpp"

namespace skeinfall::fit {
namespace {

using project::FinishedSize;
using project::Gauge;
using project::Project;

/// Half a stitch to 4 in is what a count of a swatch can tell.
const units::StitchGauge told_apart = 0.5 * units::shown::per_4in.one;
const units::RowGauge rows_told_apart = 0.5 * units::shown::rows_per_4in.one;

/// The labelled size that would give the wanted gauge if stitches went with the tool, at least one
/// size away (common practice, no source: a size larger where there are too many stitches).
std::optional<units::Length> tool_to_try(const Gauge& wanted, const Gauge& met,
                                         units::Length in_use, yarn::Tool tool) {
    const bool larger = met.stitches > wanted.stitches;
    const units::Length ideal = in_use * (met.stitches / wanted.stitches);
    std::optional<units::Length> best;
    for (const yarn::ToolSize& size : yarn::sizes_of(tool)) {
        const bool on_that_side = larger ? size.diameter > in_use : size.diameter < in_use;
        const bool labelled = !size.us.empty() || !size.uk.empty();
        if (!on_that_side || !labelled || yarn::same_diameter(size.diameter, in_use)) continue;
        if (!best || std::abs((size.diameter - ideal).value()) < std::abs((*best - ideal).value()))
            best = size.diameter;
    }
    return best;
}

/// Of motifs that are joined all of them; else the piece.
FinishedSize as_laid(const Project& project, std::size_t piece, std::size_t size) {
    return project::laid_size(project, piece, size)
        .value_or(project::finished_size(project, project.pieces[piece], size));
}

/// The size of which the written counts come nearest to a width.
std::optional<std::size_t> nearest_width(const Project& project, std::size_t piece,
                                         std::size_t size, units::Length width) {
    std::size_t best = size;
    const auto gap = [&](std::size_t of) {
        return std::abs((as_laid(project, piece, of).width - width).value());
    };
    for (std::size_t of = 0; of < project.size_count(); ++of)
        if (gap(of) < gap(best)) best = of;
    return best == size ? std::nullopt : std::optional(best);
}

}  // namespace

MetGauge meet_gauge(const Project& project, std::size_t piece, std::size_t size, const Gauge& met) {
    if (project.pattern_gauge)
        throw base::InputError(base::Problem{"the project says already at which gauge you work it",
                                             project.place("maker_gauge", "stitches"),
                                             "one of the two",
                                             "Leave [maker_gauge] out to try another gauge."});
    MetGauge out;
    out.piece = piece;
    out.size = size;
    out.knit = project.craft == project::Craft::knit;
    const project::Piece& one = project.pieces.at(piece);
    out.wanted = project::gauge_of(project, one);
    out.met = out.wanted;
    out.met.stitches = met.stitches;
    out.met.rows = met.rows;
    out.planned = project::finished_size(project, one, size);
    out.is_met = std::abs((met.stitches - out.wanted.stitches).value()) < told_apart.value() &&
                 std::abs((met.rows - out.wanted.rows).value()) < rows_told_apart.value();

    // A piece with a gauge of its own tells how the whole make is worked, in proportion.
    Gauge maker = project.gauge;
    maker.stitches = project.gauge.stitches * (met.stitches / out.wanted.stitches);
    maker.rows = project.gauge.rows * (met.rows / out.wanted.rows);
    out.as_written = project;
    project::work_at(out.as_written, maker, project::Keeping::stitch_counts);
    out.comes_out = project::finished_size(out.as_written, out.as_written.pieces[piece], size);
    out.planned_all = project::laid_size(project, piece, size);
    out.comes_out_all = project::laid_size(out.as_written, piece, size);
    const FinishedSize planned = out.planned_all.value_or(out.planned);
    out.other_size = nearest_width(out.as_written, piece, size, planned.width);
    if (out.other_size)
        out.other_comes_out =
            project::finished_size(out.as_written, out.as_written.pieces[piece], *out.other_size);
    Wish wish;
    wish.width = planned.width;
    // A shape that grows by its increases is as long as they make it.
    const bool by_increases =
        from_few(one) && !one.shape->wings && project::counts(project, one, size).last == 0;
    if (out.planned_all || (!by_increases && !project::grows_from_centre(project, one, size)))
        wish.length = planned.length;
    try {
        out.instead = fit_piece(out.as_written, piece, size, wish);
    } catch (const base::InputError& error) {
        out.why_not = error.problems().front().what;
    }
    const auto in_use = out.knit ? out.wanted.needle : out.wanted.hook;
    const bool off = std::abs((met.stitches - out.wanted.stitches).value()) >= told_apart.value();
    if (in_use && off)
        out.tool = tool_to_try(out.wanted, out.met, *in_use,
                               out.knit ? yarn::Tool::needle : yarn::Tool::hook);
    return out;
}

Gauge gauge_of_rows(const Project& project, std::size_t piece, std::size_t size, std::int64_t rows,
                    const FinishedSize& measured) {
    const project::Piece& one = project.pieces.at(piece);
    const std::vector<std::int64_t> widths = project::row_widths(project, one, size);
    const auto all = static_cast<std::int64_t>(widths.size());
    if (rows > all)
        throw base::InputError(
            base::Problem{fmt::format("{} has no {} rows", base::quoted(one.name), rows),
                          project.place(fmt::format("piece.{}", piece), "rows"),
                          fmt::format("1 to {}", all), ""});
    const std::int64_t widest =
        *std::max_element(widths.begin(), widths.begin() + static_cast<std::ptrdiff_t>(rows));
    const bool centre = project::grows_from_centre(project, one, size);
    Gauge out = project::gauge_of(project, one);
    const Gauge stated = out;
    // A figure from its centre is measured across, which tells its rows.
    if (centre) {
        out.rows = 2.0 * static_cast<double>(rows) * units::row / measured.width;
        out.stitches = stated.stitches * (out.rows / stated.rows);
    } else {
        out.stitches = static_cast<double>(widest) * units::stitch / measured.width;
        out.rows = static_cast<double>(rows) * units::row / measured.length;
    }
    if (stated.unwashed_stitches) out.stitches *= stated.stitches / *stated.unwashed_stitches;
    if (stated.unwashed_rows) out.rows *= stated.rows / *stated.unwashed_rows;
    return out;
}

}  // namespace skeinfall::fit
