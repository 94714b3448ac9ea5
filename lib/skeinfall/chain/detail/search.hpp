#pragma once
/// \file
/// The exact search for the order of skeins. Inner header of chain.

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "skeinfall/chain/detail/line.hpp"

namespace skeinfall::chain {

/// Skeins that may be swapped without changing anything.
struct BallClass {
    Quanta usable = 0;
    std::vector<std::size_t> balls;  ///< by id
    /// As the last of all it may be used up: no slip keeps anything of it in hand.
    Quanta kept = 0;
};

/// Classes used one after the other, and where each of them ends.
struct Leg {
    std::size_t kind = 0;
    Quanta to = 0;
};

struct Order {
    std::vector<Leg> legs;
    bool finishes = false;
    bool proven = true;
};

/// Classes come longest first. Only what each multiset of skeins reaches matters, for reaching
/// farther is never worse. `first` is a class of one skein that is in hand already: it is used up
/// before all others.
[[nodiscard]] Order farthest_order(const Line& line, const std::vector<BallClass>& classes,
                                   std::optional<std::size_t> first);

/// What the choice of places depends on beside the spots' own marks.
struct Distances {
    double rows = 0.0;            ///< least distance of joins in a block
    std::vector<Spot> keep_away;  ///< joins of a strand held together
    /// Yarn wound off a skein of a class before it is joined at a spot; may be empty.
    std::function<Quanta(std::size_t kind, Quanta at)> wound_off;
};

/// The same with distances, marks, columns and winding off, over the line's spots only.
[[nodiscard]] Order placed_order(const Line& line, const std::vector<BallClass>& classes,
                                 const Distances& distances, std::optional<std::size_t> first);

/// The classes without the skein in hand, under the same numbers.
[[nodiscard]] std::vector<BallClass> without_first(std::vector<BallClass> classes,
                                                   std::optional<std::size_t> first);

/// Least number of skeins that can finish the line: none covers more than its largest gain.
[[nodiscard]] std::size_t pieces_at_least(const Line& line, const std::vector<BallClass>& classes);

/// Product of (count + 1) over the classes; states_at_most + 1 when it is more than that.
[[nodiscard]] std::size_t states_of(const std::vector<BallClass>& classes);

}  // namespace skeinfall::chain
