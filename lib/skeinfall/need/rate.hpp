#pragma once
/// \file
/// Yarn per stitch of a role, with where it came from. Inner header of need.

#include <optional>
#include <string>
#include <vector>

#include "skeinfall/need/need.hpp"

namespace skeinfall::need {

struct Rate {
    /// Nothing when only a total is stated.
    std::optional<units::YarnPerStitch> per_stitch;
    Source source = Source::swatch;
    std::string how;
    bool by_mass = false;
    std::optional<units::Grist> grist;
    units::Ratio shared{};
    std::vector<Cause> causes;
    std::vector<std::string> notes;
};

/// The best rate the project gives for a role; see need_of() for errors.
[[nodiscard]] Rate rate_of(const project::Project& project, const project::Role& role);

/// What a role's stated total says, without a rate per stitch. The role has a total.
[[nodiscard]] Rate stated_total_of(const project::Role& role);

/// Root of the sum of the causes' squares.
[[nodiscard]] units::Ratio combined(const std::vector<Cause>& causes);

}  // namespace skeinfall::need
