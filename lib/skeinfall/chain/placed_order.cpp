#include <algorithm>
#include <cmath>
#include <limits>
#include <unordered_map>

#include "skeinfall/chain/detail/search.hpp"

namespace skeinfall::chain {
namespace {

constexpr int eighths_of_round = 8;
constexpr int nearly_above = 2;  // eighths_of_round of a round
constexpr std::size_t intervals_at_most = 30'000'000;

/// Permitted places from `first` to `last`, as numbers of rungs: 0 the start, then the spots,
/// then the end.
struct Interval {
    std::uint32_t first = 0;
    std::uint32_t last = 0;
};

/// The best way on from a place: least marks up to the end.
struct Way {
    std::uint32_t from = 0;
    int marks = 0;
    std::uint16_t kind = 0;
    std::uint32_t to = 0;
};

class Placer {
  public:
    Placer(const Line& line, const std::vector<BallClass>& classes, const Distances& distances,
           std::optional<std::size_t> first)
        : line_(line), classes_(without_first(classes, first)), distances_(distances) {
        std::size_t stride = 1;
        for (const BallClass& one : classes) {
            strides_.push_back(stride);
            if (stride <= states_at_most) stride *= one.balls.size() + 1;
        }
        states_ = stride;
        lay_rungs();
        find_windows();
        if (first && far_[*first][0] >= near_[0]) {
            begin_at_ = far_[*first][0];
            before_.push_back({*first, rungs_[begin_at_].at});
        }
    }

    Order run() {
        if (states_of(classes_) > states_at_most || !reach_forward()) return in_turn();
        Order order;
        order.legs = before_;
        order.finishes = goal_ == end();
        walk_back();
        std::size_t state = 0;
        std::uint32_t at = begin_at_;
        while (at != goal_ || !is_goal(state)) {
            const std::vector<Way>& ways = ways_.at(state);
            const auto way = std::lower_bound(
                ways.begin(), ways.end(), at,
                [](const Way& one, std::uint32_t from) { return one.from < from; });
            state += strides_[way->kind];
            at = way->to;
            order.legs.push_back({way->kind, rungs_[at].at});
        }
        return order;
    }

  private:
    [[nodiscard]] std::uint32_t end() const {
        return static_cast<std::uint32_t>(rungs_.size() - 1);
    }
    [[nodiscard]] std::size_t digit(std::size_t state, std::size_t c) const {
        return state / strides_[c] % (classes_[c].balls.size() + 1);
    }
    [[nodiscard]] bool is_goal(std::size_t state) const {
        return std::binary_search(goals_.begin(), goals_.end(), state);
    }

    void lay_rungs() {
        rungs_.emplace_back();
        for (const Spot& spot : line_.spots()) {
            const bool near = std::any_of(
                distances_.keep_away.begin(), distances_.keep_away.end(), [&](const Spot& other) {
                    return other.block == spot.block &&
                           std::abs(other.row - spot.row) < distances_.rows - noise;
                });
            if (!near) rungs_.push_back(spot);
        }
        Spot last;
        last.at = line_.total();
        rungs_.push_back(last);
    }

    /// The first rung that is far enough from each, and the last that each class reaches from it.
    void find_windows() {
        const std::uint32_t finish = end();
        std::uint32_t to = 0;
        for (std::uint32_t from = 0; from <= finish; ++from) {
            to = std::max(to, std::min(from + 1, finish));
            while (from > 0 && to < finish && rungs_[to].block == rungs_[from].block &&
                   rungs_[to].row - rungs_[from].row < distances_.rows - noise)
                ++to;
            near_.push_back(to);
        }
        for (std::size_t c = 0; c < classes_.size(); ++c) {
            std::vector<std::uint32_t>& far = far_.emplace_back();
            for (std::uint32_t from = 0; from <= finish; ++from) {
                const Quanta lost =
                    distances_.wound_off ? distances_.wound_off(c, rungs_[from].at) : 0;
                const Quanta reach = rungs_[from].at + classes_[c].usable - lost;
                const auto beyond =
                    std::upper_bound(rungs_.begin(), rungs_.end(), reach,
                                     [](Quanta at, const Spot& rung) { return at < rung.at; });
                const bool to_the_end = reach + classes_[c].kept >= line_.total();
                far.push_back(to_the_end ? finish
                              : beyond == rungs_.begin()
                                  ? 0
                                  : static_cast<std::uint32_t>(beyond - rungs_.begin()) - 1);
            }
            // Up to where places leave no gap between what they reach.
            std::vector<std::uint32_t>& run = run_.emplace_back(finish + 1, finish);
            for (std::uint32_t i = finish; i-- > 0;) {
                const bool on = i + 1 < finish && far[i + 1] >= near_[i + 1] &&
                                near_[i + 1] <= far[i] + 1 && far[i + 1] >= far[i];
                run[i] = on ? run[i + 1] : i;
            }
        }
    }

