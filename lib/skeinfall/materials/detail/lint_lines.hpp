#pragma once
/// \file
/// What single lines of a section say otherwise than tables, or than the project.
/// Inner header of materials.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/materials/detail/scan.hpp"
#include "skeinfall/materials/section.hpp"

namespace skeinfall::materials {

/// A figure that is not the project's, at its column in the line.
struct Otherwise {
    std::size_t column = 0;
    std::string what;
};

/// The key of a title in any language; empty where none has it.
[[nodiscard]] std::string_view block_of(const std::string& title);

/// How many widths and lengths the yarn by size has: a line a length, "MC, 16 in long: 78 (105) yd
/// / 71 (92) m", with a figure a width. Nothing where a section has no such lines.
struct GridShape {
    std::size_t widths = 0;
    std::size_t lengths = 0;
};
[[nodiscard]] GridShape grid_shape_of(const std::vector<Line>& lines);
/// Whether figures are those of the name of a size of a grid, which is no conversion of what stands
/// beside it. False without a section.
[[nodiscard]] bool in_a_size_name(const Line& line, const Group& group, const Section* section);

/// "5.5 mm (US I-9)", "4 mm (US 6, UK 8)": a label that charts give another size.
[[nodiscard]] std::vector<Otherwise> tool_labels_against(const Line& line);

/// A line of figures of one length, "MC, 30 in long: 124 (167) yd / 113 (153) m".
[[nodiscard]] std::vector<Otherwise> grid_line_against(const Line& line, const Section& section);

/// A line that says what each repeat wider, or each inch longer, takes.
[[nodiscard]] std::vector<Otherwise> adjust_line_against(const Line& line, const Section& section);

/// Of "MC changes its colour: rust 6.6 yd, ...": no total.
[[nodiscard]] bool tells_colours(const std::string& head);

}  // namespace skeinfall::materials
