#pragma once
/// \file
/// The need of a graded project over its sizes: what is the same in each of them, what grows with
/// them, and where a size is out of line with the one before it. Sizes are listed from the smallest
/// up, as the trade does.

#include <string>
#include <vector>

#include "skeinfall/need/need.hpp"
#include "skeinfall/need/size_steps.hpp"

namespace skeinfall::need {

/// A piece, a finishing part or the tails, in every size.
struct PartOfSizes {
    std::string name;                 ///< of the piece or part; "tails"
    std::vector<units::Length> yarn;  ///< one a size
    bool fixed = false;               ///< takes the same in every size
};

/// One role over the sizes. `fixed` and `scaling` add up to the need's centre.
struct RoleOfSizes {
    std::string role;
    std::vector<PartOfSizes> parts;  ///< in working order
    std::vector<measure::Estimate<units::Length>> need;
    std::vector<units::Length> fixed;
    std::vector<units::Length> scaling;
    /// To be printed: the need, or that of the size before where it is less by no more than rounded
    /// rows and stitches explain (1 %, a judgement), so that figures grow as sizes do.
    std::vector<units::Length> printed;
    std::vector<OutOfLine> out_of_line;  ///< of what is printed
};

struct SizesNeed {
    std::vector<MakeNeed> sizes;  ///< in the project's order
    std::vector<RoleOfSizes> roles;
};

/// Errors as need_of(), for the first size that has one.
[[nodiscard]] SizesNeed need_of_sizes(const project::Project& project);

}  // namespace skeinfall::need
