#pragma once
/// \file
/// Text as labels, scales and patterns print it, to quantities.
///
/// Numbers: "3.5", "3,5", "1 1/2", "1½", "½", "1,234.5", "1'234", and thousands parted by a
/// no-break or thin space. "1,500" could be fifteen hundred or one and a half; it is refused with
/// both readings. Amounts must be above zero. Units come from a closed list (unit_names(),
/// count_systems()); an unknown one is refused with the nearest known, and a trade word that means
/// several units ("hank") with its readings. On failure the Problem's place holds the column
/// (from 1, in bytes) of the mistake within the text.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/base/result.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::units {

/// "380 yd", "9.5 m", "6 in", "8\"", "4 mm".
[[nodiscard]] base::Result<Length> parse_length(std::string_view text);
/// "100 g", "3.5 oz", "1 1/2 lb".
[[nodiscard]] base::Result<Mass> parse_mass(std::string_view text);
/// "170 yd / 3.5 oz", "400 m per 100 g", "992 yd/lb", "50 g = 125 m", or a yarn count as
/// parse_count() reads it.
[[nodiscard]] base::Result<Grist> parse_grist(std::string_view text);
/// The same texts as mass per length.
[[nodiscard]] base::Result<LinearDensity> parse_linear_density(std::string_view text);
/// "13 per 10 cm", "13 sts / 4 in", "3 per in".
[[nodiscard]] base::Result<StitchGauge> parse_stitch_gauge(std::string_view text);
/// "8 per 10 cm", "8 rows / 4 in", "2 rounds per in".
[[nodiscard]] base::Result<RowGauge> parse_row_gauge(std::string_view text);
/// "2.9 in per stitch", "29 in / 10 sts".
[[nodiscard]] base::Result<YarnPerStitch> parse_yarn_per_stitch(std::string_view text);
/// "32.08 in per sq in", "500 cm / 100 sq cm".
[[nodiscard]] base::Result<YarnPerArea> parse_yarn_per_area(std::string_view text);
/// "0.62 sq m", "1200 sq in".
[[nodiscard]] base::Result<Area> parse_area(std::string_view text);
/// "10 %", "12.5%": the share 0.1, 0.125. Zero is allowed.
[[nodiscard]] base::Result<Ratio> parse_percent(std::string_view text);
/// A whole number above zero, "121".
[[nodiscard]] base::Result<std::int64_t> parse_whole(std::string_view text);

/// "1.500 m": where a comma is the decimal mark that is fifteen hundred. The kilogram, the
/// kilometre and the pound are weighed and measured to the thousandth, and so is what a ruler shows
/// in centimetres or inches. Nothing where every figure of the text reads one way.
[[nodiscard]] std::optional<base::Problem> reads_two_ways(std::string_view text);

/// A quantity together with the text it was read from. The text is what a label prints and is
/// stored; the value is converted from it once.
template <class Q>
struct Printed {
    std::string text;
    Q value{};

    bool operator==(const Printed& other) const { return text == other.text; }
};

/// Every accepted unit name of length and mass, in a fixed order.
[[nodiscard]] std::vector<std::string> unit_names();

}  // namespace skeinfall::units
