#include "skeinfall/joins/lots.hpp"

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <set>
#include <stdexcept>
#include <tuple>

#include "skeinfall/cover/lot_mixing.hpp"

namespace skeinfall::joins {

using units::Length;

std::vector<Turns> turns_without_cuts(std::size_t skeins, project::Worked worked,
                                      std::int64_t rows_at_most) {
    std::vector<Turns> out;
    for (std::int64_t rows = 1; rows <= rows_at_most; ++rows)
        if (Turns turns(skeins, rows); cover::carried_without_cutting(turns, worked))
            out.push_back(std::move(turns));
    return out;
}

std::optional<Fade> fade(const std::vector<Length>& yarn, Length of_a, std::int64_t rows,
                         project::Worked worked) {
    Fade out;
    out.turns = turns_without_cuts(2, worked).front();
    const std::int64_t turn = out.turns.front();
    // Whole turns of both, and a beginning after whole turns of A.
    const std::int64_t long_enough = (rows + 2 * turn - 1) / (2 * turn) * 2 * turn;
    const auto total = static_cast<std::int64_t>(yarn.size());
    Length alone{};
    std::optional<Fade> best;
    for (std::int64_t before = 0; before + long_enough <= total; ++before) {
        if (before > 0) alone += yarn[static_cast<std::size_t>(before - 1)];
        if (before % turn != 0) continue;
        Length held{};
        // B comes first, or A would simply go on.
        for (std::int64_t i = 0; i < long_enough; ++i)
            if (i / turn % 2 == 1) held += yarn[static_cast<std::size_t>(before + i)];
        if (alone + held > of_a) break;
        out.begin = before + 1;
        out.end = before + long_enough;
        out.held = held;
        best = out;
    }
    return best;
}

std::vector<Length> yarn_by_turns(const std::vector<Length>& rows, const Turns& turns) {
    std::vector<Length> out(turns.size());
    std::size_t yarn = 0;
    std::int64_t left = turns.front();
    for (const Length& row : rows) {
        if (left == 0) {
            yarn = (yarn + 1) % turns.size();
            left = turns[yarn];
        }
        out[yarn] += row;
        --left;
    }
    return out;
}

InTurns work_in_turns(const std::vector<Length>& rows, const Turns& turns,
                      std::vector<Length> has) {
    InTurns out;
    const auto at = [&](std::int64_t row) { return rows[static_cast<std::size_t>(row)]; };
    const auto total = static_cast<std::int64_t>(rows.size());
    for (std::size_t yarn = 0; out.reached < total; yarn = (yarn + 1) % turns.size()) {
        const std::int64_t end = std::min(total, out.reached + turns[yarn]);
        Length takes{};
        for (std::int64_t row = out.reached; row < end; ++row) takes += at(row);
        if (takes > has[yarn]) break;
        has[yarn] -= takes;
        out.reached = end;
    }
    out.alternated = out.reached;
    const auto most = std::max_element(has.begin(), has.end());
    out.then = static_cast<std::size_t>(most - has.begin());
    for (Length left = *most; out.reached < total && at(out.reached) <= left; ++out.reached)
        left -= at(out.reached);
    return out;
}

std::vector<Pair> pair_skeins(const std::vector<Length>& lengths) {
    std::vector<std::size_t> order(lengths.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return lengths[a] > lengths[b]; });
    std::vector<Pair> out;
    for (std::size_t i = 0; i + 1 < order.size(); i += 2) out.push_back({order[i], order[i + 1]});
    return out;
}

namespace {

struct Group {
    LotOfParts parts;
    Length need{};
};

/// Every assignment in depth; the groups are few.
class Matching {
  public:
    Matching(const std::vector<Group>& groups, const std::vector<LotStock>& lots)
        : groups_(groups), lots_(lots), now_(groups.size(), lots.size()) {
        for (const LotStock& lot : lots) left_.push_back(lot.usable);
        best_ = now_;
        place(0, Length{});
    }
    [[nodiscard]] const std::vector<std::size_t>& best() const { return best_; }

  private:
    void place(std::size_t group, Length placed) {
        Length rest{};
        for (std::size_t i = group; i < groups_.size(); ++i) rest += groups_[i].need;
        if (placed + rest < best_placed_) return;
        if (group == groups_.size()) {
            const std::set<std::size_t> opened(now_.begin(), now_.end());
            if (placed > best_placed_ || opened.size() < best_lots_) {
                best_ = now_;
                best_placed_ = placed;
                best_lots_ = opened.size();
            }
            return;
        }
        for (std::size_t lot = 0; lot < lots_.size(); ++lot) {
            if (left_[lot] < groups_[group].need) continue;
            left_[lot] -= groups_[group].need;
            now_[group] = lot;
            place(group + 1, placed + groups_[group].need);
            now_[group] = lots_.size();
            left_[lot] += groups_[group].need;
        }
        place(group + 1, placed);
    }

    const std::vector<Group>& groups_;
    const std::vector<LotStock>& lots_;
    std::vector<Length> left_;
    std::vector<std::size_t> now_;
    std::vector<std::size_t> best_;
    Length best_placed_{};
    std::size_t best_lots_ = static_cast<std::size_t>(-1);
};

}  // namespace

std::vector<LotOfParts> match_parts(const std::vector<MatchedPart>& parts,
                                    const std::vector<LotStock>& lots) {
    std::vector<Group> groups;
    for (const MatchedPart& part : parts) {
        auto group = std::find_if(groups.begin(), groups.end(),
                                  [&](const Group& one) { return one.parts.match == part.match; });
        if (group == groups.end()) {
            groups.push_back({{part.match, {}, std::nullopt}, Length{}});
            group = std::prev(groups.end());
        }
        group->parts.parts.push_back(part.name);
        group->need += part.need;
    }
    if (groups.size() > groups_at_most)
        throw std::invalid_argument("more groups of matching parts than can be searched");
    std::sort(groups.begin(), groups.end(), [](const Group& a, const Group& b) {
        return a.need != b.need ? a.need > b.need : a.parts.match < b.parts.match;
    });
    const Matching matching(groups, lots);
    std::vector<LotOfParts> out;
    for (std::size_t i = 0; i < groups.size(); ++i) {
        out.push_back(groups[i].parts);
        if (matching.best()[i] < lots.size()) out.back().lot = lots[matching.best()[i]].lot;
    }
    return out;
}

}  // namespace skeinfall::joins
