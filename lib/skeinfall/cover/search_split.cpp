#include <algorithm>
#include <optional>

#include "skeinfall/cover/search_state.hpp"

namespace skeinfall::cover {
namespace {

/// What is left of a skein that was cut.
struct Rest {
    std::size_t kind = 0;
    std::size_t copy = 0;
    Quanta length = 0;
    bool there = true;
};

/// Some best division forms a forest: strands and the skeins they share hold no circle. So the
/// strands can be put in an order in which each takes all it can from skeins of its own and the
/// rest of what it needs from at most one that others use later. The search tries every order.
class SplitSearch : SearchState {
  public:
    SplitSearch(const Group& group, const Plan& plan, const Packing& packing, std::uint64_t steps)
        : SearchState(group, plan, packing, steps), dropped_(group.seekers.size(), false) {}

    Found run() {
        Packed bound = bound_of_all();
        // Too little for all of them: then at least one is left.
        if (bound == BoundTable::never()) bound = packing_.one(Goal::uncovered);
        keep_or_drop(0);
        return found(bound);
    }

  private:
    /// For all strands still to be covered. never() when they cannot be.
    [[nodiscard]] Packed bound_of_all() const {
        Packed sum = 0;
        Quanta wanted = 0;
        for (std::size_t at = 0; at < group_.seekers.size(); ++at) {
            const Seeker& seeker = group_.seekers[at];
            const Ready& ready = ready_[at];
            if (dropped_[at]) continue;
            if (!ready.coverable) {
                sum += dropping(seeker);
                continue;
            }
            const std::size_t done = strands_done_[at];
            sum += ready.of_strand[done];
            wanted += static_cast<Quanta>(seeker.strands - done) *
                      (seeker.need + plan_.tails * static_cast<Quanta>(ready.pieces_at_least));
        }
        Quanta begun = 0;
        for (const Rest& rest : rests_)
            if (rest.there) begun += rest.length;
        Quanta parts = 0;
        Quanta wholes = 0;
        Quanta longest = 0;
        for (std::size_t at = 0; at < group_.kinds.size(); ++at) {
            const Kind& kind = group_.kinds[at];
            const Quanta length = kind.length * static_cast<Quanta>(left_[at]);
            if (kind.opened) {
                begun += length;
            } else if (kind.part) {
                parts += length;
            } else if (left_[at] > 0) {
                wholes += length;
                longest = std::max(longest, kind.length);
            }
        }
        if (wanted > begun + parts + wholes) return BoundTable::never();
        if (wanted > begun) sum += packing_.one(Goal::opened) * static_cast<Packed>(wanted - begun);
        if (wanted > begun + parts)
            sum += packing_.one(Goal::whole_opened) *
                   static_cast<Packed>((wanted - begun - parts + longest - 1) / longest);
        return sum;
    }

    void keep_or_drop(std::size_t at) {
        if (ended()) return;
        const Packed bound = bound_of_all();
        if (bound != BoundTable::never() && hopeless(bound)) return;
        if (at == group_.seekers.size()) {
            if (bound != BoundTable::never()) next();
            return;
        }
        if (ready_[at].coverable) keep_or_drop(at + 1);
        dropped_[at] = true;
        cost_ += dropping(group_.seekers[at]);
        keep_or_drop(at + 1);
        cost_ -= dropping(group_.seekers[at]);
        dropped_[at] = false;
    }

    [[nodiscard]] std::string state() const {
        std::string state;
        for (std::size_t at = 0; at < group_.seekers.size(); ++at) {
            append(state, dropped_[at] ? 0 : strands_done_[at] + 1);
            if (strands_done_[at] == 0 || strands_done_[at] == group_.seekers[at].strands) continue;
            std::vector<std::size_t> lots = lots_of_[at];
            std::sort(lots.begin(), lots.end());
            append(state, lots.size());
            for (const std::size_t lot : lots) append(state, lot);
        }
        for (const std::size_t left : left_) append(state, left);
        std::vector<std::pair<std::size_t, Quanta>> rests;
        for (const Rest& rest : rests_)
            if (rest.there) rests.emplace_back(rest.kind, rest.length);
        std::sort(rests.begin(), rests.end());
        for (const auto& [kind, length] : rests) {
            append(state, kind);
            append(state, static_cast<std::size_t>(length));
        }
        return state;
    }

    void next() {
        if (ended()) return;
        const Packed bound = bound_of_all();
        if (bound == BoundTable::never() || hopeless(bound) || seen(state())) return;
        bool any = false;
        for (const std::size_t at : order_) {
            if (dropped_[at] || strands_done_[at] == group_.seekers[at].strands) continue;
            any = true;
            Frame frame{at, cuts_.size(), false, 0};
            for (const std::size_t other : order_)
                if (!dropped_[other])
                    frame.rest +=
                        ready_[other].of_strand[strands_done_[other] + (other == at ? 1 : 0)];
            serve_strand(frame);
        }
        if (!any) record();
    }

    /// A skein that can serve: a rest, or a fresh one of an option.
    struct Source {
        const Option* option = nullptr;
        std::optional<std::size_t> rest;
        Quanta usable = 0;
    };

    [[nodiscard]] std::vector<Source> sources_for(std::size_t seeker) const {
        std::vector<Source> out;
        const Ready& ready = ready_[seeker];
        for (std::size_t i = 0; i < rests_.size(); ++i)
            for (const Option& option : ready.options)
                if (rests_[i].there && option.kind == rests_[i].kind)
                    out.push_back({&option, i, rests_[i].length - plan_.tails});
        for (const Option& option : ready.options)
            out.push_back({&option, std::nullopt, option.usable});
        return out;
    }

