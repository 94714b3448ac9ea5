#pragma once
/// \file
/// Sizes that are stated beside counts and that the gauge denies. Inner header of need.

#include <cstddef>
#include <vector>

#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::need {

/// A side of a piece whose stated length is not what its counts come to.
struct DeniedSize {
    bool length = false;  ///< of its rows; else the width, of its stitches
    std::size_t piece = 0;
    double counted = 0.0;  ///< rows, or stitches at the widest
    units::Length by_counts{};
    units::Length stated{};

    /// How far apart the two are, as a ratio above 1.
    [[nodiscard]] units::Ratio apart() const;
};

/// Of every piece, those farther apart than worth_a_look. At the pattern's gauge, where the maker
/// has her own.
[[nodiscard]] std::vector<DeniedSize> denied_sizes(const project::Project& project,
                                                   std::size_t size);

/// The project as its figures are meant: at the pattern's gauge.
[[nodiscard]] project::Project as_written(const project::Project& project);

/// How much larger than by its counts each piece has to be taken for the worse of two readings:
/// 1 where nothing denies its counts, or where they are the larger reading.
struct WorseSize {
    double rows = 1.0;    ///< times as many rows
    double across = 1.0;  ///< times as wide a row
};
[[nodiscard]] std::vector<WorseSize> worse_sizes(const project::Project& project, std::size_t size);

}  // namespace skeinfall::need
