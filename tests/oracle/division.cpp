#include "oracle/division.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <numeric>
#include <queue>
#include <random>
#include <set>
#include <sstream>

namespace skeinfall::oracle {

using cover::Allocation;
using cover::Demand;
using cover::Division;
using cover::Fit;
using cover::Goal;
using cover::Goals;
using cover::Lots;
using cover::Piece;
using cover::Quanta;
using cover::Stock;
using cover::Total;

Instance random_instance(std::uint32_t seed, int number, Division division, const Size& size) {
    std::mt19937 generator(seed + 7919U * static_cast<std::uint32_t>(number));
    const auto random = [&] { return static_cast<unsigned>(generator()); };
    const auto within = [&](unsigned low, unsigned high) {
        return low + random() % (high - low + 1);
    };
    Instance out;
    out.plan.division = division;
    out.plan.tails = static_cast<Quanta>(within(0, 4));
    const unsigned skeins = within(size.skeins_at_least, size.skeins_at_most);
    const unsigned lots = within(1, 4);
    const bool alike = random() % 3 == 0;  // many skeins of one length
    Quanta all = 0;
    for (unsigned i = 0; i < skeins; ++i) {
        Stock skein;
        skein.part = random() % 3 == 0;
        skein.length = skein.part || !alike ? static_cast<Quanta>(within(2, 160)) : 150;
        skein.lot = random() % lots;
        skein.id = "s" + std::to_string(100 + i);
        skein.opened = division == Division::split && random() % 8 == 0;
        all += skein.length;
        out.skeins.push_back(skein);
    }
    const unsigned demands = within(size.demands_at_least, size.demands_at_most);
    const bool substitutes = random() % 3 == 0;
    for (unsigned r = 0; r < demands; ++r) {
        Demand demand;
        demand.id = "r" + std::to_string(r);
        demand.strands = random() % 6 == 0 ? 2 : 1;
        demand.weight = within(1, 3);
        demand.lots = std::array{Lots::one, Lots::fewest, Lots::free}.at(random() % 3);
        demand.need =
            1 +
            static_cast<Quanta>(
                random() % static_cast<unsigned>(1 + 3 * all / (2 * static_cast<Quanta>(demands))));
        for (unsigned i = 0; i < skeins; ++i)
            if (random() % 4 != 0)
                demand.fits.push_back(
                    {i, substitutes ? static_cast<std::int64_t>(random() % 3) : 0});
        out.demands.push_back(demand);
    }
    if (random() % 3 == 0)
        std::shuffle(out.plan.goals.begin() + 1, out.plan.goals.end(), generator);
    return out;
}

namespace {

std::int64_t cost_of(const Demand& demand, std::size_t skein) {
    for (const Fit& fit : demand.fits)
        if (fit.skein == skein) return fit.cost;
    return -1;
}

/// Which skeins each strand of each role is worked from.
using Worked = std::vector<std::vector<std::set<std::size_t>>>;

Total total_of(const Instance& instance, const Worked& worked) {
    Total total;
    std::set<std::size_t> opened;
    for (std::size_t r = 0; r < instance.demands.size(); ++r) {
        const Demand& demand = instance.demands[r];
        std::set<std::size_t> lots;
        bool any = false;
        for (const auto& strand : worked[r])
            for (const std::size_t skein : strand) {
                any = true;
                ++total.of(Goal::pieces);
                total.of(Goal::substitution) += cost_of(demand, skein);
                lots.insert(instance.skeins[skein].lot);
                opened.insert(skein);
            }
        if (!any) total.of(Goal::uncovered) += demand.weight;
        if (demand.lots == Lots::fewest && lots.size() > 1)
            total.of(Goal::extra_lots) += static_cast<std::int64_t>(lots.size()) - 1;
    }
    for (const std::size_t at : opened) {
        if (instance.skeins[at].opened) continue;
        total.of(Goal::opened) += instance.skeins[at].length;
        if (!instance.skeins[at].part) ++total.of(Goal::whole_opened);
    }
    return total;
}

}  // namespace

std::string faults(const Instance& instance, const Allocation& answer) {
    std::ostringstream out;
    std::vector<Quanta> taken(instance.skeins.size(), 0);
    Worked worked;
    for (std::size_t r = 0; r < instance.demands.size(); ++r) {
        const Demand& demand = instance.demands[r];
        worked.emplace_back(demand.strands);
        std::vector<Quanta> got(demand.strands, 0);
        std::set<std::size_t> lots;
        for (const Piece& piece : answer.served[r].pieces) {
            if (cost_of(demand, piece.skein) < 0) out << demand.id << " got what does not fit; ";
            if (piece.used <= 0) out << "an empty piece; ";
            if (!worked[r][piece.strand].insert(piece.skein).second) out << "a piece twice; ";
            got[piece.strand] += piece.used;
            taken[piece.skein] += piece.used + instance.plan.tails;
            lots.insert(instance.skeins[piece.skein].lot);
        }
        if (!answer.served[r].covered && !answer.served[r].pieces.empty())
            out << demand.id << " got pieces in vain; ";
        if (answer.served[r].covered && *std::min_element(got.begin(), got.end()) < demand.need)
            out << demand.id << " is covered but short; ";
        if (demand.lots == Lots::one && lots.size() > 1) out << demand.id << " mixes lots; ";
    }
    std::map<std::size_t, int> users;
    for (const auto& role : worked)
        for (const auto& strand : role)
            for (const std::size_t skein : strand) ++users[skein];
    for (std::size_t s = 0; s < taken.size(); ++s) {
        if (taken[s] > instance.skeins[s].length)
            out << instance.skeins[s].id << " gives more than it has; ";
        if (instance.plan.division == Division::whole && users[s] > 1)
            out << instance.skeins[s].id << " serves two; ";
    }
    if (!(total_of(instance, worked) == answer.total)) out << "the total does not add up; ";
    return out.str();
}

namespace {

/// Whether the strands can get their needs from the skeins they are worked from, each skein
/// losing its tails once a strand: a flow from skeins to strands.
bool can_be_split(const Instance& instance, const Worked& worked) {
    std::vector<Quanta> have(instance.skeins.size());
    for (std::size_t s = 0; s < have.size(); ++s) have[s] = instance.skeins[s].length;
    std::vector<const std::set<std::size_t>*> strands;
    std::vector<Quanta> need;
    for (std::size_t r = 0; r < worked.size(); ++r)
        for (const auto& strand : worked[r]) {
            if (strand.empty()) continue;
            strands.push_back(&strand);
            need.push_back(instance.demands[r].need);
            for (const std::size_t skein : strand) have[skein] -= instance.plan.tails;
        }
    for (const Quanta left : have)
        if (left < 0) return false;
    // Augmenting paths: strand -> skein with something left, or -> strand that can yield it.
    std::vector<std::map<std::size_t, Quanta>> flow(strands.size());
    for (std::size_t t = 0; t < strands.size(); ++t) {
        while (need[t] > 0) {
            std::map<std::size_t, std::pair<std::size_t, std::size_t>>
                via;  // strand -> from, skein
            std::queue<std::size_t> open;
            open.push(t);
            std::set<std::size_t> seen{t};
            std::optional<std::pair<std::size_t, std::size_t>> end;  // strand, skein
            while (!open.empty() && !end) {
                const std::size_t at = open.front();
                open.pop();
                for (const std::size_t skein : *strands[at]) {
                    if (have[skein] > 0) {
                        end = {at, skein};
                        break;
                    }
                    for (std::size_t other = 0; other < strands.size(); ++other)
                        if (flow[other].contains(skein) && flow[other][skein] > 0 &&
                            seen.insert(other).second) {
                            via[other] = {at, skein};
                            open.push(other);
                        }
                }
            }
            if (!end) return false;
            Quanta amount = std::min(need[t], have[end->second]);
            for (std::size_t at = end->first; at != t; at = via[at].first)
                amount = std::min(amount, flow[at][via[at].second]);
            have[end->second] -= amount;
            std::size_t skein = end->second;
            for (std::size_t at = end->first;; at = via[at].first) {
                flow[at][skein] += amount;
                if (at == t) break;
                skein = via[at].second;
                flow[at][skein] -= amount;
            }
            need[t] -= amount;
        }
    }
    return true;
}

class Everything {
  public:
    explicit Everything(const Instance& instance) : instance_(instance) {
        for (const Demand& demand : instance.demands) worked_.emplace_back(demand.strands);
    }

