#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/report/detail/dyes.hpp"
#include "skeinfall/report/detail/fabric.hpp"
#include "skeinfall/report/detail/joins_words.hpp"
#include "skeinfall/report/detail/look.hpp"
#include "skeinfall/report/detail/make_drawing.hpp"
#include "skeinfall/report/detail/picture_canvas.hpp"
#include "skeinfall/report/detail/piece_shapes.hpp"
#include "skeinfall/report/joins.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;
using joins::JoinPlan;
using joins::Position;
using joins::RoleJoins;
using look::letters::body;
using look::letters::small;

constexpr double row_numbers = 34.0;   // of a piece, for row numbers and a mark
constexpr double beside_right = 76.0;  // for brackets and what they say
constexpr double beside_piece = row_numbers + beside_right;
constexpr double usual_height = 200.0;  // of the tallest_piece piece
constexpr double room_for_a_join = 17.0;
constexpr double tallest_piece = 600.0;
constexpr double line_height = 18.0;

/// What the scale says near the end of a skein.
struct Stops {
    units::Mass heaviest{};       ///< for a row more, in the row that takes most
    units::Mass rest{};           ///< for all that remains, where the skein is the last
    std::size_t first = 0;        ///< steps done when it is read first
    units::Mass part{};           ///< for a part that comes after the rows, whole
    std::size_t before_part = 0;  ///< steps done then
};

Stops stops_of(const RoleJoins& role, std::size_t stretch) {
    Stops out;
    for (const joins::StopWeight& stop : role.stops) {
        if (stop.stretch != stretch) continue;
        if (out.heaviest.value() == 0.0 && out.part.value() == 0.0) {
            out.first = stop.steps_done;
            out.rest = stop.rest;
        }
        const bool part =
            stop.until < role.plan.steps.size() && !role.plan.steps[stop.until].name.empty();
        if (!part) {
            out.heaviest = std::max(out.heaviest, stop.next);
        } else if (stop.next > out.part) {
            out.part = stop.next;
            out.before_part = stop.until;
        }
    }
    return out;
}

/// Whether a piece lies otherwise than row on row, or in several yarns, so that one drawing of the
/// make says more than a map for each yarn.
bool drawn_as_it_lies(const DrawnMake& make) {
    return std::any_of(make.pieces.begin(), make.pieces.end(), [](const DrawnPiece& piece) {
        const std::size_t first = piece.roles.empty() ? 0 : piece.roles.front();
        return piece.lie != Lie::across || piece.from_centre ||
               std::any_of(piece.roles.begin(), piece.roles.end(),
                           [&](std::size_t role) { return role != first; }) ||
               std::any_of(piece.others.begin(), piece.others.end(),
                           [](const auto& others) { return !others.empty(); });
    });
}

class JoinMap {
  public:
    /// `whole` is drawn above the tables of the yarns; without it each yarn has a map of its own.
    JoinMap(const project::Project& project, const joins::Answer& answer, const DrawnMake* whole,
            PictureFormat format, double height)
        : project_(project),
          answer_(answer),
          whole_(whole),
          canvas_(look::page_width, height, format, shown_inert(project.title),
                  joins_text(project, answer)) {}

    /// How high a page the drawing takes; what it draws is thrown away.
    double measured() {
        draw();
        return y_ + look::page_margin / 2;
    }

    std::string draw() {
        y_ = look::page_margin + 6;
        const std::string words = joins_text(project_, answer_);
        canvas_.fitted({look::page_margin, y_}, words.substr(0, words.find('\n')),
                       look::letters::title, look::page_width - 2 * look::page_margin, Align::left,
                       true);
        y_ += 12;
        before_ = 0;
        if (whole_ != nullptr) draw_whole();
        for (const RoleJoins& role : answer_.roles) {
            if (role.plan.stretches.empty()) continue;
            draw_role(role);
            before_ += role.plan.stretches.size() - 1;
        }
        return canvas_.finish();
    }

  private:
    [[nodiscard]] std::string on_scale(units::Mass mass) const {
        return scale_text(mass, answer_.request.scale.step);
    }

