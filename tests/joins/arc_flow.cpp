#include "joins/arc_flow.hpp"

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace skeinfall::oracle {
namespace {

struct Arc {
    std::size_t kind = 0;
    std::size_t from = 0;
    std::size_t to = 0;
};

std::string name(const Arc& arc) {
    return "a" + std::to_string(arc.kind) + "_" + std::to_string(arc.from) + "_" +
           std::to_string(arc.to);
}

std::vector<Arc> arcs_of(const ArcFlow& problem) {
    std::vector<Arc> out;
    const std::size_t last = problem.rows.size();
    const auto permitted = [&](std::size_t node) {
        return node == 0 || node == last || problem.marks[node - 1] >= 0;
    };
    for (std::size_t kind = 0; kind < problem.classes.size(); ++kind)
        for (std::size_t from = 0; from < last; ++from) {
            if (!permitted(from)) continue;
            std::int64_t yarn = 0;
            for (std::size_t to = from + 1; to <= last; ++to) {
                yarn += problem.rows[to - 1];
                if (yarn > problem.classes[kind].length) break;
                const bool near = from != 0 && to != last &&
                                  static_cast<std::int64_t>(to - from) < problem.distance;
                if (permitted(to) && !near) out.push_back({kind, from, to});
            }
        }
    return out;
}

std::int64_t cost_at(const ArcFlow& problem, const Arc& arc, int level) {
    if (level == 0) return 1;
    if (level == 1) return problem.classes[arc.kind].length;
    return arc.to == problem.rows.size() ? 0 : problem.marks[arc.to - 1];
}

/// Terms with a line break now and then: LP readers have a longest line.
class Terms {
  public:
    void add(const std::string& term) {
        text_ += " " + term;
        if (++count_ % 8 == 0) text_ += "\n";
    }
    [[nodiscard]] bool empty() const { return count_ == 0; }
    [[nodiscard]] const std::string& text() const { return text_; }

  private:
    std::string text_;
    std::size_t count_ = 0;
};

std::string cost_sum(const ArcFlow& problem, const std::vector<Arc>& arcs, int level) {
    Terms terms;
    for (const Arc& arc : arcs)
        if (const std::int64_t cost = cost_at(problem, arc, level); cost != 0)
            terms.add("+ " + std::to_string(cost) + " " + name(arc));
    if (terms.empty()) terms.add("0 " + name(arcs.front()));
    return terms.text();
}

void write_model(const std::string& file, const ArcFlow& problem, const std::vector<Arc>& arcs,
                 int level, const std::vector<std::int64_t>& best) {
    std::ofstream out(file);
    out << "Minimize\n obj:" << cost_sum(problem, arcs, level) << "\nSubject To\n";
    std::vector<Terms> nodes(problem.rows.size() + 1);
    std::vector<Terms> kinds(problem.classes.size());
    for (const Arc& arc : arcs) {
        nodes[arc.from].add("+ " + name(arc));
        nodes[arc.to].add("- " + name(arc));
        kinds[arc.kind].add("+ " + name(arc));
    }
    for (std::size_t node = 0; node < nodes.size(); ++node) {
        const int balance = node == 0 ? 1 : node + 1 == nodes.size() ? -1 : 0;
        if (!nodes[node].empty())
            out << " n" << node << ":" << nodes[node].text() << " = " << balance << "\n";
    }
    for (std::size_t kind = 0; kind < kinds.size(); ++kind)
        if (!kinds[kind].empty())
            out << " c" << kind << ":" << kinds[kind].text()
                << " <= " << problem.classes[kind].count << "\n";
    for (std::size_t done = 0; done < best.size(); ++done)
        out << " l" << done << ":" << cost_sum(problem, arcs, static_cast<int>(done))
            << " <= " << best[done] << "\n";
    out << "Binary\n";
    for (const Arc& arc : arcs) out << " " << name(arc) << "\n";
    out << "End\n";
}

/// The optimum, or nothing when cbc says that there is no plan.
std::optional<std::int64_t> optimum(const std::string& model, const std::string& answer) {
    // cbc 2.10.8 calls some feasible models infeasible with its integer preprocessing.
    const std::string command = "cbc '" + model + "' -preprocess off -solve -solution '" + answer +
                                "' > '" + answer + ".log' 2>&1";
    if (std::system(command.c_str()) != 0) throw std::runtime_error("cbc did not run: " + command);
    std::ifstream in(answer);
    std::string line;
    std::getline(in, line);
    if (line.find("nfeasible") != std::string::npos) return std::nullopt;
    const std::size_t value = line.find("objective value");
    if (!line.starts_with("Optimal") || value == std::string::npos)
        throw std::runtime_error("cbc found no optimum: " + line);
    return std::llround(std::stod(line.substr(value + 15)));
}

}  // namespace

std::optional<FlowCost> solve_with_cbc(const ArcFlow& problem, const std::string& folder,
                                       int levels) {
    std::filesystem::create_directories(folder);
    const std::vector<Arc> arcs = arcs_of(problem);
    bool begins = false;
    bool ends = false;
    for (const Arc& arc : arcs) {
        begins = begins || arc.from == 0;
        ends = ends || arc.to == problem.rows.size();
    }
    if (!begins || !ends) return std::nullopt;
    std::vector<std::int64_t> best;
    for (int level = 0; level < levels; ++level) {
        const std::string model = folder + "/level" + std::to_string(level) + ".lp";
        write_model(model, problem, arcs, level, best);
        const auto found = optimum(model, folder + "/answer.txt");
        if (!found && level > 0) throw std::runtime_error("infeasible after a feasible level");
        if (!found) return std::nullopt;
        best.push_back(*found);
    }
    best.resize(3, 0);
    return FlowCost{best[0], best[1], best[2]};
}

}  // namespace skeinfall::oracle
