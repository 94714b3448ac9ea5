#include "skeinfall/fit/detail/seamless.hpp"

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <functional>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/fit/detail/law.hpp"

namespace skeinfall::fit {
namespace {

using project::Multiple;
using project::Piece;
using project::PieceCounts;
using project::Project;

std::int64_t first_stitches(const Project& project, std::size_t piece, std::size_t size) {
    const auto widths = project::row_widths(project, project.pieces[piece], size);
    return widths.empty() ? 0 : widths.front();
}

std::int64_t last_stitches(const Project& project, std::size_t piece, std::size_t size) {
    const auto widths = project::row_widths(project, project.pieces[piece], size);
    return widths.empty() ? 0 : widths.back();
}

bool on_live_stitches(const Piece& piece) {
    return piece.foundation_rows && piece.foundation_rows->value() <= 0.0;
}

std::int64_t copies_made(const Piece& piece, std::size_t size) {
    return piece.count.stated() ? piece.count.at(size) : 1;
}

}  // namespace

bool goes_on(const Project& project, std::size_t piece, std::size_t size) {
    if (piece == 0 || piece >= project.pieces.size()) return false;
    const Piece& one = project.pieces[piece];
    return on_live_stitches(one) &&
           copies_made(one, size) == copies_made(project.pieces[piece - 1], size) &&
           first_stitches(project, piece, size) == last_stitches(project, piece - 1, size);
}

namespace {

/// Rounds of a piece in another number: what it then ends with.
std::int64_t ends_with(const Project& project, const Piece& piece, std::size_t size,
                       std::int64_t rows) {
    Piece tried = piece;
    tried.rows = project::PerSize<std::int64_t>(rows);
    tried.length = {};
    tried.width = {};
    return project::stitches_in_row(project::counts(project, tried, size), tried, rows);
}

/// So many more rounds are looked at.
constexpr std::int64_t most_more_rounds = 20'000;

/// The rounds of a figure from its centre that end with so many stitches: as far behind an increase
/// as now, where that can be.
std::optional<std::int64_t> rounds_that_end(const Project& project, const Piece& piece,
                                            std::size_t size, std::int64_t wanted) {
    const PieceCounts now = project::counts(project, piece, size);
    std::optional<std::int64_t> best;
    const auto worse = [&](std::int64_t rows) {
        return std::pair((rows - now.rows) % std::max<std::int64_t>(1, now.every) != 0,
                         std::abs(rows - now.rows));
    };
    for (std::int64_t rows = 1; rows <= now.rows + most_more_rounds; ++rows) {
        const std::int64_t last = ends_with(project, piece, size, rows);
        if (last > wanted) break;
        if (last == wanted && (!best || worse(rows) < worse(*best))) best = rows;
    }
    return best;
}

/// Rounds of `piece` on either side of those it has, after which `fits` its last stitches.
std::string rounds_that_fit(const Project& project, const Piece& piece, std::size_t size,
                            const std::function<bool(std::int64_t)>& fits) {
    const std::int64_t now = project::counts(project, piece, size).rows;
    constexpr std::int64_t far = 500;
    std::vector<std::string> out;
    const auto look = [&](std::int64_t step) {
        for (std::int64_t rows = now + step; rows >= 1 && std::abs(rows - now) <= far;
             rows += step) {
            const std::int64_t last = ends_with(project, piece, size, rows);
            if (last < 1 || !fits(last)) continue;
            out.push_back(fmt::format("{} {}s, which end with {} stitches", rows,
                                      project::row_word(piece.worked), last));
            return;
        }
    };
    look(-1);
    look(1);
    return base::join(out, ", or ");
}

[[noreturn]] void refuse_meeting(const Fitted& out, std::size_t other, std::string what,
                                 std::string expected) {
    throw base::InputError(base::Problem{
        std::move(what), out.project.place(fmt::format("piece.{}", other), "foundation_rows"),
        std::move(expected), "One goes on from the stitches of the other."});
}

void take_over(Fitted& out, Fitted followed) {
    const std::size_t at = followed.piece;
    Followed one;
    one.piece = at;
    one.was = project::counts(out.project, out.project.pieces[at], out.size);
    one.now = project::counts(followed.project, followed.project.pieces[at], out.size);
    one.ends_with = last_stitches(followed.project, at, out.size);
    one.change = std::move(followed.change);
    out.followed.push_back(std::move(one));
    out.project = std::move(followed.project);
}

/// The piece fitted so that it has so many stitches where it meets the other one.
std::optional<Fitted> fitted_to_meet(const Fitted& out, std::size_t at, const Wish& wish,
                                     std::int64_t wanted,
                                     std::int64_t (*meets)(const Project&, std::size_t,
                                                           std::size_t)) {
    try {
        Fitted one = fit_alone(out.project, at, out.size, wish, Take::nearest);
        if (meets(one.project, at, out.size) == wanted) return one;
    } catch (const base::InputError&) {
        return std::nullopt;  // its rows do not come out: the caller says what does
    }
    return std::nullopt;
}

/// The piece before ends with so many stitches.
void end_with(Fitted& out, std::size_t at, std::int64_t wanted) {
    const Piece& piece = out.project.pieces[at];
    const std::int64_t last = last_stitches(out.project, at, out.size);
    const bool centre = project::grows_from_centre(out.project, piece, out.size);
    Wish wish;
    if (centre)
        wish.rows = rounds_that_end(out.project, piece, out.size, wanted);
    else
        wish.stitches = first_stitches(out.project, at, out.size) + wanted - last;
    if (wish.rows || wish.stitches)
        if (auto one = fitted_to_meet(out, at, wish, wanted, last_stitches))
            return take_over(out, std::move(*one));
    std::string others;
    if (centre && !piece.pattern.stated())
        others = rounds_that_fit(out.project, piece, out.size, [](std::int64_t) { return true; });
    refuse_meeting(
        out, at + 1,
        fmt::format("{} goes on from {}, and that cannot end with {} stitches",
                    base::quoted(out.project.pieces[at + 1].name), base::quoted(piece.name),
                    wanted),
        fmt::format(
            "{} stitches, as it is{}", last,
            others.empty() ? "" : fmt::format("; or of {} {}", base::quoted(piece.name), others)));
}

/// The piece behind begins with so many stitches.
void begin_with(Fitted& out, std::size_t at, std::int64_t wanted) {
    Wish wish;
    wish.stitches = wanted;
    if (auto one = fitted_to_meet(out, at, wish, wanted, first_stitches))
        return take_over(out, std::move(*one));
    const Piece& before = out.project.pieces[at - 1];
    std::string others;
    if (at - 1 == out.piece && out.rows.wished && !before.pattern.stated())
        others = rounds_that_fit(out.project, before, out.size, [&](std::int64_t last) {
            Wish tried;
            tried.stitches = last;
            return fitted_to_meet(out, at, tried, last, first_stitches).has_value();
        });
    refuse_meeting(
        out, at,
        fmt::format("{} goes on from {}, and cannot begin with {} stitches",
                    base::quoted(out.project.pieces[at].name), base::quoted(before.name), wanted),
        others.empty()
            ? fmt::format("{} stitches, as it is", first_stitches(out.project, at, out.size))
            : others);
}

}  // namespace

bool meets_others(const Project& project, std::size_t piece, std::size_t size) {
    return goes_on(project, piece, size) || goes_on(project, piece + 1, size);
}

std::optional<Multiple> multiple_before(const Project& project, std::size_t piece,
                                        std::size_t size) {
    if (!goes_on(project, piece, size)) return std::nullopt;
    const Piece& before = project.pieces[piece - 1];
    const PieceCounts counts = project::counts(project, before, size);
    Multiple out;
    if (project::grows_from_centre(project, before, size)) {
        const bool by_increase = law_of(before) == project::RowLaw::growing &&
                                 counts.flat.value() <= 0.0 && counts.last == 0 &&
                                 (before.shape == nullptr || before.shape->group.empty());
        if (!by_increase || counts.increase < 2) return std::nullopt;
        out.repeat = counts.increase;
        out.plus = counts.stitches % counts.increase;
        return out;
    }
    const Multiple own = stitch_multiple(project, before, size).multiple;
    if (own.repeat < 2) return std::nullopt;
    const std::int64_t more =
        last_stitches(project, piece - 1, size) - first_stitches(project, piece - 1, size);
    out.repeat = own.repeat;
    out.plus = ((own.plus + more) % own.repeat + own.repeat) % own.repeat;
    return out;
}

void follow_pieces(const Project& before, Fitted& out) {
    const std::size_t size = out.size;
    const std::int64_t first_was = first_stitches(before, out.piece, size);
    if (out.piece > 0 && on_live_stitches(before.pieces[out.piece]) &&
        !goes_on(before, out.piece, size) &&
        first_stitches(out.project, out.piece, size) != first_was)
        out.on_live_stitches.push_back(before.pieces[out.piece].name);
    for (std::size_t at = out.piece; goes_on(before, at, size); --at) {
        const std::int64_t wanted = first_stitches(out.project, at, size);
        if (last_stitches(out.project, at - 1, size) == wanted) break;
        end_with(out, at - 1, wanted);
    }
    for (std::size_t at = out.piece + 1; at < before.pieces.size(); ++at) {
        const std::int64_t wanted = last_stitches(out.project, at - 1, size);
        if (wanted == last_stitches(before, at - 1, size)) break;
        if (!goes_on(before, at, size)) {
            if (on_live_stitches(before.pieces[at]))
                out.on_live_stitches.push_back(before.pieces[at].name);
            break;
        }
        begin_with(out, at, wanted);
    }
}

}  // namespace skeinfall::fit
