#pragma once
/// \file
/// A quantity of any kind, and the units to print it in.

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "skeinfall/base/result.hpp"
#include "skeinfall/units/count.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::units {

/// Linear densities are held as their inverse, a Grist.
using AnyQuantity = std::variant<Length, Mass, Grist, StitchGauge, RowGauge>;

/// "length", "mass", "yarn size", "stitch gauge" or "row gauge".
[[nodiscard]] std::string_view kind_name(const AnyQuantity& value);

struct Reading {
    AnyQuantity value;
    bool per_length = false;         ///< a yarn size given as mass per length, such as tex or g/m
    std::optional<YarnCount> count;  ///< when the text was a count
    std::string_view caution;        ///< what there is to know about a name in the text, or empty
    bool from_memory = false;        ///< a factor was not checked in a published table
};

/// "7 oz", "380 yd", "170 yd / 3.5 oz", "100 g / 200 m", "2/24 NeW", "13 sts / 4 in".
[[nodiscard]] base::Result<Reading> parse_quantity(std::string_view text);

/// A unit to print in: any accepted unit name, count system, or "m/100g", "g/m", "sts/10cm".
struct OutputUnit {
    std::string name;  ///< as asked for
    Reading one;
};
[[nodiscard]] base::Result<OutputUnit> parse_output_unit(std::string_view text);

/// The number of `unit` in `value`; nothing when they are of different kinds.
[[nodiscard]] std::optional<Ratio> in_unit(const AnyQuantity& value, const OutputUnit& unit);

/// The units a maker asks for first, for a value of this kind.
[[nodiscard]] std::vector<OutputUnit> usual_units(const AnyQuantity& value);

/// The mass of a length of yarn, or the length of a mass; nothing for any other kind.
[[nodiscard]] std::optional<AnyQuantity> across(const AnyQuantity& value, Grist grist);

}  // namespace skeinfall::units
