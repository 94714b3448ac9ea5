#include "skeinfall/cover/allocate.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>
#include <stdexcept>
#include <tuple>
#include <unordered_map>

#include "skeinfall/base/text.hpp"
#include "skeinfall/cover/search.hpp"

namespace skeinfall::cover {
namespace {

using Indices = std::vector<std::size_t>;

void refuse_unless(bool good, const char* what) {
    if (!good) throw std::invalid_argument(what);
}

void check(const std::vector<Stock>& skeins, const std::vector<Demand>& demands, const Plan& plan) {
    refuse_unless(plan.goals.front() == Goal::uncovered, "the first goal must be the uncovered");
    const std::set<Goal> goals(plan.goals.begin(), plan.goals.end());
    refuse_unless(goals.size() == goal_count, "every goal must be named once");
    refuse_unless(plan.tails >= 0, "tails are at least 0");
    for (const Stock& skein : skeins) refuse_unless(skein.length >= 0, "a length is at least 0");
    for (const Demand& demand : demands) {
        refuse_unless(demand.need >= 0, "a need is at least 0");
        refuse_unless(demand.weight >= 1, "a weight is at least 1");
        refuse_unless(demand.strands >= 1, "there is at least one strand");
        for (const Fit& fit : demand.fits)
            refuse_unless(fit.skein < skeins.size() && fit.cost >= 0,
                          "a fit names a skein and costs at least 0");
    }
}

/// Room for the dearest division there could be.
Total dearest(const std::vector<Stock>& skeins, const std::vector<Demand>& demands) {
    Total most;
    for (const Stock& skein : skeins) {
        most.of(Goal::opened) += skein.length;
        ++most.of(Goal::whole_opened);
    }
    for (const Demand& demand : demands) {
        most.of(Goal::uncovered) += demand.weight;
        const auto pieces = static_cast<std::int64_t>(demand.fits.size() * demand.strands);
        most.of(Goal::pieces) += pieces;
        most.of(Goal::extra_lots) += pieces;
        std::int64_t worst = 0;
        for (const Fit& fit : demand.fits) worst = std::max(worst, fit.cost);
        most.of(Goal::substitution) += worst * pieces;
    }
    return most;
}

Indices sorted_by_id(std::size_t count, const auto& id_of) {
    Indices order(count);
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return base::naturally_before(id_of(a), id_of(b));
    });
    return order;
}

/// One turn's demands with what is left for them.
class Turn {
  public:
    Turn(std::vector<Stock>& skeins, const Indices& skein_order, const std::vector<Demand>& demands,
         Indices wanted, const Plan& plan, const Packing& packing, Allocation& out)
        : skeins_(skeins),
          skein_order_(skein_order),
          demands_(demands),
          wanted_(std::move(wanted)),
          plan_(plan),
          packing_(packing),
          out_(out) {}

    /// Serves the demands, takes their pieces off the skeins. Returns the bound on its total.
    Total run() {
        find_kinds();
        sorts_of_.resize(demands_.size());
        for (std::size_t at = 0; at < sorts_.size(); ++at)
            for (const Fit& fit : sorts_[at].fits) sorts_of_[fit.skein].push_back(at);
        Total bound;
        for (const Indices& group : groups()) bound += serve(group);
        return bound;
    }

  private:
    struct Sort {
        Kind kind;
        std::vector<Fit> fits;  // with the demand for `skein`
        Indices members;        // by id
    };

    void find_kinds() {
        std::vector<std::vector<Fit>> fits_of(skeins_.size());
        for (const std::size_t demand : wanted_)
            for (const Fit& fit : demands_[demand].fits)
                if (skeins_[fit.skein].length > plan_.tails)
                    fits_of[fit.skein].push_back({demand, fit.cost});
        std::map<std::size_t, std::size_t> lots;  // renumbered by the least id
        std::map<std::tuple<Quanta, bool, bool, std::size_t,
                            std::vector<std::pair<std::size_t, std::int64_t>>>,
                 std::size_t>
            known;
        for (const std::size_t at : skein_order_) {
            if (fits_of[at].empty()) continue;
            const Stock& skein = skeins_[at];
            const std::size_t lot = lots.emplace(skein.lot, lots.size()).first->second;
            std::vector<std::pair<std::size_t, std::int64_t>> fits;
            for (const Fit& fit : fits_of[at]) fits.emplace_back(fit.skein, fit.cost);
            const auto [found, fresh] = known.emplace(
                std::tuple(skein.length, skein.part, skein.opened, lot, fits), sorts_.size());
            if (fresh)
                sorts_.push_back(
                    {{skein.length, skein.part, skein.opened, lot, 0}, fits_of[at], {}});
            Sort& sort = sorts_[found->second];
            sort.members.push_back(at);
            ++sort.kind.count;
        }
    }

