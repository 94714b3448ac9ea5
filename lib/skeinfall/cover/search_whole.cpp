#include <algorithm>
#include <utility>

#include "skeinfall/cover/search_state.hpp"

namespace skeinfall::cover {
namespace {

/// Seeker after seeker takes whole skeins, those with the fewest choices first.
class WholeSearch : SearchState {
  public:
    WholeSearch(const Group& group, const Plan& plan, const Packing& packing, std::uint64_t steps)
        : SearchState(group, plan, packing, steps) {
        // Kinds that still matter when the seekers before a level are done.
        kinds_from_.resize(order_.size() + 1);
        std::vector<bool> wanted(group_.kinds.size(), false);
        for (std::size_t level = order_.size(); level-- > 0;) {
            for (const Option& option : ready_[order_[level]].options) wanted[option.kind] = true;
            for (std::size_t kind = 0; kind < wanted.size(); ++kind)
                if (wanted[kind]) kinds_from_[level].push_back(kind);
        }
    }

    Found run() {
        const Packed bound = bound_from(0);
        next(0);
        return found(bound);
    }

  private:
    struct WholeFrame : Frame {
        std::vector<Quanta> in_block;  ///< what the options from here to the end of the lot give
        std::vector<Quanta> from;      ///< what all options from here on give under the lot rule
    };

    /// For the seekers from a level on, with what is left.
    [[nodiscard]] Packed bound_from(std::size_t level) const {
        Packed sum = 0;
        std::int64_t lost = 0;
        Quanta wanted = 0;
        std::vector<std::size_t> open;
        for (std::size_t at = level; at < order_.size(); ++at) {
            const Seeker& seeker = group_.seekers[order_[at]];
            const Ready& ready = ready_[order_[at]];
            const Quanta need = seeker.need * static_cast<Quanta>(seeker.strands);
            if (!ready.coverable || reach_of(seeker, ready, left_) < need) {
                sum += dropping(seeker);
                lost += seeker.weight;
            } else {
                sum += ready.alone;
                wanted += need;
                open.push_back(order_[at]);
            }
        }
        Quanta supply = 0;
        for (const std::size_t kind : kinds_from_[level])
            supply += (group_.kinds[kind].length - plan_.tails) * static_cast<Quanta>(left_[kind]);
        if (wanted <= supply) return sum;
        return packing_.one(Goal::uncovered) *
               static_cast<Packed>(lost + weight_lost(std::move(open), wanted - supply));
    }

    /// Least weight of the seekers whose needs together make up `deficit`, shares allowed.
    [[nodiscard]] std::int64_t weight_lost(std::vector<std::size_t> open, Quanta deficit) const {
        const auto need = [&](std::size_t s) {
            return group_.seekers[s].need * static_cast<Quanta>(group_.seekers[s].strands);
        };
        std::sort(open.begin(), open.end(), [&](std::size_t a, std::size_t b) {
            const auto left =
                static_cast<Packed>(group_.seekers[a].weight) * static_cast<Packed>(need(b));
            const auto right =
                static_cast<Packed>(group_.seekers[b].weight) * static_cast<Packed>(need(a));
            return left != right ? left < right : a < b;
        });
        std::int64_t lost = 0;
        for (const std::size_t seeker : open) {
            if (deficit <= 0) break;
            const std::int64_t weight = group_.seekers[seeker].weight;
            if (need(seeker) <= deficit) {
                lost += weight;
            } else {
                const auto whole = static_cast<Packed>(need(seeker));
                lost += static_cast<std::int64_t>(
                    (static_cast<Packed>(weight) * static_cast<Packed>(deficit) + whole - 1) /
                    whole);
            }
            deficit -= need(seeker);
        }
        return lost;
    }

    void next(std::size_t level) {
        if (ended()) return;
        if (level == order_.size()) {
            record();
            return;
        }
        const Packed bound = bound_from(level);
        if (hopeless(bound)) return;
        if (level > 0) {
            std::string state;
            append(state, level);
            for (const std::size_t kind : kinds_from_[level]) append(state, left_[kind]);
            if (seen(state)) return;
        }
        const std::size_t at = order_[level];
        if (ready_[at].coverable) cover_strand(at, bound_from(level + 1), [&] { next(level + 1); });
        cost_ += dropping(group_.seekers[at]);
        next(level + 1);
        cost_ -= dropping(group_.seekers[at]);
    }

    /// Covers one strand after the other; `then` goes on behind the last.

    template <class Then>
    void cover_strand(std::size_t at, Packed rest, const Then& then) {
        const std::size_t strand = strands_done_[at];
        WholeFrame frame = frame_for(at);
        frame.rest = rest + ready_[at].of_strand[strand + 1];
        const auto covered = [&](const WholeFrame& done) {
            if (!is_minimal(done)) return;
            ++strands_done_[at];
            if (strands_done_[at] == group_.seekers[at].strands)
                then();
            else
                cover_strand(at, rest, then);
            --strands_done_[at];
        };
        take(frame, 0, group_.seekers[at].need, covered);
    }

