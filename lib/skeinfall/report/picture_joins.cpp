#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/look.hpp"
#include "skeinfall/report/detail/picture_canvas.hpp"
#include "skeinfall/report/joins.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;
using joins::JoinPlan;
using joins::Position;
using joins::RoleJoins;
using units::Length;

constexpr double page_width = 800.0;
constexpr double margin = 36.0;
constexpr double gap = 64.0;       // between pieces, with room for marks and brackets
constexpr double tallest = 250.0;  // a piece
constexpr double line_height = 18.0;
using look::letters::body;
constexpr std::size_t pieces_at_most = 8;

/// A piece as it lies on the table, row 1 below; a part without rows is a plain bar.
struct Shape {
    std::size_t first = 0;  ///< step of its first stitch
    std::size_t last = 0;   ///< one past its last
    std::string name;
    std::vector<double> widths;  ///< of its rows, in metres; empty for a part without rows
    double width = 0.0;
    double height = 0.0;
    bool flat = true;
};

bool has_rows(const project::Project& project, const need::Step& step) {
    return step.name.empty() && !project.pieces.empty();
}

std::vector<Shape> shapes_of(const project::Project& project, const JoinPlan& plan,
                             std::size_t size) {
    std::vector<Shape> out;
    for (std::size_t i = 0; i < plan.steps.size(); ++i) {
        const need::Step& step = plan.steps[i];
        const bool rows = has_rows(project, step);
        const bool same = i > 0 && rows && has_rows(project, plan.steps[i - 1]) &&
                          plan.steps[i - 1].piece == step.piece &&
                          plan.steps[i - 1].copy == step.copy;
        if (!same) {
            Shape shape;
            shape.first = i;
            if (rows) {
                const project::Piece& piece = project.pieces[step.piece];
                shape.flat = piece.worked == project::Worked::flat;
                const bool several = piece.count.stated() && piece.count.at(size) > 1;
                shape.name =
                    shown_inert(piece.name) + (several ? " " + std::to_string(step.copy) : "");
                for (const long stitches : project::row_widths(project, piece, size))
                    shape.widths.push_back(static_cast<double>(stitches) * units::stitch /
                                           project.gauge.stitches / units::metre);
                shape.width = *std::max_element(shape.widths.begin(), shape.widths.end());
                shape.height = static_cast<double>(shape.widths.size()) * units::row /
                               project.gauge.rows / units::metre;
            } else {
                shape.name = step_text(project, step);
            }
            out.push_back(std::move(shape));
        }
        out.back().last = i + 1;
    }
    return out;
}

/// Rows of a shape that are done at a place of the plan; outside the shape none or all of them.
double rows_at(const JoinPlan& plan, const Shape& shape, const Position& at) {
    if (at.step < shape.first) return 0.0;
    const auto all = static_cast<double>(shape.widths.size());
    if (at.step >= shape.last) return all;
    const need::Step& step = plan.steps[at.step];
    if (step.purpose == need::Purpose::body)
        return static_cast<double>(step.row - 1) + at.share.value();
    return step.purpose == need::Purpose::bind_off ? all
           : step.row > 0                          ? static_cast<double>(step.row - 1)
                                                   : 0.0;
}

class JoinMap {
  public:
    JoinMap(const project::Project& project, const joins::Answer& answer, PictureFormat format,
            double height)
        : project_(project),
          answer_(answer),
          canvas_(page_width, height, format, shown_inert(project.title),
                  joins_text(project, answer)) {}

    /// How high a page the drawing takes; what it draws is thrown away.
    double measured() {
        draw();
        return y_ + margin / 2;
    }

    std::string draw() {
        y_ = margin + 6;
        const std::string words = joins_text(project_, answer_);
        canvas_.text({margin, y_}, words.substr(0, words.find('\n')), 15, Align::left, true);
        y_ += 12;
        for (const RoleJoins& role : answer_.roles) {
            if (role.plan.stretches.empty()) continue;
            draw_role(role);
        }
        return canvas_.finish();
    }

  private:
    static std::vector<Shape> rowed(const project::Project& project, const JoinPlan& plan,
                                    std::size_t size) {
        std::vector<Shape> shapes = shapes_of(project, plan, size);
        std::erase_if(shapes, [](const Shape& shape) { return shape.widths.empty(); });
        if (shapes.size() > pieces_at_most) shapes.resize(pieces_at_most);
        return shapes;
    }

    static double scale_of(const std::vector<Shape>& shapes) {
        double width = 0.0;
        double height = 0.0;
        for (const Shape& shape : shapes) {
            width += shape.width;
            height = std::max(height, shape.height);
        }
        const double across = page_width - 2 * margin - gap * static_cast<double>(shapes.size());
        return std::min(across / width, tallest / height);
    }