    Total least() {
        role(0);
        return *best_;
    }

  private:
    void role(std::size_t r) {
        if (r == worked_.size()) {
            if (instance_.plan.division == Division::split && !can_be_split(instance_, worked_))
                return;
            const Total total = total_of(instance_, worked_);
            if (!best_ || total.by(instance_.plan.goals) < best_->by(instance_.plan.goals))
                best_ = total;
            return;
        }
        role(r + 1);  // not covered
        strand(r, 0, 0);
    }

    void strand(std::size_t r, std::size_t k, std::size_t from) {
        const Demand& demand = instance_.demands[r];
        if (k == demand.strands) {
            role(r + 1);
            return;
        }
        if (from == demand.fits.size()) {
            Quanta sum = 0;
            std::set<std::size_t> lots;
            for (const std::size_t skein : worked_[r][k])
                sum += instance_.skeins[skein].length - instance_.plan.tails;
            for (const auto& each : worked_[r])
                for (const std::size_t skein : each) lots.insert(instance_.skeins[skein].lot);
            if (sum < demand.need || (demand.lots == Lots::one && lots.size() > 1)) return;
            strand(r, k + 1, 0);
            return;
        }
        strand(r, k, from + 1);
        const std::size_t skein = demand.fits[from].skein;
        if (instance_.skeins[skein].length <= instance_.plan.tails) return;
        if (instance_.plan.division == Division::whole && used_.contains(skein)) return;
        const bool fresh = used_.insert(skein).second;
        worked_[r][k].insert(skein);
        strand(r, k, from + 1);
        worked_[r][k].erase(skein);
        if (fresh) used_.erase(skein);
    }

