#pragma once
/// \file
/// What the search works out about each seeker before it begins. Inner header of cover.

#include <cstddef>
#include <vector>

#include "skeinfall/cover/bound_table.hpp"
#include "skeinfall/cover/search.hpp"

namespace skeinfall::cover {

/// A seeker made ready for the search.
struct Ready {
    std::vector<Option> options;      ///< lot by lot, the richest first; in a lot longest first
    std::vector<BoundTable> charged;  ///< the one table with lots charged
    std::vector<BoundTable> free;     ///< without; only where pieces may come in between
    Packed lot = 0;                   ///< a further lot's cost
    Packed alone = 0;                 ///< bound for all strands; or for leaving it, if that must be
    std::vector<Packed> of_strand;    ///< bound for the strands from this one on
    bool coverable = false;
    std::size_t pieces_at_least = 1;  ///< of a strand
};

[[nodiscard]] Ready make_ready(const Seeker& seeker, const Group& group, const Plan& plan,
                               const Packing& packing);

/// The most a seeker can get of what is left of each kind, under its lot rule.
[[nodiscard]] Quanta reach_of(const Seeker& seeker, const Ready& ready,
                              const std::vector<std::size_t>& left);

/// A bound of the charged table, which charges every lot, with the first lot free.
[[nodiscard]] inline Packed without_first_lot(Packed bound, const Ready& ready) {
    return bound == BoundTable::never() || bound < ready.lot ? bound : bound - ready.lot;
}

}  // namespace skeinfall::cover
