#include "skeinfall/colours/detail/takes.hpp"

#include <algorithm>
#include <cstdint>
#include <map>
#include <set>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/candidates.hpp"

namespace skeinfall::colours {
namespace {

using units::Length;

/// The most that a role may need, spread with it, and still be covered with yarn joined anywhere.
Length most_needed(const project::Role& role, const need::RoleNeed& need, Length has,
                   const std::vector<stash::Skein>& stash, const cover::Rules& rules) {
    constexpr int halvings = 16;
    double low = 0.0;
    double high = need.length.centre > Length{} ? 1.05 * double{has / need.length.centre} : 0.0;
    for (int i = 0; i < halvings; ++i) {
        const double factor = 0.5 * (low + high);
        need::RoleNeed scaled = need;
        scaled.length = {factor * need.length.centre, factor * need.length.spread};
        const cover::RoleCover cover = cover::cover_role(role, scaled, stash, rules);
        (cover.verdict == cover::Verdict::covered ? low : high) = factor;
    }
    // Other heights change the band a little.
    constexpr double slack = 1.01;
    return slack * high * need.length.centre;
}

}  // namespace

Length of_fitting(const project::Role& role, const std::vector<cover::Candidate>& candidates,
                  Length ends) {
    std::map<std::string, Length> lots;
    Length all{};
    Length most{};
    for (const cover::Candidate& one : candidates) {
        if (!one.supply) continue;
        const Length usable = std::max(Length{}, one.supply->length - ends);
        all += usable;
        Length& of_lot = lots[stash::lot_key(*one.skein)];
        of_lot += usable;
        most = std::max(most, of_lot);
    }
    return role.one_lot ? most : all;
}

project::Project striped(const project::Project& project, const Wish& wish,
                         const std::vector<Stripes>& stripes) {
    project::Project out = project;
    for (std::size_t i = 0; i < wish.pieces.size(); ++i) {
        project::Piece& piece = out.pieces[wish.pieces[i]];
        piece.stripes = stripes[i];
        piece.role.clear();
    }
    return out;
}

namespace {

/// The make with every row in one yarn, as far as that yarn is concerned: what only finishing parts
/// of others take is not asked about.
project::Project all_in(const project::Project& project, const Wish& wish, const std::string& id) {
    project::Project out =
        striped(project, wish, std::vector<Stripes>(wish.pieces.size(), Stripes{{id, 1}}));
    std::set<std::string> worked;
    for (const project::Row& row : project::row_sequence(out, wish.size)) worked.insert(row.role);
    std::erase_if(out.finish, [&](const project::FinishPart& part) {
        return part.role != id && !worked.contains(part.role);
    });
    return out;
}

}  // namespace

Takes::Takes(const project::Project& project, const std::vector<stash::Skein>& stash,
             const cover::Rules& rules, const Wish& wish) {
    for (const project::Stripe& stripe : wish.wanted)
        if (std::find(roles_.begin(), roles_.end(), stripe.role) == roles_.end())
            roles_.push_back(stripe.role);
    if (wish.edge && std::find(roles_.begin(), roles_.end(), wish.edge->role) == roles_.end())
        roles_.push_back(wish.edge->role);
    for (const std::size_t piece : wish.pieces)
        rows_.push_back(project::counts(project, project.pieces[piece], wish.size).rows);
    for (const std::string& id : roles_) {
        const need::MakeNeed make = need::need_of(all_in(project, wish, id), wish.size);
        const auto need = std::find_if(make.roles.begin(), make.roles.end(),
                                       [&](const auto& one) { return one.role == id; });
        std::vector<std::vector<Length>> rows;
        for (const std::int64_t count : rows_) rows.emplace_back(static_cast<std::size_t>(count));
        Length beside{};
        for (const need::Step& step : make.steps) {
            if (step.role != id) continue;
            const auto at = std::find(wish.pieces.begin(), wish.pieces.end(), step.piece);
            const bool in_piece = step.name.empty() && at != wish.pieces.end();
            if (!in_piece)
                beside += step.yarn;
            else if (step.purpose == need::Purpose::body)
                rows[static_cast<std::size_t>(at - wish.pieces.begin())].at(
                    static_cast<std::size_t>(step.row - 1)) += step.yarn;
        }
        const project::Role& role = *project.role(id);
        const Length has = of_fitting(
            role,
            cover::candidates_for(role, 2.0 * rules.tail, stash, rules.project, project.made_for),
            2.0 * rules.tail);
        Length least = rows.front().front();
        for (const auto& piece : rows)
            for (const Length& row : piece) least = std::min(least, row);
        if (has < least)
            throw base::InputError(base::Problem{
                "yarn " + base::shown_inert(id) +
                    (has > Length{} ? " holds less than one row"
                                    : " has no skein in the stash that is free for it"),
                project.place("yarn." + id), "yarn for at least a row of every colour",
                "Leave it out of the stripes, or add the skein you have of it to the stash."});
        has_.push_back(has);
        most_.push_back(most_needed(role, *need, has, stash, rules));
        spread_.push_back(need->length.relative());
        beside_.push_back(beside);
        row_.push_back(std::move(rows));
    }
}

std::size_t Takes::colour(const std::string& role) const {
    return static_cast<std::size_t>(std::find(roles_.begin(), roles_.end(), role) - roles_.begin());
}

Length Takes::mean_row(std::size_t colour) const {
    Length sum{};
    double rows = 0.0;
    for (const auto& piece : row_[colour])
        for (const Length& row : piece) {
            sum += row;
            rows += 1.0;
        }
    return sum / rows;
}

std::int64_t Takes::rows_at_most(std::size_t colour) const {
    Length least = row_[colour].front().front();
    for (const auto& piece : row_[colour])
        for (const Length& row : piece) least = std::min(least, row);
    const Length left = most_[colour] - beside_[colour];
    constexpr double farthest = 1e9;
    return static_cast<std::int64_t>(std::min(farthest, std::max(0.0, double{left / least})));
}

bool Takes::may_do(const std::vector<Stripes>& stripes) const {
    std::vector<Length> takes = beside_;
    for (std::size_t piece = 0; piece < stripes.size(); ++piece) {
        std::size_t row = 0;
        for (const project::Stripe& stripe : laid_out(stripes[piece], rows_[piece])) {
            const std::size_t of = colour(stripe.role);
            for (std::int64_t i = 0; i < stripe.rows; ++i) takes[of] += row_[of][piece][row++];
        }
    }
    for (std::size_t of = 0; of < takes.size(); ++of)
        if (takes[of] > most_[of]) return false;
    return true;
}

}  // namespace skeinfall::colours
