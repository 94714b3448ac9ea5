#include <algorithm>
#include <limits>
#include <optional>
#include <utility>

#include "skeinfall/chain/detail/search.hpp"

namespace skeinfall::chain {
namespace {

constexpr std::size_t none = std::numeric_limits<std::size_t>::max();

/// The places between which skeins run: the start, every spot, the end; or every quantum.
class Ladder {
  public:
    Ladder(const Line& line, const std::vector<BallClass>& classes) {
        rungs_.push_back(0);
        for (const Spot& spot : line.spots()) rungs_.push_back(spot.at);
        rungs_.push_back(line.total());
        for (const BallClass& one : classes) {
            std::vector<std::uint32_t>& reach = reach_.emplace_back();
            reach.reserve(rungs_.size());
            std::size_t to = 0;
            for (std::size_t from = 0; from < rungs_.size(); ++from) {
                to = std::max(to, from);
                while (to + 1 < rungs_.size() && rungs_[to + 1] <= rungs_[from] + one.usable) ++to;
                if (rungs_[from] + one.usable + one.kept >= line.total()) to = rungs_.size() - 1;
                reach.push_back(static_cast<std::uint32_t>(to));
            }
        }
    }
    [[nodiscard]] std::uint32_t operator()(std::size_t kind, std::uint32_t from) const {
        return reach_[kind][from];
    }
    [[nodiscard]] std::uint32_t end() const {
        return static_cast<std::uint32_t>(rungs_.size() - 1);
    }
    [[nodiscard]] Quanta at(std::uint32_t rung) const { return rungs_[rung]; }

  private:
    std::vector<Quanta> rungs_;
    std::vector<std::vector<std::uint32_t>> reach_;
};

class Anywhere {
  public:
    Anywhere(const Line& line, const std::vector<BallClass>& classes)
        : line_(line), classes_(classes) {}
    [[nodiscard]] Quanta operator()(std::size_t kind, Quanta from) const {
        const BallClass& one = classes_[kind];
        if (from + one.usable + one.kept >= line_.total()) return line_.total();
        return line_.farthest(from, from + one.usable);
    }
    [[nodiscard]] Quanta end() const { return line_.total(); }
    [[nodiscard]] static Quanta at(Quanta place) { return place; }

  private:
    const Line& line_;
    const std::vector<BallClass>& classes_;
};

template <class Reach>
using PlaceOf = decltype(std::declval<Reach>().end());

template <class Reach>
std::vector<Leg> legs_of(const std::vector<std::size_t>& kinds, const Reach& reach,
                         PlaceOf<Reach> begin) {
    std::vector<Leg> legs;
    PlaceOf<Reach> done = begin;
    for (const std::size_t kind : kinds) {
        done = reach(kind, done);
        legs.push_back({kind, reach.at(done)});
    }
    return legs;
}

/// Skeins counted one class a digit, the longest class as the lowest digit.
class Counter {
  public:
    explicit Counter(const std::vector<BallClass>& classes) : digits_(classes.size(), 0) {
        std::size_t stride = 1;
        for (const BallClass& one : classes) {
            counts_.push_back(one.balls.size());
            usable_.push_back(one.usable);
            strides_.push_back(stride);
            stride *= one.balls.size() + 1;
        }
    }
    void step() {
        for (std::size_t c = 0; c < digits_.size(); ++c) {
            if (digits_[c] < counts_[c]) {
                ++digits_[c];
                ++pieces_;
                length_ += usable_[c];
                return;
            }
            pieces_ -= digits_[c];
            length_ -= static_cast<Quanta>(digits_[c]) * usable_[c];
            digits_[c] = 0;
        }
    }
    [[nodiscard]] std::size_t digit(std::size_t c) const { return digits_[c]; }
    [[nodiscard]] std::size_t stride(std::size_t c) const { return strides_[c]; }
    [[nodiscard]] std::size_t pieces() const { return pieces_; }
    [[nodiscard]] Quanta length() const { return length_; }

