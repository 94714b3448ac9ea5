#pragma once
/// \file
/// What whole and split search have in common: the state, its bounds and its limits. Inner header
/// of cover.

#include <cstddef>
#include <cstdint>
#include <string>
#include <unordered_map>
#include <vector>

#include "skeinfall/cover/ready.hpp"
#include "skeinfall/cover/search.hpp"

namespace skeinfall::cover {

class SearchState {
  protected:
    SearchState(const Group& group, const Plan& plan, const Packing& packing, std::uint64_t steps);

    /// The answer, with `bound` for all of the group.
    [[nodiscard]] Found found(Packed bound) const;

    [[nodiscard]] Packed dropping(const Seeker& seeker) const {
        return packing_.one(Goal::uncovered) * static_cast<Packed>(seeker.weight);
    }

    /// Counts a step. True once a limit is hit, but never before there is an answer.
    [[nodiscard]] bool ended();

    [[nodiscard]] bool hopeless(Packed bound) const { return cost_ + bound >= best_; }

    void record();

    /// True when the same state was reached before at no higher cost.
    [[nodiscard]] bool seen(const std::string& state);
    static void append(std::string& state, std::size_t number);

    /// A strand being covered.
    struct Frame {
        std::size_t seeker = 0;
        std::size_t first_cut = 0;  ///< in cuts_
        bool lots_charged = true;   ///< by the table
        Packed rest = 0;            ///< bound for everything behind this strand
    };

    [[nodiscard]] bool has_lot(std::size_t seeker, std::size_t lot) const;

    /// Bound for the rest of a strand from option `from` on.
    [[nodiscard]] Packed bound_of(const Frame& frame, std::size_t from, Quanta missing) const;

    /// Whether every piece of a cover is needed.
    [[nodiscard]] bool is_minimal(const Frame& frame) const;

    const Group& group_;
    const Plan& plan_;
    const Packing& packing_;
    std::vector<Ready> ready_;
    std::vector<std::size_t> order_;  ///< of the seekers: those with the fewest choices first

    std::vector<std::size_t> left_;  ///< of each kind
    std::vector<std::size_t> strands_done_;
    std::vector<std::vector<std::size_t>> lots_of_;  ///< a seeker's, as begun
    std::vector<Cut> cuts_;
    Packed cost_ = 0;

  private:
    Packed best_ = 0;
    std::vector<Cut> best_cuts_;
    bool have_any_ = false;
    std::unordered_map<std::string, Packed> seen_;
    std::uint64_t steps_at_most_;
    std::uint64_t steps_ = 0;
    Limit limit_ = Limit::none;
};

[[nodiscard]] Found search_whole(const Group& group, const Plan& plan, const Packing& packing,
                                 std::uint64_t steps_at_most);
[[nodiscard]] Found search_split(const Group& group, const Plan& plan, const Packing& packing,
                                 std::uint64_t steps_at_most);

}  // namespace skeinfall::cover
