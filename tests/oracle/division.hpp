#pragma once
// Random divisions of skeins among roles, and ways to judge an answer from outside: its own
// arithmetic, every possibility, and the same model as an LP file for solvers from Debian.

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/cover/allocate.hpp"

namespace skeinfall::oracle {

struct Instance {
    std::vector<cover::Stock> skeins;
    std::vector<cover::Demand> demands;
    cover::Plan plan;
};

struct Size {
    unsigned skeins_at_least = 6;
    unsigned skeins_at_most = 12;
    unsigned demands_at_least = 2;
    unsigned demands_at_most = 4;
};

/// The instance number `number` of a seed. Two of three use the usual goals.
[[nodiscard]] Instance random_instance(std::uint32_t seed, int number, cover::Division division,
                                       const Size& size);

/// What is wrong with an answer: a skein beyond its length, a covered role that is short, a lot
/// rule broken, a total that does not add up. Empty when nothing is.
[[nodiscard]] std::string faults(const Instance& instance, const cover::Allocation& answer);

/// The least total of all divisions there are; for tiny instances.
[[nodiscard]] cover::Total every_division(const Instance& instance);

enum class Solver { cbc, glpsol };

struct Solved {
    std::optional<cover::Total> total;
    /// "Infeasible" after a feasible level, or no optimum: the solver's fault, not a result.
    bool solver_fault = false;
    double seconds = 0.0;  ///< wall clock, for benchmarks
};

/// Solves the model level by level, each optimum fixed as a row of the next.
[[nodiscard]] Solved solve_with(Solver solver, const Instance& instance, const std::string& folder);

[[nodiscard]] std::string describe(const Instance& instance);

}  // namespace skeinfall::oracle
