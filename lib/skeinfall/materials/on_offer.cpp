#include "skeinfall/materials/on_offer.hpp"

#include <algorithm>
#include <cmath>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/fit/fit.hpp"
#include "skeinfall/need/worst.hpp"
#include "skeinfall/project/edging.hpp"
#include "skeinfall/project/finishing.hpp"

namespace skeinfall::materials {
namespace {

using project::Piece;
using project::Project;

OfferedPiece offered_piece(const Project& project, std::size_t index, std::size_t size) {
    const Piece& piece = project.pieces[index];
    const project::PieceCounts counts = project::counts(project, piece, size);
    OfferedPiece out;
    out.name = piece.name;
    out.copies = piece.count.stated() ? piece.count.at(size) : 1;
    out.round = piece.worked == project::Worked::round;
    out.centre = project::lies_flat(project, piece, size);
    out.foundation = fit::begins_with(project, index, size);
    out.stitches = counts.stitches;
    // Of clusters with chains between them the stitches are what a maker counts.
    if (const auto kinds = piece.pattern.stated() ? std::vector<project::KindCount>{}
                                                  : project::kinds_in_row(counts, piece, 1);
        !kinds.empty()) {
        out.stitches = 0;
        for (const project::KindCount& kind : kinds)
            if (kind.kind != "ch" && kind.kind != "sl st")
                out.stitches += std::llround(kind.count.value());
    }
    if (piece.multiple && piece.multiple->repeat > 1 && piece.multiple->fits(counts.stitches))
        out.repeats = piece.multiple->repeats_in(counts.stitches);
    out.rows = counts.rows;
    out.measures = project::with_borders(project, index, size)
                       .value_or(project::finished_size(project, piece, size));
    return out;
}

std::vector<OfferedPiece> offered_pieces(const Project& project, std::size_t size) {
    std::vector<OfferedPiece> out;
    for (std::size_t index = 0; index < project.pieces.size(); ++index)
        out.push_back(offered_piece(project, index, size));
    return out;
}

/// As the section prints it.
OfferedSize as_printed(const Project& project, const Section& section, std::size_t size) {
    OfferedSize out;
    out.pieces = offered_pieces(project, size);
    for (const YarnLine& line : section.yarns) {
        OfferedYarn yarn;
        yarn.total = line.total.at(size);
        if (size < line.skeins.size()) yarn.skeins = line.skeins[size];
        if (size < line.skeins_hold.size()) yarn.skeins_hold = line.skeins_hold[size];
        out.yarns.push_back(yarn);
    }
    return out;
}

/// Of a project in another size: what is printed over what was worked out stays as it is.
OfferedSize in_proportion(const Project& fitted, const Section& section) {
    OfferedSize out;
    out.pieces = offered_pieces(fitted, 0);
    const need::MakeNeed make = need::need_to_plan(fitted, 0);
    for (const YarnLine& line : section.yarns) {
        OfferedYarn yarn;
        const units::Length model = line.model.front();
        for (const need::RoleNeed& need : make.roles) {
            if (need.role != line.role || model <= units::Length{}) continue;
            yarn.total = model_of(fitted, make, need) * (line.total.front() / model);
            const Rows rows{fitted, make, need};
            yarn.skeins = skeins_for(yarn.total, line.put_up, fitted.tail,
                                     line.basis == Basis::whole_skeins, &rows);
            if (yarn.skeins)
                yarn.skeins_hold = static_cast<double>(*yarn.skeins) * line.put_up.length->value;
        }
        out.yarns.push_back(yarn);
    }
    return out;
}

/// Counts about `now`, a step or several steps apart, from half of it to twice.
std::vector<std::int64_t> choices(std::int64_t now, std::int64_t step, std::int64_t least) {
    constexpr std::int64_t few = 3;
    const std::int64_t top = std::max(2 * now, now + few * step);
    const std::int64_t floor = std::min(now, std::max(least, now / 2));
    const std::int64_t room = (top - floor) / step;
    const auto most = static_cast<std::int64_t>(choices_at_most) - 1;
    const std::int64_t stride = step * std::max<std::int64_t>(1, (room + most - 1) / most);
    std::vector<std::int64_t> out;
    for (std::int64_t count = now; count >= floor && count >= 1; count -= stride)
        out.insert(out.begin(), count);
    for (std::int64_t count = now + stride; count <= top; count += stride) out.push_back(count);
    return out;
}

/// Stitches or rows that may be chosen; one alone where the piece does not stretch that way.
struct Counts {
    std::vector<std::int64_t> all;
    std::size_t written = 0;
};

bool stretches(const Project& project, std::size_t piece, const fit::Wish& wish) {
    try {
        const fit::Fitted fitted = fit::fit_piece(project, piece, 0, wish);
        return fitted.stitches.taken != fitted.stitches.now || fitted.rows.taken != fitted.rows.now;
    } catch (const base::InputError&) {
        return false;
    }
}

/// Such a piece becomes wider by more rows: from its centre, or from a narrow beginning.
bool widens_by_rows(const Project& project, const Piece& piece, const project::PieceCounts& now) {
    constexpr std::int64_t narrow = 4;
    if (project::grows_from_centre(project, piece, 0)) return true;
    if (now.increase <= 0) return false;
    const std::vector<std::int64_t> widths = project::row_widths(project, piece, 0);
    return !widths.empty() &&
           narrow * now.stitches < *std::max_element(widths.begin(), widths.end());
}

Counts counts_for(std::int64_t now, std::int64_t step, std::int64_t least, bool stretches) {
    Counts out;
    out.all = stretches ? choices(now, step, least) : std::vector{now};
    out.written =
        static_cast<std::size_t>(std::find(out.all.begin(), out.all.end(), now) - out.all.begin());
    return out;
}

/// What makes an inch or more, in whole repeats.
std::int64_t step_of(const project::Multiple& multiple, double an_inch) {
    const auto count = std::max<std::int64_t>(1, std::llround(std::ceil(an_inch - 1e-9)));
    return multiple.repeat *
           std::max<std::int64_t>(1, (count + multiple.repeat - 1) / multiple.repeat);
}

void offer_fitted(Offer& out, Project project, const Section& section, std::size_t index) {
    Piece& piece = project.pieces[index];
    const fit::Found stitches = fit::stitch_multiple(project, piece, 0);
    const fit::Found rows = fit::row_multiple(project, piece, 0);
    // What was found in written rows need not be found again.
    if (stitches.from != fit::MultipleFrom::nobody) piece.multiple = stitches.multiple;
    if (rows.from != fit::MultipleFrom::nobody) piece.row_multiple = rows.multiple;
    const project::PieceCounts now = project::counts(project, piece, 0);
    const project::Gauge& gauge = project::gauge_of(project, piece);
    std::int64_t striped = 0;
    for (const project::Stripe& stripe : piece.stripes) striped += stripe.rows;
    project::Multiple of_rows = rows.multiple;
    // Stripes come in whole repeats, so that every yarn has its share.
    if (rows.from == fit::MultipleFrom::nobody) of_rows.repeat = std::max(of_rows.repeat, striped);
    const std::int64_t wider =
        stitches.from != fit::MultipleFrom::nobody && stitches.multiple.repeat > 1
            ? stitches.multiple.repeat
            : step_of(stitches.multiple,
                      units::Ratio(1.0 * units::inch * gauge.stitches / units::stitch).value());
    const std::int64_t longer =
        step_of(of_rows, units::Ratio(1.0 * units::inch * gauge.rows / units::row).value());
    fit::Wish one_wider;
    one_wider.stitches = now.stitches + wider;
    fit::Wish one_longer;
    one_longer.rows = now.rows + longer;
    const Counts across =
        counts_for(now.stitches, wider, stitches.multiple.least(),
                   !widens_by_rows(project, piece, now) && stretches(project, index, one_wider));
    const Counts along =
        counts_for(now.rows, longer, rows.multiple.least(), stretches(project, index, one_longer));
    if (across.all.size() < 2 && along.all.size() < 2) {
        out.why = OneSize::shape;
        return;
    }
    out.piece = index;
    out.sizes.clear();
    const OfferedSize written = as_printed(project, section, 0);
    for (std::size_t i = 0; i < across.all.size(); ++i)
        for (std::size_t j = 0; j < along.all.size(); ++j) {
            fit::Wish wish;
            if (i != across.written) wish.stitches = across.all[i];
            if (j != along.written) wish.rows = along.all[j];
            if (!wish.stitches && !wish.rows) {
                out.sizes.emplace_back(written);
                continue;
            }
            try {
                const fit::Fitted fitted = fit::fit_piece(project, index, 0, wish);
                out.unchanged = fitted.unchanged;
                out.sizes.emplace_back(in_proportion(fitted.project, section));
            } catch (const base::InputError&) {
                out.sizes.emplace_back(std::nullopt);  // the rows do not come out
            }
        }
    out.across = {{}, std::vector<units::Length>(across.all.size()), {}, across.written};
    out.along = {{}, std::vector<units::Length>(along.all.size()), {}, along.written};
}

/// What each choice measures: with the other one as written, else with the first that comes out.
/// Choices that never come out are left out.
void measure(Offer& out) {
    const std::size_t lengths = out.along.size();
    const auto cell = [&](std::size_t i, std::size_t j) -> const std::optional<OfferedSize>& {
        return out.sizes[i * lengths + j];
    };
    std::vector<std::size_t> widths_kept;
    std::vector<std::size_t> lengths_kept;
    std::vector<units::Length> widths;
    std::vector<units::Length> long_ones;
    for (std::size_t i = 0; i < out.across.size(); ++i)
        if (const auto& found = cell(i, out.along.written)) {
            widths_kept.push_back(i);
            widths.push_back(found->pieces[*out.piece].measures.width);
        }
    for (std::size_t j = 0; j < lengths; ++j)
        if (const auto& found = cell(out.across.written, j)) {
            const OfferedPiece& piece = found->pieces[*out.piece];
            lengths_kept.push_back(j);
            long_ones.push_back(piece.centre ? piece.measures.width : piece.measures.length);
        }
    std::vector<std::optional<OfferedSize>> sizes;
    for (const std::size_t i : widths_kept)
        for (const std::size_t j : lengths_kept) sizes.push_back(cell(i, j));
    const auto place = [](const std::vector<std::size_t>& kept, std::size_t written) {
        return static_cast<std::size_t>(std::find(kept.begin(), kept.end(), written) -
                                        kept.begin());
    };
    std::vector<units::Length> beside;
    const bool centre = cell(out.across.written, out.along.written)->pieces[*out.piece].centre;
    for (const std::size_t j : lengths_kept)
        beside.push_back(cell(out.across.written, j)->pieces[*out.piece].measures.width);
    const bool one_width = std::all_of(beside.begin(), beside.end(), [&](units::Length width) {
        return std::abs((width - beside.front()).value()) < 1e-6;
    });
    if (one_width || centre || widths.size() > 1) beside.clear();
    out.across = {{}, std::move(widths), {}, place(widths_kept, out.across.written)};
    out.along = {
        {}, std::move(long_ones), {}, place(lengths_kept, out.along.written), std::move(beside)};
    if (!out.along.beside.empty()) out.across = {{"follows from the length"}, {}, {}, 0};
    out.sizes = std::move(sizes);
}

/// Pieces of which there are many, all alike: a pair of mittens is none.
bool are_motifs(const Project& project, const Piece& piece) {
    constexpr std::int64_t many = 4;
    return piece.count.stated() &&
           (piece.count.at(0) >= many ||
            (piece.count.at(0) > 1 && project::joining_of(project, piece).has_value()));
}

OfferedMotifs motifs_of(const Project& project, std::size_t index) {
    const Piece& piece = project.pieces[index];
    OfferedMotifs out;
    out.count = piece.count.at(0);
    const auto joining = project::joining_of(project, piece);
    if (!joining) return out;
    const project::FinishPart& part = project.finish[*joining];
    out.across = project::laid_motifs(project, part, 0).columns;
    if (!out.across || *out.across < 1 || out.count % *out.across != 0) return out;
    out.whole = project::laid_with_borders(project, index, 0);
    if (!out.whole) out.whole = project::laid_size(project, index, 0);
    return out;
}

/// As many motifs, laid so many side by side.
Project with_motifs(const Project& project, std::size_t index, std::int64_t columns,
                    std::int64_t rows, bool joined, std::vector<std::string>& unchanged) {
    Project out = project;
    out.pieces[index].count = project::PerSize<std::int64_t>(columns * rows);
    for (project::FinishPart& part : out.finish)
        if (joined && part.of == out.pieces[index].name)
            part.columns = project::PerSize<std::int64_t>(columns);
    unchanged = fit::follow_edgings(project, out, index, 0).unchanged;
    static_cast<void>(fit::follow_totals(project, out, 0));
    return out;
}

/// More motifs and fewer: by columns and rows of them where they fill their rows, else by number.
void offer_motifs(Offer& out, const Project& project, const Section& section, std::size_t index) {
    const OfferedMotifs written = motifs_of(project, index);
    const bool in_rows = written.across && written.count % *written.across == 0;
    const std::int64_t now = in_rows ? *written.across : written.count;
    const std::int64_t rows_now = written.count / now;
    const std::vector<std::int64_t> across = choices(now, 1, 1);
    const std::vector<std::int64_t> along =
        in_rows ? choices(rows_now, 1, 1) : std::vector<std::int64_t>{1};
    out.piece = index;
    out.motifs = true;
    out.sizes.clear();
    for (const std::int64_t columns : across)
        for (const std::int64_t rows : along) {
            const bool as_written = columns == now && rows == rows_now;
            const Project other =
                with_motifs(project, index, columns, rows, in_rows, out.unchanged);
            OfferedSize size =
                as_written ? as_printed(project, section, 0) : in_proportion(other, section);
            size.motifs = as_written ? written : motifs_of(other, index);
            out.sizes.emplace_back(std::move(size));
        }
    const auto place = [](const std::vector<std::int64_t>& counts, std::int64_t count) {
        return static_cast<std::size_t>(std::find(counts.begin(), counts.end(), count) -
                                        counts.begin());
    };
    out.across = {{}, {}, across, place(across, now)};
    out.along = {{""}, {}, {}, 0};
    if (in_rows) out.along = {{}, {}, along, place(along, rows_now)};
}

void offer_named(Offer& out, const Project& project, const Section& section) {
    for (std::size_t size = 0; size < project.size_count(); ++size)
        out.sizes.emplace_back(as_printed(project, section, size));
    out.across.names = project.sizes;
    out.along.names = {""};
    if (!project.grid) return;
    out.grid = !project.grid->widths.empty() && !project.grid->lengths.empty();
    if (!out.grid) return;
    out.across.names = project.grid->widths;
    out.along.names = project.grid->lengths;
}

}  // namespace

Offer sizes_on_offer(const Project& designers, const Section& section,
                     std::optional<std::size_t> piece) {
    // It is for other hands than the one that finished makes taught.
    Project project = designers;
    project.hand.reset();
    Offer out;
    for (const YarnLine& line : section.yarns) out.yarns.push_back(line.role);
    if (project.sizes.size() > 1) {
        offer_named(out, project, section);
        return out;
    }
    out.sizes = {as_printed(project, section, 0)};
    out.across.names = {project.sizes.empty() ? std::string() : project.sizes.front()};
    out.along.names = {""};
    if (project.pieces.empty())
        out.why = OneSize::no_pieces;
    else if (!piece && project.pieces.size() > 1)
        out.why = OneSize::several_pieces;
    else if (are_motifs(project, project.pieces[piece.value_or(0)]))
        offer_motifs(out, project, section, piece.value_or(0));
    else
        offer_fitted(out, std::move(project), section, piece.value_or(0));
    if (out.piece && !out.motifs) measure(out);
    return out;
}

}  // namespace skeinfall::materials
