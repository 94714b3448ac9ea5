#include "skeinfall/report/detail/make_drawing.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <numbers>
#include <optional>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/project/edging.hpp"
#include "skeinfall/report/detail/figures.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using units::Length;

/// A round piece that begins at its centre and whose last round is about as long as a flat figure's
/// edge lies flat. A yoke begins round a neck, and is drawn as the tube that it is.
bool lies_flat(const DrawnPiece& drawn, std::int64_t corners) {
    if (drawn.widths.size() < 2) return false;
    // A first round of a few stitches is no wider a hole than a row or two are high.
    constexpr double rows_across_the_hole = 4.0;
    const units::Length row = drawn.height / static_cast<double>(drawn.widths.size());
    if (drawn.widths.front() > rows_across_the_hole * std::numbers::pi * row) return false;
    const double edge = corners >= 3 ? 2.0 * static_cast<double>(corners) *
                                           std::tan(std::numbers::pi / static_cast<double>(corners))
                                     : 2.0 * std::numbers::pi;
    const double of_flat = drawn.widths.back() / (edge * drawn.height);
    constexpr double cups = 0.7;
    constexpr double ruffles = 1.4;
    return drawn.widths.back() > 1.5 * drawn.widths.front() && of_flat > cups && of_flat < ruffles;
}

DrawnPiece piece_of(const project::Project& project, const need::Step& step, std::size_t size) {
    const project::Piece& piece = project.pieces[step.piece];
    DrawnPiece out;
    out.piece = step.piece;
    out.copy = step.copy;
    out.copies = piece.count.stated() ? piece.count.at(size) : 1;
    out.name = base::shown_inert(piece.name);
    out.round = piece.worked == project::Worked::round;
    const project::Gauge& gauge = gauge_of(project, piece);
    for (const std::int64_t stitches : project::row_widths(project, piece, size))
        out.widths.push_back(static_cast<double>(stitches) * units::stitch / gauge.stitches);
    out.height = static_cast<double>(out.widths.size()) * units::row / gauge.rows;
    out.width = *std::max_element(out.widths.begin(), out.widths.end());
    const project::FinishedSize whole = project::finished_size(project, piece, size);
    if (piece.shape != nullptr && piece.shape->wings) out.lie = Lie::wings;
    if (piece.shape != nullptr && piece.shape->law == project::RowLaw::diagonal) {
        out.lie = Lie::blocks;
        out.blocks = project::blocks_of(piece, project::counts(project, piece, size), size);
    }
    if (out.lie != Lie::across) {
        out.width = whole.width;
        out.height = whole.length;
    }
    if (!out.round) return out;
    out.corners = piece.corners > 0        ? piece.corners
                  : piece.shape != nullptr ? piece.shape->corners
                                           : 0;
    out.from_centre =
        (piece.shape != nullptr && piece.shape->from_centre) || lies_flat(out, out.corners);
    out.width = out.from_centre ? 2.0 * out.height : 0.5 * out.width;
    return out;
}

/// The rounds of borders about a piece, where its sides are straight.
void add_border(const project::Project& project, std::size_t size, DrawnPiece& piece) {
    const auto whole = project::with_borders(project, piece.piece, size);
    if (piece.round || !whole) return;
    for (const project::FinishPart& part : project.finish) {
        if (!is_border_of(project, part, piece.piece, size)) continue;
        const auto role =
            std::find_if(project.roles.begin(), project.roles.end(),
                         [&](const project::Role& one) { return one.id == part.role; });
        for (std::int64_t round = 0; round < part.rounds.at(size); ++round)
            piece.border.push_back(static_cast<std::size_t>(role - project.roles.begin()));
    }
    piece.border_high = static_cast<double>(piece.border.size()) * units::row / project.gauge.rows;
    piece.width = whole->width;
    piece.height = whole->length;
}

