#pragma once
/// \file
/// What a make in work still takes: without the rows that are done, at the rate that readings of
/// the work show.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::need {

/// How far a role is worked, and what readings say of the hands that work it.
struct Worked {
    std::string role;
    std::size_t piece = 0;  ///< index into Project::pieces: the last one of which rows are done
    std::int64_t copy = 1;
    std::int64_t row = 0;        ///< the last of it that is done; 0: none yet
    units::Ratio use{1.0};       ///< of what the plan gives a row
    units::Ratio rate_spread{};  ///< relative, what readings leave open of the rate
    units::Ratio row_spread{};   ///< relative, of `row_yarn`: rows that differ from each other
    units::Length row_yarn{};    ///< a row as planned, on average
    std::string skein{};         ///< on the scale last; empty when nobody named it
    std::optional<WeighingsAgainstRows> odd{};  ///< readings that do not go together
    std::string lot{};  ///< key of the dye lot worked last; empty when nobody knows it
};

/// The steps of a role that is held together with another through the whole make: that one's
/// steps, its finish too, taking this role's yarn. Its own, where it has them already.
[[nodiscard]] std::vector<Step> steps_beside(const RoleNeed& role, const std::string& other,
                                             const std::vector<Step>& steps);

/// The make without those rows and all of their roles that comes before them. What is left of such
/// a role goes by its readings alone, weighed in its own yarn; other roles stay as they are. Where
/// a shorter piece has no such row, its rows are done and its finish is not. A role of which
/// nothing is left is left out.
[[nodiscard]] MakeNeed rest_of(MakeNeed make, const project::Project& project,
                               const std::vector<Worked>& done);

}  // namespace skeinfall::need
