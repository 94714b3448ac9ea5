#pragma once
/// \file
/// Yarn of a make to come, from what the maker's earlier makes took.
///
/// Ordinary least squares of yarn on size, through the origin or with a part that is the same for
/// all makes (a border, ends).

#include <vector>

#include "skeinfall/measure/few_readings.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::need {

/// `size` is an area in square metres or a number of stitches, the same for all makes.
struct SizedMake {
    units::Ratio size{};
    units::Length yarn{};
};

struct FromEarlier {
    /// Spread of one further make, with as many degrees of freedom as makes are to spare.
    measure::FewReadings<units::Length> yarn;
    units::Length per_size{};
    units::Length fixed{};          ///< 0 through the origin
    units::Ratio beyond_largest{};  ///< size over the largest make's
    bool widened = false;           ///< outside the makes, where the spread is judged wider
};

/// A size up to this multiple of the largest make, or down to its inverse of the smallest, is taken
/// as alike. Outside, 5 % for every 30 % is added to the spread (a judgement, not published).
inline constexpr units::Ratio alike_up_to = units::Ratio::from_value(1.3);
inline constexpr units::Ratio widening_a_step = units::Ratio::from_value(0.05);

/// Through the origin.
///
/// Throws std::invalid_argument for fewer than two makes (a spread cannot be told) or a size or
/// yarn that is not above 0.
[[nodiscard]] FromEarlier from_earlier(const std::vector<SizedMake>& makes, units::Ratio size);

/// In proportion to the only make there is. `spread` is what one make may be off by, relative; the
/// spread is taken as known.
[[nodiscard]] FromEarlier from_one_make(const SizedMake& make, units::Ratio size,
                                        units::Ratio spread);

/// The spread of a normal estimate whose 95 % bound lies where Student's t puts it: few makes are
/// less sure than their scatter looks.
[[nodiscard]] units::Length upper_half_width(const FromEarlier& found);

/// With a fixed part; needs three makes, not all of one size. Errors as above.
[[nodiscard]] FromEarlier from_earlier_with_fixed(const std::vector<SizedMake>& makes,
                                                  units::Ratio size);

}  // namespace skeinfall::need