    /// Demands that compete for skeins, directly or through others.
    [[nodiscard]] std::vector<Indices> groups() const {
        std::map<std::size_t, std::size_t> parent;
        for (const std::size_t demand : wanted_) parent[demand] = demand;
        const auto root = [&](std::size_t at) {
            while (parent[at] != at) at = parent[at] = parent[parent[at]];
            return at;
        };
        for (const Sort& sort : sorts_)
            for (const Fit& fit : sort.fits) parent[root(fit.skein)] = root(sort.fits[0].skein);
        std::map<std::size_t, Indices> members;
        std::vector<Indices> out;
        Indices roots;
        for (const std::size_t demand : wanted_) {
            const std::size_t of = root(demand);
            if (!members.contains(of)) roots.push_back(of);
            members[of].push_back(demand);
        }
        for (const std::size_t of : roots) out.push_back(members[of]);
        return out;
    }

    Total serve(const Indices& group) {
        if (plan_.division == Division::whole || group.size() == 1) {
            if (const auto alone = each_alone(group)) {
                for (const auto& [demand, pieces] : *alone) hand_out(demand, pieces);
                return total_of(group);
            }
        }
        return serve_together(group);
    }

    using Alone = std::vector<std::pair<std::size_t, std::vector<Piece>>>;

    /// Whether choose() can serve a demand: it knows one order of goals and no substitution.
    [[nodiscard]] bool is_plain(const Demand& demand) const {
        const bool alike = std::all_of(demand.fits.begin(), demand.fits.end(), [&](const Fit& fit) {
            return fit.cost == demand.fits.front().cost;
        });
        return alike && demand.strands == 1 && plan_.goals == usual_goals;
    }

    /// Every demand's own best; nothing when they would take the same skeins or one cannot be
    /// proven this way.
    [[nodiscard]] std::optional<Alone> each_alone(const Indices& group) const {
        std::unordered_map<std::size_t, std::size_t> taken;  // of a sort
        Alone out;
        for (const std::size_t demand : group) {
            if (demands_[demand].need == 0) continue;
            if (!is_plain(demands_[demand])) return std::nullopt;
            std::vector<Item> items;
            Indices sort_of_item;
            Indices skein_of_item;
            for (const std::size_t at : sorts_of_[demand])
                for (const std::size_t skein : sorts_[at].members) {
                    items.push_back({skeins_[skein].length - plan_.tails,
                                     skeins_[skein].part || skeins_[skein].opened,
                                     sorts_[at].kind.lot, skeins_[skein].id});
                    sort_of_item.push_back(at);
                    skein_of_item.push_back(skein);
                }
            if (plan_.division == Division::split &&
                std::any_of(skein_of_item.begin(), skein_of_item.end(),
                            [&](std::size_t skein) { return skeins_[skein].opened; }))
                return std::nullopt;
            const Choice choice = choose(items, demands_[demand].need, demands_[demand].lots);
            if (!choice.proven) return std::nullopt;
            if (!choice.covers) continue;
            std::vector<Piece> pieces;
            for (const std::size_t item : choice.items) {
                const Sort& sort = sorts_[sort_of_item[item]];
                std::size_t& used = taken[sort_of_item[item]];
                if (used == sort.members.size()) return std::nullopt;
                pieces.push_back({sort.members[used++], 0, sort.kind.length - plan_.tails});
            }
            if (plan_.division == Division::split) cut_to_fit(pieces, demands_[demand].need);
            out.emplace_back(demand, std::move(pieces));
        }
        return out;
    }

    static void cut_to_fit(std::vector<Piece>& pieces, Quanta need) {
        Quanta left = need;
        for (Piece& piece : pieces) {
            piece.used = std::min(piece.used, left);
            left -= piece.used;
        }
    }

    Total serve_together(const Indices& group) {
        std::unordered_map<std::size_t, std::size_t> seeker_of;
        Group asked;
        Indices demand_of;
        for (const std::size_t demand : group) {
            const Demand& d = demands_[demand];
            if (d.need == 0) continue;
            seeker_of[demand] = asked.seekers.size();
            demand_of.push_back(demand);
            asked.seekers.push_back({d.need, d.strands, d.weight, d.lots, {}});
        }
        Indices sort_of_kind;
        std::set<std::size_t> ours;
        for (const std::size_t demand : demand_of)
            ours.insert(sorts_of_[demand].begin(), sorts_of_[demand].end());
        for (const std::size_t at : ours) {
            for (const Fit& fit : sorts_[at].fits) {
                const auto found = seeker_of.find(fit.skein);
                if (found != seeker_of.end())
                    asked.seekers[found->second].choices.push_back({asked.kinds.size(), fit.cost});
            }
            asked.kinds.push_back(sorts_[at].kind);
            sort_of_kind.push_back(at);
        }
        const std::uint64_t left =
            plan_.steps_at_most > out_.steps ? plan_.steps_at_most - out_.steps : 0;
        const Found found = search(asked, plan_, packing_, left);
        out_.steps += found.steps;
        if (found.limit != Limit::none) out_.limit = found.limit;
        std::map<std::size_t, std::vector<Piece>> pieces;
        for (const Cut& cut : found.cuts)
            pieces[demand_of[cut.seeker]].push_back(
                {sorts_[sort_of_kind[cut.kind]].members[cut.copy], cut.strand, cut.used});
        for (auto& [demand, list] : pieces) hand_out(demand, std::move(list));
        return found.limit == Limit::none ? total_of(group) : found.bound;
    }

