#include "skeinfall/fit/fit.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <functional>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/fit/detail/fitting.hpp"
#include "skeinfall/fit/detail/law.hpp"
#include "skeinfall/fit/detail/motifs.hpp"
#include "skeinfall/fit/detail/seamless.hpp"
#include "skeinfall/fit/written.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/need/testers.hpp"
#include "skeinfall/project/edging.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::fit {
namespace {

using project::Multiple;
using project::PerSize;
using project::Piece;
using project::PieceCounts;
using project::Project;
using project::Role;
using project::RowLaw;

std::size_t sizes_of(const Project& project) {
    return project.size_count();
}

base::Place place_of(const Project& project, std::size_t piece, const char* key) {
    return project.place(fmt::format("piece.{}", piece), key);
}

}  // namespace

void refuse_piece(const Project& project, std::size_t piece, const char* key, std::string what,
                  std::string expected, std::string remedy) {
    throw base::InputError(base::Problem{std::move(what), place_of(project, piece, key),
                                         std::move(expected), std::move(remedy)});
}

void refuse_wish(bool across, std::string what, std::string expected, std::string remedy) {
    throw WishError({std::move(what), {}, std::move(expected), std::move(remedy)}, across);
}

void choose(Along& along, units::Ratio wish, Take take) {
    along.wished = true;
    const double near = std::round(wish.value());
    const bool whole = std::abs(wish.value() - near) < rounding_noise * std::max(1.0, near);
    const std::int64_t floor = std::llround(whole ? near : std::floor(wish.value()));
    const std::int64_t ceiling = whole ? floor : floor + 1;
    along.below = along.multiple.at_most(floor);
    along.above = along.multiple.at_least(ceiling);
    const auto gap = [&](std::int64_t count) {
        return std::abs(static_cast<double>(count) - wish.value());
    };
    const bool up =
        !along.below || take == Take::above ||
        (take == Take::nearest && gap(along.above) + rounding_noise < gap(*along.below));
    along.taken = up ? along.above : *along.below;
}

