#include "skeinfall/fit/written.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/fit/detail/law.hpp"
#include "skeinfall/fit/fit.hpp"
#include "skeinfall/notation/notation.hpp"
#include "skeinfall/notation/stretch.hpp"

namespace skeinfall::fit {
namespace {

using project::Piece;
using project::Project;

/// Repeats wider than this are not looked for.
constexpr std::int64_t widest_repeat = 60;
/// Rows of a repeat.
constexpr std::int64_t longest_repeat = 48;

notation::NotationOptions options_of(const Project& project, const Piece& piece) {
    notation::NotationOptions out;
    out.strands_known = true;  // asked when the project was read
    out.craft = project.craft;
    out.terms = project.terms;
    out.round = piece.worked == project::Worked::round;
    out.sizes = project.size_count();
    out.own = project.stitches;
    // "Until piece measures 60 in" is so many rows.
    out.row_gauge = project::gauge_of(project, piece).rows;
    const std::string& first = piece.stripes.empty() ? piece.role : piece.stripes.front().role;
    for (const project::Role& role : project.roles) {
        if (role.id == first) out.yarn = out.yarns.size();
        out.yarns.push_back({role.id,
                             {base::lower(role.id), base::lower(role.colour),
                              base::lower(role.name), base::lower(role.name + " " + role.colour)}});
    }
    return out;
}

std::vector<notation::WrittenRows> entries_of(const Piece& piece) {
    std::vector<notation::WrittenRows> out;
    for (const std::string& text : piece.written) out.push_back({text, std::nullopt});
    return out;
}

std::int64_t across(const project::WorkedRows& rows) {
    return std::llround(rows.row(1).across.value());
}

/// How foundation and stitches of row 1 grow together.
struct Step {
    std::int64_t foundation = 0;
    std::int64_t stitches = 0;
};
std::optional<Step> step_of(const Project& project, const Piece& piece) {
    const auto entries = entries_of(piece);
    const auto options = options_of(project, piece);
    const auto base = notation::foundation_count(entries, options);
    if (!base || options.sizes > 1) return std::nullopt;
    const std::int64_t now = across(piece.pattern.at(0));
    for (std::int64_t more = 1; more <= widest_repeat; ++more) {
        const auto once = notation::with_foundation(entries, options, *base + more);
        if (!once) continue;
        const auto twice = notation::with_foundation(entries, options, *base + 2 * more);
        const std::int64_t grown = across(once->rows) - now;
        if (!twice || grown < 1 || across(twice->rows) - now != 2 * grown) continue;
        return Step{more, grown};
    }
    return std::nullopt;
}

[[noreturn]] void refuse(const Fitted& fitted, std::string what, std::string expected,
                         std::string remedy) {
    throw base::InputError(base::Problem{
        std::move(what), fitted.project.place(fmt::format("piece.{}", fitted.piece), "rows"),
        std::move(expected), std::move(remedy)});
}

/// The multiple that the project states against the one that its rows have, where those are apart.
void refuse_stated(const Fitted& fitted) {
    const Piece& piece = fitted.project.pieces[fitted.piece];
    const project::Multiple& stated = fitted.stitches.multiple;
    const auto rows = multiple_of_rows(fitted.project, piece, fitted.size);
    if (!rows) return;
    const auto both = both_of(stated, *rows);
    if (both && stated.repeat % rows->repeat == 0) return;
    const auto said = [](const project::Multiple& one) {
        return fmt::format("{}{}", one.repeat, one.plus > 0 ? fmt::format(" + {}", one.plus) : "");
    };
    const std::string what = fmt::format("the rows of {} come out on a multiple of {}, and {} is ",
                                         base::quoted(piece.name), said(*rows), said(stated));
    if (!both)
        refuse(fitted, what + "none of them", fmt::format("a multiple of {}", said(*rows)),
               "Correct the multiple.");
    const auto below = both->at_most(fitted.stitches.taken);
    const std::int64_t above = both->at_least(fitted.stitches.taken);
    refuse(fitted, what + "stated",
           (below ? fmt::format("{} or ", *below) : std::string()) +
               fmt::format("{} stitches, which fit both", above),
           fmt::format("State multiple = \"{}\".", said(*both)));
}

/// `more` stitches than now, on which the rows do not come out.
[[noreturn]] void refuse_count(const Fitted& fitted, std::int64_t more, std::int64_t step) {
    if (fitted.stitches.from == MultipleFrom::stated) refuse_stated(fitted);
    const std::int64_t whole = fitted.stitches.now + more / step * step;
    refuse(
        fitted,
        fmt::format("the rows of {} do not come out on {} stitches",
                    base::quoted(fitted.project.pieces[fitted.piece].name), fitted.stitches.taken),
        fmt::format("{} or {} stitches", whole, whole + (more < 0 ? -step : step)), "");
}

}  // namespace

std::optional<project::Multiple> multiple_of_rows(const Project& project, const Piece& piece,
                                                  std::size_t size) {
    if (piece.written.empty()) return std::nullopt;
    const auto step = step_of(project, piece);
    const auto base = written_foundation(project, piece, size);
    if (!step || !base || step->foundation != step->stitches) return std::nullopt;
    const std::int64_t stitches = across(piece.pattern.at(size));
    project::Multiple out;
    out.repeat = step->stitches;
    out.plus = stitches % step->stitches;
    if (project.craft == project::Craft::crochet && *base >= stitches)
        out.foundation = *base - stitches;
    return out;
}

namespace {

/// The longest run of rows that come again and again, and what stands outside it.
std::optional<project::Multiple> repeat_in(const project::WorkedRows& rows) {
    const std::vector<std::uint32_t>& text = rows.text_of;
    const auto count = static_cast<std::int64_t>(text.size());
    std::int64_t best = 0;
    std::int64_t best_period = 0;
    for (std::int64_t period = 1; period <= std::min(longest_repeat, count / 2); ++period) {
        std::int64_t run = period;
        for (std::int64_t at = period; at < count; ++at) {
            const bool same =
                text[static_cast<std::size_t>(at)] == text[static_cast<std::size_t>(at - period)];
            run = same ? run + 1 : period;
            if (same && run >= 2 * period && run > best) {
                best = run;
                best_period = period;
            }
        }
    }
    if (best_period == 0) return std::nullopt;
    return project::Multiple{best_period, count - best_period * (best / best_period), std::nullopt};
}

}  // namespace

std::optional<project::Multiple> repeat_of_rows(const Project& /*project*/, const Piece& piece,
                                                std::size_t size) {
    return repeat_in(piece.pattern.at(size));
}

std::optional<std::int64_t> written_foundation(const Project& /*project*/, const Piece& piece,
                                               std::size_t size) {
    double count = 0.0;
    for (const project::KindCount& kind : piece.pattern.at(size).foundation.kinds)
        count += kind.count.value();
    if (count <= 0.0) return std::nullopt;
    return std::llround(count);
}

void stretch_written(Fitted& fitted) {
    Piece& piece = fitted.project.pieces[fitted.piece];
    const std::string name = base::quoted(piece.name);
    const auto options = options_of(fitted.project, piece);
    auto entries = entries_of(piece);
    if (entries.empty() && !piece.pattern.at(fitted.size).text_of.empty())
        refuse(
            fitted,
            fmt::format("the rows of {} stand in a whole pattern, which is not rewritten", name),
            "rows of its own, rows = [ ... ] in a [[piece]]",
            "Write its rows there, or its stitches and rows as numbers; \"largest\" and \"need\" "
            "answer it as it is.");
    if (entries.empty())
        refuse(fitted,
               fmt::format("of {} only counts are known, not how its rows are worked", name),
               "rows in notation", "Write its rows out, or its stitches and rows as numbers.");
    if (options.sizes > 1)
        refuse(fitted, fmt::format("the rows of {} are written for several sizes", name),
               "rows written for one size", "Take one of its sizes, or write that size alone.");
    project::WorkedRows rows = piece.pattern.at(fitted.size);
    const bool bound_off_apart =
        options.craft == project::Craft::knit && !piece.bind_off_rows.has_value();
    const auto without_bind_off = [&](project::WorkedRows all) {
        if (bound_off_apart) all.take_bind_off_out();
        return all;
    };
    if (fitted.stitches.taken != fitted.stitches.now) {
        const auto base = notation::foundation_count(entries, options);
        if (!base)
            refuse(fitted, fmt::format("{} does not begin with a counted foundation", name),
                   "a line such as \"Ch 122\" before row 1", "Say how many rows instead.");
        // Found once, as the multiple was.
        const bool alike = fitted.stitches.from != MultipleFrom::nobody;
        const auto step = alike ? std::optional(Step{fitted.stitches.multiple.repeat,
                                                     fitted.stitches.multiple.repeat})
                                : step_of(fitted.project, piece);
        if (!step)
            refuse(fitted, fmt::format("no other foundation of {} makes every row come out", name),
                   fmt::format("{} stitches, as it is", fitted.stitches.now),
                   "\"check\" says whether its rows agree with each other.");
        const std::int64_t more = fitted.stitches.taken - fitted.stitches.now;
        const std::int64_t count = *base + more * step->foundation / step->stitches;
        auto stretched = notation::with_foundation(entries, options, count);
        if (more % step->stitches != 0 || !stretched) refuse_count(fitted, more, step->stitches);
        entries = std::move(stretched->entries);
        rows = without_bind_off(std::move(stretched->rows));
    }
    if (fitted.rows.taken != fitted.rows.now) {
        // Of a mitten its body grows, not the few rounds behind the decreases.
        const auto repeat = repeat_in(rows);
        const std::int64_t bound_off =
            bound_off_apart && notation::work_rows(entries, options).rows.take_bind_off_out() ? 1
                                                                                              : 0;
        auto stretched =
            notation::with_rows(entries, options, fitted.rows.taken + bound_off,
                                [&](const project::WorkedRows& longer) {
                                    return repeat_in(without_bind_off(longer)) == repeat;
                                });
        if (!stretched)
            refuse(fitted,
                   fmt::format("nothing in the rows of {} can be repeated to make {}", name,
                               fitted.rows.taken),
                   fmt::format("{} rows, as it is", fitted.rows.now),
                   "Write the repeat as in \"Rows 3-96: rep rows 1 and 2\".");
        entries = std::move(stretched->entries);
        rows = without_bind_off(std::move(stretched->rows));
    }
    piece.written.clear();
    for (const notation::WrittenRows& entry : entries) piece.written.push_back(entry.text);
    fitted.change.written = piece.written;
    if (!rows.stripes.empty() && !piece.stripes.empty()) piece.stripes = rows.stripes;
    piece.pattern = project::PerSize<project::WorkedRows>(std::move(rows));
    piece.width = {};
    piece.length = {};
}

}  // namespace skeinfall::fit