    /// Lays a piece on cuts_, calls `then` and takes it back; false when it may not be had.
    template <class Then>
    bool with_piece(std::size_t seeker, const Source& source, const Then& then) {
        const Option& option = *source.option;
        if (source.rest ? !rests_[*source.rest].there : left_[option.kind] == 0) return false;
        const bool none_yet = lots_of_[seeker].empty();
        const bool new_lot = !has_lot(seeker, option.lot);
        if (new_lot && !none_yet && group_.seekers[seeker].lots == Lots::one) return false;
        Packed cost = source.rest ? option.bound_cost : option.cost;
        if (new_lot && !none_yet) cost += ready_[seeker].lot;
        const std::size_t copy = source.rest ? rests_[*source.rest].copy
                                             : group_.kinds[option.kind].count - left_[option.kind];
        if (new_lot) lots_of_[seeker].push_back(option.lot);
        cost_ += cost;
        if (source.rest)
            rests_[*source.rest].there = false;
        else
            --left_[option.kind];
        cuts_.push_back({seeker, strands_done_[seeker], option.kind, copy, source.usable});
        then();
        cuts_.pop_back();
        if (source.rest)
            rests_[*source.rest].there = true;
        else
            ++left_[option.kind];
        cost_ -= cost;
        if (new_lot) lots_of_[seeker].pop_back();
        return true;
    }

    void serve_strand(const Frame& frame) {
        const std::size_t seeker = frame.seeker;
        const std::vector<Source> sources = sources_for(seeker);
        std::vector<std::size_t> tried;
        for (const Source& source : sources) {
            const std::size_t kind = source.option->kind;
            if (!source.rest) {
                if (std::find(tried.begin(), tried.end(), kind) != tried.end()) continue;
                tried.push_back(kind);
            }
            if (wanted(kind, seeker))
                with_piece(seeker, source, [&] { add_own(frame, sources, 0, 0); });
        }
        keep_no_rest(frame, sources, 0, group_.seekers[seeker].need);
    }

    [[nodiscard]] bool can_be_best(const Frame& frame, Quanta missing) const {
        const Packed bound = bound_of(frame, 0, missing);
        return bound != BoundTable::never() && !hopeless(bound + frame.rest);
    }

    /// The first piece of the frame is to be cut; adds skeins of the strand's own to it, which
    /// leave something for the first to give.
    void add_own(const Frame& frame, const std::vector<Source>& sources, std::size_t from,
                 Quanta own) {
        const Quanta need = group_.seekers[frame.seeker].need;
        const Quanta shared = cuts_[frame.first_cut].used;
        if (ended() || !can_be_best(frame, need - own - shared)) return;
        if (own + shared >= need) cut_first(frame, own + shared - need);
        for (std::size_t at = from; at < sources.size() && !ended(); ++at)
            if (own + sources[at].usable < need)
                with_piece(frame.seeker, sources[at],
                           [&] { add_own(frame, sources, at, own + sources[at].usable); });
    }

    void cut_first(const Frame& frame, Quanta spare) {
        Cut& shared = cuts_[frame.first_cut];
        if (spare <= plan_.tails) return;  // no rest worth keeping
        const std::size_t at = frame.first_cut;
        shared.used -= spare;
        rests_.push_back({shared.kind, shared.copy, spare, true});
        ++strands_done_[frame.seeker];
        next();
        --strands_done_[frame.seeker];
        rests_.pop_back();
        cuts_[at].used += spare;
    }

    /// The covers whose rests nobody can use.
    void keep_no_rest(const Frame& frame, const std::vector<Source>& sources, std::size_t from,
                      Quanta missing) {
        const std::size_t seeker = frame.seeker;
        if (ended() || !can_be_best(frame, missing)) return;
        if (missing <= 0) {
            if (!is_minimal(frame)) return;
            const auto useful = [&](const Cut& cut) { return wanted(cut.kind, seeker); };
            const auto first = cuts_.begin() + static_cast<std::ptrdiff_t>(frame.first_cut);
            if (-missing > plan_.tails && std::any_of(first, cuts_.end(), useful)) return;
            const std::size_t last = cuts_.size() - 1;
            cuts_[last].used += missing;
            ++strands_done_[seeker];
            next();
            --strands_done_[seeker];
            cuts_[last].used -= missing;
            return;
        }
        for (std::size_t at = from; at < sources.size() && !ended(); ++at)
            with_piece(seeker, sources[at],
                       [&] { keep_no_rest(frame, sources, at, missing - sources[at].usable); });
    }

    /// Whether anybody could still use a rest of this kind when the seeker's strand is done.
    [[nodiscard]] bool wanted(std::size_t kind, std::size_t seeker) const {
        for (std::size_t at = 0; at < group_.seekers.size(); ++at) {
            const std::size_t done = strands_done_[at] + (at == seeker ? 1 : 0);
            if (dropped_[at] || done >= group_.seekers[at].strands) continue;
            for (const Option& option : ready_[at].options)
                if (option.kind == kind) return true;
        }
        return false;
    }

    std::vector<bool> dropped_;
    std::vector<Rest> rests_;
};

}  // namespace

Found search_split(const Group& group, const Plan& plan, const Packing& packing,
                   std::uint64_t steps_at_most) {
    return SplitSearch(group, plan, packing, steps_at_most).run();
}

}  // namespace skeinfall::cover
