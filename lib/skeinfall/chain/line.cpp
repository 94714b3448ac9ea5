#include "skeinfall/chain/detail/line.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace skeinfall::chain {
namespace {

using project::JoinAt;
using units::Length;

constexpr int eighths = 8;

bool in_row(const need::Step& step) {
    return step.purpose == need::Purpose::body || step.purpose == need::Purpose::carried ||
           step.purpose == need::Purpose::foundation || step.purpose == need::Purpose::bind_off;
}

/// Of the same edging.
bool next_round(const need::Step& before, const need::Step& step) {
    return step.row == before.row + 1 && step.row > 1 && step.name == before.name;
}

/// Rows of its piece that are done when a step is done.
std::int64_t rows_done(const need::Step& step) {
    return step.purpose == need::Purpose::carried ? step.row - 1 : step.row;
}

bool right_side(const project::Piece& piece, bool right) {
    using project::Edge;
    return piece.edge == Edge::seamed ||
           piece.edge == (right ? Edge::right_seamed : Edge::left_seamed);
}

/// Whether yarn may be joined at the row end that is reached after so many rows.
bool edge_permits(const project::Piece& piece, std::int64_t rows) {
    if (piece.worked == project::Worked::round) return true;
    const bool right = rows % 2 == 0;
    switch (piece.joins.at) {
        case JoinAt::left_edge:
            return !right;
        case JoinAt::right_edge:
            return right;
        case JoinAt::seamed_side:
            return right_side(piece, right);
        case JoinAt::stitches:
            return false;
        default:
            return true;
    }
}

bool strictly_in(const project::RowZone& zone, double rows) {
    return rows > static_cast<double>(zone.first - 1) &&
           (zone.last == 0 || rows < static_cast<double>(zone.last));
}

bool touches(const project::RowZone& zone, double rows) {
    return rows >= static_cast<double>(zone.first - 1) &&
           (zone.last == 0 || rows <= static_cast<double>(zone.last));
}

}  // namespace

Quanta to_nearest(Length length) {
    return std::llround(length / units::millimetre);
}

Quanta rounded_down(Length length) {
    constexpr double noise = 1e-6;
    return static_cast<Quanta>(std::floor(length / units::millimetre + noise));
}

Length length_of(Quanta quanta) {
    return static_cast<double>(quanta) * units::millimetre;
}

Line::Line(const project::Project* project, const std::vector<need::Step>& steps,
           const Rules& rules, Quanta extra, bool grid, bool keep_zones)
    : grid_(grid), keep_zones_(keep_zones) {
    Length sum = length_of(extra);
    for (std::size_t i = 0; i < steps.size(); ++i) {
        sum += steps[i].yarn;
        longest_step_ = std::max(longest_step_, steps[i].yarn);
        if (i + 1 == steps.size()) sum += length_of(extra);
        sums_.push_back(to_nearest(sum));  // not step by step, or a long piece would drift
        const bool new_block = i == 0 || in_row(steps[i]) != in_row(steps[i - 1]) ||
                               (!in_row(steps[i]) && !next_round(steps[i - 1], steps[i])) ||
                               steps[i].piece != steps[i - 1].piece ||
                               steps[i].copy != steps[i - 1].copy;
        blocks_.push_back(i == 0 ? 0 : blocks_.back() + (new_block ? 1 : 0));
    }
    lay(project, steps, rules);
}

void Line::add_spot(Spot spot) {
    if (spot.at <= 0 || spot.at >= total()) return;
    if (!spots_.empty() && spots_.back().at == spot.at) {
        if (spots_.back().marks <= spot.marks) return;
        spots_.pop_back();
    }
    if (spot.marks > 0 || spot.column >= 0) plain_ = false;
    spots_.push_back(spot);
}

