#pragma once
/// \file
/// How cells of the yarn tables are read, and a length per mass printed, alike in all of the room.

#include <string>
#include <string_view>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::yarn {

/// The class that a cell's leading figure names.
[[nodiscard]] inline WeightClass class_in_cell(std::string_view cell) {
    return {base::leading_number<int>(cell)};
}

/// "polyester" of "polyester (PET), staple".
[[nodiscard]] inline std::string_view short_fibre_name(std::string_view summary_name) {
    return base::trimmed(summary_name.substr(0, summary_name.find_first_of(",(")));
}

/// To a whole metre.
[[nodiscard]] inline std::string metres_per_100g(units::Grist grist) {
    return units::text(grist, units::shown::metres_per_100g, units::Step::one,
                       units::Rounding::nearest);
}

}  // namespace skeinfall::yarn
