#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>

#include "skeinfall/fit/detail/law.hpp"
#include "skeinfall/fit/detail/motifs.hpp"
#include "skeinfall/fit/detail/seamless.hpp"
#include "skeinfall/fit/fit.hpp"
#include "skeinfall/fit/written.hpp"
#include "skeinfall/need/worst.hpp"

namespace skeinfall::fit {

using project::Multiple;
using project::Piece;
using project::PieceCounts;
using project::Project;
using project::RowLaw;

namespace {

/// The first block: three chains to lie, three to stand. Common practice, no source.
constexpr std::int64_t chains_of_a_block = 6;

}  // namespace

std::optional<project::Multiple> both_of(const project::Multiple& a, const project::Multiple& b) {
    const std::int64_t repeat = std::lcm(a.repeat, b.repeat);
    const std::int64_t least = std::max(a.least(), b.least());
    for (std::int64_t count = least; count < least + repeat; ++count)
        if (a.fits(count) && b.fits(count))
            return project::Multiple{repeat, count % repeat, std::nullopt};
    return std::nullopt;
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

namespace {

Found own_multiple(const Project& project, const Piece& piece, std::size_t size) {
    if (piece.multiple) return {*piece.multiple, MultipleFrom::stated};
    if (piece.pattern.stated())
        if (const auto found = multiple_of_rows(project, piece, size))
            return {*found, MultipleFrom::written_rows};
    // A figure from the centre has as many corners.
    return {Multiple{}, MultipleFrom::nobody};
}

}  // namespace

Found stitch_multiple(const Project& project, const Piece& piece, std::size_t size) {
    Found out = own_multiple(project, piece, size);
    const auto at = std::find_if(project.pieces.begin(), project.pieces.end(),
                                 [&](const Piece& one) { return &one == &piece; });
    if (at == project.pieces.end()) return out;
    const auto before =
        multiple_before(project, static_cast<std::size_t>(at - project.pieces.begin()), size);
    if (!before || out.multiple.repeat % before->repeat == 0) return out;
    auto both = both_of(out.multiple, *before);
    if (!both) return out;
    both->foundation = out.multiple.foundation;
    return {*both, out.from == MultipleFrom::nobody ? MultipleFrom::piece_before : out.from};
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
    if (law_of(piece) == RowLaw::diagonal) return chains_of_a_block;
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
    if (project::grows_from_centre(project, one, size) && !one.pattern.stated())
        return std::nullopt;
    return one.pattern.stated()
               ? written_foundation(project, one, size)
               : foundation_of(project, one, project::counts(project, one, size).stitches);
}

namespace {

/// Yarn of the larger make less that of the smaller.
void add_more(EachMore& out, const need::MakeNeed& now, const need::MakeNeed& then,
              units::Length EachMore::OfRole::*yarn) {
    for (const need::RoleNeed& role : then.roles) {
        units::Length had{};
        for (const need::RoleNeed& was : now.roles)
            if (was.role == role.role) had = was.length.centre;
        auto known = std::find_if(out.roles.begin(), out.roles.end(),
                                  [&](const auto& r) { return r.role == role.role; });
        if (known == out.roles.end())
            known = out.roles.insert(out.roles.end(), {role.role, {}, {}});
        (*known).*yarn = role.length.centre - had;
    }
}

/// A block more across and up, or a column and a row of motifs.
std::optional<EachMore> each_unit_more(const Project& project, std::size_t piece,
                                       std::size_t size) {
    const Fitted now = fit_piece(project, piece, size, {});
    EachMore out;
    out.of = now.motifs ? EachMore::Of::motifs : EachMore::Of::blocks;
    out.repeat_known = true;
    const units::Length block =
        project::block_side(project::gauge_of(project, project.pieces[piece]));
    const project::FinishedSize was = now.motifs ? now.motifs->measures : now.measures;
    const project::FinishedSize each = now.motifs
                                           ? each_motif_more(project.pieces[piece], now.measures)
                                           : project::FinishedSize{block, block};
    out.wider = each.width;
    out.longer = each.length;
    const std::int64_t columns = now.motifs ? now.motifs->columns : 1;
    out.stitches = now.motifs ? (now.motifs->count + columns - 1) / columns : 1;
    out.rows = columns;
    const need::MakeNeed need = need::need_to_plan(now.project, size);
    Wish wider;
    wider.width = was.width + out.wider;
    Wish longer;
    longer.length = was.length + out.longer;
    add_more(out, need, need::need_to_plan(fit_piece(project, piece, size, wider).project, size),
             &EachMore::OfRole::for_width);
    add_more(out, need, need::need_to_plan(fit_piece(project, piece, size, longer).project, size),
             &EachMore::OfRole::for_length);
    return out;
}

}  // namespace

std::optional<EachMore> each_more(const Project& project, std::size_t piece, std::size_t size) {
    const Piece& one = project.pieces.at(piece);
    const PieceCounts counts = project::counts(project, one, size);
    if (law_of(one) == RowLaw::diagonal || are_laid(project, piece, size))
        return each_unit_more(project, piece, size);
    // A stitch more in row 1 makes no triangle of wings wider by a stitch, nor one by measure.
    if (from_few(one) && (one.shape->wings || counts.last > 0)) return std::nullopt;
    const Found stitches = stitch_multiple(project, one, size);
    const Found rows = row_multiple(project, one, size);
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
        const need::MakeNeed now = need::need_to_plan(before.project, size);
        add_more(out, now, need::need_to_plan(after.project, size), yarn);
        if (measure == &project::FinishedSize::width) out.followed = after.followed;
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