    void draw_role(const RoleJoins& role) {
        const project::Role& wanted = *project_.role(role.plan.role);
        y_ += 24;
        std::string name = shown_inert(wanted.id);
        if (!wanted.name.empty()) name += " " + shown_inert(wanted.name);
        if (!wanted.colour.empty()) name += " " + shown_inert(wanted.colour);
        canvas_.fitted({look::page_margin, y_}, name, look::letters::lead,
                       look::page_width - 2 * look::page_margin, Align::left, true);
        y_ += 18;
        std::vector<Shape> shapes = whole_ != nullptr
                                        ? std::vector<Shape>{}
                                        : shapes_of(project_, role.plan, answer_.request.size);
        elsewhere_ = false;
        if (!shapes.empty()) {
            std::size_t most = 0;
            for (const Shape& shape : shapes) most = std::max(most, joins_in(role.plan, shape));
            const double height = std::clamp(room_for_a_join * static_cast<double>(most + 1),
                                             usual_height, tallest_piece);
            const Layout layout =
                laid_out(shapes, canvas_, {look::page_margin + row_numbers, y_},
                         look::page_width - 2 * look::page_margin, height, beside_piece);
            for (const Placed& placed : layout.shapes) draw_shape(role, placed);
            y_ = layout.bottom + words_below_shape + 4;
        }
        draw_table(role);
        if (role.colours) draw_colours(role, wanted);
    }

    /// Half the width of the widest row that a line of words at `rows` lies beside.
    static double half_beside(const Placed& placed, double rows) {
        const double words = placed.all() * look::letters::small / placed.height();
        return std::max({placed.half(rows - words), placed.half(rows), placed.half(rows + words)});
    }

    void name_below(const Placed& placed, const std::string& name) {
        const Shape& shape = placed.shape();
        const bool grows = !shape.flat && shape.widths.front() != shape.widths.back();
        canvas_.fitted({placed.middle(), placed.floor() + 15}, name, body,
                       std::max(placed.width(), name_at_most), Align::centre, true);
        canvas_.text({placed.middle(), placed.floor() + 27},
                     std::to_string(shape.widths.size()) + (shape.flat ? " rows" : " rounds") +
                         (grows ? ", each laid out straight" : ""),
                     small, Align::centre);
    }

    /// The yarn's own colour; nothing where the project has one yarn and names no colour for it.
    [[nodiscard]] std::optional<Dye> dye_of(const RoleJoins& role) const {
        const project::Role& wanted = *project_.role(role.plan.role);
        if (project_.roles.size() == 1 && wanted.shade.empty() && !shade_by_words(wanted.colour))
            return std::nullopt;
        const auto at = static_cast<std::size_t>(&wanted - project_.roles.data());
        Dye out = dyes_of(project_)[at];
        out.pattern %= Canvas::dye_patterns - 1;
        return out;
    }

    void draw_shape(const RoleJoins& role, const Placed& placed) {
        const JoinPlan& plan = role.plan;
        const Shape& shape = placed.shape();
        canvas_.outline(placed.outline(0.0, placed.all()));
        const std::optional<Dye> own = dye_of(role);
        for (std::size_t i = 0; i < plan.stretches.size(); ++i) {
            const joins::Stretch& stretch = plan.stretches[i];
            const double from = rows_at(plan, shape, stretch.from);
            const double to = rows_at(plan, shape, stretch.to);
            const auto worked = placed.worked(from, to);
            if (worked.empty()) continue;
            for (const auto& [low, high] : worked) {
                const std::vector<Point> corners = placed.outline(low, high);
                if (!own) {
                    canvas_.area(corners, i);
                    continue;
                }
                // One colour, plain and patterned by turns, so that skeins stand apart in grey too.
                canvas_.dyed(corners, {own->shade, i % 2 == 0 ? 0 : own->pattern + 1, own->with});
                canvas_.outline(corners);
            }
            const std::string id = shown_inert(stretch.ball.id);
            const double centre = (worked.front().first + worked.back().second) / 2;
            const double high = placed.y(worked.front().first) - placed.y(worked.back().second);
            if (high > 14 && canvas_.text_width(id, small) + 8 < 2 * placed.half(centre))
                canvas_.label({placed.middle(), placed.y(centre) + 3}, id, small);
        }
        draw_bands(role, placed);
        number_at_ = look::page_width * look::page_width;
        for (std::size_t i = 0; i + 1 < plan.stretches.size(); ++i) draw_join(plan, i, placed);
        name_below(placed, shape.name);
    }

    /// Whether a join lies in a shape or at its last row.
    static bool joined_in(const JoinPlan& plan, const Shape& shape, const Position& at) {
        if (at.step < shape.first || at.step > shape.last) return false;
        if (at.share.value() > 0.0)
            return at.step < shape.last && plan.steps[at.step].purpose == need::Purpose::body;
        return at.step > shape.first;
    }