    static double highest(const std::vector<Shape>& shapes) {
        double height = 0.0;
        for (const Shape& shape : shapes) height = std::max(height, shape.height);
        return height;
    }

    void draw_role(const RoleJoins& role) {
        const project::Role& wanted = *project_.role(role.plan.role);
        y_ += 24;
        std::string name = shown_inert(wanted.id);
        if (!wanted.name.empty()) name += " " + shown_inert(wanted.name);
        if (!wanted.colour.empty()) name += " " + shown_inert(wanted.colour);
        canvas_.text({margin, y_}, name, 12, Align::left, true);
        y_ += 16;
        const auto shapes = rowed(project_, role.plan, answer_.request.size);
        if (!shapes.empty()) {
            const double scale = scale_of(shapes);
            const double floor = y_ + highest(shapes) * scale;
            double x = margin + gap / 2;
            for (const Shape& shape : shapes) {
                draw_shape(role.plan, shape, scale, x + shape.width * scale / 2, floor);
                x += shape.width * scale + gap;
            }
            y_ = floor + 46;
        }
        draw_table(role);
        if (role.colours) draw_colours(role, wanted);
    }

    void draw_shape(const JoinPlan& plan, const Shape& shape, double scale, double middle,
                    double floor) {
        const auto all = static_cast<double>(shape.widths.size());
        const double row_height = shape.height * scale / all;
        const auto height_at = [&](double rows) { return floor - rows * row_height; };
        const auto half_at = [&](double rows) {
            const auto row = static_cast<std::size_t>(std::clamp(rows, 0.0, all - 1.0));
            return shape.widths[row] * scale / 2;
        };
        for (std::size_t i = 0; i < plan.stretches.size(); ++i) {
            const joins::Stretch& stretch = plan.stretches[i];
            const double from = rows_at(plan, shape, stretch.from);
            const double to = rows_at(plan, shape, stretch.to);
            if (to <= from) continue;
            std::vector<Point> corners;
            for (double row = from; row < to; row = std::floor(row) + 1.0) {
                corners.push_back({middle - half_at(row), height_at(row)});
                const double top = std::min(std::floor(row) + 1.0, to);
                corners.push_back({middle - half_at(row), height_at(top)});
            }
            const std::size_t left = corners.size();
            for (std::size_t k = left; k-- > 0;)
                corners.push_back({2 * middle - corners[k].x, corners[k].y});
            canvas_.area(corners, i);
            const double centre = (from + to) / 2;
            if ((to - from) * row_height > 14)
                canvas_.label({middle, height_at(centre) + 3}, shown_inert(stretch.ball.id), 9);
        }
        for (std::size_t i = 0; i + 1 < plan.stretches.size(); ++i)
            draw_join(plan, shape, i, middle, row_height, floor);
        canvas_.text({middle, floor + 15}, shape.name, body, Align::centre, true);
        canvas_.text({middle, floor + 28},
                     std::to_string(shape.widths.size()) + (shape.flat ? " rows" : " rounds"), 9,
                     Align::centre);
    }

    void draw_join(const JoinPlan& plan, const Shape& shape, std::size_t index, double middle,
                   double row_height, double floor) {
        const joins::Stretch& stretch = plan.stretches[index];
        const auto all = static_cast<double>(shape.widths.size());
        const auto half_at = [&](double rows) {
            const auto row = static_cast<std::size_t>(std::clamp(rows, 0.0, all - 1.0));
            return shape.widths[row] / shape.height * row_height * all / 2;
        };
        const double low = rows_at(plan, shape, {stretch.earliest, units::Ratio(0.0)});
        const double high = rows_at(plan, shape, {stretch.latest, units::Ratio(0.0)});
        // The band stands beside the widest part, other joins' bands a little farther out.
        const double beside = middle + half_at(all) + 12 + 6 * static_cast<double>(index % 3);
        const double widest = *std::max_element(shape.widths.begin(), shape.widths.end());
        const double outer =
            std::max(beside, middle + widest / shape.height * row_height * all / 2 + 12 +
                                 6 * static_cast<double>(index % 3));
        if (high > low) {
            const double a = floor - low * row_height;
            const double b = floor - high * row_height;
            canvas_.line({outer, a}, {outer, b}, 1.2);
            canvas_.line({outer - 3, a}, {outer + 3, a}, 1.2);
            canvas_.line({outer - 3, b}, {outer + 3, b}, 1.2);
        }
        const bool here = stretch.to.step > shape.first && stretch.to.step <= shape.last &&
                          (stretch.to.step < shape.last || stretch.to.share.value() == 0.0);
        if (!here) return;
        const double rows = rows_at(plan, shape, stretch.to);
        const double y = floor - rows * row_height;
        const double half = half_at(rows);
        canvas_.line({middle - half, y}, {middle + half, y}, 2.2);
        canvas_.line({middle + half, y}, {outer, y}, 0.7, true);
        double x = middle;
        const double share = stretch.to.share.value();
        const auto row = static_cast<long>(std::floor(rows));
        if (shape.flat) {
            // Even rows done: at the right edge; a row going back is read from the left.
            const bool back = row % 2 == 1;
            x = back ? middle - half + share * 2 * half : middle + half - share * 2 * half;
        } else if (share > 0.0) {
            x = middle + half - share * 2 * half;
        } else {
            x = middle + half;
        }
        canvas_.mark({x, y}, std::to_string(index + 1));
    }

