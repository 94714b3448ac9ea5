#pragma once
/// \file
/// What is said of yarn left over work to come.

#include <cstdint>
#include <string>

#include "skeinfall/joins/lasting.hpp"

namespace skeinfall::report {

/// How the maker counts: "row" and "rows"; `step` is what amounts are shown to.
template <class Q>
struct LastingOf {
    std::string one;
    std::string many;
    joins::WorkLeft work;
    bool finish = false;  ///< something comes after the rows
    bool ounces = false;  ///< shown in ounces
    measure::Chance confidence;
    std::int64_t balls = 0;  ///< that are joined to the one in work
    Q used{};
    bool how_many = false;      ///< asked is how many units fit; `work.to_come` is only a bound
    bool have_unknown = false;  ///< asked is what the rest takes
    bool part = false;          ///< what was taken is told, but not what it went into
};

[[nodiscard]] std::string lasting_text(const LastingOf<units::Mass>& of,
                                       const joins::Lasting<units::Mass>& lasting);
[[nodiscard]] std::string lasting_text(const LastingOf<units::Length>& of,
                                       const joins::Lasting<units::Length>& lasting);
/// {lasts, chance, chance_joined_anywhere, chance_of_next, per_unit, rest, rest_spread, have,
/// to_be_sure, certain, likely, by_scale: {rest_least, rest_most, have_least, have_most}}; amounts
/// in g, or in m of a strand. Where what is left is not known, or it is asked how many
/// fit, `lasts` is null, and what rests on the missing figure is not there.
[[nodiscard]] std::string lasting_json(const LastingOf<units::Mass>& of,
                                       const joins::Lasting<units::Mass>& lasting);
[[nodiscard]] std::string lasting_json(const LastingOf<units::Length>& of,
                                       const joins::Lasting<units::Length>& lasting);

}  // namespace skeinfall::report