namespace {

std::string side(units::Length length) {
    return units::inches_and_centimetres(length);
}

/// Every size's value of a figure, to change one of them.
PerSize<std::int64_t> in_every_size(const Project& project, const Piece& piece,
                                    std::int64_t (*figure)(const PieceCounts&)) {
    PerSize<std::int64_t> out;
    for (std::size_t size = 0; size < sizes_of(project); ++size)
        out.values.push_back(figure(project::counts(project, piece, size)));
    return out;
}

std::int64_t widest(const Project& project, const Piece& piece, std::size_t size) {
    const std::vector<std::int64_t> widths = project::row_widths(project, piece, size);
    return widths.empty() ? 0 : *std::max_element(widths.begin(), widths.end());
}

bool measured_wings(const Piece& piece) {
    return piece.shape != nullptr && piece.shape->wings && !piece.last_stitches.stated() &&
           (piece.width.stated() || piece.length.stated());
}

/// From a few stitches to a width, in as many rows as its increases take.
bool own_slope(const Piece& piece) {
    return piece.shape != nullptr && piece.shape->from_few() && piece.width.stated() &&
           !piece.rows.stated() && !piece.length.stated();
}

/// The finished size of a shape from a few stitches, in the place of its rows.
void state_size(Fitted& out, const project::FinishedSize& whole) {
    Piece& piece = out.project.pieces[out.piece];
    const auto put = [&](PerSize<units::Length>& all, units::Length value,
                         units::Length project::FinishedSize::*of) {
        PerSize<units::Length> every;
        for (std::size_t size = 0; size < sizes_of(out.project); ++size)
            every.values.push_back(project::finished_size(out.project, piece, size).*of);
        every.values.at(out.size) = value;
        all = std::move(every);
    };
    put(out.change.width, whole.width, &project::FinishedSize::width);
    put(out.change.length, whole.length, &project::FinishedSize::length);
    piece.width = out.change.width;
    piece.length = out.change.length;
    piece.rows = {};
    out.change.rows = {};
}

/// A row without stitches is none.
void refuse_no_stitches(const Fitted& out, const char* key, std::string_view how,
                        const std::function<std::string(std::int64_t)>& expected) {
    const Piece& piece = out.project.pieces[out.piece];
    const std::vector<std::int64_t> widths = project::row_widths(out.project, piece, out.size);
    const auto none =
        std::find_if(widths.begin(), widths.end(), [](std::int64_t width) { return width < 1; });
    if (none == widths.end()) return;
    refuse_piece(out.project, out.piece, key,
                 fmt::format("so {}, no stitches are left in row {} of {}", how,
                             none - widths.begin() + 1, base::quoted(piece.name)),
                 expected(none - widths.begin()), "");
}

void stretch_rows(Fitted& out, std::int64_t rows) {
    Piece& piece = out.project.pieces[out.piece];
    PerSize<std::int64_t> all =
        in_every_size(out.project, piece, [](const PieceCounts& counts) { return counts.rows; });
    all.values.at(out.size) = rows;
    piece.rows = all;
    if (project::FinishedSize whole; measured_wings(piece)) {
        // The same triangle, so much larger.
        whole = project::finished_size(out.project, piece, out.size);
        return state_size(out, whole);
    }
    piece.length = {};
    if (project::grows_from_centre(out.project, piece, out.size) || own_slope(piece))
        piece.width = {};
    out.change.rows = std::move(all);
    refuse_no_stitches(out, "increase", "long",
                       [](std::int64_t most) { return fmt::format("at most {} rows", most); });
}

void stretch_stitches(Fitted& out, std::int64_t stitches) {
    Piece& piece = out.project.pieces[out.piece];
    const PieceCounts was = project::counts(out.project, piece, out.size);
    const std::int64_t more = stitches - was.stitches;
    PerSize<std::int64_t> all = in_every_size(
        out.project, piece, [](const PieceCounts& counts) { return counts.stitches; });
    // A narrower end that is told by its own measure has that measure still.
    const bool end_stays =
        piece.last_width.stated() && was.last <= was.stitches && was.last <= stitches;
    if (law_of(piece) == RowLaw::even && !end_stays) {
        // The slope stays: both ends of it move by as much.
        PerSize<std::int64_t> last = in_every_size(
            out.project, piece, [](const PieceCounts& counts) { return counts.last; });
        std::int64_t& end = last.values.at(out.size);
        end += more;
        if (end < 1)
            refuse_piece(out.project, out.piece, "last_stitches",
                         fmt::format("so narrow, no stitches are left in the last row of {}",
                                     base::quoted(piece.name)),
                         fmt::format("{} stitches or more in row 1", stitches + 1 - end), "");
        piece.last_stitches = last;
        piece.last_width = {};
        out.change.last_stitches = std::move(last);
    }
    all.values.at(out.size) = stitches;
    piece.stitches = all;
    piece.width = {};
    out.change.stitches = std::move(all);
    const std::vector<std::int64_t> widths = project::row_widths(out.project, piece, out.size);
    const std::int64_t least = widths.empty() ? 1 : *std::min_element(widths.begin(), widths.end());
    refuse_no_stitches(out, "increase", "narrow", [&](std::int64_t) {
        return fmt::format("{} stitches or more in row 1", stitches + 1 - least);
    });
}

/// The wished stitches of row 1: a width is that of the widest row.
units::Ratio wished_stitches(const Fitted& out, const Wish& wish) {
    const Piece& piece = out.project.pieces[out.piece];
    if (wish.stitches) return units::Ratio(static_cast<double>(*wish.stitches));
    if (wish.repeats)
        return units::Ratio(static_cast<double>(out.stitches.multiple.with(*wish.repeats)));
    const std::int64_t outside = widest(out.project, piece, out.size) -
                                 project::counts(out.project, piece, out.size).stitches;
    return units::Ratio(*wish.width * across(out.project, piece) / units::stitch -
                        static_cast<double>(outside));
}

/// Whether a piece grows so much from row 1 that its width is a matter of its rows.
bool widens_by_rows(const Project& project, const Piece& piece, std::size_t size) {
    if (piece.pattern.stated() || law_of(piece) != RowLaw::growing ||
        project::grows_from_centre(project, piece, size))
        return false;
    const PieceCounts counts = project::counts(project, piece, size);
    // So wide and so long: its increases are spread over the rows that there are.
    if (counts.last > 0) return false;
    return counts.increase > 0 && 4 * counts.stitches < widest(project, piece, size);
}

/// Rows after which such a piece is so wide.
units::Ratio rows_for_width(const Fitted& out, units::Length width) {
    const Piece& piece = out.project.pieces[out.piece];
    const PieceCounts counts = project::counts(out.project, piece, out.size);
    const double ways = law_of(piece) == RowLaw::there_and_back ? 2.0 : 1.0;
    const double more = units::Ratio(width * across(out.project, piece) / units::stitch).value() -
                        static_cast<double>(counts.stitches);
    return units::Ratio(1.0 + ways * static_cast<double>(counts.every) * more /
                                  static_cast<double>(counts.increase));
}

void fit_rows(Fitted& out, const Wish& wish, Take take) {
    const Piece& piece = out.project.pieces[out.piece];
    const project::Gauge& gauge = project::gauge_of(out.project, piece);
    const bool centre = project::grows_from_centre(out.project, piece, out.size);
    const double part = centre ? 0.5 : 1.0;
    const std::optional<units::Length> length = centre && wish.width ? wish.width : wish.length;
    const units::Ratio rows = wish.rows ? units::Ratio(static_cast<double>(*wish.rows))
                              : wish.length || centre
                                  ? units::Ratio(part * *length * gauge.rows / units::row)
                                  : rows_for_width(out, *wish.width);
    if (rows.value() > static_cast<double>(most_count))
        refuse_wish(false, "this makes too many rows", fmt::format("at most {} rows", most_count),
                    "Check the figure and its unit.");
    const auto too_few = [&] {
        return rows.value() < static_cast<double>(out.rows.multiple.least()) - rounding_noise;
    };
    if (out.rows.from == MultipleFrom::stripes && too_few()) {
        // Too short for its stripes is no reason to refuse a piece.
        out.rows.from = piece.row_multiple ? MultipleFrom::stated : MultipleFrom::nobody;
        out.rows.multiple = piece.row_multiple.value_or(Multiple{});
    }
    if (too_few())
        refuse_wish(
            false,
            fmt::format("{} rows are fewer than one repeat of {}",
                        units::plain_number(rows, units::Step::tenth, units::Rounding::down),
                        base::quoted(piece.name)),
            fmt::format("{} rows ({}) or more", out.rows.multiple.least(),
                        side(static_cast<double>(out.rows.multiple.least()) * units::row /
                             gauge.rows / part)),
            "");
    choose(out.rows, rows, take);
}

void fit_stitches(Fitted& out, const Wish& wish, Take take) {
    const Piece& piece = out.project.pieces[out.piece];
    const RowLaw law = law_of(piece);
    if (law == RowLaw::diagonal || law == RowLaw::there_and_back || law == RowLaw::doubling ||
        (piece.shape != nullptr && !piece.shape->group.empty()))
        refuse_piece(out.project, out.piece, "shape",
                     fmt::format("the width of {} follows from its rows", base::quoted(piece.name)),
                     "a length or a number of rows", "Say how many rows instead.");
    if (wish.repeats && *wish.repeats < 1)
        refuse_wish(true, "fewer than one repeat", "1 repeat or more", "");
    const units::Ratio stitches = wished_stitches(out, wish);
    if (stitches.value() > static_cast<double>(most_count))
        refuse_wish(true, "this makes too many stitches",
                    fmt::format("at most {} stitches", most_count),
                    "Check the figure and its unit.");
    const std::int64_t least = out.stitches.multiple.least();
    if (stitches.value() < static_cast<double>(least) - rounding_noise) {
        const std::int64_t outside = widest(out.project, piece, out.size) -
                                     project::counts(out.project, piece, out.size).stitches;
        refuse_wish(true,
                    fmt::format("{} stitches are fewer than one repeat of {}",
                                units::plain_number(units::Ratio(std::max(0.0, stitches.value())),
                                                    units::Step::tenth, units::Rounding::down),
                                base::quoted(piece.name)),
                    fmt::format("{} stitches ({}) or more", least,
                                side(static_cast<double>(least + outside) * units::stitch /
                                     across(out.project, piece))),
                    "");
    }
    choose(out.stitches, stitches, take);
}

/// A width of the finished shape, its rows staying: the shaping is spread anew.
void state_width(Fitted& out, units::Length width) {
    Piece& piece = out.project.pieces[out.piece];
    PerSize<units::Length> all;
    for (std::size_t size = 0; size < sizes_of(out.project); ++size)
        all.values.push_back(project::finished_size(out.project, piece, size).width);
    all.values.at(out.size) = width;
    if (!piece.rows.stated() && !piece.length.stated())
        piece.rows = in_every_size(out.project, piece,
                                   [](const PieceCounts& counts) { return counts.rows; });
    piece.width = all;
    piece.last_stitches = {};
    out.change.width = std::move(all);
    out.shaped_anew = true;
}

/// So wide already, as far as its increases come: they add more than one stitch at a time.
bool is_so_wide(const Fitted& out, units::Length width) {
    const Piece& piece = out.project.pieces[out.piece];
    const PieceCounts counts = project::counts(out.project, piece, out.size);
    const double stitches =
        units::Ratio(width * across(out.project, piece) / units::stitch).value();
    const double step =
        counts.last > 0 ? 1.0 : static_cast<double>(std::max<std::int64_t>(1, counts.increase));
    return std::abs(stitches - static_cast<double>(widest(out.project, piece, out.size))) <
           0.5 * step + rounding_noise;
}

/// A triangle from the nape: both measures as they are wished, one alone as the shape is now.
void fit_wings(Fitted& out, const Wish& wish, Take take) {
    const Piece& piece = out.project.pieces[out.piece];
    if (wish.rows || wish.stitches || wish.repeats)
        refuse_piece(out.project, out.piece, "shape",
                     fmt::format("the rows of {} follow from its width and length",
                                 base::quoted(piece.name)),
                     "a width and a length, or a number of rows alone", "");
    const project::FinishedSize was = out.was;
    const bool both = wish.width && wish.length;
    // A size that is told to the tenth is in proportion as far as it tells.
    constexpr double same_proportion = 0.01;
    const double wider = wish.width ? units::Ratio(*wish.width / was.width).value() : 1.0;
    const double longer = wish.length ? units::Ratio(*wish.length / was.length).value() : wider;
    const bool in_proportion = !both || std::abs(wider / longer - 1.0) < same_proportion;
    const double by = both ? std::sqrt(wider * longer) : wish.width ? wider : longer;
    if (static_cast<double>(out.rows.now) * by > static_cast<double>(most_count))
        refuse_wish(false, "this makes too many rows", fmt::format("at most {} rows", most_count),
                    "Check the figure and its unit.");
    if (!in_proportion || measured_wings(piece)) {
        const Project before = out.project;
        const PieceCounts counts_were = project::counts(before, piece, out.size);
        state_size(out,
                   {wish.width.value_or(by * was.width), wish.length.value_or(by * was.length)});
        out.project.pieces[out.piece].last_stitches = {};
        out.rows.wished = true;
        out.rows.taken = project::counts(out.project, piece, out.size).rows;
        out.rows.below = out.rows.above = out.rows.taken;
        const PieceCounts counts_are =
            project::counts(out.project, out.project.pieces[out.piece], out.size);
        out.shaped_anew = counts_were.last == 0;
        if (counts_are.rows == counts_were.rows && counts_are.last == counts_were.last) {
            out.project = before;
            out.change.width = out.change.length = {};
        }
        return;
    }
    // By its rows alone: those whose triangle is just below, and how far the next one is.
    const auto at = [&](std::int64_t rows) {
        Piece tried = piece;
        tried.rows = PerSize<std::int64_t>(rows);
        return units::Ratio(project::finished_size(out.project, tried, out.size).width / was.width)
            .value();
    };
    std::int64_t rows =
        std::max<std::int64_t>(1, std::llround(std::floor(static_cast<double>(out.rows.now) * by)));
    while (rows > 1 && at(rows) > by) --rows;
    while (rows < most_count && at(rows + 1) <= by) ++rows;
    const double part = (by - at(rows)) / (at(rows + 1) - at(rows));
    choose(out.rows, units::Ratio(static_cast<double>(rows) + std::max(0.0, part)), take);
    if (out.rows.taken != out.rows.now) stretch_rows(out, out.rows.taken);
}

/// What a tape shows on the hook or needles, where that is another size.
std::optional<project::FinishedSize> before_washing(const Fitted& out) {
    const project::Gauge& gauge = project::gauge_of(out.project, out.project.pieces[out.piece]);
    if (!gauge.unwashed_stitches && !gauge.unwashed_rows) return std::nullopt;
    project::FinishedSize size = out.measures;
    if (gauge.unwashed_stitches)
        size.width = size.width * (gauge.stitches / *gauge.unwashed_stitches);
    if (gauge.unwashed_rows) size.length = size.length * (gauge.rows / *gauge.unwashed_rows);
    return size;
}

/// Where a maker's gauge keeps the size, counts of the file are at the pattern's: the measures say
/// the same at either.
void say_by_measures(Fitted& out) {
    const Project& project = out.project;
    const Piece& piece = project.pieces[out.piece];
    if (!project.pattern_gauge || project.keeping != project::Keeping::size ||
        piece.pattern.stated())
        return;
    Change& change = out.change;
    const units::StitchGauge gauge = across(project, piece);
    const units::RowGauge high = project::gauge_of(project, piece).rows;
    for (const std::int64_t stitches : change.stitches.values)
        change.width.values.push_back(static_cast<double>(stitches) * units::stitch / gauge);
    for (const std::int64_t rows : change.rows.values)
        change.length.values.push_back(static_cast<double>(rows) * units::row / high);
    change.width_of_row_one = change.stitches.stated();
    change.stitches = {};
    change.rows = {};
}

/// Of many alike pieces that nobody says how to lay, a side far beyond one of them may be that of
/// all.
void refuse_one_or_all(const Project& project, std::size_t piece, std::size_t size,
                       const Wish& wish) {
    const Piece& one = project.pieces.at(piece);
    const std::int64_t copies = one.count.stated() ? one.count.at(size) : 1;
    constexpr std::int64_t many = 4;
    constexpr double far_beyond = 1.9;
    if (copies < many || are_laid(project, piece, size)) return;
    const project::FinishedSize now = project::finished_size(project, one, size);
    const auto times = [](const std::optional<units::Length>& wished, units::Length side) {
        return wished ? units::Ratio(*wished / side).value() : 1.0;
    };
    const double across = times(wish.width, now.width);
    const double along = times(wish.length, now.length);
    if (across < far_beyond && along < far_beyond) return;
    const auto whole = [](double exact) { return std::max<std::int64_t>(1, std::llround(exact)); };
    const std::int64_t laid = whole(across) * whole(along);
    const bool both = wish.width && wish.length;
    refuse_wish(across >= far_beyond,
                fmt::format("{} is made {} times, and this may be the size of each or of all "
                            "together",
                            base::quoted(one.name), copies),
                both ? fmt::format("the size of one; or, for all together, {} by {} of them, {} in "
                                   "all, with the part that joins them",
                                   whole(across), whole(along), laid)
                     : std::string("the size of one; or, for all together, a part that joins them"),
                "Ask for one of them, or say how many there are and how they are joined.");
}

}  // namespace

