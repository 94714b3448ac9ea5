#pragma once
/// \file
/// What a scale showed of the yarn in hand after a row of work in progress, as a stash keeps it.

#include <cstdint>
#include <optional>
#include <string>

#include "skeinfall/base/day.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::stash {

struct WorkReading {
    std::string project;    ///< its title
    std::string role;       ///< which of its yarns
    std::string piece;      ///< empty: the first that the yarn works
    std::int64_t copy = 1;  ///< which of several alike pieces
    std::int64_t row = 0;   ///< after it; 0 before the first
    std::string skein;      ///< as the maker calls it; empty: the one before
    units::Printed<units::Mass> mass;
    units::Printed<units::Mass> scale;                ///< its step
    std::optional<units::Printed<units::Mass>> tare;  ///< needles, hook or bag on the scale too
    bool afresh = false;                              ///< earlier readings of the yarn are void
    base::Day day{};
    std::string note;

    bool operator==(const WorkReading&) const = default;
};

}  // namespace skeinfall::stash
