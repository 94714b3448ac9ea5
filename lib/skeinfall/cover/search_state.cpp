#include "skeinfall/cover/search_state.hpp"

#include <algorithm>
#include <numeric>

namespace skeinfall::cover {
namespace {

constexpr std::size_t states_remembered_at_most = 400'000;
constexpr std::uint64_t steps_between_questions = 1U << 14U;

}  // namespace

SearchState::SearchState(const Group& group, const Plan& plan, const Packing& packing,
                         std::uint64_t steps)
    : group_(group),
      plan_(plan),
      packing_(packing),
      order_(group.seekers.size()),
      strands_done_(group.seekers.size(), 0),
      lots_of_(group.seekers.size()),
      steps_at_most_(steps) {
    for (const Kind& kind : group.kinds) left_.push_back(kind.count);
    for (const Seeker& seeker : group.seekers)
        ready_.push_back(make_ready(seeker, group, plan, packing));
    std::iota(order_.begin(), order_.end(), std::size_t{0});
    std::stable_sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) {
        const auto choices = [&](std::size_t s) { return group_.seekers[s].choices.size(); };
        if (choices(a) != choices(b)) return choices(a) < choices(b);
        return group_.seekers[a].need > group_.seekers[b].need;
    });
    // To begin with nobody is served, and that answer is still to be found.
    best_ = 1;
    for (const Seeker& seeker : group.seekers) best_ += dropping(seeker);
}

Found SearchState::found(Packed bound) const {
    Found found;
    found.cuts = best_cuts_;
    found.total = packing_.unpack(best_);
    found.limit = limit_;
    found.bound = limit_ == Limit::none ? found.total : packing_.unpack(std::min(bound, best_));
    found.steps = steps_;
    return found;
}

bool SearchState::ended() {
    if (limit_ != Limit::none) return true;
    ++steps_;
    if (steps_ > steps_at_most_ && have_any_) limit_ = Limit::steps;
    if (plan_.go_on && steps_ % steps_between_questions == 0 && have_any_ &&
        !plan_.go_on({steps_, group_.seekers.size()}))
        limit_ = Limit::stopped;
    return limit_ != Limit::none;
}

void SearchState::record() {
    if (cost_ >= best_) return;
    best_ = cost_;
    best_cuts_ = cuts_;
    have_any_ = true;
}

bool SearchState::seen(const std::string& state) {
    const auto found = seen_.find(state);
    if (found != seen_.end()) {
        if (found->second <= cost_) return true;
        found->second = cost_;
        return false;
    }
    if (seen_.size() < states_remembered_at_most) seen_.emplace(state, cost_);
    return false;
}

void SearchState::append(std::string& state, std::size_t number) {
    for (; number >= 128; number /= 128) state += static_cast<char>(128 + number % 128);
    state += static_cast<char>(number);
}

bool SearchState::has_lot(std::size_t seeker, std::size_t lot) const {
    const auto& lots = lots_of_[seeker];
    return std::find(lots.begin(), lots.end(), lot) != lots.end();
}

Packed SearchState::bound_of(const Frame& frame, std::size_t from, Quanta missing) const {
    const Ready& ready = ready_[frame.seeker];
    if (missing <= 0) return 0;
    if (!frame.lots_charged) return ready.free[0].least(from, missing, true);
    const bool none_yet = lots_of_[frame.seeker].empty();
    const bool open =
        !none_yet && from < ready.options.size() && has_lot(frame.seeker, ready.options[from].lot);
    if (group_.seekers[frame.seeker].lots == Lots::one && !none_yet && !open)
        return BoundTable::never();
    const Packed least = ready.charged[0].least(from, missing, open);
    return none_yet ? without_first_lot(least, ready) : least;
}

bool SearchState::is_minimal(const Frame& frame) const {
    Quanta spare = -group_.seekers[frame.seeker].need;
    for (std::size_t i = frame.first_cut; i < cuts_.size(); ++i) spare += cuts_[i].used;
    for (std::size_t i = frame.first_cut; i < cuts_.size(); ++i)
        if (cuts_[i].used <= spare) return false;
    return true;
}

Found search(const Group& group, const Plan& plan, const Packing& packing,
             std::uint64_t steps_at_most) {
    return plan.division == Division::whole ? search_whole(group, plan, packing, steps_at_most)
                                            : search_split(group, plan, packing, steps_at_most);
}

}  // namespace skeinfall::cover