    const Instance& instance_;
    Worked worked_;
    std::set<std::size_t> used_;
    std::optional<Total> best_;
};

}  // namespace

Total every_division(const Instance& instance) {
    return Everything(instance).least();
}

namespace {

/// The model of one instance in the LP format both solvers read. In whole division skeins that are
/// alike in everything become one integer variable, which is the form kindest to a solver.
class LpModel {
  public:
    explicit LpModel(const Instance& instance) : instance_(instance) {
        find_classes();
        for (std::size_t r = 0; r < instance.demands.size(); ++r) add_role(r);
        for (std::size_t c = 0; c < classes_.size(); ++c) add_class(c);
    }

    [[nodiscard]] std::string objective(Goal goal) const {
        const auto found = terms_.find(goal);
        return found == terms_.end() || found->second.empty() ? "0 v0" : found->second;
    }

    void fix(Goal goal, std::int64_t value) {
        const auto found = terms_.find(goal);
        if (found != terms_.end() && !found->second.empty())
            row(found->second + " <= " + std::to_string(value));
    }

    [[nodiscard]] std::string text(Goal goal) const {
        std::string out = "Minimize\n obj: " + objective(goal) + "\nSubject To\n" + rows_;
        if (!bounds_.empty()) out += "Bounds\n" + bounds_ + "General\n" + integers_;
        return out + "Binary\n" + binaries_ + "End\n";
    }

  private:
    struct Class {
        std::size_t first = 0;  // a member
        std::int64_t count = 0;
    };

    [[nodiscard]] bool split() const { return instance_.plan.division == Division::split; }

