#include "skeinfall/fit/fit.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <functional>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/fit/detail/law.hpp"
#include "skeinfall/fit/detail/motifs.hpp"
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

constexpr std::int64_t most_count = 1'000'000;

std::size_t sizes_of(const Project& project) {
    return project.size_count();
}

base::Place place_of(const Project& project, std::size_t piece, const char* key) {
    return project.place(fmt::format("piece.{}", piece), key);
}

[[noreturn]] void refuse(const Project& project, std::size_t piece, const char* key,
                         std::string what, std::string expected, std::string remedy) {
    throw base::InputError(base::Problem{std::move(what), place_of(project, piece, key),
                                         std::move(expected), std::move(remedy)});
}

[[noreturn]] void refuse_wish(bool across, std::string what, std::string expected,
                              std::string remedy) {
    throw WishError({std::move(what), {}, std::move(expected), std::move(remedy)}, across);
}

std::string side(units::Length length) {
    return units::inches_and_centimetres(length);
}

/// The counts of a dimension on both sides of the wish, and the one that is taken.
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
    refuse(out.project, out.piece, key,
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
            refuse(out.project, out.piece, "last_stitches",
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

/// What the need of a role would be at so much a stitch: apart + per_stitch x rate.
struct Linear {
    double apart = 0.0;
    double per_stitch = 0.0;
};
Linear need_by_rate(Project project, const std::string& role, std::size_t size) {
    std::erase_if(project.swatches, [&](const auto& one) { return one.role == role; });
    std::erase_if(project.earlier_makes, [&](const auto& one) { return one.role == role; });
    // Without a tool others' makes say nothing beside a rate: they would bend the line.
    project.gauge.hook.reset();
    project.gauge.needle.reset();
    for (Piece& piece : project.pieces)
        if (piece.gauge) piece.gauge->hook = piece.gauge->needle = std::nullopt;
    const auto length_at = [&](double rate) {
        for (Role& one : project.roles)
            if (one.id == role) {
                one.total_length = {};
                one.total_mass = {};
                one.area_rate = std::nullopt;
                one.rate = units::YarnPerStitch::from_value(rate);
            }
        const need::MakeNeed make = need::need_of(project, size);
        for (const need::RoleNeed& one : make.roles)
            if (one.role == role) return one.length.centre.value();
        return 0.0;
    };
    const double one = length_at(0.01);
    const double two = length_at(0.02);
    return {2.0 * one - two, (two - one) / 0.01};
}

template <class Q>
void scale(PerSize<Q>& total, std::size_t size, std::size_t sizes, double by) {
    if (total.values.size() == 1) total.values.assign(sizes, total.values.front());
    total.values.at(size) = total.values.at(size) * by;
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
    if (piece.shape != nullptr && piece.shape->law == RowLaw::diagonal)
        refuse(
            out.project, out.piece, "shape",
            fmt::format("{} is worked from corner to corner, in blocks", base::quoted(piece.name)),
            "a piece worked in rows or rounds", "Change its blocks in the project.");
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
        refuse(out.project, out.piece, "shape",
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
}

/// A triangle from the nape: both measures as they are wished, one alone as the shape is now.
void fit_wings(Fitted& out, const Wish& wish, Take take) {
    const Piece& piece = out.project.pieces[out.piece];
    if (wish.rows || wish.stitches || wish.repeats)
        refuse(out.project, out.piece, "shape",
               fmt::format("the rows of {} follow from its width and length",
                           base::quoted(piece.name)),
               "a width and a length, or a number of rows alone", "");
    const project::FinishedSize was = out.was;
    const double by = wish.width ? units::Ratio(*wish.width / was.width).value()
                                 : units::Ratio(*wish.length / was.length).value();
    if (static_cast<double>(out.rows.now) * by > static_cast<double>(most_count))
        refuse_wish(false, "this makes too many rows", fmt::format("at most {} rows", most_count),
                    "Check the figure and its unit.");
    if ((wish.width && wish.length) || measured_wings(piece)) {
        state_size(out,
                   {wish.width.value_or(by * was.width), wish.length.value_or(by * was.length)});
        out.project.pieces[out.piece].last_stitches = {};
        out.rows.wished = true;
        out.rows.taken = project::counts(out.project, piece, out.size).rows;
        out.rows.below = out.rows.above = out.rows.taken;
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

/// A total holds nothing of what lies beyond it; its end stays, as its yarn begins anew all the
/// same.
Project without_beyond(Project project, const std::string& role) {
    for (project::FinishPart& part : project.finish) {
        if (part.role != role || !part.beyond_total) continue;
        project::FinishPart none;
        none.kind = project::PartKind::other;
        none.name = part.name;
        none.role = role;
        none.yarn = PerSize<units::Length>(units::Length{});
        part = none;
    }
    return project;
}

}  // namespace

std::vector<ChangedTotal> follow_totals(const Project& whole, Project& after, std::size_t size) {
    std::vector<ChangedTotal> out;
    for (Role& role : after.roles) {
        const bool by_length = role.total_length.stated();
        if (!by_length && !(role.total_mass.stated() && role.grist)) continue;
        const Project before = without_beyond(whole, role.id);
        const Linear was = need_by_rate(before, role.id, size);
        const Linear now = need_by_rate(without_beyond(after, role.id), role.id, size);
        if (was.per_stitch <= 0.0) continue;
        double total = by_length
                           ? role.total_length.at(size).value()
                           : units::Length(role.total_mass.at(size) * role.grist->value).value();
        double more = 1.0;
        if (role.total_for) {
            // Rows beyond those it is for are in the need already.
            for (const need::RoleNeed& need : need::need_of(before, size).roles)
                if (need.role == role.id) more = need.length.centre.value() / total;
            total *= more;
            role.total_for.reset();
        }
        const double rate = std::max(0.0, (total - was.apart) / was.per_stitch);
        const double by =
            more * (now.apart + now.per_stitch * rate) / (was.apart + was.per_stitch * rate);
        if (std::abs(by - 1.0) < rounding_noise) continue;
        const std::size_t sizes = sizes_of(before);
        if (by_length)
            scale(role.total_length, size, sizes, by);
        else
            scale(role.total_mass, size, sizes, by);
        if (role.total_least.stated()) scale(role.total_least, size, sizes, by);
        if (role.total_as_mass.stated()) scale(role.total_as_mass, size, sizes, by);
        role.printed_twice.clear();
        out.push_back({role.id, role.total_length, role.total_mass});
    }
    return out;
}

namespace {

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

}  // namespace

Fitted fit_piece(const Project& project, std::size_t piece, std::size_t size, const Wish& wished,
                 Take take) {
    Fitted out;
    out.project = need::with_returns_told(project);
    Wish wish = wished;
    out.motifs = lay_motifs(out.project, piece, size, wish, take);
    if (out.motifs) {
        // More of them make it wider and longer; each stays as it is but for what is counted.
        wish.width.reset();
        wish.length.reset();
    }
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
    if (wings) {
        fit_wings(out, wish, take);
    } else if (before.pattern.stated()) {
        if (stitches_wished) fit_stitches(out, wish, take);
        if (rows_wished) fit_rows(out, wish, take);
        if ((stitches_wished && out.stitches.taken != out.stitches.now) ||
            (rows_wished && out.rows.taken != out.rows.now))
            stretch_written(out);
    } else {
        if (rows_wished) {
            fit_rows(out, wish, take);
            if (out.rows.taken != out.rows.now) stretch_rows(out, out.rows.taken);
        }
        if (few && wish.width && !round) {
            state_width(out, *wish.width);
        } else if (stitches_wished) {
            fit_stitches(out, wish, take);
            if (out.stitches.taken != out.stitches.now) stretch_stitches(out, out.stitches.taken);
        }
    }
    const Piece& after = out.project.pieces[piece];
    if (stitches.from == MultipleFrom::written_rows)
        out.project.pieces[piece].multiple = stitches.multiple;
    out.measures = project::finished_size(out.project, after, size);
    out.unwashed = before_washing(out);
    out.chains = begins_with(out.project, piece, size);
    out.chains_stated = before.pattern.stated() || out.project.craft == project::Craft::knit ||
                        (after.multiple && after.multiple->foundation);
    FollowedEdgings edgings = follow_edgings(project, out.project, piece, size);
    out.edgings = std::move(edgings.changed);
    out.unchanged = std::move(edgings.unchanged);
    out.with_borders = project::with_borders(out.project, piece, size);
    if (!out.same()) out.totals = follow_totals(project, out.project, size);
    say_by_measures(out);
    return out;
}

}  // namespace skeinfall::fit
