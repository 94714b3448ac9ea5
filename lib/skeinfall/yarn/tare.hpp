#pragma once
/// \file
/// What a cone or a bag weighs when nobody weighed it: usual bounds from lib/data/cone_tares.csv,
/// a table to be edited and added to.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/measure/estimate.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::yarn {

/// Names of the table, in its order: "cone", "bag".
[[nodiscard]] std::vector<std::string> tare_names();

/// The middle of the bounds, with the spread of a mass that lies anywhere between them; nothing
/// for a name that is not in the table.
[[nodiscard]] std::optional<measure::Estimate<units::Mass>> usual_tare(std::string_view name);

}  // namespace skeinfall::yarn
