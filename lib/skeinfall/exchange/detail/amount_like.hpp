#pragma once
/// \file
/// Amounts written in the unit of another, as cells of a sheet that were shared among skeins.

#include <string>
#include <string_view>

#include "skeinfall/units/parse.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::exchange::detail {

/// "yd" of "170 yd".
[[nodiscard]] std::string unit_of(std::string_view amount);

/// `value` in the unit of `like`, rounded down.
[[nodiscard]] units::Printed<units::Length> length_like(const units::Printed<units::Length>& like,
                                                        units::Length value);
[[nodiscard]] units::Printed<units::Mass> mass_like(const units::Printed<units::Mass>& like,
                                                    units::Mass value);

}  // namespace skeinfall::exchange::detail
