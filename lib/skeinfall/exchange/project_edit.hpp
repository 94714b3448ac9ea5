#pragma once
/// \file
/// A project file with some of its figures changed and all else left as it stands: order, remarks,
/// blank lines.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/project/project.hpp"

namespace skeinfall::exchange {

/// Figures of one piece; what is not stated stays.
struct PieceEdit {
    std::size_t piece = 0;
    project::PerSize<std::int64_t> stitches;  ///< instead of a width
    project::PerSize<std::int64_t> rows;      ///< instead of a length
    project::PerSize<std::int64_t> last_stitches;
    std::vector<std::string> written;           ///< the entries of "rows" in notation
    std::vector<project::Stripe> stripes = {};  ///< instead of a yarn
    /// Of the finished shape; the length instead of rows.
    project::PerSize<units::Length> width = {};
    project::PerSize<units::Length> length = {};
    bool width_of_row_one = false;  ///< the width instead of stitches
    project::PerSize<std::int64_t> count = {};
    project::PerSize<std::int64_t> blocks_wide = {};  ///< instead of rows
    project::PerSize<std::int64_t> blocks_high = {};
};

/// The stitches of the first round of a border.
struct RoundEdit {
    std::size_t part = 0;
    project::PerSize<std::int64_t> first_round;
};

/// A fringe by its strands, its yarn or its length; what is not stated stays.
struct FringeEdit {
    std::size_t part = 0;
    project::PerSize<std::int64_t> strands;
    project::PerSize<units::Length> yarn;
    project::PerSize<units::Length> along;
};

/// How many motifs lie in a row.
struct ColumnsEdit {
    std::size_t part = 0;
    project::PerSize<std::int64_t> columns;
};

/// The total of one yarn for the whole make, by length or by mass: what the file says of rows or of
/// a size that it is for goes.
struct TotalEdit {
    std::string role;
    project::PerSize<units::Length> length;
    project::PerSize<units::Mass> mass;
    project::PerSize<units::Length> least = {};  ///< of a range, of which `length` is the most
};

/// The text of the file so changed. Throws base::InputError when it is not TOML or has no such
/// piece, yarn or border.
[[nodiscard]] std::string edited_project(std::string_view text, const std::string& file,
                                         const std::vector<PieceEdit>& pieces,
                                         const std::vector<TotalEdit>& totals,
                                         const std::vector<RoundEdit>& rounds = {},
                                         const std::vector<ColumnsEdit>& columns = {},
                                         const std::vector<FringeEdit>& fringes = {});

/// The text under another title; as it is where no line of its own gives one.
[[nodiscard]] std::string retitled_project(const std::string& text, const std::string& title);

}  // namespace skeinfall::exchange
