#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/json_words.hpp"
#include "skeinfall/report/fit.hpp"
#include "skeinfall/report/words.hpp"
#include "skeinfall/yarn/tools.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;
using units::Ratio;
using units::Rounding;
using units::Step;

std::string gauge_figures(const project::Gauge& gauge, bool rounds) {
    const auto figure = [](auto value, const auto& shown) {
        return units::plain_number(Ratio(value / shown.one), Step::tenth, Rounding::nearest);
    };
    return fmt::format("{} sts and {} {} to 4 in ({} and {} to 10 cm)",
                       figure(gauge.stitches, units::shown::per_4in),
                       figure(gauge.rows, units::shown::rows_per_4in), rounds ? "rounds" : "rows",
                       figure(gauge.stitches, units::shown::per_10cm),
                       figure(gauge.rows, units::shown::rows_per_10cm));
}

std::string measures(const project::Piece& piece, const project::FinishedSize& size) {
    if (piece.shape != nullptr && piece.shape->from_centre)
        return units::inches_and_centimetres(size.width) + " across";
    return units::inches_and_centimetres(size.width) +
           (piece.worked == project::Worked::round ? " around, " : " wide, ") +
           units::inches_and_centimetres(size.length) + " long";
}

std::string wide_and_long(const project::FinishedSize& size) {
    return units::inches_and_centimetres(size.width) + " wide, " +
           units::inches_and_centimetres(size.length) + " long";
}

std::string yarn_line(const need::MakeNeed& make) {
    std::vector<std::string> parts;
    for (const need::RoleNeed& one : make.roles)
        parts.push_back(shown_inert(one.role) + " " +
                        yards_and_metres(one.length.centre, Rounding::up) + ", give or take " +
                        yards_and_metres(one.length.spread, Rounding::up));
    return base::join(parts, "; ");
}

Json yarn_json(const need::MakeNeed& make) {
    Json out = Json::array();
    for (const need::RoleNeed& one : make.roles)
        out.push_back({{"role", one.role},
                       {"need_m", m(one.length.centre)},
                       {"spread_m", m(one.length.spread)}});
    return out;
}

Json size_json(const project::FinishedSize& size) {
    return {{"width_m", m(size.width)}, {"length_m", m(size.length)}};
}

Json gauge_json(const project::Gauge& gauge) {
    return {{"stitches_per_10cm", Ratio(gauge.stitches / units::shown::per_10cm.one).value()},
            {"rows_per_10cm", Ratio(gauge.rows / units::shown::rows_per_10cm.one).value()}};
}

std::string tool_text(const fit::MetGauge& met, units::Length diameter) {
    return met.knit ? yarn::needle_text(diameter) : yarn::hook_text(diameter);
}

/// What to work instead, in whole repeats.
std::string instead_text(const GaugeAnswer& answer) {
    const fit::MetGauge& met = answer.met;
    if (!met.instead)
        return "  To the planned size: not possible here, " + shown_inert(met.why_not) + ".\n";
    const fit::Fitted& fitted = *met.instead;
    const project::Piece& piece = fitted.project.pieces[fitted.piece];
    const std::string row(project::row_word(piece.worked));
    std::string head = "\nTo the planned size at your gauge\n";
    if (fitted.motifs)
        return head +
               fmt::format(
                   "  {} in {} rows of {}, {} each: {}\n", fitted.motifs->count,
                   (fitted.motifs->count + fitted.motifs->columns - 1) / fitted.motifs->columns,
                   fitted.motifs->columns, counted(fitted.rows.taken, row, row + "s"),
                   wide_and_long(fitted.motifs->measures)) +
               "  " + yarn_line(*answer.instead_need) + "\n";
    std::string counts = counted(fitted.rows.taken, row, row + "s");
    if (piece.shape == nullptr || !piece.shape->from_centre)
        counts =
            counted(fitted.stitches.taken, "stitch", "stitches") +
            (fitted.stitches.multiple.repeat > 1
                 ? fmt::format(
                       " ({})",
                       counted(fitted.stitches.repeats(),
                               "repeat of " + std::to_string(fitted.stitches.multiple.repeat),
                               "repeats of " + std::to_string(fitted.stitches.multiple.repeat)))
                 : "") +
            " by " + counts;
    std::string out = head + "  " +
                      (fitted.project.pieces.size() > 1 ? shown_inert(piece.name) + ": " : "") +
                      counts + ": " + measures(piece, fitted.measures) + "\n";
    for (const fit::Followed& one : fitted.followed)
        out += fmt::format("  {} follows, so that they meet: {}\n",
                           shown_inert(fitted.project.pieces[one.piece].name),
                           counted(one.now.rows, row, row + "s"));
    if (fitted.chains)
        out +=
            fmt::format("  begin with {} {}\n", met.knit ? "a cast-on of" : "ch", *fitted.chains);
    return out + "  " + yarn_line(*answer.instead_need) + "\n";
}

}  // namespace