    void draw_table(const RoleJoins& role) {
        const JoinPlan& plan = role.plan;
        const std::array<double, 6> columns{margin,       margin + 26,  margin + 190,
                                            margin + 340, margin + 470, margin + 610};
        const std::array<const char*, 6> heads{"",     "skein",  "likely to end",
                                               "safe", "latest", "stop below"};
        for (std::size_t c = 0; c < columns.size(); ++c)
            canvas_.text({columns[c], y_}, heads[c], 9, Align::left, true);
        canvas_.line({margin, y_ + 4}, {page_width - margin, y_ + 4}, 0.6);
        for (std::size_t i = 0; i < plan.stretches.size(); ++i) {
            y_ += line_height;
            const joins::Stretch& stretch = plan.stretches[i];
            const bool joined = i + 1 < plan.stretches.size();
            const auto place = [&](std::size_t steps) {
                return place_text(project_, plan, {steps, units::Ratio(0.0)});
            };
            if (joined) canvas_.mark({columns[0] + 9, y_ - 3.5}, std::to_string(i + 1));
            fitted(columns[1], columns[2], shown_inert(stretch.ball.id));
            fitted(columns[2], columns[3], place_text(project_, plan, stretch.to));
            if (joined) {
                fitted(columns[3], columns[4], place(stretch.earliest));
                fitted(columns[4], columns[5], place(stretch.latest));
            } else {
                fitted(columns[3], columns[5],
                       units::text(stretch.left, units::shown::metres, units::Step::tenth,
                                   units::Rounding::down) +
                           " left");
            }
            fitted(columns[5], page_width - margin, stop_words(role, i));
        }
        y_ += line_height + 4;
        if (!plan.finishes)
            canvas_.text({margin, y_},
                         "the yarn runs out: " +
                             yards_and_metres(plan.missing, units::Rounding::up) + " missing",
                         body, Align::left, true);
        else
            canvas_.text({margin, y_},
                         "the bracket beside a piece spans the rows in which a skein may end (" +
                             chance_text(answer_.request.confidence) + ")",
                         9);
        y_ += line_height;
    }

    [[nodiscard]] std::string stop_words(const RoleJoins& role, std::size_t stretch) const {
        units::Mass heaviest{};
        units::Mass rest{};
        std::size_t first = 0;
        for (const joins::StopWeight& stop : role.stops) {
            if (stop.stretch != stretch) continue;
            if (heaviest.value() == 0.0) {
                first = stop.steps_done;
                rest = stop.rest;
            }
            heaviest = std::max(heaviest, stop.next);
        }
        if (heaviest.value() == 0.0) return {};
        const auto grams = [&](units::Mass mass) {
            return units::plain_number(units::Ratio(mass / units::gram), units::Step::hundredth,
                                       units::Rounding::up) +
                   " g";
        };
        if (rest.value() > 0.0)
            return grams(rest) + " " + place_text(project_, role.plan, {first, units::Ratio(0.0)});
        return grams(heaviest) + " at each row";
    }

    /// Words in a column.
    void fitted(double from, double to, const std::string& words) {
        canvas_.fitted({from, y_}, words, body, to - from - 6);
    }