    static std::size_t joins_in(const JoinPlan& plan, const Shape& shape) {
        std::size_t count = 0;
        for (std::size_t i = 0; i + 1 < plan.stretches.size(); ++i)
            if (joined_in(plan, shape, plan.stretches[i].to)) ++count;
        return count;
    }

    /// The rows in which a skein may end.
    struct Band {
        std::size_t index = 0;
        double low = 0.0;  ///< rows
        double high = 0.0;
        bool here = false;       ///< its join is in this piece
        std::size_t column = 0;  ///< bands that touch stand side by side
    };

    static std::vector<Band> bands_of(const JoinPlan& plan, const Placed& placed) {
        std::vector<Band> out;
        std::vector<double> tops;  // of each column, on the page
        constexpr double apart = 4.0;
        for (std::size_t i = 0; i < joined_stretches(plan); ++i) {
            const joins::Stretch& stretch = plan.stretches[i];
            const auto rows = [&](std::size_t steps) {
                return rows_at(plan, placed.shape(), {steps, units::Ratio(0.0)});
            };
            Band band{i, rows(stretch.earliest), rows(stretch.latest),
                      joined_in(plan, placed.shape(), stretch.to)};
            if (band.high <= band.low) continue;
            while (band.column < tops.size() && tops[band.column] < placed.y(band.low) + apart)
                ++band.column;
            if (band.column == tops.size()) tops.push_back(0.0);
            tops[band.column] = placed.y(band.high);
            out.push_back(band);
        }
        return out;
    }

    /// Brackets beside the piece, with their rows and what the scale says there as far as there is
    /// room; the table has all of it.
    void draw_bands(const RoleJoins& role, const Placed& placed) {
        const std::vector<Band> bands = bands_of(role.plan, placed);
        const auto centre = [&](const Band& band) {
            return (placed.y(band.low) + placed.y(band.high)) / 2;
        };
        double room = look::page_width;
        std::size_t columns = 0;
        for (std::size_t i = 0; i < bands.size(); ++i) {
            columns = std::max(columns, bands[i].column);
            if (i > 0) room = std::min(room, centre(bands[i - 1]) - centre(bands[i]));
        }
        constexpr double two_lines = 24.0;
        constexpr double one_line = 11.0;
        const double right_edge = placed.middle() + placed.width() / 2 + 14;
        const double words = right_edge + 7 * static_cast<double>(columns) + 7;
        double last = look::page_width * look::page_width;
        for (const Band& band : bands) {
            const double x = right_edge + 7 * static_cast<double>(band.column);
            const double bottom = placed.y(band.low);
            const double top = placed.y(band.high);
            canvas_.line({x, bottom}, {x, top}, 1.2);
            for (const double y : {bottom, top}) canvas_.line({x - 3, y}, {x + 3, y}, 1.2);
            if (band.here) {
                const double rows =
                    rows_at(role.plan, placed.shape(), role.plan.stretches[band.index].to);
                canvas_.line({placed.middle() + placed.half(rows), placed.y(rows)},
                             {x, placed.y(rows)}, 0.7, true);
            }
            const double y = centre(band);
            if (last - y < one_line) continue;
            last = y;
            elsewhere_ = elsewhere_ || !band.here;
            const Stops stops = stops_of(role, band.index);
            const bool both = room >= two_lines && band.here && stops.heaviest.value() > 0.0;
            canvas_.text({words, y + (both ? -1 : 3)},
                         (band.here ? "" : fmt::format("({}) ", band.index + 1)) +
                             fmt::format("{:.0f} to {:.0f}", band.low, band.high),
                         small);
            if (both) canvas_.text({words, y + 10}, "stop < " + on_scale(stops.heaviest), small);
        }
    }