std::string gauge_answer_text(const GaugeAnswer& answer) {
    const fit::MetGauge& met = answer.met;
    const project::Project& project = met.as_written;
    const project::Piece& piece = project.pieces[met.piece];
    const bool rounds = piece.worked == project::Worked::round;
    std::string out = title_text(project, met.size) + ": " +
                      (met.is_met ? "your gauge is the pattern's, as far as a swatch can tell\n"
                                  : "your gauge is not the pattern's\n");
    out += table({{"the pattern wants", gauge_figures(met.wanted, rounds)},
                  {"you get", gauge_figures(met.met, rounds)}},
                 {false, false}, 2);
    if (answer.rows_taken)
        out += "  You gave no row gauge, so the pattern's is used. Count your " +
               std::string(rounds ? "rounds" : "rows") + " too.\n";
    if (answer.from_rows) {
        const bool apart = met.wanted.unwashed_stitches || met.wanted.unwashed_rows;
        out += apart ? "  Your rows are not washed yet; what washing does to the gauge is taken "
                       "from the project.\n"
                     : "  Measured before washing. If this fabric changes in the wash, wash a "
                       "swatch and measure that.\n";
    }
    // A measured one tells its own gauge, which its yarn is taken from.
    if (!met.is_met &&
        std::any_of(project.swatches.begin(), project.swatches.end(),
                    [](const project::Swatch& one) { return !one.width || !one.height; }))
        out +=
            "  The counted swatch is taken as worked at the gauge you get. If it was worked at the "
            "pattern's, weigh a new one.\n";
    out += "\nWorked as written\n  " + shown_inert(piece.name) + ": " +
           measures(piece, met.comes_out) + "; planned " + measures(piece, met.planned) + "\n  " +
           (met.comes_out_all ? "All of them: " + wide_and_long(*met.comes_out_all) + "; planned " +
                                    wide_and_long(*met.planned_all) + "\n  "
                              : "") +
           yarn_line(answer.need) + "\n";
    if (met.other_size)
        out += fmt::format("  Size {} comes nearest to the planned width then: {}\n",
                           shown_inert(project.sizes[*met.other_size]),
                           measures(piece, met.other_comes_out));
    if (met.is_met) return out;
    out += instead_text(answer);
    out += "\nOr get the pattern's gauge\n";
    const bool tight = met.met.stitches > met.wanted.stitches;
    if (met.tool)
        out += fmt::format("  Try {} {} and swatch again: you have too {} stitches.\n",
                           met.knit ? "needles of" : "a hook of", tool_text(met, *met.tool),
                           tight ? "many" : "few");
    else
        out += fmt::format("  Try a {} {} and swatch again.\n", tight ? "larger" : "smaller",
                           met.knit ? "needle" : "hook");
    return out;
}

std::string gauge_answer_json(const GaugeAnswer& answer) {
    const fit::MetGauge& met = answer.met;
    const project::Project& project = met.as_written;
    Json out;
    out["title"] = project.title;
    out["size"] = project.sizes.empty() ? Json() : Json(project.sizes[met.size]);
    out["piece"] = project.pieces[met.piece].name;
    out["wanted"] = gauge_json(met.wanted);
    out["met"] = gauge_json(met.met);
    out["is_met"] = met.is_met;
    out["planned"] = size_json(met.planned_all.value_or(met.planned));
    out["as_written"] = size_json(met.comes_out_all.value_or(met.comes_out));
    out["as_written"]["yarn"] = yarn_json(answer.need);
    out["other_size"] = met.other_size ? Json(project.sizes[*met.other_size]) : Json();
    out["instead"] = Json();
    if (met.instead) {
        const auto& motifs = met.instead->motifs;
        Json instead = size_json(motifs ? motifs->measures : met.instead->measures);
        instead["motifs"] = motifs ? Json(motifs->count) : Json();
        instead["columns"] = motifs ? Json(motifs->columns) : Json();
        instead["stitches"] = met.instead->stitches.taken;
        instead["rows"] = met.instead->rows.taken;
        instead["repeats"] = met.instead->stitches.repeats();
        instead["foundation"] = met.instead->chains ? Json(*met.instead->chains) : Json();
        instead["yarn"] = yarn_json(*answer.instead_need);
        out["instead"] = std::move(instead);
    }
    out["tool_mm"] = met.tool ? Json(Ratio(*met.tool / units::millimetre).value()) : Json();
    return finished(out);
}

}  // namespace skeinfall::report