  private:
    std::vector<std::size_t> digits_;
    std::vector<std::size_t> counts_;
    std::vector<Quanta> usable_;
    std::vector<std::size_t> strides_;
    std::size_t pieces_ = 0;
    Quanta length_ = 0;
};

template <class Reach>
Order exact(const Reach& reach, const std::vector<BallClass>& classes, std::size_t states,
            PlaceOf<Reach> begin) {
    using Place = PlaceOf<Reach>;
    std::vector<Place> farthest(states, begin);
    std::vector<std::uint16_t> last(states, 0);
    std::size_t best = 0;
    bool finished = begin >= reach.end();
    std::size_t best_pieces = finished ? 0 : none;
    Quanta best_length = std::numeric_limits<Quanta>::max();
    Counter counter(classes);
    for (std::size_t state = 1; state < states; ++state) {
        counter.step();
        const std::size_t pieces = counter.pieces();
        if (finished && pieces > best_pieces) continue;  // so do all that hold this one
        Place done = 0;
        std::uint16_t by = 0;
        // The shortest class wins ties as the final skein: the longest go first.
        for (std::size_t c = 0; c < classes.size(); ++c) {
            if (counter.digit(c) == 0) continue;
            const Place to = reach(c, farthest[state - counter.stride(c)]);
            if (to >= done) {
                done = to;
                by = static_cast<std::uint16_t>(c);
            }
        }
        farthest[state] = done;
        last[state] = by;
        const bool finishes = done >= reach.end();
        bool better = false;
        if (finishes != finished)
            better = finishes;
        else if (finishes)
            better =
                pieces < best_pieces || (pieces == best_pieces && counter.length() < best_length);
        else
            better = done > farthest[best] || (done == farthest[best] && pieces < best_pieces);
        if (!better) continue;
        best = state;
        best_pieces = pieces;
        best_length = counter.length();
        finished = finishes;
    }
    std::vector<std::size_t> kinds;
    for (std::size_t state = best; state != 0; state -= counter.stride(last[state]))
        kinds.push_back(last[state]);
    std::reverse(kinds.begin(), kinds.end());
    return {legs_of(kinds, reach, begin), finished, true};
}

/// Too many states: skeins are tried in depth, the longest first, under a bound and a limit.
template <class Reach>
class InDepth {
  public:
    InDepth(const Reach& reach, const std::vector<BallClass>& classes, PlaceOf<Reach> begin)
        : reach_(reach), classes_(classes), begin_(begin), best_done_(begin) {
        finished_ = begin_ >= reach_.end();
        for (const BallClass& one : classes) left_.push_back(one.balls.size());
        // Greedy orders first: the search has something to beat.
        greedy([](Quanta, Quanta usable) { return -usable; });
        greedy([](Quanta wasted, Quanta) { return wasted; });
    }

    Order run() {
        std::vector<std::size_t> kinds;
        try_from(begin_, kinds, 0);
        return {legs_of(best_, reach_, begin_), finished_, nodes_ < nodes_at_most};
    }

  private:
    static constexpr std::size_t nodes_at_most = 2'000'000;
    using Place = PlaceOf<Reach>;

    template <class Cost>
    void greedy(Cost cost) {
        std::vector<std::size_t> left = left_;
        std::vector<std::size_t> kinds;
        Place done = begin_;
        Quanta length = 0;
        while (done < reach_.end()) {
            std::size_t best = none;
            Quanta least = 0;
            for (std::size_t c = 0; c < classes_.size(); ++c) {
                if (left[c] == 0) continue;
                const Place to = reach_(c, done);
                if (to == done) continue;
                const Quanta wasted = classes_[c].usable - (reach_.at(to) - reach_.at(done));
                const Quanta its = cost(wasted, classes_[c].usable);
                if (best == none || its < least) {
                    best = c;
                    least = its;
                }
            }
            if (best == none) break;
            --left[best];
            done = reach_(best, done);
            length += classes_[best].usable;
            kinds.push_back(best);
        }
        offer(kinds, done, length);
    }

    void offer(const std::vector<std::size_t>& kinds, Place done, Quanta length) {
        const bool finishes = done >= reach_.end();
        const bool better = finishes != finished_ ? finishes
                            : finishes            ? kinds.size() < best_.size() ||
                                             (kinds.size() == best_.size() && length < best_length_)
                                       : done > best_done_;
        if (!better) return;
        best_ = kinds;
        best_done_ = done;
        best_length_ = length;
        finished_ = finishes;
    }