void Line::lay(const project::Project* project, const std::vector<need::Step>& steps,
               const Rules& rules) {
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const need::Step& step = steps[i];
        // A strand that was carried up is worked with: the new skein begins in its stead.
        if (step.purpose == need::Purpose::carried) continue;
        lay_inside(project, step, i, rules);
        const bool between_blocks = i + 1 < steps.size() && blocks_[i + 1] != blocks_[i];
        Spot spot{sums_[i + 1], blocks_[i], static_cast<double>(rows_done(step)), 0, -1, i + 1};
        if (between_blocks || project == nullptr || project->pieces.empty() || !in_row(step)) {
            add_spot(spot);
            continue;
        }
        const project::Piece& piece = project->pieces[step.piece];
        const project::JoinPlaces& places = piece.joins;
        const auto barred =
            std::any_of(places.keep_free.begin(), places.keep_free.end(),
                        [&](const project::RowZone& zone) { return strictly_in(zone, spot.row); });
        if (places.at == JoinAt::spread) spot.column = 0;
        if (barred) barred_.push_back({spot.at, spot.at});
        if (barred && keep_zones_) continue;
        if (rules.where == Where::as_pieces_say && !edge_permits(piece, rows_done(step))) continue;
        if (!places.prefer.empty() &&
            std::none_of(places.prefer.begin(), places.prefer.end(),
                         [&](const project::RowZone& zone) { return touches(zone, spot.row); }))
            spot.marks += 2;
        // Where both are permitted, a seam hides a join best, and an open edge worst.
        if (rules.where == Where::as_pieces_say && places.at == JoinAt::anywhere &&
            piece.worked == project::Worked::flat && !right_side(piece, rows_done(step) % 2 == 0))
            spot.marks += 1;
        add_spot(spot);
    }
}

void Line::lay_inside(const project::Project* project, const need::Step& step, std::size_t index,
                      const Rules& rules) {
    using need::Purpose;
    const Quanta from = sums_[index];
    const Quanta to = sums_[index + 1];
    const auto at_share = [&](double share) {
        return from + std::llround(share * static_cast<double>(to - from));
    };
    std::vector<std::pair<double, int>> shares;  // along the step, and the column there
    // A finish of many short strands or seams is begun anew wherever one of them ends.
    bool open = rules.where == Where::anywhere || step.purpose == Purpose::seam ||
                step.purpose == Purpose::fringe || step.purpose == Purpose::joining ||
                step.purpose == Purpose::tassel || step.purpose == Purpose::pompom;
    int marks = 0;
    const project::Piece* piece = nullptr;
    if (project != nullptr && !project->pieces.empty() && step.purpose == Purpose::body &&
        step.row > 0) {
        piece = &project->pieces[step.piece];
        const bool say = rules.where == Where::as_pieces_say;
        if (say && piece->joins.at == JoinAt::anywhere) {
            open = true;
            marks = piece->edge == project::Edge::visible || piece->worked == project::Worked::round
                        ? 0
                        : 1;
        }
        if (say && piece->joins.at == JoinAt::spread)
            for (int i = 1; i < eighths; ++i) shares.emplace_back(i / double{eighths}, i);
        if (say && piece->joins.at == JoinAt::stitches) {
            std::vector<std::int64_t>& widths = widths_[step.piece];
            if (widths.empty()) widths = project::row_widths(*project, *piece, rules.size);
            const auto count = static_cast<double>(widths[static_cast<std::size_t>(step.row - 1)]);
            const bool back = piece->worked == project::Worked::flat && step.row % 2 == 0;
            for (const std::int64_t stitch : piece->joins.stitches) {
                const double share = static_cast<double>(stitch) / count;
                if (count > 0 && share >= 0.0 && share < 1.0)
                    shares.emplace_back(back ? 1.0 - share : share, -1);
            }
            std::sort(shares.begin(), shares.end());
        }
    }
    const double rows =
        static_cast<double>(rows_done(step)) - (in_row(step) || step.row > 0 ? 1.0 : 0.0);
    const auto zone_of = [&](const std::vector<project::RowZone>& zones, double row) {
        return std::any_of(zones.begin(), zones.end(),
                           [&](const project::RowZone& zone) { return strictly_in(zone, row); });
    };
    const bool barred = piece != nullptr && zone_of(piece->joins.keep_free, rows + 0.5);
    if (barred) barred_.push_back({from + 1, to - 1});
    if (barred && keep_zones_) return;
    if (piece != nullptr && !piece->joins.prefer.empty() &&
        !zone_of(piece->joins.prefer, rows + 0.5))
        marks += 2;
    if (open && !grid_) {
        if (marks > 0) plain_ = false;
        if (!open_.empty() && open_.back().to == from)
            open_.back().to = to;
        else
            open_.push_back({from, to});
        return;
    }
    if (open)
        for (int i = 1; i < eighths; ++i) shares.emplace_back(i / double{eighths}, -1);
    for (const auto& [share, column] : shares)
        add_spot({at_share(share), blocks_[index], rows + share, marks, column, index});
}