    [[nodiscard]] WholeFrame frame_for(std::size_t at) const {
        const Ready& ready = ready_[at];
        const bool one = group_.seekers[at].lots == Lots::one;
        WholeFrame frame;
        frame.seeker = at;
        frame.first_cut = cuts_.size();
        frame.lots_charged = lots_of_[at].empty();
        const std::size_t count = ready.options.size();
        frame.in_block.assign(count + 1, 0);
        frame.from.assign(count + 1, 0);
        for (std::size_t i = count; i-- > 0;) {
            const Option& option = ready.options[i];
            const Quanta here = option.usable * static_cast<Quanta>(left_[option.kind]);
            const bool last = i + 1 == option.block_end;
            frame.in_block[i] = here + (last ? 0 : frame.in_block[i + 1]);
            frame.from[i] =
                one ? std::max(frame.in_block[i], frame.from[i + 1]) : here + frame.from[i + 1];
        }
        return frame;
    }

    /// Goes through the covers from option `from` on; `then` is called for each with its pieces on
    /// cuts_ and their cost on cost_.
    template <class Then>
    void take(const WholeFrame& frame, std::size_t from, Quanta missing, const Then& then) {
        if (missing <= 0) {
            then(frame);
            return;
        }
        const Ready& ready = ready_[frame.seeker];
        const bool one = group_.seekers[frame.seeker].lots == Lots::one;
        const auto good = [&](Packed bound) {
            return bound != BoundTable::never() && !hopeless(bound + frame.rest);
        };
        std::vector<std::size_t> later;
        for (std::size_t at = from; at < ready.options.size(); ++at) {
            if (ended()) return;
            const Option& option = ready.options[at];
            const bool none_yet = lots_of_[frame.seeker].empty();
            const bool own = none_yet || has_lot(frame.seeker, option.lot);
            if (one && !none_yet && !frame.lots_charged && !own) continue;
            const Quanta reach = one && !none_yet ? frame.in_block[at] : frame.from[at];
            if (missing > reach || !good(bound_of(frame, at, missing))) {
                // With pieces taken before, a later lot may still be the right one.
                if (one && !none_yet && !frame.lots_charged) continue;
                break;
            }
            if (left_[option.kind] == 0) continue;
            const Packed lot = own ? 0 : ready.lot;
            const Packed with = take_bound(frame, at, missing) + lot;
            const Packed without = bound_of(frame, at + 1, missing);
            if (with > without)
                later.push_back(at);
            else
                take_copies(frame, at, missing, then);
        }
        for (std::size_t at = later.size(); at-- > 0 && !ended();)
            take_copies(frame, later[at], missing, then);
    }

    /// Bound when one of the option is taken, without a new lot's cost.
    [[nodiscard]] Packed take_bound(const WholeFrame& frame, std::size_t at, Quanta missing) {
        const Option& option = ready_[frame.seeker].options[at];
        lots_of_[frame.seeker].push_back(option.lot);
        const Packed after =
            bound_of(frame, left_[option.kind] > 1 ? at : at + 1, missing - option.usable);
        lots_of_[frame.seeker].pop_back();
        return after == BoundTable::never() ? after : option.cost + after;
    }

    template <class Then>
    void take_copies(const WholeFrame& frame, std::size_t at, Quanta missing, const Then& then) {
        const Option& option = ready_[frame.seeker].options[at];
        const std::size_t kind = option.kind;
        const bool none_yet = lots_of_[frame.seeker].empty();
        const bool new_lot = !has_lot(frame.seeker, option.lot);
        const Packed before = cost_;
        const std::size_t left = left_[kind];
        const std::size_t cuts = cuts_.size();
        if (new_lot) {
            lots_of_[frame.seeker].push_back(option.lot);
            if (!none_yet) cost_ += ready_[frame.seeker].lot;
        }
        const auto most =
            std::min(left, static_cast<std::size_t>((missing + option.usable - 1) / option.usable));
        // Fewest first, but begin with the number the table speaks for.
        std::vector<std::pair<Packed, std::size_t>> numbers;
        for (std::size_t number = 1; number <= most; ++number) {
            const Packed after =
                bound_of(frame, at + 1, missing - static_cast<Quanta>(number) * option.usable);
            if (after != BoundTable::never())
                numbers.emplace_back(option.cost * number + after, number);
        }
        std::sort(numbers.begin(), numbers.end());
        for (const auto& [bound, number] : numbers) {
            if (hopeless(bound + frame.rest) || ended()) break;
            for (std::size_t i = 0; i < number; ++i) {
                cuts_.push_back({frame.seeker, strands_done_[frame.seeker], kind,
                                 group_.kinds[kind].count - left_[kind], option.usable});
                --left_[kind];
            }
            cost_ += option.cost * number;
            take(frame, at + 1, missing - static_cast<Quanta>(number) * option.usable, then);
            cost_ -= option.cost * number;
            cuts_.resize(cuts);
            left_[kind] = left;
        }
        cost_ = before;
        if (new_lot) lots_of_[frame.seeker].pop_back();
    }

    std::vector<std::vector<std::size_t>> kinds_from_;
};

}  // namespace

Found search_whole(const Group& group, const Plan& plan, const Packing& packing,
                   std::uint64_t steps_at_most) {
    return WholeSearch(group, plan, packing, steps_at_most).run();
}

}  // namespace skeinfall::cover
