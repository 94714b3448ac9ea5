#pragma once
/// \file
/// Where in a role's steps a reading of the work lies.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::joins {

/// The place after a row, or why there is none.
struct ReadingPlace {
    std::optional<std::size_t> steps_done;  ///< of the role; nothing when it has no such row
    std::size_t piece = 0;                  ///< index into Project::pieces
    bool piece_known = false;               ///< the role works such a piece
    std::int64_t before = 0;  ///< the nearest row before it that the role works; 0: none
    std::int64_t behind = 0;  ///< the nearest behind it; 0: none
};

/// `steps` are the role's own in working order. An empty name stands for the first piece; row 0 is
/// before the piece's first row.
[[nodiscard]] ReadingPlace place_of_reading(const project::Project& project,
                                            const std::vector<need::Step>& steps,
                                            std::string_view piece, std::int64_t copy,
                                            std::int64_t row);

}  // namespace skeinfall::joins