    /// Which places each multiset of skeins reaches, by the number of skeins, until some reach
    /// the end; else the farthest place.
    /// False when there are too many.
    bool reach_forward() {
        begin_.assign(states_, 0);
        count_.assign(states_, 0);
        pool_.push_back({begin_at_, begin_at_});
        count_[0] = 1;
        std::vector<std::size_t> level{0};
        goals_ = {0};
        goal_ = begin_at_;
        while (!level.empty() && goal_ != end()) {
            std::vector<std::size_t> next;
            for (const std::size_t state : level)
                for (std::size_t c = 0; c < classes_.size(); ++c)
                    if (digit(state, c) < classes_[c].balls.size())
                        next.push_back(state + strides_[c]);
            std::sort(next.begin(), next.end());
            next.erase(std::unique(next.begin(), next.end()), next.end());
            for (const std::size_t state : next) reach(state);
            std::erase_if(next, [&](std::size_t state) { return count_[state] == 0; });
            take_goals(next);
            if (pool_.size() > intervals_at_most) return false;
            level = std::move(next);
        }
        return true;
    }

    /// Not proven: the longest skein first, each as far as it goes.
    [[nodiscard]] Order in_turn() const {
        Order order;
        order.proven = false;
        order.legs = before_;
        std::uint32_t at = begin_at_;
        for (std::size_t c = 0; c < classes_.size(); ++c)
            for (std::size_t i = 0; i < classes_[c].balls.size() && at != end(); ++i) {
                if (far_[c][at] < near_[at]) break;
                at = far_[c][at];
                order.legs.push_back({c, rungs_[at].at});
            }
        order.finishes = at == end();
        return order;
    }

    void reach(std::size_t state) {
        std::vector<Interval>& found = scratch_;
        found.clear();
        for (std::size_t c = 0; c < classes_.size(); ++c) {
            if (digit(state, c) == 0) continue;
            const std::size_t before = state - strides_[c];
            for (std::size_t k = 0; k < count_[before]; ++k) {
                const Interval from = pool_[begin_[before] + k];
                for (std::uint32_t i = from.first; i <= from.last && i < end(); ++i) {
                    if (far_[c][i] < near_[i]) continue;
                    const std::uint32_t to = std::min(run_[c][i], from.last);
                    found.push_back({near_[i], far_[c][to]});
                    i = to;
                }
            }
        }
        std::sort(found.begin(), found.end(), [](const Interval& a, const Interval& b) {
            return a.first != b.first ? a.first < b.first : a.last < b.last;
        });
        begin_[state] = pool_.size();
        for (const Interval& one : found) {
            if (count_[state] > 0 && one.first <= pool_.back().last + 1) {
                pool_.back().last = std::max(pool_.back().last, one.last);
            } else {
                pool_.push_back(one);
                ++count_[state];
            }
        }
    }

    [[nodiscard]] Quanta length(std::size_t state) const {
        Quanta sum = 0;
        for (std::size_t c = 0; c < classes_.size(); ++c)
            sum += static_cast<Quanta>(digit(state, c)) * classes_[c].usable;
        return sum;
    }

    /// The states of a level that reach farther than all before, with the least yarn begun.
    void take_goals(const std::vector<std::size_t>& level) {
        const std::uint32_t before = goal_;
        Quanta least = 0;
        for (const std::size_t state : level) {
            const std::uint32_t reaches = pool_[begin_[state] + count_[state] - 1].last;
            if (reaches < goal_ || reaches == before) continue;
            const Quanta its = length(state);
            if (reaches > goal_ || its < least) goals_.clear();
            if (reaches > goal_ || its <= least) {
                goals_.push_back(state);
                least = its;
            }
            goal_ = reaches;
        }
    }

