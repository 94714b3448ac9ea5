#include "skeinfall/cover/choose.hpp"

#include <algorithm>
#include <functional>
#include <map>
#include <numeric>
#include <optional>

#include <boost/dynamic_bitset.hpp>

#include "skeinfall/base/text.hpp"

namespace skeinfall::cover {
namespace {

using Indices = std::vector<std::size_t>;

/// How far below the longest a choice of exactly j items may stay, every amount up to a cap, and by
/// which items. Counting what is missing to the longest keeps the table small: where many skeins
/// fit, the good choices are all near it.
class ShortfallsByCount {
  public:
    ShortfallsByCount(const Indices& items, const std::vector<Item>& all, std::size_t count,
                      Quanta cap)
        : all_(all), longest_(items.empty() ? 0 : all[items.front()].usable) {
        // Of one length only: the first of them by id, as everywhere.
        if (!items.empty() && all[items.back()].usable == longest_) {
            used_ = items;
            return;
        }
        const auto width = static_cast<std::size_t>(cap) + 1;
        layers_.assign(count + 1, boost::dynamic_bitset<>(width));
        made_by_.assign(count + 1, std::vector<std::uint32_t>(width, none));
        layers_[0].set(0);
        // More copies of one length than there are places add nothing.
        std::map<Quanta, std::size_t> copies;
        for (const std::size_t item : items) {
            const Quanta below = longest_ - all[item].usable;
            if (below > cap) break;
            if (++copies[below] > count) continue;
            used_.push_back(item);
            const auto number = static_cast<std::uint32_t>(used_.size() - 1);
            for (std::size_t j = count; j >= 1; --j) {
                boost::dynamic_bitset<> fresh = layers_[j - 1] << static_cast<std::size_t>(below);
                fresh -= layers_[j];
                layers_[j] |= fresh;
                for (auto sum = fresh.find_first(); sum != boost::dynamic_bitset<>::npos;
                     sum = fresh.find_next(sum))
                    made_by_[j][sum] = number;
            }
        }
    }

    [[nodiscard]] boost::dynamic_bitset<> sums(std::size_t count) const {
        return layers_.empty() ? boost::dynamic_bitset<>(1, 1) : layers_[count];
    }

    /// The items that stay `sum` below, `count` of them.
    void trace(std::size_t count, std::size_t sum, Indices& out) const {
        if (layers_.empty()) {
            out.insert(out.end(), used_.begin(),
                       used_.begin() + static_cast<std::ptrdiff_t>(count));
            return;
        }
        while (count > 0) {
            const std::size_t item = used_[made_by_[count][sum]];
            out.push_back(item);
            sum -= static_cast<std::size_t>(longest_ - all_[item].usable);
            --count;
        }
    }

  private:
    static constexpr std::uint32_t none = ~std::uint32_t{0};
    const std::vector<Item>& all_;
    Quanta longest_;
    Indices used_;
    std::vector<boost::dynamic_bitset<>> layers_;
    std::vector<std::vector<std::uint32_t>> made_by_;
};

Quanta sum_of(const Indices& items, const std::vector<Item>& all) {
    return std::accumulate(items.begin(), items.end(), Quanta{0},
                           [&](Quanta sum, std::size_t i) { return sum + all[i].usable; });
}

/// How many of `sorted` (longest first) must be taken to bring `have` up to `need`.
std::size_t fewest(const Indices& sorted, const std::vector<Item>& all, Quanta have, Quanta need) {
    std::size_t count = 0;
    for (const std::size_t item : sorted) {
        if (have >= need) break;
        have += all[item].usable;
        ++count;
    }
    return count;
}

/// Word operations left for the tables of one choose().
class Effort {
  public:
    /// Whether tables of so many places by so much to spare may be filled; then it is taken off.
    [[nodiscard]] bool allows(std::size_t items, std::size_t places, Quanta spare) {
        constexpr Quanta bits = 64;
        constexpr Quanta overhead = 16;  // of handling one row, in words
        const auto rows = static_cast<Quanta>(places);
        if (spare >= table_cells_at_most / rows) return false;
        const Quanta work = static_cast<Quanta>(items) * rows * (spare / bits + overhead);
        if (work > left_) return false;
        left_ -= work;
        return true;
    }