/// The round of the border in which a join lies, counted over all of its parts; 0: in none.
std::int64_t border_round(const project::Project& project, std::size_t size,
                          const joins::JoinPlan& plan, const joins::Position& at) {
    const bool inside = at.share.value() > 0.0 && at.step < plan.steps.size();
    if (!inside && at.step == 0) return 0;
    const need::Step& step = plan.steps[inside ? at.step : at.step - 1];
    std::int64_t before = 0;
    for (const project::FinishPart& part : project.finish) {
        if (!is_border_of(project, part, 0, size)) continue;
        if (!step.name.empty() && part.name == step.name && part.role == step.role)
            return before + std::max<std::int64_t>(1, step.row);
        before += part.rounds.at(size);
    }
    return 0;
}

/// The yarn with most of a row; `yarns` are metres of each, and become the shares of the others.
std::size_t main_yarn(std::vector<YarnShare>& yarns, std::size_t otherwise) {
    if (yarns.empty()) return otherwise;
    double all = 0.0;
    for (const YarnShare& one : yarns) all += one.share;
    const auto most =
        std::max_element(yarns.begin(), yarns.end(),
                         [](const YarnShare& a, const YarnShare& b) { return a.share < b.share; });
    const std::size_t role = most->role;
    std::erase_if(yarns, [&](const YarnShare& one) { return one.role == role; });
    for (YarnShare& one : yarns) one.share = all > 0.0 ? one.share / all : 0.0;
    return role;
}

/// Where the yarns beside the main one lie in a row. Rows are worked from the right edge, every
/// second one of a flat piece from the left; of a tube the half that faces us is drawn.
std::vector<DrawnBlock> blocks_in_row(const project::Project& project, const DrawnPiece& piece,
                                      std::size_t row, std::size_t size) {
    const project::Piece& of = project.pieces[piece.piece];
    std::vector<DrawnBlock> out;
    if (!of.pattern.stated() || piece.others[row].empty()) return out;
    const project::RowWork& work = of.pattern.at(size).row(static_cast<std::int64_t>(row) + 1);
    double all = 0.0;
    for (const project::ColourWork& one : work.colours) all += one.stitches / units::stitch;
    const bool from_right = piece.round || row % 2 == 0;
    const double seen = piece.round ? 0.5 * all : all;
    for (const project::ColourWork& one : work.colours) {
        const auto role =
            std::find_if(project.roles.begin(), project.roles.end(),
                         [&](const project::Role& known) { return known.id == one.role; });
        if (role == project.roles.end()) continue;
        const auto index = static_cast<std::size_t>(role - project.roles.begin());
        if (index == piece.roles[row]) continue;
        for (const project::ColourBlock& block : one.blocks) {
            const double from = std::min(1.0, static_cast<double>(block.first) / seen);
            const double to = std::min(1.0, static_cast<double>(block.first + block.count) / seen);
            if (!(to > from)) continue;
            out.push_back(from_right ? DrawnBlock{index, 1.0 - to, 1.0 - from}
                                     : DrawnBlock{index, from, to});
        }
    }
    std::sort(out.begin(), out.end(),
              [](const DrawnBlock& a, const DrawnBlock& b) { return a.from < b.from; });
    return out;
}

/// Rows of its piece that are done at a place; nothing at the foundation or in a finishing part.
struct InPiece {
    std::size_t piece = 0;
    std::int64_t copy = 1;
    double rows = 0.0;
};

std::optional<InPiece> in_piece(const project::Project& project, const joins::JoinPlan& plan,
                                const joins::Position& at) {
    const bool inside = at.share.value() > 0.0 && at.step < plan.steps.size();
    if (!inside && at.step == 0) return std::nullopt;
    const need::Step& step = plan.steps[inside ? at.step : at.step - 1];
    if (!step.name.empty() || project.pieces.empty()) return std::nullopt;
    InPiece out{step.piece, step.copy, static_cast<double>(step.row)};
    switch (step.purpose) {
        case need::Purpose::body:
            if (inside) out.rows += at.share.value() - 1.0;
            return out;
        case need::Purpose::carried:
            out.rows -= 1.0;
            return out;
        case need::Purpose::foundation:
            out.rows = 0.0;
            return out;
        default:
            return std::nullopt;
    }
}

