#include "skeinfall/chain/law.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace skeinfall::chain {
namespace {

constexpr int nodes = 31;
constexpr double farthest_node = 5.0;  // in spreads
constexpr double negligible = 1e-12;
constexpr double hardly_ever = 1e-4;
constexpr double certain = 7.5;  // spreads beyond which nothing is left to chance

double below(double deviations) {
    return 0.5 * std::erfc(-deviations / std::numbers::sqrt2);
}

/// A value of f and its weight.
struct Node {
    double factor = 1.0;
    double weight = 1.0;
};

/// Wide needs are lognormal, as measure::chance_enough() takes them.
std::vector<Node> nodes_for(double common) {
    if (common <= 0.0) return {Node{}};
    const double sigma = std::sqrt(std::log1p(common * common));
    std::vector<Node> out;
    double sum = 0.0;
    for (int i = 0; i < nodes; ++i) {
        const double z = farthest_node * (2.0 * i / (nodes - 1) - 1.0);
        const double factor = common > measure::lognormal_above.value()
                                  ? std::exp(sigma * z - sigma * sigma / 2.0)
                                  : 1.0 + common * z;
        if (factor <= 0.0) continue;
        out.push_back({factor, std::exp(-z * z / 2.0)});
        sum += out.back().weight;
    }
    for (Node& node : out) node.weight /= sum;
    return out;
}

/// Chances of having done so many links, from `first` on.
struct Places {
    std::size_t first = 0;
    std::vector<double> chance;
};

class Chain {
  public:
    Chain(const std::vector<Link>& links, const std::vector<Strand>& strands) {
        yarn_.reserve(links.size() + 1);
        for (const Link& link : links) {
            yarn_.push_back(yarn_.back() + link.yarn.value());
            squares_.push_back(squares_.back() + link.spread.value() * link.spread.value());
        }
        for (const Strand& strand : strands)
            strands_.push_back({strand.usable.value(), strand.own.value()});
    }

    /// Adds what one node gives to the mixture of each strand.
    void add(const Node& node, std::vector<std::vector<double>>& mixed) const {
        Places at{0, {1.0}};
        for (std::size_t k = 0; k < strands_.size(); ++k) {
            at = after(at, strands_[k], node.factor);
            for (std::size_t i = 0; i < at.chance.size(); ++i)
                mixed[k][at.first + i] += node.weight * at.chance[i];
        }
    }

  private:
    struct Plain {
        double usable = 0.0;
        double own = 0.0;
    };

    [[nodiscard]] std::size_t end() const { return yarn_.size() - 1; }

    /// That a strand begun after link `from` does the links up to `to`.
    [[nodiscard]] double reaches(const Plain& strand, double factor, std::size_t from,
                                 std::size_t to) const {
        const double spare = strand.usable - factor * (yarn_[to] - yarn_[from]);
        const double spread =
            std::sqrt(strand.own * strand.own +
                      factor * factor * std::max(0.0, squares_[to] - squares_[from]));
        if (spread <= 0.0) return spare >= 0.0 ? 1.0 : 0.0;
        return below(spare / spread);
    }

    [[nodiscard]] Places after(const Places& before, const Plain& strand, double factor) const {
        const std::size_t last_from = before.first + before.chance.size() - 1;
        Places out;
        out.first = before.first;
        out.chance.assign(end() + 1 - out.first, 0.0);
        std::size_t used_to = before.first;
        for (std::size_t from = before.first; from <= last_from; ++from) {
            const double begun = before.chance[from - before.first];
            if (begun < negligible) continue;
            double reached = 1.0;  // link `to` and all before it are done
            std::size_t to = surely(strand, factor, from);
            for (; to < end() && reached > negligible; ++to) {
                const double next = std::min(reached, reaches(strand, factor, from, to + 1));
                out.chance[to - out.first] += begun * (reached - next);
                reached = next;
            }
            out.chance[to - out.first] += begun * reached;
            used_to = std::max(used_to, to);
        }
        out.chance.resize(used_to - out.first + 1);
        const auto some = std::find_if(out.chance.begin(), out.chance.end(),
                                       [](double chance) { return chance >= negligible; });
        const auto idle = std::distance(out.chance.begin(), some);
        if (some != out.chance.end() && idle > 0) {
            out.chance.erase(out.chance.begin(), some);
            out.first += static_cast<std::size_t>(idle);
        }
        return out;
    }

