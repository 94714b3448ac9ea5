#include "skeinfall/report/detail/piece_shapes.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/look.hpp"

namespace skeinfall::report {
namespace {

using joins::JoinPlan;
using units::Length;

constexpr std::size_t shapes_at_most = 12;
constexpr std::size_t lines_at_most = 3;

bool has_rows(const project::Project& project, const need::Step& step) {
    return step.name.empty() && !project.pieces.empty();
}

Shape shape_of(const project::Project& project, const need::Step& step, std::size_t size) {
    const project::Piece& piece = project.pieces[step.piece];
    Shape shape;
    shape.piece = step.piece;
    shape.copy = step.copy;
    shape.flat = piece.worked == project::Worked::flat;
    const bool several = piece.count.stated() && piece.count.at(size) > 1;
    shape.name = base::shown_inert(piece.name) + (several ? " " + std::to_string(step.copy) : "");
    for (const std::int64_t stitches : project::row_widths(project, piece, size))
        shape.widths.push_back(static_cast<double>(stitches) * units::stitch /
                               gauge_of(project, piece).stitches);
    shape.worked.assign(shape.widths.size(), false);
    shape.width = *std::max_element(shape.widths.begin(), shape.widths.end());
    shape.height =
        static_cast<double>(shape.widths.size()) * units::row / gauge_of(project, piece).rows;
    return shape;
}

using Lines = std::vector<std::vector<const Shape*>>;

Lines in_lines(const std::vector<Shape>& shapes, std::size_t count) {
    Lines out(count);
    for (std::size_t i = 0; i < shapes.size(); ++i)
        out[i * count / shapes.size()].push_back(&shapes[i]);
    return out;
}

/// Each copy in a line of its own.
Lines by_copies(const std::vector<Shape>& shapes) {
    Lines out;
    for (const Shape& shape : shapes) {
        const auto line = static_cast<std::size_t>(shape.copy - 1);
        if (out.size() <= line) out.resize(line + 1);
        out[line].push_back(&shape);
    }
    std::erase_if(out, [](const auto& line) { return line.empty(); });
    return out;
}

double across(const Shape& shape, double scale) {
    return std::max<double>(shape.width / units::metre * scale, shape.name_width);
}

double across(const std::vector<const Shape*>& line, double scale, double gap) {
    double sum = 0.0;
    for (const Shape* shape : line) sum += across(*shape, scale) + gap;
    return sum;
}

Length highest(const std::vector<const Shape*>& line) {
    Length out{};
    for (const Shape* shape : line) out = std::max(out, shape->height);
    return out;
}

/// The largest scale with which all lines fit.
double scale_of(const Lines& lines, double width, double tallest, double gap) {
    Length height{};
    for (const auto& line : lines) height = std::max(height, highest(line));
    double high = tallest / (height / units::metre);
    double low = 0.0;
    const auto fit = [&](double scale) {
        return std::all_of(lines.begin(), lines.end(),
                           [&](const auto& line) { return across(line, scale, gap) <= width; });
    };
    if (fit(high)) return high;
    constexpr int halvings = 30;
    for (int i = 0; i < halvings; ++i) {
        const double middle = (low + high) / 2;
        (fit(middle) ? low : high) = middle;
    }
    return low;
}

}  // namespace

std::vector<Shape> shapes_of(const project::Project& project, const JoinPlan& plan,
                             std::size_t size) {
    std::vector<Shape> out;
    for (std::size_t i = 0; i < plan.steps.size(); ++i) {
        const need::Step& step = plan.steps[i];
        if (!has_rows(project, step)) continue;
        const bool same =
            !out.empty() && out.back().piece == step.piece && out.back().copy == step.copy;
        if (!same) {
            if (out.size() == shapes_at_most) break;
            out.push_back(shape_of(project, step, size));
            out.back().first = i;
        }
        out.back().last = i + 1;
        const auto row = static_cast<std::size_t>(step.row);
        if (step.purpose == need::Purpose::body && row > 0 && row <= out.back().worked.size())
            out.back().worked[row - 1] = true;
    }
    return out;
}

double rows_at(const JoinPlan& plan, const Shape& shape, const joins::Position& at) {
    if (at.step < shape.first) return 0.0;
    const auto all = static_cast<double>(shape.widths.size());
    if (at.step >= shape.last) return all;
    const need::Step& step = plan.steps[at.step];
    const bool carried = step.purpose == need::Purpose::carried;
    if (carried || step.purpose == need::Purpose::body) {
        // Between two stripes the rows of the other yarns are not done in this one.
        if (at.share.value() == 0.0 && at.step > shape.first)
            return static_cast<double>(plan.steps[at.step - 1].row);
        return static_cast<double>(step.row - 1) + at.share.value();
    }
    return step.purpose == need::Purpose::bind_off ? all
           : step.row > 0                          ? static_cast<double>(step.row - 1)
                                                   : 0.0;
}

double Placed::half(double rows) const {
    const auto row = static_cast<std::size_t>(std::clamp(rows, 0.0, all() - 1.0));
    return shape_->widths[row] / units::metre * scale_ / 2;
}

std::vector<Point> Placed::outline(double from, double to) const {
    std::vector<Point> corners;
    for (double row = from; row < to; row = std::floor(row) + 1.0) {
        corners.push_back({middle() - half(row), y(row)});
        corners.push_back({middle() - half(row), y(std::min(std::floor(row) + 1.0, to))});
    }
    for (std::size_t k = corners.size(); k-- > 0;)
        corners.push_back({2 * middle() - corners[k].x, corners[k].y});
    return corners;
}

std::vector<std::pair<double, double>> Placed::worked(double from, double to) const {
    std::vector<std::pair<double, double>> out;
    for (double row = from; row < to; row = std::floor(row) + 1.0) {
        if (!shape_->worked[static_cast<std::size_t>(row)]) continue;
        const double end = std::min(std::floor(row) + 1.0, to);
        if (!out.empty() && out.back().second == row)
            out.back().second = end;
        else
            out.emplace_back(row, end);
    }
    return out;
}

Layout laid_out(std::vector<Shape>& shapes, Canvas& canvas, Point corner, double width,
                double tallest, double gap) {
    for (Shape& shape : shapes)
        shape.name_width =
            std::min(name_at_most, canvas.text_width(shape.name, look::letters::body, true));
    Lines lines;
    double scale = 0.0;
    // Another line must make the shapes clearly larger.
    constexpr double clearly = 1.2;
    std::vector<Lines> ways{in_lines(shapes, 1), by_copies(shapes)};
    for (std::size_t count = 2; count <= std::min<std::size_t>(lines_at_most, shapes.size());
         ++count)
        ways.push_back(in_lines(shapes, count));
    for (Lines& tried : ways) {
        if (tried.size() > lines_at_most) continue;
        const double its = scale_of(tried, width, tallest, gap);
        if (its <= scale * clearly) continue;
        scale = its;
        lines = std::move(tried);
    }
    Layout out;
    out.bottom = corner.y;
    for (const auto& line : lines) {
        const double top = &line == &lines.front() ? corner.y : out.bottom + words_below_shape;
        out.bottom = top + highest(line) / units::metre * scale;
        double x = corner.x;
        for (const Shape* shape : line) {
            const double own = across(*shape, scale);
            out.shapes.emplace_back(*shape, scale, Point{x + own / 2, out.bottom}, own);
            x += own + gap;
        }
    }
    return out;
}

}  // namespace skeinfall::report