  private:
    Quanta left_ = table_work_at_most;
};

/// The cover by so many wholes and parts that leaves least over; the longest of them suffice.
Choice closest(const Indices& wholes, std::size_t whole_count, const Indices& parts,
               std::size_t part_count, const std::vector<Item>& all, Quanta need, Effort& effort) {
    Quanta spare = -need;
    if (whole_count > 0) spare += static_cast<Quanta>(whole_count) * all[wholes.front()].usable;
    if (part_count > 0) spare += static_cast<Quanta>(part_count) * all[parts.front()].usable;
    const bool one_length =
        (wholes.empty() || all[wholes.front()].usable == all[wholes.back()].usable) &&
        (parts.empty() || all[parts.front()].usable == all[parts.back()].usable);
    if (!one_length &&
        !effort.allows(wholes.size() + parts.size(), whole_count + part_count + 2, spare)) {
        Choice longest_first;
        longest_first.covers = true;
        longest_first.proven = false;
        longest_first.items.assign(wholes.begin(),
                                   wholes.begin() + static_cast<std::ptrdiff_t>(whole_count));
        longest_first.items.insert(longest_first.items.end(), parts.begin(),
                                   parts.begin() + static_cast<std::ptrdiff_t>(part_count));
        std::sort(longest_first.items.begin(), longest_first.items.end());
        longest_first.cost = {0, whole_count, whole_count + part_count,
                              sum_of(longest_first.items, all)};
        return longest_first;
    }
    const ShortfallsByCount of_wholes(wholes, all, whole_count, spare);
    const ShortfallsByCount of_parts(parts, all, part_count, spare);

    // Two pointers: as the wholes stay farther below, the parts may stay less.
    const auto a_sums = of_wholes.sums(whole_count);
    const auto b_sums = of_parts.sums(part_count);
    Indices b_list;
    for (auto b = b_sums.find_first(); b != boost::dynamic_bitset<>::npos; b = b_sums.find_next(b))
        b_list.push_back(b);
    std::optional<std::pair<std::size_t, std::size_t>> best;
    std::size_t b_end = b_list.size();
    for (auto a = a_sums.find_first(); a != boost::dynamic_bitset<>::npos;
         a = a_sums.find_next(a)) {
        while (b_end > 0 && static_cast<Quanta>(a + b_list[b_end - 1]) > spare) --b_end;
        if (b_end == 0) break;
        const std::size_t b = b_list[b_end - 1];
        if (!best || a + b >= best->first + best->second) best = {a, b};
    }
    Choice choice;
    choice.covers = true;
    of_wholes.trace(whole_count, best->first, choice.items);
    of_parts.trace(part_count, best->second, choice.items);
    std::sort(choice.items.begin(), choice.items.end());
    choice.cost = {0, whole_count, whole_count + part_count,
                   need + spare - static_cast<Quanta>(best->first + best->second)};
    return choice;
}

void part_from(const Indices& candidates, const std::vector<Item>& all, Indices& wholes,
               Indices& parts) {
    for (const std::size_t item : candidates) (all[item].part ? parts : wholes).push_back(item);
}

/// The cheapest cover from the given items (longest first), whatever their lots; they are known
/// to suffice.
Choice cheapest(const Indices& candidates, const std::vector<Item>& all, Quanta need,
                Effort& effort) {
    Indices parts;
    Indices wholes;
    part_from(candidates, all, wholes, parts);
    // Fewest whole skeins: all parts first; then fewest parts beside the longest wholes.
    const std::size_t whole_count = fewest(wholes, all, sum_of(parts, all), need);
    const Indices longest(wholes.begin(),
                          wholes.begin() + static_cast<std::ptrdiff_t>(whole_count));
    const std::size_t part_count = fewest(parts, all, sum_of(longest, all), need);
    return closest(wholes, whole_count, parts, part_count, all, need, effort);
}

/// The cheapest cover by exactly `count` items, which the longest are known to reach: where every
/// skein is a lot of its own, as many lots are as many pieces.
Choice cheapest_of(std::size_t count, const Indices& candidates, const std::vector<Item>& all,
                   Quanta need, Effort& effort) {
    Indices parts;
    Indices wholes;
    part_from(candidates, all, wholes, parts);
    const auto most = [&](const Indices& items, std::size_t first) {
        return sum_of({items.begin(), items.begin() + static_cast<std::ptrdiff_t>(first)}, all);
    };
    std::size_t whole_count = count > parts.size() ? count - parts.size() : 0;
    while (most(wholes, whole_count) + most(parts, count - whole_count) < need) ++whole_count;
    return closest(wholes, whole_count, parts, count - whole_count, all, need, effort);
}

struct LotOfItems {
    std::size_t lot = 0;
    Quanta sum = 0;
    std::string first_id;
};

}  // namespace

Choice choose(const std::vector<Item>& items, Quanta need, Lots rule) {
    std::map<std::size_t, Indices> by_lot;
    Indices order(items.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        if (items[a].usable != items[b].usable) return items[a].usable > items[b].usable;
        return base::naturally_before(items[a].id, items[b].id);
    });
    for (const std::size_t item : order)
        by_lot[rule == Lots::free ? 0 : items[item].lot].push_back(item);
    std::vector<LotOfItems> lots;
    for (const auto& [lot, members] : by_lot) {
        const auto first =
            std::min_element(members.begin(), members.end(), [&](std::size_t a, std::size_t b) {
                return base::naturally_before(items[a].id, items[b].id);
            });
        lots.push_back({lot, sum_of(members, items), items[*first].id});
    }
    std::sort(lots.begin(), lots.end(), [](const LotOfItems& a, const LotOfItems& b) {
        if (a.sum != b.sum) return a.sum > b.sum;
        return base::naturally_before(a.first_id, b.first_id);
    });