Quanta Line::farthest(Quanta from, Quanta reach) const {
    if (reach >= total()) return total();
    Quanta best = from;
    const auto beyond = std::upper_bound(spots_.begin(), spots_.end(), reach,
                                         [](Quanta at, const Spot& spot) { return at < spot.at; });
    if (beyond != spots_.begin()) best = std::max(best, std::prev(beyond)->at);
    const auto stretch =
        std::upper_bound(open_.begin(), open_.end(), reach,
                         [](Quanta at, const Open& open) { return at < open.from; });
    if (stretch != open_.begin()) best = std::max(best, std::min(reach, std::prev(stretch)->to));
    return best;
}

Quanta Line::farthest_apart(Quanta from) const {
    Quanta most = from < total() ? total() - farthest(0, total() - 1) : 0;
    for (const Spot& spot : spots_)
        if (spot.at > from) most = std::max(most, spot.at - farthest(0, spot.at - 1));
    return most;
}

Position Line::position(Quanta at) const {
    const auto next = std::upper_bound(sums_.begin(), sums_.end(), at);
    const auto step = static_cast<std::size_t>(std::distance(sums_.begin(), next)) - 1;
    if (next == sums_.end()) return {sums_.size() - 1, units::Ratio(0.0)};
    const Quanta into = at - sums_[step];
    return {step, units::Ratio(static_cast<double>(into) /
                               static_cast<double>(sums_[step + 1] - sums_[step]))};
}

bool Line::all_open() const {
    return open_.size() == 1 && open_.front().from == 0 && open_.front().to == total();
}

bool Line::rows_open(const std::vector<need::Step>& steps) const {
    bool any = false;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (steps[i].purpose != need::Purpose::body || sums_[i] == sums_[i + 1]) continue;
        const auto after =
            std::upper_bound(open_.begin(), open_.end(), sums_[i],
                             [](Quanta at, const Open& stretch) { return at < stretch.from; });
        if (after == open_.begin() || std::prev(after)->to < sums_[i + 1]) return false;
        any = true;
    }
    return any;
}

Line::Links Line::links(units::Ratio row_to_row) const {
    constexpr int parts = 16;
    std::vector<Quanta> ends;
    ends.reserve(spots_.size() + 1);
    for (const Spot& spot : spots_) ends.push_back(spot.at);
    ends.push_back(total());
    for (const Open& open : open_) {
        const auto begin = std::lower_bound(sums_.begin(), sums_.end(), open.from);
        auto step = static_cast<std::size_t>(std::distance(sums_.begin(), begin));
        if (step > 0) --step;
        for (; step + 1 < sums_.size() && sums_[step] <= open.to; ++step)
            for (int part = 0; part <= parts; ++part) {
                const Quanta at = sums_[step] + (sums_[step + 1] - sums_[step]) * part / parts;
                if (at > 0 && at >= open.from && at <= open.to) ends.push_back(at);
            }
    }
    std::sort(ends.begin(), ends.end());
    ends.erase(std::unique(ends.begin(), ends.end()), ends.end());
    Links out;
    Quanta from = 0;
    std::size_t step = 0;
    for (const Quanta to : ends) {
        double squares = 0.0;
        while (step + 1 < sums_.size()) {
            const double whole = static_cast<double>(sums_[step + 1] - sums_[step]);
            const double worked =
                static_cast<double>(std::min(to, sums_[step + 1]) - std::max(from, sums_[step]));
            if (whole > 0.0) squares += worked * whole;
            if (sums_[step + 1] > to) break;
            ++step;
        }
        out.links.push_back(
            {length_of(to - from), row_to_row.value() * std::sqrt(squares) * units::millimetre});
        out.ends.push_back(to);
        from = to;
    }
    return out;
}

Length Line::mean_link(const Links& chain) const {
    if (total() <= 0) return {};
    double squares = 0.0;
    Length longest{};
    for (const Link& one : chain.links) {
        squares += one.yarn.value() * one.yarn.value();
        longest = std::max(longest, one.yarn);
    }
    // No skein ends within a zone without joins by chance: what lies there is planned around.
    constexpr double zone = 3.0;
    const double links = static_cast<double>(std::max<std::size_t>(1, chain.links.size()));
    if (longest > zone * longest_step_) return length_of(total()) / links;
    return squares * units::metre / length_of(total()).value();
}

std::size_t Line::zones_broken(Quanta at) const {
    return static_cast<std::size_t>(
        std::count_if(barred_.begin(), barred_.end(),
                      [&](const Open& zone) { return at >= zone.from && at <= zone.to; }));
}

}  // namespace skeinfall::chain
