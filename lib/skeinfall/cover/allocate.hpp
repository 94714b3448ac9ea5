#pragma once
/// \file
/// The exact division of skeins among several roles and projects, in whole quanta.
///
/// Every role is covered from skeins that fit it or left uncovered; no skein gives more than it
/// has. What is best is a list of goals: the first decides, the next breaks its ties, and so on;
/// costs are compared as tuples and never weighed against each other. The optimum is proven, or
/// the answer says that it is not, names the limit that was hit and gives a bound no division can
/// beat.

#include <array>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/cover/choose.hpp"

namespace skeinfall::cover {

/// What a division is judged by; each is to be as small as possible.
enum class Goal {
    uncovered,     ///< weights of the roles left without their yarn
    extra_lots,    ///< lots a role uses beyond its first
    substitution,  ///< how far the skeins are from what was wanted
    whole_opened,  ///< whole skeins begun (so that parts go first)
    pieces,        ///< skeins a role is worked from, so joins
    opened,        ///< length of all skeins begun (so that little is left over)
};
inline constexpr std::size_t goal_count = 6;

/// From the most to the least important.
using Goals = std::array<Goal, goal_count>;
inline constexpr Goals usual_goals{Goal::uncovered,    Goal::extra_lots, Goal::substitution,
                                   Goal::whole_opened, Goal::pieces,     Goal::opened};

/// One amount a goal, in the order of enum Goal.
struct Total {
    std::array<std::int64_t, goal_count> amounts{};

    [[nodiscard]] std::int64_t& of(Goal goal) { return amounts[static_cast<std::size_t>(goal)]; }
    [[nodiscard]] std::int64_t of(Goal goal) const {
        return amounts[static_cast<std::size_t>(goal)];
    }
    /// The amounts from the most important goal down, to be compared.
    [[nodiscard]] std::array<std::int64_t, goal_count> by(const Goals& goals) const;
    Total& operator+=(const Total& other);
    bool operator==(const Total&) const = default;
};

/// A skein as the division sees it.
struct Stock {
    Quanta length = 0;  ///< with its tails
    bool part = false;
    std::size_t lot = 0;  ///< skeins with the same number match
    std::string id;       ///< breaks ties; to be unique
    bool opened = false;  ///< begun for something else already: opening it costs nothing
};

/// That a skein fits a role, and how far it is from what was wanted (0: just that).
struct Fit {
    std::size_t skein = 0;  ///< index
    std::int64_t cost = 0;
};

/// A role of one project. Held together in several strands, each strand needs all of `need`, the
/// lot rule holds for all strands together, and they are covered or left as one.
struct Demand {
    std::string id;   ///< breaks ties; to be unique
    Quanta need = 0;  ///< worked in, without the tails of its pieces; 0 asks for nothing
    std::size_t strands = 1;
    std::int64_t weight = 1;  ///< > 0, what it costs to leave it uncovered
    Lots lots = Lots::one;
    /// Demands of a lower turn are served first, without regard for later ones. All in one turn:
    /// jointly.
    std::size_t turn = 0;
    std::vector<Fit> fits;
};

/// Whether a skein serves one strand only, or may be cut up among several.
enum class Division { whole, split };

struct Progress {
    std::uint64_t steps = 0;
    std::size_t roles = 0;  ///< of the group being solved
};

struct Plan {
    Division division = Division::whole;
    Goals goals = usual_goals;  ///< begins with Goal::uncovered
    Quanta tails = 0;           ///< of a piece, both ends together
    std::uint64_t steps_at_most = 10'000'000;
    /// Asked now and then; when it says false the search stops with the best found so far.
    std::function<bool(const Progress&)> go_on;
};

/// What ended a search before it was proven.
enum class Limit { none, steps, stopped };

/// So much of a skein is worked into a strand.
struct Piece {
    std::size_t skein = 0;
    std::size_t strand = 0;
    Quanta used = 0;  ///< without tails; in whole division all the skein can give
    bool operator==(const Piece&) const = default;
};

struct Served {
    bool covered = false;
    std::vector<Piece> pieces;  ///< by strand, then by skein; empty when not covered
};

struct Allocation {
    std::vector<Served> served;  ///< as the demands
    Total total;
    Limit limit = Limit::none;
    std::optional<Total> bound;  ///< when not proven: no division is better than this
    std::uint64_t steps = 0;

    [[nodiscard]] bool proven() const { return limit == Limit::none; }
};

/// Throws std::invalid_argument for goals that do not begin with `uncovered` or do not name every
/// goal once, an index out of range, a weight below 1, a cost below 0, figures too large to add.
[[nodiscard]] Allocation allocate(const std::vector<Stock>& skeins,
                                  const std::vector<Demand>& demands, const Plan& plan);

}  // namespace skeinfall::cover
