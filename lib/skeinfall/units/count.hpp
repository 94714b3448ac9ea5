#pragma once
/// \file
/// Yarn count systems (lib/data/units.csv) and counts as cones and labels print them.
///
/// A direct system gives mass per length (tex, denier), an indirect one length per mass (Nm, NeC,
/// NeW). A folded yarn is written with two numbers, plies and the count of one ply; which comes
/// first is a matter of the system and is never guessed.

#include <span>
#include <string_view>

#include "skeinfall/base/result.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::units {

/// How a system writes a folded yarn.
enum class Folding {
    plies_first,  ///< worsted 2/24: two plies of 24
    count_first,  ///< cotton 16/2: two plies of 16
    either,       ///< metric 2/28 and 28/2: the smaller number is the plies
    resultant,    ///< spun silk 40s-2: two plies that make a 40
    unwritten     ///< the system has no such notation
};

struct CountSystem {
    std::string_view id;          ///< of its row in lib/data/units.csv
    std::string_view name;        ///< "worsted count"
    std::string_view symbol;      ///< "NeW"; empty when the trade has none
    std::string_view definition;  ///< "560 yd hanks per lb"
    std::string_view source;
    Folding folding = Folding::unwritten;
    bool direct = false;
    bool from_memory = false;  ///< the factor was not checked in a published table
    Grist one{};               ///< of a yarn of number 1

    /// Length per mass of a yarn of this number.
    [[nodiscard]] constexpr Grist grist(Ratio number) const {
        return direct ? one / number : one * number;
    }
    /// The number of a yarn of this length per mass, plies taken together.
    [[nodiscard]] constexpr Ratio number(Grist grist) const {
        return direct ? Ratio(one / grist) : Ratio(grist / one);
    }
};

/// All systems, in the order of the table.
[[nodiscard]] std::span<const CountSystem> count_systems();

/// The system of that id; nullptr when there is none.
[[nodiscard]] const CountSystem* find_count_system(std::string_view id);

/// A count as written.
struct YarnCount {
    const CountSystem* system = nullptr;
    Ratio number{};  ///< of one ply; of the whole yarn for a resultant system
    int plies = 1;
    Grist grist{};  ///< of the whole yarn
};

/// "2/24 NeW", "16/2 NeC", "2/28 Nm", "28/2 Nm", "30 tex", "6 cut", "NeW 15", "cotton 60s",
/// "2-40s cotton", "34 tex x 2" (single-to-fold of ISO 1139, from memory). Two numbers without a
/// system, and two numbers in the order that the system does not use, are refused with both
/// readings. An "s" after a number marks it as the count and settles the order. Sewing thread
/// tickets are refused.
[[nodiscard]] base::Result<YarnCount> parse_count(std::string_view text);

}  // namespace skeinfall::units