    void hand_out(std::size_t demand, std::vector<Piece> pieces) {
        std::sort(pieces.begin(), pieces.end(), [&](const Piece& a, const Piece& b) {
            return std::tie(a.strand, skeins_[a.skein].id, a.skein) <
                   std::tie(b.strand, skeins_[b.skein].id, b.skein);
        });
        out_.served[demand].covered = true;
        out_.served[demand].pieces = std::move(pieces);
    }

    [[nodiscard]] Total total_of(const Indices& group) const {
        Total total;
        std::set<std::size_t> opened;
        for (const std::size_t demand : group) {
            const Served& served = out_.served[demand];
            if (!served.covered && demands_[demand].need > 0)
                total.of(Goal::uncovered) += demands_[demand].weight;
            std::set<std::size_t> lots;
            for (const Piece& piece : served.pieces) {
                const Stock& skein = skeins_[piece.skein];
                lots.insert(skein.lot);
                ++total.of(Goal::pieces);
                total.of(Goal::substitution) +=
                    std::find_if(demands_[demand].fits.begin(), demands_[demand].fits.end(),
                                 [&](const Fit& fit) { return fit.skein == piece.skein; })
                        ->cost;
                if (skein.opened || !opened.insert(piece.skein).second) continue;
                total.of(Goal::opened) += skein.length;
                if (!skein.part) ++total.of(Goal::whole_opened);
            }
            if (demands_[demand].lots == Lots::fewest && lots.size() > 1)
                total.of(Goal::extra_lots) += static_cast<std::int64_t>(lots.size()) - 1;
        }
        return total;
    }

  public:
    /// Total of the turn; then its pieces are taken off the skeins.
    Total settle() {
        const Total total = total_of(wanted_);
        for (const std::size_t demand : wanted_)
            for (const Piece& piece : out_.served[demand].pieces) {
                Stock& skein = skeins_[piece.skein];
                skein.length -=
                    plan_.division == Division::whole ? skein.length : piece.used + plan_.tails;
                skein.opened = true;
            }
        return total;
    }

  private:
    std::vector<Stock>& skeins_;
    const Indices& skein_order_;
    const std::vector<Demand>& demands_;
    Indices wanted_;
    const Plan& plan_;
    const Packing& packing_;
    Allocation& out_;
    std::vector<Sort> sorts_;
    std::vector<Indices> sorts_of_;  ///< each demand's
};

}  // namespace

std::array<std::int64_t, goal_count> Total::by(const Goals& goals) const {
    std::array<std::int64_t, goal_count> out{};
    for (std::size_t i = 0; i < goal_count; ++i) out.at(i) = of(goals.at(i));
    return out;
}

Total& Total::operator+=(const Total& other) {
    for (std::size_t i = 0; i < goal_count; ++i) amounts.at(i) += other.amounts.at(i);
    return *this;
}

Allocation allocate(const std::vector<Stock>& skeins, const std::vector<Demand>& demands,
                    const Plan& plan) {
    check(skeins, demands, plan);
    const Packing packing(plan.goals, dearest(skeins, demands));
    const Indices skein_order = sorted_by_id(
        skeins.size(), [&](std::size_t at) -> const auto& { return skeins[at].id; });
    std::map<std::size_t, Indices> turns;
    for (const std::size_t demand : sorted_by_id(
             demands.size(), [&](std::size_t at) -> const auto& { return demands[at].id; }))
        turns[demands[demand].turn].push_back(demand);

    Allocation out;
    out.served.resize(demands.size());
    for (std::size_t i = 0; i < demands.size(); ++i) out.served[i].covered = demands[i].need == 0;
    std::vector<Stock> left = skeins;
    Total bound;
    for (const auto& [number, wanted] : turns) {
        Turn turn(left, skein_order, demands, wanted, plan, packing, out);
        bound += turn.run();
        out.total += turn.settle();
    }
    if (!out.proven()) out.bound = bound;
    return out;
}

}  // namespace skeinfall::cover
