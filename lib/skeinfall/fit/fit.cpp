#include "skeinfall/fit/fit.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/fit/written.hpp"
#include "skeinfall/need/need.hpp"
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

constexpr double rounding_noise = 1e-9;
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

RowLaw law_of(const Piece& piece) {
    return piece.shape == nullptr ? RowLaw::growing : piece.shape->law;
}

bool from_centre(const Piece& piece) {
    return piece.shape != nullptr && piece.shape->from_centre;
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

void stretch_rows(Fitted& out, std::int64_t rows) {
    Piece& piece = out.project.pieces[out.piece];
    PerSize<std::int64_t> all =
        in_every_size(out.project, piece, [](const PieceCounts& counts) { return counts.rows; });
    all.values.at(out.size) = rows;
    piece.rows = all;
    piece.length = {};
    if (from_centre(piece)) piece.width = {};
    out.change.rows = std::move(all);
}

void stretch_stitches(Fitted& out, std::int64_t stitches) {
    Piece& piece = out.project.pieces[out.piece];
    const std::int64_t more = stitches - project::counts(out.project, piece, out.size).stitches;
    PerSize<std::int64_t> all = in_every_size(
        out.project, piece, [](const PieceCounts& counts) { return counts.stitches; });
    if (law_of(piece) == RowLaw::even) {
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
    const auto least = std::min_element(widths.begin(), widths.end());
    if (least != widths.end() && *least < 1)
        refuse(out.project, out.piece, "increase",
               fmt::format("so narrow, no stitches are left in row {} of {}",
                           least - widths.begin() + 1, base::quoted(piece.name)),
               fmt::format("{} stitches or more in row 1", stitches + 1 - *least), "");
}

/// What the need of a role would be at so much a stitch: apart + per_stitch x rate.
struct Linear {
    double apart = 0.0;
    double per_stitch = 0.0;
};
Linear need_by_rate(Project project, const std::string& role, std::size_t size) {
    std::erase_if(project.swatches, [&](const auto& one) { return one.role == role; });
    std::erase_if(project.earlier_makes, [&](const auto& one) { return one.role == role; });
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

units::StitchGauge across(const Project& project, const Piece& piece) {
    return project::gauge_of(project, piece).stitches;
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
    if (piece.pattern.stated() || law_of(piece) != RowLaw::growing || from_centre(piece))
        return false;
    const PieceCounts counts = project::counts(project, piece, size);
    return counts.increase > 0 && 4 * counts.stitches < widest(project, piece, size);
}

/// Rows after which such a piece is so wide.
units::Ratio rows_for_width(const Fitted& out, units::Length width) {
    const Piece& piece = out.project.pieces[out.piece];
    const PieceCounts counts = project::counts(out.project, piece, out.size);
    const double more = units::Ratio(width * across(out.project, piece) / units::stitch).value() -
                        static_cast<double>(counts.stitches);
    return units::Ratio(1.0 + static_cast<double>(piece.every) * more /
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
    const double part = from_centre(piece) ? 0.5 : 1.0;
    const std::optional<units::Length> length =
        from_centre(piece) && wish.width ? wish.width : wish.length;
    const units::Ratio rows = wish.rows ? units::Ratio(static_cast<double>(*wish.rows))
                              : wish.length || from_centre(piece)
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

}  // namespace

std::vector<ChangedTotal> follow_totals(const Project& before, Project& after, std::size_t size) {
    std::vector<ChangedTotal> out;
    for (Role& role : after.roles) {
        const bool by_length = role.total_length.stated();
        if (!by_length && !(role.total_mass.stated() && role.grist)) continue;
        const Linear was = need_by_rate(before, role.id, size);
        const Linear now = need_by_rate(after, role.id, size);
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
        role.printed_twice.clear();
        out.push_back({role.id, role.total_length, role.total_mass});
    }
    return out;
}

std::size_t largest_piece(const Project& project, std::size_t size) {
    std::size_t best = 0;
    double most = -1.0;
    for (std::size_t at = 0; at < project.pieces.size(); ++at) {
        double stitches = 0.0;
        for (const std::int64_t row : project::row_widths(project, project.pieces[at], size))
            stitches += static_cast<double>(row);
        if (stitches > most) {
            most = stitches;
            best = at;
        }
    }
    return best;
}

Found stitch_multiple(const Project& project, const Piece& piece, std::size_t size) {
    if (piece.multiple) return {*piece.multiple, MultipleFrom::stated};
    if (piece.pattern.stated())
        if (const auto found = multiple_of_rows(project, piece, size))
            return {*found, MultipleFrom::written_rows};
    // A figure from the centre has as many corners.
    return {Multiple{}, MultipleFrom::nobody};
}

std::int64_t striped_rows(const Project& project, const Piece& piece, std::size_t size) {
    // Written rows that name their yarns repeat as they are written.
    if (piece.stripes.empty() || piece.pattern.stated()) return 0;
    const std::int64_t rows = project::counts(project, piece, size).rows;
    std::vector<const std::string*> roles;
    for (const project::Stripe& stripe : piece.stripes) {
        if (static_cast<std::int64_t>(roles.size()) + stripe.rows > rows / 2) return 0;
        roles.insert(roles.end(), static_cast<std::size_t>(stripe.rows), &stripe.role);
    }
    if (roles.empty()) return 0;
    const std::size_t all = roles.size();
    const auto repeats_after = [&](std::size_t period) {
        for (std::size_t row = period; row < all; ++row)
            if (*roles[row] != *roles[row - period]) return false;
        return true;
    };
    for (std::size_t period = 1; 2 * period <= all; ++period)
        if (all % period == 0 && repeats_after(period)) return static_cast<std::int64_t>(period);
    return static_cast<std::int64_t>(all);
}

Found row_multiple(const Project& project, const Piece& piece, std::size_t size) {
    Found out;
    if (piece.row_multiple) {
        out = {*piece.row_multiple, MultipleFrom::stated};
    } else if (piece.pattern.stated()) {
        if (const auto found = repeat_of_rows(project, piece, size))
            out = {*found, MultipleFrom::written_rows};
    }
    const std::int64_t striped = striped_rows(project, piece, size);
    const std::int64_t rows = project::counts(project, piece, size).rows;
    // Whole repeats of the stripes, ended as they are now, where they keep whole repeats of rows.
    if (striped > 1 && striped % out.multiple.repeat == 0 && out.multiple.fits(rows))
        return {Multiple{striped, rows % striped, std::nullopt}, MultipleFrom::stripes};
    return out;
}

std::optional<std::int64_t> foundation_of(const Project& project, const Piece& piece,
                                          std::int64_t stitches) {
    if (piece.foundation_rows && piece.foundation_rows->value() <= 0.0) return std::nullopt;
    if (from_centre(piece)) return std::nullopt;
    if (project.craft == project::Craft::knit) return stitches;
    if (piece.multiple && piece.multiple->foundation) return stitches + *piece.multiple->foundation;
    if (piece.worked == project::Worked::round) return stitches;
    const std::string& stitch = project::gauge_of(project, piece).stitch;
    const auto kind = project::stitch_kind(stitch, project.craft, project.terms);
    if (!kind) return std::nullopt;
    const project::StitchBook book(project::Craft::crochet, project::Terms::us);
    const project::Stitch& known = book.at(book.find_us(*kind));
    if (known.turning_chains == 0) return stitches + 1;
    return stitches + known.turning_chains -
           (known.counts == project::TurningChainCounts::yes ? 1 : 0);
}

std::optional<std::int64_t> begins_with(const Project& project, std::size_t piece,
                                        std::size_t size) {
    const Piece& one = project.pieces.at(piece);
    return one.pattern.stated()
               ? written_foundation(project, one, size)
               : foundation_of(project, one, project::counts(project, one, size).stitches);
}

Fitted fit_piece(const Project& project, std::size_t piece, std::size_t size, const Wish& wish,
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
    out.stitches = {stitches.multiple, stitches.from,   false,           counts.stitches,
                    counts.stitches,   counts.stitches, counts.stitches, 0};
    out.rows = {rows.multiple, rows.from,   false,       counts.rows,
                counts.rows,   counts.rows, counts.rows, striped_rows(project, before, size)};
    out.change.piece = piece;
    const bool round = from_centre(before) ||
                       (widens_by_rows(project, before, size) && !wish.rows && !wish.length);
    const bool rows_wished = wish.rows || wish.length || (round && wish.width);
    const bool stitches_wished = wish.stitches || wish.repeats || (wish.width && !round);
    if (before.pattern.stated()) {
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
        if (stitches_wished) {
            fit_stitches(out, wish, take);
            if (out.stitches.taken != out.stitches.now) stretch_stitches(out, out.stitches.taken);
        }
    }
    const Piece& after = out.project.pieces[piece];
    if (stitches.from == MultipleFrom::written_rows)
        out.project.pieces[piece].multiple = stitches.multiple;
    out.measures = project::finished_size(out.project, after, size);
    const project::Gauge& gauge = project::gauge_of(out.project, after);
    if (gauge.unwashed_stitches || gauge.unwashed_rows) {
        out.unwashed = out.measures;
        if (gauge.unwashed_stitches)
            out.unwashed->width = out.measures.width * (gauge.stitches / *gauge.unwashed_stitches);
        if (gauge.unwashed_rows)
            out.unwashed->length = out.measures.length * (gauge.rows / *gauge.unwashed_rows);
    }
    out.chains = begins_with(out.project, piece, size);
    out.chains_stated = before.pattern.stated() || out.project.craft == project::Craft::knit ||
                        (after.multiple && after.multiple->foundation);
    for (const project::FinishPart& part : out.project.finish)
        if (part.yarn.stated() || part.length.stated() || part.stitches.stated())
            out.unchanged.push_back(part.name.empty() ? std::string("a finishing part")
                                                      : part.name);
    if (out.rows.taken != out.rows.now || out.stitches.taken != out.stitches.now)
        out.totals = follow_totals(project, out.project, size);
    return out;
}

std::optional<EachMore> each_more(const Project& project, std::size_t piece, std::size_t size) {
    const Piece& one = project.pieces.at(piece);
    const Found stitches = stitch_multiple(project, one, size);
    const Found rows = row_multiple(project, one, size);
    const PieceCounts counts = project::counts(project, one, size);
    const project::Gauge& gauge = project::gauge_of(project, one);
    EachMore out;
    out.repeat_known = stitches.from != MultipleFrom::nobody;
    out.stitches =
        out.repeat_known
            ? stitches.multiple.repeat
            : std::max<std::int64_t>(
                  1, std::llround(std::ceil(
                         units::Ratio(1.0 * units::inch * across(project, one) / units::stitch)
                             .value() -
                         rounding_noise)));
    std::int64_t repeat = rows.multiple.repeat;
    if (rows.from == MultipleFrom::nobody) {
        // Stripes come in whole repeats, so that every yarn has its share.
        std::int64_t striped = 0;
        for (const project::Stripe& stripe : one.stripes) striped += stripe.rows;
        repeat = std::max(repeat, striped);
    }
    const auto an_inch = static_cast<std::int64_t>(std::ceil(
        units::Ratio(1.0 * units::inch * gauge.rows / units::row).value() - rounding_noise));
    out.rows = repeat * std::max<std::int64_t>(1, (an_inch + repeat - 1) / repeat);
    // From whole repeats to whole repeats: counts that are none would share a step with the first.
    const auto more = [&](const Wish& from, const Wish& to, units::Length EachMore::OfRole::*yarn,
                          units::Length& by, units::Length project::FinishedSize::*measure) {
        const Fitted before = fit_piece(project, piece, size, from);
        const Fitted after = fit_piece(project, piece, size, to);
        by = after.measures.*measure - before.measures.*measure;
        const need::MakeNeed now = need::need_of(before.project, size);
        for (const need::RoleNeed& role : need::need_of(after.project, size).roles) {
            units::Length had{};
            for (const need::RoleNeed& was : now.roles)
                if (was.role == role.role) had = was.length.centre;
            auto known = std::find_if(out.roles.begin(), out.roles.end(),
                                      [&](const auto& r) { return r.role == role.role; });
            if (known == out.roles.end())
                known = out.roles.insert(out.roles.end(), {role.role, {}, {}});
            (*known).*yarn = role.length.centre - had;
        }
    };
    const auto wish = [](std::optional<std::int64_t> Wish::*what, std::int64_t count) {
        Wish wished;
        wished.*what = count;
        return wished;
    };
    try {
        const std::int64_t across_now =
            out.repeat_known ? stitches.multiple.at_least(counts.stitches) : counts.stitches;
        more(wish(&Wish::stitches, across_now), wish(&Wish::stitches, across_now + out.stitches),
             &EachMore::OfRole::for_width, out.wider, &project::FinishedSize::width);
        more({}, wish(&Wish::rows, counts.rows + out.rows), &EachMore::OfRole::for_length,
             out.longer, &project::FinishedSize::length);
    } catch (const base::InputError&) {
        return std::nullopt;  // its shape does not stretch
    }
    return out;
}

}  // namespace skeinfall::fit
