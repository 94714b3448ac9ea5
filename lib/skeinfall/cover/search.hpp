#pragma once
/// \file
/// Branch and bound over one group of roles that compete for skeins. Inner header of cover.

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#ifndef __SIZEOF_INT128__
#include <boost/multiprecision/cpp_int.hpp>
#endif

#include "skeinfall/cover/allocate.hpp"

namespace skeinfall::cover {

/// A tuple of amounts in one integer, the most important goal in the highest bits: adding and
/// comparing it is adding and comparing the tuples.
// NOLINTNEXTLINE(modernize-use-using): __extension__ stands before a typedef only.
#ifdef __SIZEOF_INT128__
__extension__ typedef unsigned __int128 Packed;
#else  // 32-bit systems
using Packed = boost::multiprecision::uint128_t;
#endif

/// Where each goal lies in a Packed.
class Packing {
  public:
    /// Room for every goal up to `most`; std::invalid_argument when 126 bits do not suffice.
    Packing(const Goals& goals, const Total& most);
    [[nodiscard]] Packed one(Goal goal) const { return one_[static_cast<std::size_t>(goal)]; }
    [[nodiscard]] Total unpack(Packed packed) const;

  private:
    std::array<Packed, goal_count> one_{};
    std::array<unsigned, goal_count> shift_{};
    std::array<unsigned, goal_count> bits_{};
};

/// Skeins alike in everything that counts.
struct Kind {
    Quanta length = 0;
    bool part = false;
    bool opened = false;
    std::size_t lot = 0;
    std::size_t count = 0;
};

struct Choosing {
    std::size_t kind = 0;
    std::int64_t cost = 0;
};

struct Seeker {
    Quanta need = 0;  ///< > 0
    std::size_t strands = 1;
    std::int64_t weight = 1;
    Lots lots = Lots::one;
    std::vector<Choosing> choices;  ///< kinds whose length exceeds the tails
};

struct Group {
    std::vector<Kind> kinds;
    std::vector<Seeker> seekers;
};

/// One piece of the answer: the `copy`-th skein of a kind.
struct Cut {
    std::size_t seeker = 0;
    std::size_t strand = 0;
    std::size_t kind = 0;
    std::size_t copy = 0;
    Quanta used = 0;
};

struct Found {
    std::vector<Cut> cuts;  ///< seekers without any are uncovered
    Total total;
    Total bound;
    Limit limit = Limit::none;
    std::uint64_t steps = 0;
};

/// The best division of the group. `steps` and `go_on` of the plan are limits; with a limit of 0
/// steps the first division found is taken.
[[nodiscard]] Found search(const Group& group, const Plan& plan, const Packing& packing,
                           std::uint64_t steps_at_most);

}  // namespace skeinfall::cover
