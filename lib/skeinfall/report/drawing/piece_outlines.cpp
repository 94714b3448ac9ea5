#include "skeinfall/report/detail/piece_outlines.hpp"

#include <algorithm>
#include <cmath>

namespace skeinfall::report {

std::vector<Point> wings_outline(const Box& box, double from, double to) {
    std::vector<Point> out;
    const auto put = [&](double share, bool back) {
        std::vector<Point> line{{box.middle() - share * box.width / 2, box.top},
                                {box.middle(), box.top + share * box.height},
                                {box.middle() + share * box.width / 2, box.top}};
        if (back) std::reverse(line.begin(), line.end());
        out.insert(out.end(), line.begin(), line.end());
    };
    put(to, false);
    if (from > 0.0) put(from, true);
    return out;
}

Box within_wings(const Box& box, double margin) {
    // Its sides move in by as much each: the triangle about a smaller circle.
    const double leg = std::hypot(box.width / 2, box.height);
    const double circle = box.width * box.height / (box.width + 2.0 * leg);
    const double share = circle > 0.0 ? std::max(0.0, 1.0 - margin / circle) : 0.0;
    return {box.middle() - share * box.width / 2, box.top + margin, share * box.width,
            share * box.height};
}

namespace {

/// In blocks: the last row fills the corner.
double reach(const project::Blocks& blocks, double rows) {
    const auto all = static_cast<double>(blocks.wide + blocks.high);
    return rows * all / (all - 1.0);
}

Point on_page(const Box& box, const project::Blocks& blocks, double across, double up) {
    return {box.left + across / static_cast<double>(blocks.wide) * box.width,
            box.bottom() - up / static_cast<double>(blocks.high) * box.height};
}

}  // namespace

Diagonal diagonal_after(const Box& box, const project::Blocks& blocks, double rows) {
    const auto wide = static_cast<double>(blocks.wide);
    const auto high = static_cast<double>(blocks.high);
    const double sum = reach(blocks, rows);
    const double across = std::min(sum, wide);
    const double up = std::min(sum, high);
    return {on_page(box, blocks, across, sum - across), on_page(box, blocks, sum - up, up)};
}

std::vector<Point> blocks_outline(const Box& box, const project::Blocks& blocks, double from,
                                  double to) {
    const Diagonal first = diagonal_after(box, blocks, from);
    const Diagonal last = diagonal_after(box, blocks, to);
    const auto corner_between = [&](std::int64_t side) {
        const auto at = static_cast<double>(side);
        return reach(blocks, from) < at && at < reach(blocks, to);
    };
    std::vector<Point> out{first.right};
    if (corner_between(blocks.wide)) out.push_back({box.right(), box.bottom()});
    out.push_back(last.right);
    out.push_back(last.left);
    if (corner_between(blocks.high)) out.push_back({box.left, box.top});
    out.push_back(first.left);
    return out;
}

}  // namespace skeinfall::report
