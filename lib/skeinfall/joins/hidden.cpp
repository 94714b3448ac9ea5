#include "skeinfall/joins/hidden.hpp"

#include <algorithm>
#include <cstdint>

namespace skeinfall::joins {
namespace {

using project::Edge;
using project::Hides;
using project::Piece;

bool sewn_up(const Piece& piece, bool right) {
    return piece.edge == Edge::seamed ||
           piece.edge == (right ? Edge::right_seamed : Edge::left_seamed);
}

std::int64_t rows_of(const project::Project& project, const Piece& piece, std::size_t size) {
    return static_cast<std::int64_t>(project::row_widths(project, piece, size).size());
}

/// What hides a join after so many rows of a piece, the last one worked to `share`.
std::optional<Hides> hidden_by(const Piece& piece, std::int64_t rows, double done,
                               bool at_row_end) {
    for (const project::HiddenRows& hidden : piece.joins.hidden) {
        const project::RowZone zone = project::zone_in(hidden, rows);
        if (done >= static_cast<double>(zone.first - 1) && done <= static_cast<double>(zone.last))
            return hidden.by;
    }
    // Row 1 ends at the left edge.
    const bool right = static_cast<std::int64_t>(done) % 2 == 0;
    if (at_row_end && piece.worked == project::Worked::flat && sewn_up(piece, right))
        return Hides::seam;
    return std::nullopt;
}

bool overlap(const project::RowZone& a, const project::RowZone& b) {
    return (b.last == 0 || a.first <= b.last) && (a.last == 0 || b.first <= a.last);
}

std::int64_t shown(const std::vector<JoinSeen>& joins) {
    return std::count_if(joins.begin(), joins.end(), [](const JoinSeen& join) { return !join.by; });
}

units::Length all_cut_off(const Answer& answer) {
    units::Length sum{};
    for (const RoleJoins& role : answer.roles) sum += cut_off(role.plan);
    return sum;
}

std::int64_t skeins_in(const Answer& answer) {
    std::int64_t count = 0;
    for (const RoleJoins& role : answer.roles)
        count += static_cast<std::int64_t>(role.plan.stretches.size());
    return count;
}

}  // namespace

std::vector<JoinSeen> joins_seen(const project::Project& project, const Answer& answer) {
    std::vector<JoinSeen> out;
    for (std::size_t role = 0; role < answer.roles.size(); ++role) {
        const JoinPlan& plan = answer.roles[role].plan;
        for (std::size_t at = 0; at + 1 < plan.stretches.size(); ++at) {
            const Position& end = plan.stretches[at].to;
            const bool row_end = end.share.value() <= 0.0;
            if (end.step >= plan.steps.size() || (row_end && end.step == 0)) continue;
            const need::Step& next = plan.steps[end.step];
            const need::Step& done = row_end ? plan.steps[end.step - 1] : next;
            const bool in_piece = next.name.empty() && done.name.empty() &&
                                  done.piece == next.piece && done.copy == next.copy &&
                                  next.row > 0 && done.row > 0 && !project.pieces.empty();
            if (!in_piece) continue;
            const Piece& piece = project.pieces[next.piece];
            const double rows = row_end ? static_cast<double>(done.row)
                                        : static_cast<double>(next.row - 1) + end.share.value();
            out.push_back(
                {role, at,
                 hidden_by(piece, rows_of(project, piece, answer.request.size), rows, row_end)});
        }
    }
    return out;
}

bool can_hide(const project::Project& project) {
    return std::any_of(project.pieces.begin(), project.pieces.end(), [](const Piece& piece) {
        return !piece.joins.hidden.empty() || piece.edge != Edge::visible;
    });
}

project::Project preferring_hidden(const project::Project& project, std::size_t size) {
    project::Project out = project;
    for (Piece& piece : out.pieces) {
        project::JoinPlaces& places = piece.joins;
        const std::int64_t rows = rows_of(project, piece, size);
        for (const project::HiddenRows& hidden : places.hidden) {
            const project::RowZone zone = project::zone_in(hidden, rows);
            if (std::none_of(places.keep_free.begin(), places.keep_free.end(),
                             [&](const auto& bad) { return overlap(zone, bad); }))
                places.prefer.push_back(zone);
        }
        if (places.at == project::JoinAt::edges && piece.edge != Edge::visible &&
            piece.worked == project::Worked::flat)
            places.at = project::JoinAt::seamed_side;
    }
    return out;
}

Hiding answer_hidden(const project::Project& project, const need::MakeNeed& make,
                     const BallsOfRoles& balls, const Request& request) {
    Answer plain = answer_joins(project, make, balls, request);
    const std::int64_t shown_before = shown(joins_seen(project, plain));
    HiddenCost cost{shown_before, shown_before, {}, 0, true};
    if (shown_before == 0) return {std::move(plain), cost};
    Answer hidden = answer_joins(preferring_hidden(project, request.size), make, balls, request);
    const bool worse = (is_sure(plain) && !is_sure(hidden)) ||
                       (plain.finishes && !hidden.finishes) ||
                       (plain.rules_kept && !hidden.rules_kept);
    const std::int64_t shown_after = shown(joins_seen(project, hidden));
    cost.lasts = !worse;
    if (worse || shown_after >= shown_before) return {std::move(plain), cost};
    cost.shown_after = shown_after;
    cost.cut_off = all_cut_off(hidden) - all_cut_off(plain);
    cost.skeins = skeins_in(hidden) - skeins_in(plain);
    return {std::move(hidden), cost};
}

}  // namespace skeinfall::joins
