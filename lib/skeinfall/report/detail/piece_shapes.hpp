#pragma once
/// \file
/// Pieces as they lie on the table, row 1 below, and how they are laid out on a page. Inner header
/// of report.

#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "skeinfall/joins/plan.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/report/detail/picture_canvas.hpp"

namespace skeinfall::report {

struct Shape {
    std::size_t first = 0;  ///< step of its first stitch
    std::size_t last = 0;   ///< one past its last
    std::size_t piece = 0;
    std::int64_t copy = 1;
    std::string name;
    std::vector<units::Length> widths;  ///< of its rows
    std::vector<bool> worked;           ///< whether the role works a row
    units::Length width{};
    units::Length height{};
    bool flat = true;
    double name_width = 0.0;  ///< points that its name may take; laid_out() sets it
};

/// The pieces that a role works, copy by copy; parts without rows are left out.
[[nodiscard]] std::vector<Shape> shapes_of(const project::Project& project,
                                           const joins::JoinPlan& plan, std::size_t size);

/// Rows of a shape that are done at a place of the plan; outside the shape none or all of them.
[[nodiscard]] double rows_at(const joins::JoinPlan& plan, const Shape& shape,
                             const joins::Position& at);

/// A shape with its place on the page.
class Placed {
  public:
    /// `room` is the width that is its own on the page.
    Placed(const Shape& shape, double points_per_metre, Point foot, double room)
        : shape_(&shape), scale_(points_per_metre), foot_(foot), room_(room) {}

    [[nodiscard]] const Shape& shape() const { return *shape_; }
    [[nodiscard]] double all() const { return static_cast<double>(shape_->widths.size()); }
    [[nodiscard]] double middle() const { return foot_.x; }
    [[nodiscard]] double floor() const { return foot_.y; }
    [[nodiscard]] double width() const { return shape_->width / units::metre * scale_; }
    [[nodiscard]] double height() const { return shape_->height / units::metre * scale_; }
    [[nodiscard]] double room() const { return room_; }
    /// Where so many rows are done.
    [[nodiscard]] double y(double rows) const { return foot_.y - rows / all() * height(); }
    /// Half the width of the row that is worked next then.
    [[nodiscard]] double half(double rows) const;
    /// The outline of the rows between two places.
    [[nodiscard]] std::vector<Point> outline(double from, double to) const;
    /// The rows from `from` to `to` that the role works, in stretches without a break.
    [[nodiscard]] std::vector<std::pair<double, double>> worked(double from, double to) const;

  private:
    const Shape* shape_;
    double scale_;
    Point foot_;
    double room_;
};

struct Layout {
    std::vector<Placed> shapes;
    double bottom = 0.0;  ///< of the last line's floor
};

/// Room a shape's words take below it.
inline constexpr double words_below_shape = 46.0;

/// What a piece's name may take beside a narrow piece; a longer one is cut.
inline constexpr double name_at_most = 150.0;

/// As large as `width` permits, in one line or several, no shape higher than `tallest`. `gap` is
/// left beside each; names must not run into one another. The layout refers to `shapes`.
[[nodiscard]] Layout laid_out(std::vector<Shape>& shapes, Canvas& canvas, Point corner,
                              double width, double tallest, double gap);

}  // namespace skeinfall::report
