#pragma once
/// \file
/// Motifs of one colour each: how many of every colour its yarn allows.

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/stash/skein.hpp"

namespace skeinfall::colours {

struct OfColour {
    std::string role;
    std::int64_t count = 0;
    measure::Chance chance;  ///< that its yarn is enough for so many
    units::Length left{};    ///< of all skeins that fit
    bool endless = false;    ///< the search ended, not the yarn
};

struct EachColour {
    std::size_t piece = 0;
    std::size_t size = 0;
    std::int64_t wanted = 0;  ///< copies, by the project
    std::int64_t together = 0;
    std::vector<OfColour> colours;  ///< in the project's order
    /// Yarns that are not enough for what the make takes of them beside copies: a border, a
    /// joining.
    std::vector<std::string> short_for_parts;
    /// Where there may be more than are wanted: parts that each has, counted so often, and parts
    /// that are counted as they are given.
    std::vector<std::string> parts_of_each;
    std::vector<std::string> parts_fixed;

    [[nodiscard]] bool enough() const { return together >= wanted && short_for_parts.empty(); }
};

/// Every yarn of the project works copies of the piece, whole ones, as many as it surely covers
/// beside what else the project takes of it; so sure that all yarns are together. A skein that fits
/// several yarns serves the first of them. What is calculated from all copies (their joining, an
/// edging) is that of all that are wanted, or of all that there may be where those are more. Throws
/// base::InputError for a piece in stripes and for a yarn told by a total.
[[nodiscard]] EachColour count_each(const project::Project& project, std::size_t size,
                                    std::size_t piece, const std::vector<stash::Skein>& stash,
                                    const cover::Rules& rules);

/// Copies above which no further search is made.
inline constexpr std::int64_t copies_at_most = 10'000;

}  // namespace skeinfall::colours
