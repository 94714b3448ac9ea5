#include "skeinfall/colours/sequence.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <map>

#include <boost/math/distributions/normal.hpp>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"

namespace skeinfall::colours {

using units::Length;

Repeat stated_repeat(Length length) {
    return {length, length * usual_repeat_spread.value(), length * usual_repeat_spread.value(), 0};
}

Repeat measured_repeat(const std::vector<Length>& lengths) {
    const auto count = static_cast<double>(lengths.size());
    Length sum{};
    for (const Length& one : lengths) sum += one;
    Repeat out;
    out.mean = sum / count;
    out.measured = lengths.size();
    out.spread = out.mean * usual_repeat_spread.value();
    if (lengths.size() > 1) {
        double squares = 0.0;
        for (const Length& one : lengths) squares += std::pow((one - out.mean) / units::metre, 2.0);
        out.spread = std::sqrt(squares / (count - 1.0)) * units::metre;
    }
    out.spread_of_mean = out.spread / std::sqrt(count);
    return out;
}

joins::Runs scaled(const joins::Runs& runs, const Repeat& repeat) {
    joins::Runs out = runs;
    const double factor = repeat.mean / project::repeat_of(runs);
    for (project::ColourRun& run : out) run.length *= factor;
    return out;
}

std::optional<std::int64_t> unknown_after(Length run, const std::vector<Length>& rows,
                                          units::Ratio yarn_use, const Repeat& repeat,
                                          measure::Chance confidence) {
    const double z =
        boost::math::quantile(boost::math::normal(), 0.5 + 0.5 * confidence.value.value());
    Length done{};
    for (std::size_t row = 0; row < rows.size(); ++row) {
        done += rows[row];
        const double repeats = done / repeat.mean;
        const double off = std::hypot(
            std::hypot(done.value() * yarn_use.value(), repeat.spread_of_mean.value() * repeats),
            repeat.spread.value() * std::sqrt(repeats));
        if (z * off > 0.5 * run.value()) return static_cast<std::int64_t>(row);
    }
    return std::nullopt;
}

AlikeBands alike_bands(const joins::Runs& runs, Length widest_row,
                       const std::vector<Length>& rows) {
    AlikeBands out;
    if (rows.empty()) return out;
    Length all{};
    for (const Length& row : rows) all += row;
    const Length mean = all / static_cast<double>(rows.size());
    const Length repeat = project::repeat_of(runs);
    const double kept = mean / widest_row;
    if (kept >= 1.0 - 1e-9) return out;
    out.each_repeat = repeat * (1.0 - kept);
    const double repeats = all / (repeat * kept);
    out.in_all = out.each_repeat * repeats;
    out.joins = std::llround(std::floor(repeats * static_cast<double>(runs.size())));
    return out;
}

namespace {

/// What each piece takes in the role, row by row, in working order.
struct Worked {
    std::size_t piece = 0;
    std::int64_t copy = 1;
    Length before{};  ///< foundation
    std::vector<Length> rows;
    Length after{};
};

std::vector<Worked> worked_in(const need::MakeNeed& make, const std::string& role) {
    std::vector<Worked> out;
    for (const need::Step& step : make.steps) {
        if (step.role != role || !step.name.empty()) continue;
        if (out.empty() || out.back().piece != step.piece || out.back().copy != step.copy)
            out.push_back({step.piece, step.copy, {}, {}, {}});
        if (step.purpose == need::Purpose::body)
            out.back().rows.push_back(step.yarn);
        else
            (out.back().rows.empty() ? out.back().before : out.back().after) += step.yarn;
    }
    std::erase_if(out, [](const Worked& one) { return one.rows.empty(); });
    return out;
}

void look_for_pooling(const project::Project& project, const SequencePlan& plan,
                      const Worked& worked, SequencePiece& out) {
    const project::Piece& piece = project.pieces[out.piece];
    const std::vector<std::int64_t> widths = project::row_widths(project, piece, plan.wish.size);
    const bool even = std::all_of(widths.begin(), widths.end(),
                                  [&](std::int64_t width) { return width == widths.front(); });
    Length longest{};
    for (const project::ColourRun& run : plan.runs) longest = std::max(longest, run.length);
    if (!even || widths.front() < 1 || longest >= 2.0 * worked.rows.front()) return;
    const Length repeat = project::repeat_of(plan.runs);
    const Length stitch = worked.rows.front() / static_cast<double>(widths.front());
    out.pooling = joins::pooling_of(worked.rows.front(), repeat, piece.worked);
    out.pools = out.pooling.pattern != joins::Pattern::breaks_up;
    for (std::int64_t off = 1; out.pools && !out.differ_by && off <= widths.front(); ++off)
        for (const std::int64_t by : {off, -off})
            if (!out.differ_by && widths.front() + by > 0 &&
                joins::pooling_of(static_cast<double>(widths.front() + by) * stitch, repeat,
                                  piece.worked)
                        .pattern == joins::Pattern::breaks_up)
                out.differ_by = by;
}

}  // namespace

namespace {

/// The yarn, or why it cannot be planned so.
const project::Role& changing_role(const project::Project& project, const SequenceWish& wish) {
    const project::Role* role = project.role(wish.role);
    if (role != nullptr && !role->colours.empty()) return *role;
    throw base::InputError(base::Problem{
        "yarn " + base::shown_inert(wish.role) + " has no colours in the project file",
        project.place("yarn." + wish.role), "a yarn with \"colours\"",
        "Say colour_repeat = \"9 m\" and colours = [{ colour = \"sand\", share = \"40 %\" }, "
        "...]."});
}

/// The phase at which every piece is to begin.
std::optional<Length> wanted_phase(const project::Project& project, const SequenceWish& wish,
                                   const joins::Runs& runs) {
    if (!wish.colour) return std::nullopt;
    if (const auto phase = phase_of_colour(runs, *wish.colour)) return phase;
    std::vector<std::string> names;
    for (const project::ColourRun& run : runs) names.push_back(run.colour);
    throw base::InputError(base::Problem{base::quoted(*wish.colour) + " is none of its colours",
                                         project.place("yarn." + wish.role, "colours"),
                                         base::join(names, ", "), ""});
}

}  // namespace

SequencePlan plan_sequence(const project::Project& project, const SequenceWish& wish) {
    SequencePlan out;
    out.wish = wish;
    out.runs = scaled(changing_role(project, wish).colours, wish.repeat);
    const Length repeat = project::repeat_of(out.runs);
    const std::optional<Length> wanted = wanted_phase(project, wish, out.runs);
    const need::MakeNeed make = need::need_of(project, wish.size);
    const auto need = std::find_if(make.roles.begin(), make.roles.end(),
                                   [&](const auto& one) { return one.role == wish.role; });
    const std::vector<Worked> pieces = worked_in(make, wish.role);
    if (pieces.empty())
        throw base::InputError(
            base::Problem{"yarn " + base::shown_inert(wish.role) + " is in no piece",
                          project.place("yarn." + wish.role), "a [[piece]] worked in it", ""});
    Length widest{};  // its mean row: a shape is not held against its own widest row
    for (const Worked& one : pieces) {
        Length all{};
        for (const Length& row : one.rows) all += row;
        if (!one.rows.empty())
            widest = std::max(widest, Length(all / static_cast<double>(one.rows.size())));
    }
    Length shortest = repeat;
    Length longest{};
    for (const project::ColourRun& run : out.runs) {
        shortest = std::min(shortest, run.length);
        longest = std::max(longest, run.length);
    }

    Length at = wish.begins.value_or(Length{}) + wish.tail;  // the tail is in no stitch
    if (wanted && !wish.begins) out.at_most = repeat;
    std::vector<Length> since;  // rows since the place in the repeat was last seen
    for (const Worked& one : pieces) {
        SequencePiece piece;
        piece.piece = one.piece;
        piece.copy = one.copy;
        if (wanted) {
            if (wish.begins || !out.pieces.empty())
                piece.wound_off = joins::phase_of(*wanted - at, repeat);
            at = *wanted;
            since.clear();  // winding off to a colour shows where it is
        }
        at += one.before;
        piece.start = joins::phase_of(at, repeat);
        piece.stripes = joins::colour_stripes(
            out.runs, piece.start, one.rows,
            1.0 * units::row / gauge_of(project, project.pieces[one.piece]).rows);
        const std::size_t before = since.size();
        since.insert(since.end(), one.rows.begin(), one.rows.end());
        const auto known = [&](Length run) -> std::optional<std::int64_t> {
            const auto rows =
                unknown_after(run, since, need->length.relative(), wish.repeat, wish.confidence);
            if (!rows) return std::nullopt;
            return std::max<std::int64_t>(0, *rows - static_cast<std::int64_t>(before));
        };
        piece.unknown_after = known(shortest);
        piece.longest_unknown_after = known(longest);
        piece.alike = alike_bands(out.runs, widest, one.rows);
        look_for_pooling(project, out, one, piece);
        Length used = one.before + one.after;
        for (const Length& row : one.rows) used += row;
        for (const Length& row : one.rows) at += row;
        at += one.after;
        out.wound_off += piece.wound_off;
        out.takes += used + piece.wound_off;
        out.pieces.push_back(std::move(piece));
    }
    out.takes += 2.0 * wish.tail + (wish.begins ? Length{} : out.at_most);
    return out;
}

}  // namespace skeinfall::colours
