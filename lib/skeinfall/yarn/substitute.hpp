#pragma once
/// \file
/// One yarn in place of another: what to mind, and how much of it to buy.
///
/// Length decides, never mass: 100 g of a thinner yarn is more yarn. A class number is no
/// licence to swap either; the Craft Yarn Council says so itself.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/result.hpp"
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/description.hpp"
#include "skeinfall/yarn/fibre_match.hpp"
#include "skeinfall/yarn/finding.hpp"

namespace skeinfall::yarn {

/// What the pattern says it takes: one of the three.
struct StatedNeed {
    std::optional<units::Length> length;
    std::optional<units::Mass> mass;
    std::optional<std::int64_t> balls;  ///< of the pattern's yarn
};

/// "1560 m", "300 g", "6 balls", "6 balls of 110 yd"; of "700 to 760 yd" the larger.
[[nodiscard]] base::Result<StatedNeed> parse_stated_need(std::string_view text);

/// A spare below this share of the need is no margin: ball bands themselves are not truer.
inline constexpr units::Ratio thin_spare = units::Ratio::from_value(0.035);

/// Whole balls that cover a length.
struct Balls {
    units::Ratio exact{};    ///< need / ball
    std::int64_t count = 0;  ///< rounded up
    units::Length spare{};   ///< of `count` balls
    bool tight = false;      ///< the spare is thin: buy one more
};

[[nodiscard]] Balls balls_for(units::Length need, units::Length ball);

struct Swap {
    Description wanted;
    Description candidate;
    int wanted_strands = 1;     ///< held together in the pattern
    int candidate_strands = 1;  ///< to be held together
    std::optional<StatedNeed> need;
    Use use = Use::any;
    std::vector<std::string> avoid;  ///< fibres
};

/// How much to buy. Lengths are of one strand; every strand needs all of it.
struct Purchase {
    units::Length length{};                  ///< each strand, at the pattern's gauge
    std::optional<units::Length> own_gauge;  ///< each strand, when the fabric is made as dense
                                             ///< as the pattern's (length goes as the root of
                                             ///< the grists' ratio)
    std::optional<Balls> wanted;             ///< of the pattern's yarn, all strands
    std::optional<Balls> candidate;          ///< all strands, at the pattern's gauge
    std::optional<Balls> candidate_own_gauge;
    std::optional<units::Mass> wanted_mass;     ///< all strands
    std::optional<units::Mass> candidate_mass;  ///< all strands, at the pattern's gauge
};

struct Substitution {
    Level verdict = Level::ok;  ///< the gravest finding
    std::vector<Finding> findings;
    std::optional<Purchase> purchase;  ///< when a need was stated and can be turned into length
    std::vector<std::string> next;     ///< what to do, in order
};

/// InputError when the need is in balls or mass and the pattern's yarn does not say how long
/// they are.
[[nodiscard]] Substitution compare(const Swap& swap);

}  // namespace skeinfall::yarn