    void walk_back() {
        std::vector<std::size_t> level = goals_;
        for (const std::size_t state : goals_) ways_[state] = {{goal_, 0, 0, goal_}};
        while (!level.empty() && level.front() != 0) {
            std::vector<std::size_t> before;
            for (const std::size_t state : level)
                for (std::size_t c = 0; c < classes_.size(); ++c)
                    if (digit(state, c) > 0 && count_[state - strides_[c]] > 0)
                        before.push_back(state - strides_[c]);
            std::sort(before.begin(), before.end());
            before.erase(std::unique(before.begin(), before.end()), before.end());
            for (const std::size_t state : before) find_ways(state);
            std::erase_if(before, [&](std::size_t state) { return !ways_.contains(state); });
            level = std::move(before);
        }
    }

    void find_ways(std::size_t state) {
        struct Onwards {
            std::size_t kind;
            const std::vector<Way>* ways;
            int least;  // marks
        };
        std::vector<Onwards> onwards;
        for (std::size_t c = 0; c < classes_.size(); ++c) {
            if (digit(state, c) == classes_[c].balls.size()) continue;
            const auto next = ways_.find(state + strides_[c]);
            if (next == ways_.end()) continue;
            const auto least = std::min_element(
                next->second.begin(), next->second.end(),
                [](const Way& one, const Way& other) { return one.marks < other.marks; });
            onwards.push_back({c, &next->second, least->marks});
        }
        std::vector<Way> ways;
        for (std::size_t k = 0; k < count_[state]; ++k) {
            const Interval from = pool_[begin_[state] + k];
            for (std::uint32_t i = from.first; i <= from.last && i < end(); ++i) {
                Way best{i, std::numeric_limits<int>::max(), 0, 0};
                for (const auto& [c, next, least] : onwards) {
                    if (far_[c][i] < next->front().from || near_[i] > next->back().from) continue;
                    auto way = std::upper_bound(
                        next->begin(), next->end(), far_[c][i],
                        [](std::uint32_t at, const Way& one) { return at < one.from; });
                    // Later places first, so that each skein is used up as far as it goes.
                    while (best.marks > least && way != next->begin()) {
                        --way;
                        if (way->from < near_[i]) break;
                        const int marks =
                            way->marks + rungs_[way->from].marks + above(i, way->from);
                        if (marks < best.marks)
                            best = {i, marks, static_cast<std::uint16_t>(c), way->from};
                    }
                }
                if (best.marks != std::numeric_limits<int>::max()) ways.push_back(best);
            }
        }
        if (!ways.empty()) ways_[state] = std::move(ways);
    }

    /// One mark when a join lies above the one before it, or nearly so.
    [[nodiscard]] int above(std::uint32_t a, std::uint32_t b) const {
        const Spot& one = rungs_[a];
        const Spot& other = rungs_[b];
        if (a == 0 || one.column < 0 || other.column < 0 || one.block != other.block) return 0;
        const int apart = std::abs(one.column - other.column);
        return std::min(apart, eighths_of_round - apart) < nearly_above ? 1 : 0;
    }

    static constexpr double noise = 1e-9;
    const Line& line_;
    std::vector<BallClass> classes_;
    const Distances& distances_;
    std::uint32_t begin_at_ = 0;  ///< where the skein in hand ends
    std::vector<Leg> before_;     ///< its leg
    std::vector<std::size_t> strides_;
    std::size_t states_ = 1;
    std::vector<Spot> rungs_;
    std::vector<std::uint32_t> near_;
    std::vector<std::vector<std::uint32_t>> far_;
    std::vector<std::vector<std::uint32_t>> run_;
    std::vector<std::size_t> begin_;
    std::vector<std::uint32_t> count_;
    std::vector<Interval> pool_;
    std::vector<Interval> scratch_;
    std::vector<std::size_t> goals_;  // ascending
    std::uint32_t goal_ = 0;
    std::unordered_map<std::size_t, std::vector<Way>> ways_;
};

}  // namespace

Order placed_order(const Line& line, const std::vector<BallClass>& classes,
                   const Distances& distances, std::optional<std::size_t> first) {
    return Placer(line, classes, distances, first).run();
}

}  // namespace skeinfall::chain