Fitted fit_alone(const Project& project, std::size_t piece, std::size_t size, const Wish& wish,
                 Take take) {
    Fitted out;
    out.project = project;
    out.piece = piece;
    out.size = size;
    const Piece& before = project.pieces.at(piece);
    const PieceCounts counts = project::counts(project, before, size);
    out.was = project::finished_size(project, before, size);
    const Found stitches = stitch_multiple(project, before, size);
    Found rows = row_multiple(project, before, size);
    // Whoever counts rows means them; what that does to the stripes is for the answer to say.
    if (rows.from == MultipleFrom::stripes && wish.rows)
        rows = before.row_multiple ? Found{*before.row_multiple, MultipleFrom::stated} : Found{};
    out.stitches = {stitches.multiple, stitches.from,   false,
                    wish.stitches,     counts.stitches, counts.stitches,
                    counts.stitches,   counts.stitches, 0};
    out.rows = {rows.multiple, rows.from,   false,
                wish.rows,     counts.rows, counts.rows,
                counts.rows,   counts.rows, striped_rows(project, before, size)};
    out.change.piece = piece;
    const bool few = from_few(before);
    const bool slope = widens_by_rows(project, before, size) || (few && counts.last == 0);
    const bool round =
        project::grows_from_centre(project, before, size) || (slope && !wish.rows && !wish.length);
    const bool wings = few && before.shape->wings && (wish.width || wish.length);
    const bool rows_wished = wish.rows || wish.length || (round && wish.width);
    const bool stitches_wished = wish.stitches || wish.repeats || (wish.width && !round);
    if (law_of(before) == RowLaw::diagonal) {
        fit_blocks(out, wish, take);
    } else if (wings) {
        fit_wings(out, wish, take);
    } else if (before.pattern.stated()) {
        if (stitches_wished) fit_stitches(out, wish, take);
        if (rows_wished) fit_rows(out, wish, take);
        if ((stitches_wished && out.stitches.taken != out.stitches.now) ||
            (rows_wished && out.rows.taken != out.rows.now))
            stretch_written(out);
    } else {
        // Increases come every few rows: several numbers of them are as wide.
        const bool wide_enough = slope && wish.width && !wish.rows && !wish.length &&
                                 is_so_wide(out, *wish.width) &&
                                 !project::grows_from_centre(project, before, size);
        if (rows_wished && !wide_enough) {
            fit_rows(out, wish, take);
            if (out.rows.taken != out.rows.now) stretch_rows(out, out.rows.taken);
        }
        if (few && wish.width && !round) {
            if (!is_so_wide(out, *wish.width)) state_width(out, *wish.width);
        } else if (stitches_wished) {
            fit_stitches(out, wish, take);
            if (out.stitches.taken != out.stitches.now) stretch_stitches(out, out.stitches.taken);
        }
    }
    if (stitches.from == MultipleFrom::written_rows)
        out.project.pieces[piece].multiple = stitches.multiple;
    return out;
}

