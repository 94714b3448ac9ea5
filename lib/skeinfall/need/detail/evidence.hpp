#pragma once
/// \file
/// What tells one role's yarn, reckoned as one amount. Inner header of need.

#include <vector>

#include "skeinfall/need/need.hpp"
#include "skeinfall/need/rate.hpp"

namespace skeinfall::need {

/// One role with all that tells it.
struct Told {
    std::vector<Rate> rates;
    std::vector<units::Length> yarn;  ///< what each alone says, in all
};

/// A pattern's own figures are of this very fabric. Where nothing of the maker's own stands beside
/// them, others' makes, the last of the rates, only speak up when they contradict them.
void leave_pattern_alone(Told& told);

/// Where others' hands alone tell it and testers showed how far these lie apart, a further one is
/// as far off as they are.
void add_own_hand(RoleNeed& need, const std::vector<Rate>& rates);

/// All that tells the role's yarn as one amount; returns it. Beside evidence of the maker's own a
/// pattern's figures are of another hand, which widens them.
[[nodiscard]] units::Length reckon(RoleNeed& need, Told told);

/// The least and the most that tell the role, where they contradict each other: farther apart than
/// their spreads explain (discord_limit). Others' makes do not deny what the maker has of her own,
/// for hands and fabrics differ. Two nulls where nothing does.
struct Discordant {
    const Evidence* least = nullptr;
    const Evidence* most = nullptr;
};
[[nodiscard]] Discordant discordant(const RoleNeed& need);

}  // namespace skeinfall::need