    void find_classes() {
        std::map<std::string, std::size_t> known;
        std::vector<std::string> keys(instance_.skeins.size());
        for (std::size_t s = 0; s < keys.size(); ++s) {
            const Stock& skein = instance_.skeins[s];
            keys[s] = split() ? skein.id
                              : std::to_string(skein.length) + (skein.part ? "p" : "w") +
                                    (skein.opened ? "o" : "") + std::to_string(skein.lot);
        }
        if (!split())
            for (std::size_t r = 0; r < instance_.demands.size(); ++r)
                for (const Fit& fit : instance_.demands[r].fits)
                    keys[fit.skein] += "," + std::to_string(r) + ":" + std::to_string(fit.cost);
        class_of_.resize(keys.size());
        for (std::size_t s = 0; s < keys.size(); ++s) {
            const auto [found, fresh] = known.emplace(keys[s], classes_.size());
            if (fresh) classes_.push_back({s, 0});
            ++classes_[found->second].count;
            class_of_[s] = found->second;
        }
    }

    void row(const std::string& text) {
        rows_ += " c" + std::to_string(count_++) + ": " + text + "\n";
    }
    void variable(const std::string& name, std::int64_t most) {
        if (most == 1) {
            binaries_ += " " + name + "\n";
        } else {
            integers_ += " " + name + "\n";
            bounds_ += " 0 <= " + name + " <= " + std::to_string(most) + "\n";
        }
    }
    void add_to(Goal goal, std::int64_t factor, const std::string& name) {
        if (factor != 0) terms_[goal] += " + " + std::to_string(factor) + " " + name;
    }

    /// What beginning a skein costs, on a variable that counts skeins begun.
    void add_opening(const Stock& skein, const std::string& name) {
        if (skein.opened) return;
        add_to(Goal::opened, skein.length, name);
        if (!skein.part) add_to(Goal::whole_opened, 1, name);
    }

    void add_role(std::size_t r) {
        const Demand& demand = instance_.demands[r];
        const std::string v = "v" + std::to_string(r);
        variable(v, 1);
        add_to(Goal::uncovered, demand.weight, v);
        std::set<std::size_t> lots;
        for (std::size_t k = 0; k < demand.strands; ++k) {
            std::string sum;
            for (const Fit& fit : demand.fits) {
                const std::size_t c = class_of_[fit.skein];
                const Stock& skein = instance_.skeins[fit.skein];
                if (classes_[c].first != fit.skein || skein.length <= instance_.plan.tails)
                    continue;
                const std::string suffix =
                    std::to_string(c) + "_" + std::to_string(r) + "_" + std::to_string(k);
                sum += add_choice(c, skein, fit.cost, suffix);
                if (demand.lots == Lots::free) continue;
                const std::string g = "g" + std::to_string(r) + "_" + std::to_string(skein.lot);
                if (lots.insert(skein.lot).second) variable(g, 1);
                row("x" + suffix + " - " + std::to_string(classes_[c].count) + " " + g + " <= 0");
            }
            row(sum + " + " + std::to_string(demand.need) + " " + v +
                " >= " + std::to_string(demand.need));
        }
        if (lots.empty()) return;
        std::string all;
        for (const std::size_t lot : lots)
            all += " + g" + std::to_string(r) + "_" + std::to_string(lot);
        if (demand.lots == Lots::one) {
            row(all + " <= 1");
        } else {
            const std::string q = "q" + std::to_string(r);
            add_to(Goal::extra_lots, 1, q);
            row(all + " - " + q + " <= 1");
        }
    }

    /// A strand may use this class; returns the term of what it gives.
    std::string add_choice(std::size_t c, const Stock& skein, std::int64_t cost,
                           const std::string& suffix) {
        const std::string x = "x" + suffix;
        const std::string usable = std::to_string(skein.length - instance_.plan.tails);
        variable(x, classes_[c].count);
        add_to(Goal::pieces, 1, x);
        add_to(Goal::substitution, cost, x);
        uses_[c].push_back(x);
        if (!split()) {
            add_opening(skein, x);
            return " + " + usable + " " + x;
        }
        const std::string y = "y" + suffix;
        row(y + " - " + usable + " " + x + " <= 0");
        lengths_[c] += " + " + y + " + " + std::to_string(instance_.plan.tails) + " " + x;
        return " + " + y;
    }