    /// A link that is reached all but certainly.
    [[nodiscard]] std::size_t surely(const Plain& strand, double factor, std::size_t from) const {
        const auto to = std::upper_bound(yarn_.begin() + static_cast<std::ptrdiff_t>(from),
                                         yarn_.end(), yarn_[from] + strand.usable / factor);
        auto sure = static_cast<std::size_t>(std::distance(yarn_.begin(), to)) - 1;
        sure = std::max(sure, from);
        while (sure > from && reaches(strand, factor, from, sure) < 1.0 - negligible) {
            const double spread = std::sqrt(strand.own * strand.own +
                                            factor * factor * (squares_[sure] - squares_[from]));
            const double enough = yarn_[from] + (strand.usable - certain * spread) / factor;
            const auto nearer =
                std::upper_bound(yarn_.begin() + static_cast<std::ptrdiff_t>(from),
                                 yarn_.begin() + static_cast<std::ptrdiff_t>(sure), enough);
            const auto at = static_cast<std::size_t>(std::distance(yarn_.begin(), nearer));
            const std::size_t lower = at > from ? at - 1 : from;
            if (lower >= sure) {
                --sure;
                continue;
            }
            sure = lower;
        }
        return sure;
    }

    std::vector<double> yarn_{0.0};     // of the links before each place
    std::vector<double> squares_{0.0};  // of their spreads
    std::vector<Plain> strands_;
};

}  // namespace

measure::Chance Law::lasts() const {
    if (no_links) return {units::Ratio(1.0)};
    return reaches.empty() ? measure::Chance{} : reaches.back().done;
}

Law law_of(const std::vector<Link>& links, const std::vector<Strand>& strands, units::Ratio common,
           measure::Chance confidence) {
    Law out;
    out.no_links = links.empty();
    double usable = 0.0;
    double shared = 0.0;
    for (const Strand& strand : strands) {
        usable += strand.usable.value();
        shared += strand.shared.value();
    }
    // A label's error common to all skeins scales the supply, so it enters f. Where skeins share
    // it in unlike shares, the difference is taken as their own.
    const double together = usable > 0.0 ? shared / usable : 0.0;
    std::vector<Strand> apart = strands;
    for (Strand& strand : apart)
        strand.own =
            units::metre * std::hypot(strand.own.value(),
                                      strand.shared.value() - together * strand.usable.value());
    const Chain chain(links, apart);
    std::vector<std::vector<double>> mixed(strands.size(),
                                           std::vector<double>(links.size() + 1, 0.0));
    for (const Node& node : nodes_for(std::hypot(common.value(), together))) chain.add(node, mixed);
    const double late = confidence.value.value();
    for (const std::vector<double>& chances : mixed) {
        Reach reach;
        double cumulated = 0.0;
        const auto place = [&](double share) {
            double sum = 0.0;
            std::size_t at = 0;
            for (; at < links.size(); ++at) {
                sum += chances[at];
                if (sum > share) break;
            }
            return at;
        };
        reach.safe = place(1.0 - late);
        reach.likely = place(0.5);
        reach.latest = place(late);
        reach.first = place(hardly_ever);
        reach.last = place(1.0 - hardly_ever);
        for (std::size_t at = 0; at < links.size(); ++at) cumulated += chances[at];
        reach.done = {units::Ratio(std::clamp(1.0 - cumulated, 0.0, 1.0))};
        out.reaches.push_back(reach);
    }
    return out;
}

}  // namespace skeinfall::chain