std::string join_words(const project::Project& project, const joins::JoinPlan& plan,
                       std::size_t stretch) {
    const joins::Stretch& one = plan.stretches[stretch];
    std::string out = fmt::format("{}: join {} {}", base::shown_inert(plan.role),
                                  base::shown_inert(plan.stretches[stretch + 1].ball.id),
                                  place_text(project, plan, one.to));
    if (one.earliest > 0 && one.earliest < one.to.step)
        out += "; weigh " + base::shown_inert(one.ball.id) + " from " +
               step_text(project, plan.steps[one.earliest - 1]) + " on";
    return out;
}

std::string measure_words(const DrawnPiece& piece) {
    const std::string wide = width_words(piece);
    return piece.from_centre ? wide : wide + ", " + ruler_text(piece.height) + " high";
}

}  // namespace

std::string width_words(const DrawnPiece& piece) {
    if (piece.from_centre) return ruler_text(piece.width) + " across";
    return piece.round ? ruler_text(2.0 * piece.width) + " around"
                       : ruler_text(piece.width) + " wide";
}

std::string make_words_of(const project::Project& project, const DrawnMake& make) {
    std::string out = make.size.empty() ? std::string() : "Size " + make.size + ". ";
    for (const DrawnField& field : make.fields) out += field_words(field) + ". ";
    for (const DrawnPiece& piece : make.pieces) {
        out += fmt::format("{}: {}", piece.name, measure_words(piece));
        std::vector<std::string> roles;
        const auto add = [&](std::size_t role) {
            const std::string id = base::shown_inert(project.roles[role].id);
            if (std::find(roles.begin(), roles.end(), id) == roles.end()) roles.push_back(id);
        };
        for (std::size_t row = 0; row < piece.roles.size(); ++row) {
            add(piece.roles[row]);
            for (const YarnShare& other : piece.others[row]) add(other.role);
        }
        for (const std::size_t role : piece.border) add(role);
        out += " in " + base::join(roles, ", ") + ". ";
    }
    for (const DrawnJoin& join : make.joins)
        out += fmt::format("{}. {}. ", join.number, join.words);
    return out;
}

std::string make_words(const project::Project& project, const need::MakeNeed& need,
                       const joins::Answer& answer) {
    return make_words_of(project, drawn_make(project, need, answer));
}