    void draw_colours(const RoleJoins& role, const project::Role& wanted) {
        const joins::Colours& colours = *role.colours;
        if (colours.pieces.empty()) return;
        y_ += 10;
        double width = 0.0;
        double height = 0.0;
        std::vector<Shape> shapes;
        for (const joins::PieceColours& one : colours.pieces)
            for (const Shape& shape : shapes_of(project_, role.plan, answer_.request.size))
                if (!shape.widths.empty() && role.plan.steps[shape.first].piece == one.piece &&
                    role.plan.steps[shape.first].copy == 1) {
                    shapes.push_back(shape);
                    width += shape.width;
                    height = std::max(height, shape.height);
                    break;
                }
        const double scale =
            std::min((page_width - 2 * margin - gap * static_cast<double>(shapes.size())) / width,
                     tallest / height);
        const double floor = y_ + height * scale;
        double x = margin + gap / 2;
        for (std::size_t i = 0; i < shapes.size(); ++i) {
            draw_fabric(wanted, colours.pieces[i], shapes[i], {x, floor}, scale);
            x += shapes[i].width * scale + gap;
        }
        y_ = floor + 38;
        for (std::size_t run = 0; run < wanted.colours.size(); ++run) {
            const project::ColourRun& one = wanted.colours[run];
            constexpr int across = 60;
            constexpr int down = 20;
            std::vector<std::uint32_t> pixels;
            for (int py = 0; py < down; ++py)
                for (int px = 0; px < across; ++px)
                    pixels.push_back(textured(shade(one, run), run, px, py));
            canvas_.image({margin, y_ - 9}, across / Canvas::pixels_per_point,
                          down / Canvas::pixels_per_point, across, pixels);
            canvas_.text({margin + 40, y_},
                         letter(run) + "  " + shown_inert(one.colour) + ", " +
                             units::text(one.length, units::shown::metres, units::Step::tenth,
                                         units::Rounding::nearest),
                         body);
            y_ += line_height;
        }
        y_ += 8;
    }

    static std::string letter(std::size_t run) {
        return run < 26 ? std::string(1, static_cast<char>('A' + run)) : std::to_string(run + 1);
    }
    static Shade shade(const project::ColourRun& run, std::size_t index) {
        return run.shade.empty() ? usual_shade(index) : shade_of(run.shade);
    }

    /// The fabric pixel by pixel, its stripes lettered at the side.
    void draw_fabric(const project::Role& wanted, const joins::PieceColours& one,
                     const Shape& shape, Point corner, double scale) {
        const project::Piece& piece = project_.pieces[one.piece];
        const joins::Fabric fabric =
            joins::fabric_of(wanted.colours, one.start, one.rows, piece.worked);
        std::vector<long> stitches;
        for (const joins::ColourRow& row : one.rows) stitches.push_back(row.stitches);
        const double width = shape.width * scale;
        const double height = shape.height * scale;
        const int across = std::max(1, static_cast<int>(width * Canvas::pixels_per_point));
        const int down = std::max(1, static_cast<int>(height * Canvas::pixels_per_point));
        const long widest = *std::max_element(stitches.begin(), stitches.end());
        std::vector<std::uint32_t> pixels;
        pixels.reserve(static_cast<std::size_t>(across) * static_cast<std::size_t>(down));
        constexpr std::uint32_t white = 0xFFFFFF;
        std::vector<Shade> shades;
        for (std::size_t run = 0; run < wanted.colours.size(); ++run)
            shades.push_back(shade(wanted.colours[run], run));
        for (int py = 0; py < down; ++py) {
            const auto from_top =
                static_cast<std::size_t>((py + 0.5) / down * static_cast<double>(stitches.size()));
            const std::size_t row = stitches.size() - 1 - std::min(from_top, stitches.size() - 1);
            for (int px = 0; px < across; ++px) {
                // Right edge first; a narrow row lies in the middle.
                const double along = (across - px - 0.5) / across * static_cast<double>(widest) -
                                     static_cast<double>(widest - stitches[row]) / 2.0;
                const auto stitch = static_cast<long>(std::floor(along));
                if (stitch < 0 || stitch >= stitches[row]) {
                    pixels.push_back(white);
                    continue;
                }
                const std::size_t run =
                    fabric.run[fabric.row_begin[row] + static_cast<std::size_t>(stitch)];
                pixels.push_back(textured(shades[run], run, px, py));
            }
        }
        canvas_.image({corner.x, corner.y - height}, width, height, across, pixels);
        for (const joins::ColourStripe& stripe : one.stripes) {
            const auto rows = static_cast<double>(stitches.size());
            const double high = (stripe.to - stripe.from) / units::row / rows * height;
            if (high < 9.0) continue;
            const double middle = (stripe.to + stripe.from) / units::row / 2 / rows * height;
            canvas_.text({corner.x + width + 4, corner.y - middle + 3}, letter(stripe.run), 9);
        }
        canvas_.text({corner.x + width / 2, corner.y + 15}, "colours of " + shape.name, body,
                     Align::centre, true);
    }

    const project::Project& project_;
    const joins::Answer& answer_;
    Canvas canvas_;
    double y_ = 0.0;
};

}  // namespace

std::string joins_picture(const project::Project& project, const joins::Answer& answer,
                          PictureFormat format) {
    const double height = JoinMap(project, answer, PictureFormat::png, 1.0).measured();
    return JoinMap(project, answer, format, height).draw();
}

}  // namespace skeinfall::report
