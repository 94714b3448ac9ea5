#pragma once
/// \file
/// Quantities to text. The caller names unit, step and direction; the value is never altered,
/// only its printed form. Needs are printed rounded up, supplies down. The decimal mark is that of
/// the number_style() in force.

#include <string>
#include <string_view>

#include "skeinfall/units/quantity.hpp"

namespace skeinfall::units {

enum class Rounding { nearest, up, down };

/// The step a printed number is rounded to.
enum class Step { thousandth, hundredth, tenth, quarter, half, one, five };

/// A unit to print in: its size and its symbol.
template <class Q>
struct Shown {
    Q one;
    std::string_view symbol;
};

namespace shown {
inline constexpr Shown<Length> yards{yard, "yd"};
inline constexpr Shown<Length> metres{metre, "m"};
inline constexpr Shown<Length> centimetres{centimetre, "cm"};
inline constexpr Shown<Length> millimetres{millimetre, "mm"};
inline constexpr Shown<Length> inches{inch, "in"};
inline constexpr Shown<Mass> grams{gram, "g"};
inline constexpr Shown<Mass> ounces{ounce, "oz"};
inline constexpr Shown<Grist> metres_per_100g{metre / (100.0 * gram), "m per 100 g"};
inline constexpr Shown<Grist> yards_per_100g{yard / (100.0 * gram), "yd per 100 g"};
inline constexpr Shown<Grist> yards_per_ounce{yard / ounce, "yd per oz"};
inline constexpr Shown<Grist> yards_per_pound{yard / pound, "yd per lb"};
inline constexpr Shown<StitchGauge> per_4in{stitch / (4.0 * inch), "sts per 4 in"};
inline constexpr Shown<StitchGauge> per_10cm{stitch / (10.0 * centimetre), "sts per 10 cm"};
inline constexpr Shown<RowGauge> rows_per_4in{row / (4.0 * inch), "rows per 4 in"};
inline constexpr Shown<RowGauge> rows_per_10cm{row / (10.0 * centimetre), "rows per 10 cm"};
inline constexpr Shown<WrapGauge> wraps_per_inch{wrap / inch, "wraps per inch"};
inline constexpr Shown<YarnPerStitch> cm_per_stitch{centimetre / stitch, "cm per stitch"};
}  // namespace shown

/// A pure number rounded to `step`; trailing zeros are kept, a negative zero is not.
/// Binary noise below a millionth of a step does not push a value to the next step.
[[nodiscard]] std::string number_text(Ratio value, Step step, Rounding rounding);

/// "123.5 yd": `value` in `unit`, rounded to `step`.
template <class Q>
[[nodiscard]] std::string text(const Q& value, const Shown<Q>& unit, Step step, Rounding rounding) {
    std::string out = number_text(Ratio(value / unit.one), step, rounding);
    out += ' ';
    out += unit.symbol;
    return out;
}

/// The same without zeros that say nothing: "8.5" for "8.50", "8" for "8.00".
[[nodiscard]] std::string plain_number(Ratio value, Step step, Rounding rounding);

/// A number above zero to so many figures, without zeros at the end: 73.8177 to five is "73.818",
/// 128016 is "128016" (the whole part is never rounded). For conversions, where no side is safer.
[[nodiscard]] std::string figures_text(Ratio value, int figures);

/// "12 %" of a ratio, as a plain number.
[[nodiscard]] std::string percent_text(Ratio share, Step step, Rounding rounding);

/// "120 yd (110 m)", the other way round, or one of them, as the style has it; tenths below ten.
[[nodiscard]] std::string yards_and_metres(Length yarn, Rounding rounding);
/// "27.6 in (70.0 cm)" in the same way: a side of a piece or a swatch, to the nearest tenth.
[[nodiscard]] std::string inches_and_centimetres(Length side);
/// Where there is room for one unit: yards or metres, whichever of the two comes first.
[[nodiscard]] std::string yarn_text(Length yarn, Step step, Rounding rounding);
/// In the same way inches or centimetres, of a side or a stripe.
[[nodiscard]] std::string side_text(Length side, Step step, Rounding rounding);

/// The value to fifteen figures: all that a double surely holds, without its binary noise.
[[nodiscard]] Ratio full_digits(Ratio value);

}  // namespace skeinfall::units