    void add_class(std::size_t c) {
        const auto uses = uses_.find(c);
        if (uses == uses_.end()) return;
        std::string sum;
        for (const std::string& x : uses->second) sum += " + " + x;
        if (!split()) {
            row(sum + " <= " + std::to_string(classes_[c].count));
            return;
        }
        const Stock& skein = instance_.skeins[classes_[c].first];
        const std::string u = "u" + std::to_string(c);
        variable(u, 1);
        for (const std::string& x : uses->second) row(x + " - " + u + " <= 0");
        row(lengths_[c] + " - " + std::to_string(skein.length) + " " + u + " <= 0");
        add_opening(skein, u);
    }

    const Instance& instance_;
    std::vector<Class> classes_;
    std::vector<std::size_t> class_of_;
    std::map<Goal, std::string> terms_;
    std::map<std::size_t, std::vector<std::string>> uses_;
    std::map<std::size_t, std::string> lengths_;
    std::string rows_;
    std::string bounds_;
    std::string integers_;
    std::string binaries_;
    int count_ = 0;
};

std::string slurp(const std::string& path) {
    std::ifstream in(path);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// The optimum a solver's report states; nothing when it found none.
std::optional<double> optimum(Solver solver, const std::string& report) {
    const std::string good = solver == Solver::cbc ? "Optimal" : "INTEGER OPTIMAL";
    const std::string before = solver == Solver::cbc ? "objective value" : "obj =";
    if (report.find(good) == std::string::npos) return std::nullopt;
    const std::size_t at = report.find(before);
    if (at == std::string::npos) return std::nullopt;
    return std::strtod(report.c_str() + at + before.size(), nullptr);
}

}  // namespace

Solved solve_with(Solver solver, const Instance& instance, const std::string& folder) {
    std::filesystem::create_directories(folder);
    const std::string name = folder + (solver == Solver::cbc ? "/cbc" : "/glpsol");
    LpModel model(instance);
    Solved out;
    Total total;
    for (const Goal goal : instance.plan.goals) {
        if (model.objective(goal) == "0 v0") continue;  // nothing to decide
        std::ofstream(name + ".lp") << model.text(goal);
        std::filesystem::remove(name + ".out");
        // cbc 2.10.8 calls some feasible models infeasible with its integer preprocessing.
        const std::string command =
            solver == Solver::cbc
                ? "cbc '" + name +
                      ".lp' -preprocess off -ratio 0 -allow 0 -sec 30 -solve -solution '" + name +
                      ".out' > '" + name + ".log' 2>&1"
                : "glpsol --lp '" + name + ".lp' --tmlim 30 -o '" + name + ".out' > '" + name +
                      ".log' 2>&1";
        const auto begin = std::chrono::steady_clock::now();
        const int code = std::system(command.c_str());
        out.seconds +=
            std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
        const auto value = code == 0 ? optimum(solver, slurp(name + ".out")) : std::nullopt;
        if (!value) {
            out.solver_fault = true;
            return out;
        }
        total.of(goal) = std::llround(*value);
        model.fix(goal, total.of(goal));
    }
    out.total = total;
    return out;
}

std::string describe(const Instance& instance) {
    std::ostringstream out;
    out << "tails " << instance.plan.tails << ", goals";
    for (const Goal goal : instance.plan.goals) out << " " << static_cast<int>(goal);
    for (const Stock& skein : instance.skeins)
        out << "\n"
            << skein.id << " " << skein.length << (skein.part ? " part" : "")
            << (skein.opened ? " opened" : "") << " lot " << skein.lot;
    for (const Demand& demand : instance.demands) {
        out << "\n"
            << demand.id << " need " << demand.need << " x " << demand.strands << " weight "
            << demand.weight << " lots " << static_cast<int>(demand.lots) << " fits";
        for (const Fit& fit : demand.fits) out << " " << fit.skein << ":" << fit.cost;
    }
    return out.str();
}

}  // namespace skeinfall::oracle