DrawnMake drawn_make(const project::Project& project, const need::MakeNeed& need,
                     const joins::Answer& answer) {
    DrawnMake out;
    std::map<std::pair<std::size_t, std::int64_t>, std::size_t> places;
    std::map<std::string, std::size_t, std::less<>> roles;
    out.used.resize(project.roles.size(), false);
    if (project.sizes.size() > 1 && need.size < project.sizes.size())
        out.size = base::shown_inert(project.sizes[need.size]);
    for (std::size_t i = 0; i < project.roles.size(); ++i) {
        roles[project.roles[i].id] = i;
        for (const need::RoleNeed& one : need.roles)
            if (one.role == project.roles[i].id) out.used[i] = true;
    }
    for (const need::Step& step : need.steps) {
        if (step.purpose != need::Purpose::body || !step.name.empty() || project.pieces.empty())
            continue;
        const auto [place, first] = places.try_emplace({step.piece, step.copy}, out.pieces.size());
        if (first) {
            out.pieces.push_back(piece_of(project, step, need.size));
            out.pieces.back().roles.assign(out.pieces.back().widths.size(), roles[step.role]);
            out.pieces.back().others.resize(out.pieces.back().widths.size());
        }
        DrawnPiece& piece = out.pieces[place->second];
        const auto row = static_cast<std::size_t>(step.row);
        if (row < 1 || row > piece.roles.size()) continue;
        piece.others[row - 1].push_back({roles[step.role], step.yarn / units::metre});
    }
    for (DrawnPiece& piece : out.pieces)
        for (std::size_t row = 0; row < piece.others.size(); ++row) {
            piece.roles[row] = main_yarn(piece.others[row], piece.roles[row]);
            piece.colour_blocks.push_back(blocks_in_row(project, piece, row, need.size));
        }
    for (DrawnPiece& piece : out.pieces) add_border(project, need.size, piece);
    for (const joins::RoleJoins& role : answer.roles)
        for (std::size_t i = 0; i + 1 < role.plan.stretches.size(); ++i) {
            const joins::JoinPlan& plan = role.plan;
            const joins::Stretch& stretch = plan.stretches[i];
            DrawnJoin join;
            join.number = out.joins.size() + 1;
            join.words = join_words(project, plan, i);
            join.shape = out.pieces.size();
            if (out.pieces.size() == 1 && !out.pieces[0].border.empty()) {
                join.border_round = border_round(project, need.size, plan, stretch.to);
                if (join.border_round > 0) join.shape = 0;
            }
            if (const auto at = in_piece(project, plan, stretch.to)) {
                const auto found = places.find({at->piece, at->copy});
                if (found != places.end()) join.shape = found->second;
                join.rows = join.weigh_from = join.latest = at->rows;
                const auto same = [&](const std::optional<InPiece>& other) {
                    return other && other->piece == at->piece && other->copy == at->copy;
                };
                const auto early = in_piece(project, plan, {stretch.earliest, {}});
                if (stretch.earliest > 0)
                    join.weigh_from = same(early) ? std::min(early->rows, at->rows) : 0.0;
                const auto late = in_piece(project, plan, {stretch.latest, {}});
                if (same(late)) join.latest = std::max(late->rows, at->rows);
            }
            out.joins.push_back(std::move(join));
        }
    out.fields = drawn_fields(project, need.size, out.pieces);
    // Copies that look alike and hold no join are drawn once, where there are many.
    constexpr std::size_t few = 6;
    if (out.pieces.size() <= few) {
        for (DrawnPiece& piece : out.pieces)
            if (piece.copies > 1) piece.name += " " + std::to_string(piece.copy);
        return out;
    }
    std::vector<bool> kept(out.pieces.size(), false);
    constexpr std::size_t most = 12;
    std::size_t count = 0;
    std::map<std::size_t, bool> seen;
    for (std::size_t i = 0; i < out.pieces.size(); ++i)
        if (!seen[out.pieces[i].piece]) seen[out.pieces[i].piece] = kept[i] = true;
    count = seen.size();
    constexpr std::size_t room_for = 48;
    for (std::size_t i = kept.size(); i-- > 0 && count > room_for;)
        if (kept[i]) {
            kept[i] = seen[out.pieces[i].piece] = false;
            --count;
        }
    for (const DrawnJoin& join : out.joins)
        if (join.shape < kept.size() && !kept[join.shape] && count < most) {
            kept[join.shape] = true;
            ++count;
        }
    std::vector<DrawnPiece> pieces;
    std::vector<std::size_t> moved(kept.size(), 0);
    for (std::size_t i = 0; i < kept.size(); ++i) {
        moved[i] = pieces.size();
        if (!kept[i]) {
            ++(seen[out.pieces[i].piece] ? out.left_out : out.no_room_for);
            continue;
        }
        DrawnPiece& piece = out.pieces[i];
        if (piece.copies > 1) piece.name += fmt::format(" {} of {}", piece.copy, piece.copies);
        pieces.push_back(std::move(piece));
    }
    for (DrawnJoin& join : out.joins)
        join.shape =
            join.shape < kept.size() && kept[join.shape] ? moved[join.shape] : pieces.size();
    out.pieces = std::move(pieces);
    return out;
}

}  // namespace skeinfall::report