    Quanta reached = 0;
    std::size_t count = 0;
    const std::size_t at_most =
        rule == Lots::one ? std::min<std::size_t>(1, lots.size()) : lots.size();
    while (count < at_most && reached < need) reached += lots[count++].sum;

    const auto merged = [&](const Indices& lot_numbers) {
        Indices all;
        for (const std::size_t at : lot_numbers) {
            const Indices& members = by_lot[lots[at].lot];
            all.insert(all.end(), members.begin(), members.end());
        }
        std::sort(all.begin(), all.end(), [&](std::size_t a, std::size_t b) {
            if (items[a].usable != items[b].usable) return items[a].usable > items[b].usable;
            return base::naturally_before(items[a].id, items[b].id);
        });
        return all;
    };

    if (reached < need) {
        Choice richest;
        Indices taken(count);
        std::iota(taken.begin(), taken.end(), std::size_t{0});
        richest.items = merged(taken);
        std::sort(richest.items.begin(), richest.items.end());
        return richest;
    }

    Effort effort;
    if (by_lot.size() == items.size()) {
        Choice choice = cheapest_of(count, order, items, need, effort);
        choice.cost.extra_lots = count - 1;
        return choice;
    }

    // Every set of `count` lots that suffices, richest first; the cheapest of their covers wins.
    Choice best;
    bool proven = true;
    std::size_t looked_at = 0;
    Indices taken;
    const std::function<void(std::size_t, Quanta)> search = [&](std::size_t from, Quanta have) {
        if (looked_at >= lot_sets_at_most) {
            proven = false;
            return;
        }
        if (taken.size() == count) {
            if (have < need) return;
            ++looked_at;
            Choice choice = cheapest(merged(taken), items, need, effort);
            choice.cost.extra_lots = count - 1;
            // Any set not searched to the end might have held the cheapest cover.
            proven = proven && choice.proven;
            if (!best.covers || choice.cost < best.cost) best = std::move(choice);
            return;
        }
        const std::size_t missing = count - taken.size();
        for (std::size_t at = from; at + missing <= lots.size(); ++at) {
            Quanta bound = have;
            for (std::size_t next = at; next < at + missing; ++next) bound += lots[next].sum;
            if (bound < need) return;
            taken.push_back(at);
            search(at + 1, have + lots[at].sum);
            taken.pop_back();
        }
    };
    search(0, 0);
    best.proven = proven;
    return best;
}

}  // namespace skeinfall::cover
