#pragma once
/// \file
/// The plan of a role's joins as `chain` works it out, by the names that joins uses.

#include "skeinfall/chain/plan.hpp"

namespace skeinfall::joins {

using chain::Ball;
using chain::chance_of;
using chain::cut_off;
using chain::JoinPlan;
using chain::left_over;
using chain::plan_joins;
using chain::Position;
using chain::Rules;
using chain::Spare;
using chain::steps_beside;
using chain::Stretch;
using chain::sure_length;
using chain::Where;

}  // namespace skeinfall::joins