    void draw_join(const JoinPlan& plan, std::size_t index, const Placed& placed) {
        const joins::Stretch& stretch = plan.stretches[index];
        const Shape& shape = placed.shape();
        if (!joined_in(plan, shape, stretch.to)) return;
        const double rows = rows_at(plan, shape, stretch.to);
        const double y = placed.y(rows);
        const double half = placed.half(rows);
        canvas_.line({placed.middle() - half, y}, {placed.middle() + half, y}, 2.2);
        double x = placed.middle() + half;
        const double share = stretch.to.share.value();
        // Even rows done: at the right right_edge; a row going back is read from the left.
        const bool back = shape.flat && static_cast<std::int64_t>(std::floor(rows)) % 2 == 1;
        x = back ? placed.middle() - half + share * 2 * half : x - share * 2 * half;
        canvas_.mark({x, y}, std::to_string(index + 1));
        // The row's number, beside the mark when that is at the same right_edge.
        if (number_at_ - y < small) return;
        number_at_ = y;
        const double room = std::max(half + (x < placed.middle() - half + 8 ? 12 : 4),
                                     half_beside(placed, rows) + 4);
        canvas_.text({placed.middle() - room, y + 3}, fmt::format("{:.0f}", std::floor(rows)),
                     small, Align::right);
    }

    /// "row", or "round" where the yarn works no rows.
    [[nodiscard]] std::string row_of(const JoinPlan& plan) const {
        const bool rounds =
            !project_.pieces.empty() &&
            std::all_of(plan.steps.begin(), plan.steps.end(), [&](const need::Step& step) {
                return !step.name.empty() ||
                       project_.pieces[step.piece].worked == project::Worked::round;
            });
        return rounds ? "round" : "row";
    }
    [[nodiscard]] std::string rows_of_make() const {
        return std::all_of(answer_.roles.begin(), answer_.roles.end(),
                           [&](const RoleJoins& role) { return row_of(role.plan) == "round"; })
                   ? "rounds"
                   : "rows";
    }

    [[nodiscard]] std::string bracket_words() const {
        return "bracket: the " + rows_of_make() + " in which a skein may end (" +
               chance_text(answer_.request.confidence) + ")";
    }

    void draw_whole() {
        y_ = draw_make(canvas_, project_, answer_, *whole_, PictureWidth::with_tables, y_);
        const bool brackets =
            std::any_of(whole_->joins.begin(), whole_->joins.end(), [&](const DrawnJoin& join) {
                return join.shape < whole_->pieces.size() && join.latest > join.weigh_from &&
                       whole_->pieces[join.shape].lie == Lie::across &&
                       !whole_->pieces[join.shape].from_centre;
            });
        if (!brackets) return;
        y_ += line_height;
        canvas_.text({look::page_margin, y_}, bracket_words(), small);
    }

    /// Stretches whose end has a mark in the drawing.
    [[nodiscard]] std::size_t marked_stretches(const JoinPlan& plan) const {
        return whole_ != nullptr ? plan.stretches.size() - 1 : joined_stretches(plan);
    }

