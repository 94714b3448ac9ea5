#pragma once
/// \file
/// What only a designer who publishes states: where the printed totals come from, and what testers
/// handed back.

#include <cstddef>
#include <optional>
#include <string>

#include "skeinfall/measure/weighing.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::project {

/// What a printed total rests on, before the margin: the designer's own make (the stated total of
/// the yarn), testers' returns, or the rows and stitches with the rate of a swatch.
enum class TotalsFrom { own_make, testers, model };

/// Whom a printed total is for: that share of makers come out with it, or, when `of` is nothing,
/// the middle of what was worked out, of which half of them run short.
struct PrintedFor {
    std::optional<units::Ratio> of = units::Ratio::from_value(0.90);
};

/// One yarn of one tester's make, weighed before and after. What is left over is in `after`;
/// nothing when all of it was used up.
struct TesterReturn {
    std::string tester;  ///< as the designer calls them, may be empty
    std::string role;
    std::size_t size = 0;  ///< index into Project::sizes
    measure::Weighing before;
    std::optional<measure::Weighing> after;
    /// Both or neither: the tester's own gauge, when it was not the pattern's.
    std::optional<units::StitchGauge> stitches;
    std::optional<units::RowGauge> rows;
    /// Of the yarn the tester used, when it was another.
    std::optional<units::Grist> grist;
    /// As a share of what was worked out for the make as they worked it, where that is settled:
    /// once a piece grows it is another make. See need::with_returns_told().
    std::optional<units::Ratio> of_plan;
    bool confirmed = false;  ///< asked once more, and true, however far off the others
};

}  // namespace skeinfall::project