    [[nodiscard]] std::size_t more_at_least(Quanta missing) const {
        std::size_t pieces = 0;
        if (!classes_.empty()) missing = std::max<Quanta>(1, missing - classes_.front().kept);
        for (std::size_t c = 0; c < classes_.size() && missing > 0; ++c) {
            const auto wanted =
                static_cast<std::size_t>((missing + classes_[c].usable - 1) / classes_[c].usable);
            const std::size_t taken = std::min(wanted, left_[c]);
            pieces += taken;
            missing -= static_cast<Quanta>(taken) * classes_[c].usable;
        }
        return missing > 0 ? none : pieces;
    }

    void try_from(Place done, std::vector<std::size_t>& kinds, Quanta length) {
        if (++nodes_ >= nodes_at_most) return;
        offer(kinds, done, length);
        if (done >= reach_.end()) return;
        const std::size_t more = more_at_least(reach_.at(reach_.end()) - reach_.at(done));
        if (finished_ && (more == none || kinds.size() + more > best_.size())) return;
        for (std::size_t c = 0; c < classes_.size() && nodes_ < nodes_at_most; ++c) {
            if (left_[c] == 0) continue;
            const Place to = reach_(c, done);
            if (to == done) continue;
            --left_[c];
            kinds.push_back(c);
            try_from(to, kinds, length + classes_[c].usable);
            kinds.pop_back();
            ++left_[c];
        }
    }

    const Reach& reach_;
    const std::vector<BallClass>& classes_;
    std::vector<std::size_t> left_;
    Place begin_;
    std::vector<std::size_t> best_;
    Place best_done_;
    Quanta best_length_ = 0;
    bool finished_ = false;
    std::size_t nodes_ = 0;
};

template <class Reach>
Order ordered(const Reach& reach, const std::vector<BallClass>& all,
              std::optional<std::size_t> first) {
    const PlaceOf<Reach> begin = first ? reach(*first, 0) : PlaceOf<Reach>{0};
    if (begin == 0) first.reset();  // not even a row of it
    const std::vector<BallClass> classes = without_first(all, first);
    const std::size_t states = states_of(classes);
    Order order = states <= states_at_most ? exact(reach, classes, states, begin)
                                           : InDepth<Reach>(reach, classes, begin).run();
    if (first) order.legs.insert(order.legs.begin(), {*first, reach.at(begin)});
    return order;
}

}  // namespace

std::size_t states_of(const std::vector<BallClass>& classes) {
    std::size_t states = 1;
    for (const BallClass& one : classes) {
        if (states > states_at_most / (one.balls.size() + 1)) return states_at_most + 1;
        states *= one.balls.size() + 1;
    }
    return states;
}

std::vector<BallClass> without_first(std::vector<BallClass> classes,
                                     std::optional<std::size_t> first) {
    if (first) classes[*first].balls.clear();
    return classes;
}

Order farthest_order(const Line& line, const std::vector<BallClass>& classes,
                     std::optional<std::size_t> first) {
    if (line.open().empty()) return ordered(Ladder(line, classes), classes, first);
    return ordered(Anywhere(line, classes), classes, first);
}

std::size_t pieces_at_least(const Line& line, const std::vector<BallClass>& classes) {
    std::vector<Quanta> gains;
    for (const BallClass& one : classes) {
        const Quanta most = one.usable + one.kept;
        Quanta gain = most;
        if (line.open().empty()) {
            gain = line.farthest(0, most);
            for (const Spot& spot : line.spots())
                gain = std::max(gain, line.farthest(spot.at, spot.at + most) - spot.at);
        }
        gains.insert(gains.end(), one.balls.size(), gain);
    }
    std::sort(gains.begin(), gains.end(), std::greater<>());
    Quanta sum = 0;
    std::size_t pieces = 0;
    while (pieces < gains.size() && sum < line.total()) sum += gains[pieces++];
    return pieces;
}

}  // namespace skeinfall::chain
