#pragma once
/// \file
/// Will what is left last, with nothing known but what was used so far and how much work is still
/// to come: no gauge, no label, no file. Grams in give grams out, and lengths give lengths.

#include <cstdint>
#include <vector>

#include "skeinfall/measure/chance.hpp"
#include "skeinfall/measure/estimate.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::joins {

/// Work in any unit the maker counts it in: rows, rounds, repeats, or shares of the whole.
struct WorkLeft {
    units::Ratio done{};     ///< what `used` went into
    units::Ratio to_come{};  ///< still to be worked, in the same unit
    /// Standard uncertainty of to_come over done, where one of them is a guess (77 % done).
    units::Ratio spread{};
    bool rows = true;   ///< whole units count: so many rows can be worked
    bool whole = true;  ///< yarn is joined between them; not where they are centimetres
};

/// Q is units::Mass or units::Length.
template <class Q>
struct YarnLeft {
    measure::Estimate<Q> used;
    measure::Estimate<Q> have;               ///< the ball in work
    std::vector<measure::Estimate<Q>> more;  ///< balls not begun yet, each joined to the one before
    measure::Estimate<Q> finish;             ///< bind-off, edging, seams: after the rows
    Q tail{};                                ///< held back to weave in
    Q ends{};                                ///< held back of each ball of `more`, at its join
    /// Where a scale or tape told `used` and `have`: the most either may be off.
    Q used_off{};
    Q have_off{};
    units::Ratio per_unit_spread{};  ///< relative, beside what `used` itself leaves open
};

template <class Q>
struct Lasting {
    measure::Estimate<Q> per_unit;
    measure::Estimate<Q> rest;  ///< rows and finish
    Q have{};                   ///< without the tail and the ends
    /// Where there are several balls and whole units: joined between units, as all that follows but
    /// `anywhere`, which joins inside them.
    measure::Chance lasts;
    measure::Chance anywhere;
    measure::Chance next;      ///< that one more unit fits, whatever comes after
    Q to_be_sure{};            ///< more that would reach the confidence; 0 when it does
    std::int64_t certain = 0;  ///< units after which the finish still fits at the confidence
    std::int64_t likely = 0;   ///< the same, more likely than not
    /// What the rest takes and what there is, by the steps of the scale alone.
    Q rest_least{};
    Q rest_most{};
    Q have_least{};
    Q have_most{};
};

/// `certain` and `likely` are at most `to_come`, rounded up. Throws base::InputError when nothing
/// was used or done.
template <class Q>
[[nodiscard]] Lasting<Q> lasting(const WorkLeft& work, const YarnLeft<Q>& yarn,
                                 measure::Chance confidence);
extern template Lasting<units::Mass> lasting(const WorkLeft&, const YarnLeft<units::Mass>&,
                                             measure::Chance);
extern template Lasting<units::Length> lasting(const WorkLeft&, const YarnLeft<units::Length>&,
                                               measure::Chance);

}  // namespace skeinfall::joins
