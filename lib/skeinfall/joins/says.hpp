#pragma once
/// \file
/// What a plan of joins has to say besides its figures, as data; words are made in `report`.

#include <cstdint>
#include <string>
#include <variant>

#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::joins {

/// A join lies at an edge that nothing hides.
struct EdgeStaysVisible {
    std::string piece;
};
struct NeedsPliedYarn {
    std::string join_kind;
};
/// Of a colour-changing yarn: what lies behind the knot may begin anywhere.
struct KnotBreaksColours {
    std::string skein;
};
/// Of a step that no skein reaches across.
struct StepTooLong {
    std::string part;  ///< the piece, or the finishing part
    need::Purpose purpose{};
    std::int64_t row = 0;
    bool finish = false;  ///< `part` is no piece
    project::Worked worked{};
    units::Length takes{};
    units::Length longest{};  ///< of the skeins
};
/// What is not made twice is planned beside the pairs.
struct PlannedBesidePairs {};

using Note = std::variant<EdgeStaysVisible, NeedsPliedYarn, KnotBreaksColours, StepTooLong,
                          PlannedBesidePairs>;

}  // namespace skeinfall::joins
