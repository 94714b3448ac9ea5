#include "skeinfall/cover/ready.hpp"

#include <algorithm>
#include <stdexcept>
#include <unordered_map>

namespace skeinfall::cover {
namespace {

constexpr std::size_t table_cells_of_a_group = 4'000'000;

Option option_for(const Choosing& choice, const Group& group, const Plan& plan,
                  const Packing& packing) {
    const Kind& kind = group.kinds[choice.kind];
    Option option;
    option.kind = choice.kind;
    option.lot = kind.lot;
    option.usable = kind.length - plan.tails;
    option.cost = packing.one(Goal::pieces) +
                  packing.one(Goal::substitution) * static_cast<Packed>(choice.cost);
    option.bound_cost = option.cost;
    if (!kind.opened) {
        option.cost += packing.one(Goal::opened) * static_cast<Packed>(kind.length);
        if (!kind.part) option.cost += packing.one(Goal::whole_opened);
    }
    // Cut up, a skein opened by another role costs this one nothing.
    if (plan.division == Division::whole) option.bound_cost = option.cost;
    option.count = kind.count;
    return option;
}

void arrange(std::vector<Option>& options, Lots lots) {
    std::unordered_map<std::size_t, Quanta> worth;
    if (lots == Lots::free)
        for (Option& option : options) option.lot = 0;
    for (const Option& option : options)
        worth[option.lot] += option.usable * static_cast<Quanta>(option.count);
    std::sort(options.begin(), options.end(), [&](const Option& a, const Option& b) {
        if (a.lot != b.lot) {
            const Quanta of_a = worth[a.lot];
            const Quanta of_b = worth[b.lot];
            return of_a != of_b ? of_a > of_b : a.lot < b.lot;
        }
        if (a.usable != b.usable) return a.usable > b.usable;
        if (a.cost != b.cost) return a.cost < b.cost;
        return a.kind < b.kind;
    });
    std::size_t end = options.size();
    for (std::size_t at = options.size(); at-- > 0;) {
        if (at + 1 < options.size() && options[at].lot != options[at + 1].lot) end = at + 1;
        options[at].block_end = end;
    }
}

void bound_alone(const Seeker& seeker, const Group& group, const Plan& plan, const Packing& packing,
                 Ready& ready) {
    const Packed first = ready.charged[0].least(0, seeker.need, false);
    std::vector<std::size_t> all;
    for (const Kind& kind : group.kinds) all.push_back(kind.count);
    // Whole skeins must make up all strands; cut ones lose more tails, which is not counted here.
    const Quanta wanted = seeker.need * static_cast<Quanta>(seeker.strands);
    const bool whole = plan.division == Division::whole;
    ready.coverable = first != BoundTable::never() &&
                      reach_of(seeker, ready, all) >= (whole ? wanted : seeker.need);
    ready.of_strand.assign(seeker.strands + 1, 0);
    if (!ready.coverable) {
        ready.alone = packing.one(Goal::uncovered) * static_cast<Packed>(seeker.weight);
        return;
    }
    for (std::size_t strand = seeker.strands; strand-- > 0;)
        ready.of_strand[strand] =
            ready.of_strand[strand + 1] + (strand == 0 ? without_first_lot(first, ready)
                                                       : ready.free[0].least(0, seeker.need, true));
    ready.alone = ready.of_strand[0];
    Quanta longest = 1;
    for (const Option& option : ready.options) longest = std::max(longest, option.usable);
    ready.pieces_at_least = static_cast<std::size_t>((seeker.need + longest - 1) / longest);
}

}  // namespace

Ready make_ready(const Seeker& seeker, const Group& group, const Plan& plan,
                 const Packing& packing) {
    Ready ready;
    for (const Choosing& choice : seeker.choices)
        ready.options.push_back(option_for(choice, group, plan, packing));
    arrange(ready.options, seeker.lots);
    if (seeker.lots == Lots::fewest) ready.lot = packing.one(Goal::extra_lots);
    std::size_t all_options = 0;
    for (const Seeker& each : group.seekers) all_options += each.choices.size() + 1;
    const std::size_t cells = table_cells_of_a_group * (ready.options.size() + 1) / all_options;
    const LotCharge charge = seeker.lots == Lots::one      ? LotCharge::only_one
                             : seeker.lots == Lots::fewest ? LotCharge::each
                                                           : LotCharge::none;
    ready.charged.emplace_back(ready.options, seeker.need, charge, ready.lot, cells);
    if (plan.division == Division::split || seeker.strands > 1)
        ready.free.emplace_back(ready.options, seeker.need, LotCharge::none, 0, cells);
    bound_alone(seeker, group, plan, packing, ready);
    return ready;
}

Quanta reach_of(const Seeker& seeker, const Ready& ready, const std::vector<std::size_t>& left) {
    Quanta all = 0;
    Quanta block = 0;
    Quanta richest = 0;
    for (std::size_t at = 0; at < ready.options.size(); ++at) {
        const Option& option = ready.options[at];
        block += option.usable * static_cast<Quanta>(left[option.kind]);
        if (at + 1 != option.block_end) continue;
        richest = std::max(richest, block);
        all += block;
        block = 0;
    }
    return seeker.lots == Lots::one ? richest : all;
}

Packing::Packing(const Goals& goals, const Total& most) {
    constexpr unsigned bits_at_most = 126;
    unsigned at = 0;
    for (std::size_t i = goals.size(); i-- > 0;) {
        const auto goal = static_cast<std::size_t>(goals[i]);
        unsigned bits = 1;
        while (bits < 63 && (most.amounts[goal] >> bits) != 0) ++bits;
        if (at + bits > bits_at_most)
            throw std::invalid_argument("the weights, costs and lengths are too large to add up");
        shift_[goal] = at;
        bits_[goal] = bits;
        one_[goal] = Packed{1} << at;
        at += bits;
    }
}

Total Packing::unpack(Packed packed) const {
    Total total;
    for (std::size_t goal = 0; goal < goal_count; ++goal)
        total.amounts[goal] =
            static_cast<std::int64_t>((packed >> shift_[goal]) & ((Packed{1} << bits_[goal]) - 1));
    return total;
}

}  // namespace skeinfall::cover