    void draw_table(const RoleJoins& role) {
        const JoinPlan& plan = role.plan;
        std::vector<std::array<std::string, 5>> lines{
            {"skein", "likely to end", "safe", "latest", "stop below"}};
        for (std::size_t i = 0; i < plan.stretches.size(); ++i) {
            const joins::Stretch& stretch = plan.stretches[i];
            const bool last = i + 1 == plan.stretches.size();
            const bool joined = i < joined_stretches(plan);
            const auto place = [&](std::size_t steps) {
                return place_text(project_, plan, {steps, units::Ratio(0.0)});
            };
            const std::string left =
                units::yarn_text(stretch.left, units::Step::tenth, units::Rounding::down) + " left";
            lines.push_back({shown_inert(stretch.ball.id), place_text(project_, plan, stretch.to),
                             joined ? place(stretch.earliest) : left,
                             !joined ? ""
                             : last  ? "to the end"
                                     : place(stretch.latest),
                             stop_words(role, i)});
        }
        for (const joins::Spare& spare : plan.spares)
            lines.push_back({shown_inert(spare.ball.id), "spare",
                             units::yarn_text(spare.ball.length.centre, units::Step::tenth,
                                              units::Rounding::down) +
                                 " left",
                             "", ""});
        const std::array<double, 6> columns = columns_for(lines);
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (i > 0) y_ += line_height;
            if (i > 0 && i <= marked_stretches(plan))
                canvas_.mark({look::page_margin + 9, y_ - 3.5},
                             std::to_string(i + (whole_ != nullptr ? before_ : 0)));
            for (std::size_t c = 0; c < lines[i].size(); ++c)
                canvas_.fitted({columns.at(c), y_}, lines[i].at(c), i == 0 ? small : body,
                               columns.at(c + 1) - columns.at(c) - 8, Align::left, i == 0);
            if (i == 0)
                canvas_.line({look::page_margin, y_ + 4},
                             {look::page_width - look::page_margin, y_ + 4}, 0.6);
        }
        y_ += line_height + 2;
        if (!plan.finishes) {
            canvas_.text({look::page_margin, y_},
                         "the yarn runs out: " +
                             yards_and_metres(plan.missing, units::Rounding::up) + " missing",
                         body, Align::left, true);
            y_ += line_height;
        }
        if (const auto words = lasts_words(project_, plan, answer_.request.confidence)) {
            canvas_.fitted({look::page_margin, y_}, *words, body,
                           look::page_width - 2 * look::page_margin, Align::left, true);
            y_ += line_height;
        }
        if (joined_stretches(plan) > 0 && whole_ == nullptr)
            canvas_.text(
                {look::page_margin, y_},
                bracket_words() + ", with the reading of the scale to stop below" +
                    (elsewhere_ ? "; (2): that of join 2, which lies in another piece" : ""),
                small);
        y_ += line_height;
    }

    /// Left ends of the columns and the right end of the last: as wide as their words, what is over
    /// shared out. Where there is too little, the widest give it up, so that one long name leaves
    /// the others legible.
    std::array<double, 6> columns_for(const std::vector<std::array<std::string, 5>>& lines) {
        constexpr double first = 26.0;
        constexpr double apart = 20.0;
        constexpr double widened = 1.5;
        constexpr std::size_t count = 5;
        std::array<double, count> wide{};
        for (std::size_t c = 0; c < count; ++c)
            for (const auto& line : lines)
                wide.at(c) = std::max(wide.at(c), canvas_.text_width(line.at(c), body) + apart);
        const double there = look::page_width - 2 * look::page_margin - first;
        const double limit = widest_that_fits(wide, there);
        double sum = 0.0;
        for (double& one : wide) sum += one = std::min(one, limit);
        const double share = std::clamp(there / sum, 1.0, widened);
        std::array<double, count + 1> out{};
        out[0] = look::page_margin + first;
        for (std::size_t c = 0; c < count; ++c) out.at(c + 1) = out.at(c) + wide.at(c) * share;
        return out;
    }

    /// The width to which columns must be cut so that together they have no more than that.
    static double widest_that_fits(std::array<double, 5> wide, double together) {
        std::sort(wide.begin(), wide.end());
        auto left = static_cast<double>(wide.size());
        for (const double one : wide) {
            if (one * left > together) return together / left;
            together -= one;
            --left;
        }
        return wide.back();
    }

    [[nodiscard]] std::string stop_words(const RoleJoins& role, std::size_t stretch) const {
        const Stops stops = stops_of(role, stretch);
        const std::string part =
            stops.part > units::Mass{}
                ? on_scale(stops.part) + " " +
                      place_text(project_, role.plan, {stops.before_part, units::Ratio(0.0)})
                : std::string();
        if (stops.heaviest.value() == 0.0 && stops.rest.value() == 0.0) return part;
        if (stops.rest.value() > 0.0)
            return on_scale(stops.rest) + " " +
                   place_text(project_, role.plan, {stops.first, units::Ratio(0.0)});
        return on_scale(stops.heaviest) + " at each " + row_of(role.plan) +
               (stops.part > stops.heaviest ? ", " + part : "");
    }

    void draw_colours(const RoleJoins& role, const project::Role& wanted) {
        const joins::Colours& colours = *role.colours;
        if (colours.pieces.empty()) return;
        y_ += 14;
        std::vector<Shape> shapes = shapes_of(project_, role.plan, answer_.request.size);
        const auto colours_of = [&](const Shape& shape) {
            return std::find_if(colours.pieces.begin(), colours.pieces.end(),
                                [&](const joins::PieceColours& one) {
                                    return one.piece == shape.piece && one.copy == shape.copy;
                                });
        };
        std::erase_if(
            shapes, [&](const Shape& shape) { return colours_of(shape) == colours.pieces.end(); });
        if (shapes.empty()) return;
        canvas_.text({look::page_margin, y_},
                     role.plan.stretches.size() > 1 ? "colours as they will fall, joined in order"
                                                    : "colours as they will fall",
                     body, Align::left, true);
        y_ += 14;
        constexpr double beside = 34.0;
        const Layout layout =
            laid_out(shapes, canvas_, {look::page_margin + beside / 2, y_},
                     look::page_width - 2 * look::page_margin, usual_height, beside);
        for (const Placed& placed : layout.shapes)
            draw_fabric(role.plan, wanted, *colours_of(placed.shape()), placed);
        y_ = layout.bottom + words_below_shape;
        double x = look::page_margin;
        for (std::size_t run = 0; run < wanted.colours.size(); ++run) {
            const project::ColourRun& one = wanted.colours[run];
            constexpr int across = 60;
            constexpr int down = 24;
            std::vector<std::uint32_t> pixels;
            for (int py = 0; py < down; ++py)
                for (int px = 0; px < across; ++px)
                    pixels.push_back(textured(shade_of_run(one, run), run, px, py));
            const std::string words =
                letter(run) + "  " + shown_inert(one.colour) + ", " +
                units::yarn_text(one.length, units::Step::tenth, units::Rounding::nearest);
            const double width = 40 + canvas_.text_width(words, body) + 24;
            if (x > look::page_margin && x + width > look::page_width - look::page_margin) {
                x = look::page_margin;
                y_ += line_height;
            }
            canvas_.image({x, y_ - 9}, across / Canvas::pixels_per_point,
                          down / Canvas::pixels_per_point, across, pixels);
            const double left = x + across / Canvas::pixels_per_point;
            const double top = y_ - 9;
            const double bottom = top + down / Canvas::pixels_per_point;
            canvas_.outline({{x, top}, {left, top}, {left, bottom}, {x, bottom}});
            canvas_.text({x + 38, y_}, words, body);
            x += width;
        }
        y_ += line_height + 8;
    }

    static std::string letter(std::size_t run) {
        return run < 26 ? std::string(1, static_cast<char>('A' + run)) : std::to_string(run + 1);
    }
    /// The fabric pixel by pixel, its stripes lettered at the side.
    void draw_fabric(const JoinPlan& plan, const project::Role& wanted,
                     const joins::PieceColours& one, const Placed& placed) {
        const int across = std::max(1, static_cast<int>(placed.width() * Canvas::pixels_per_point));
        const int down = std::max(1, static_cast<int>(placed.height() * Canvas::pixels_per_point));
        const std::vector<std::uint32_t> pixels =
            fabric_pixels(project_, wanted, one, across, down);
        const double left = placed.middle() - placed.width() / 2;
        canvas_.image({left, placed.y(placed.all())}, placed.width(), placed.height(), across,
                      pixels);
        canvas_.outline(placed.outline(0.0, placed.all()));
        for (const joins::ColourStripe& stripe : one.stripes) {
            const double low = placed.y(stripe.from / units::row);
            const double high = placed.y(stripe.to / units::row);
            if (low - high < small) continue;
            const double half = std::max(placed.half(stripe.from / units::row),
                                         placed.half(stripe.to / units::row));
            canvas_.text({placed.middle() + half + 5, (low + high) / 2 + 3}, letter(stripe.run),
                         small);
        }
        for (std::size_t i = 0; i + 1 < plan.stretches.size(); ++i) {
            const Position& to = plan.stretches[i].to;
            if (!joined_in(plan, placed.shape(), to)) continue;
            const double join = rows_at(plan, placed.shape(), to);
            const double left_half = half_beside(placed, join);
            canvas_.line({placed.middle() - left_half - 5, placed.y(join)},
                         {placed.middle() + placed.half(join) + 2, placed.y(join)}, 1.2, true);
            canvas_.text({placed.middle() - left_half - 7, placed.y(join) + 3},
                         std::to_string(i + 1), small, Align::right, true);
        }
        name_below(placed, placed.shape().name);
    }

    const project::Project& project_;
    const joins::Answer& answer_;
    const DrawnMake* whole_;
    Canvas canvas_;
    double y_ = 0.0;
    std::size_t before_ = 0;  ///< joins of the yarns above, as the whole drawing counts them
    double number_at_ = 0.0;  ///< the last row number beside the piece
    bool elsewhere_ = false;  ///< a bracket stands beside a piece without its join
};

}  // namespace

std::string joins_picture(const project::Project& project, const joins::Answer& answer,
                          PictureFormat format) {
    const DrawnMake make =
        project.pieces.empty()
            ? DrawnMake{}
            : drawn_make(project, need::need_of(project, answer.request.size), answer);
    const DrawnMake* const whole = drawn_as_it_lies(make) ? &make : nullptr;
    const double height = JoinMap(project, answer, whole, PictureFormat::png, 1.0).measured();
    return JoinMap(project, answer, whole, format, height).draw();
}

}  // namespace skeinfall::report