Fitted fit_piece(const Project& given, std::size_t piece, std::size_t size, const Wish& wished,
                 Take take) {
    const Project project = need::with_returns_told(given);
    const Piece& before = project.pieces.at(piece);
    Wish wish = wished;
    refuse_one_or_all(project, piece, size, wished);
    if (are_laid(project, piece, size)) {
        // More of them make it wider and longer; each stays as it is but for what is counted.
        wish.width.reset();
        wish.length.reset();
    }
    Fitted out = fit_alone(project, piece, size, wish, take);
    out.motifs = lay_motifs(project, out.project, piece, size, wished, take);
    follow_pieces(project, out);
    const Piece& after = out.project.pieces[piece];
    out.measures = project::finished_size(out.project, after, size);
    out.unwashed = before_washing(out);
    out.chains = begins_with(out.project, piece, size);
    out.chains_stated = before.pattern.stated() || out.project.craft == project::Craft::knit ||
                        (after.multiple && after.multiple->foundation);
    FollowedEdgings edgings = follow_edgings(project, out.project, piece, size);
    out.edgings = std::move(edgings.changed);
    out.fringes = std::move(edgings.fringes);
    out.unchanged = std::move(edgings.unchanged);
    out.with_borders = out.motifs ? project::laid_with_borders(out.project, piece, size)
                                  : project::with_borders(out.project, piece, size);
    if (!out.same()) out.totals = follow_totals(project, out.project, size);
    say_by_measures(out);
    return out;
}

}  // namespace skeinfall::fit
