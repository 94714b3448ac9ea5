#pragma once
/// \file
/// Where rows lie that are no straight lines across their piece. Inner header of report.

#include <cstdint>
#include <vector>

#include "skeinfall/project/project.hpp"
#include "skeinfall/report/detail/picture_canvas.hpp"

namespace skeinfall::report {

/// A box on the page.
struct Box {
    double left = 0.0;
    double top = 0.0;
    double width = 0.0;
    double height = 0.0;
    [[nodiscard]] double middle() const { return left + width / 2; }
    [[nodiscard]] double right() const { return left + width; }
    [[nodiscard]] double bottom() const { return top + height; }
    /// Without a margin on each side.
    [[nodiscard]] Box within(double margin) const {
        return {left + margin, top + margin, width - 2 * margin, height - 2 * margin};
    }
    [[nodiscard]] std::vector<Point> corners() const {
        return {{left, top}, {right(), top}, {right(), bottom()}, {left, bottom()}};
    }
};

/// A nape triangle hangs from its upper edge; of its depth, the shares `from` to `to`.
[[nodiscard]] std::vector<Point> wings_outline(const Box& box, double from, double to);

/// The box of a nape triangle whose three edges lie so far within those of this one.
[[nodiscard]] Box within_wings(const Box& box, double margin);

/// The edge of a piece of blocks after so many diagonal rows, from its right end to its left. They
/// begin at the lower left corner.
struct Diagonal {
    Point right;
    Point left;
};
[[nodiscard]] Diagonal diagonal_after(const Box& box, const project::Blocks& blocks, double rows);
[[nodiscard]] std::vector<Point> blocks_outline(const Box& box, const project::Blocks& blocks,
                                                double from, double to);

}  // namespace skeinfall::report
