#include <algorithm>
#include <cmath>
#include <cstdint>
#include <memory>
#include <numbers>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/dyes.hpp"
#include "skeinfall/report/detail/fabric.hpp"
#include "skeinfall/report/detail/figures.hpp"
#include "skeinfall/report/detail/look.hpp"
#include "skeinfall/report/detail/make_drawing.hpp"
#include "skeinfall/report/detail/make_room.hpp"
#include "skeinfall/report/detail/piece_outlines.hpp"
#include "skeinfall/report/page.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

namespace letters = look::letters;

constexpr double make_line = 15.0;

/// A third of the joins of the piece that has most, for they are not spread evenly; half of them on
/// a low picture.
int mark_columns(const DrawnMake& make, PictureWidth width) {
    const bool low = width == PictureWidth::slip;
    const int most = low ? 8 : 5;
    std::vector<int> of_piece(make.pieces.size() + 1, 0);
    for (const DrawnJoin& join : make.joins) ++of_piece[std::min(join.shape, make.pieces.size())];
    const int joins = *std::max_element(of_piece.begin(), of_piece.end());
    return std::clamp(low ? (joins + 1) / 2 : (joins + 2) / 3, 1, most);
}

class MakePicture {
  public:
    MakePicture(const project::Project& project, const joins::Answer& answer, const DrawnMake& make,
                PictureWidth width, Canvas& canvas)
        : project_(project),
          answer_(answer),
          make_(make),
          sizes_(sizes_of(width)),
          listed_(width == PictureWidth::wide || width == PictureWidth::narrow ||
                  width == PictureWidth::alone),
          all_listed_(width == PictureWidth::alone),
          slip_(width == PictureWidth::slip),
          columns_(mark_columns(make, width)),
          beside_right_(mark_gap + mark_width * columns_),
          dyes_(dyes_of(project)),
          canvas_(canvas) {}

    /// Says how far down it came.
    double draw(double top) {
        y_ = top;
        for (const DrawnField& field : make_.fields)
            y_ += draw_field(canvas_, field, dyes_, {sizes_.margin, y_},
                             sizes_.page - 2 * sizes_.margin, sizes_.tallest);
        const MakeRoom room = room_of(make_, sizes_, y_, beside_right_);
        const std::vector<Box>& boxes = room.boxes;
        if (!boxes.empty()) y_ = room.floor;
        for (std::size_t i = 0; i < boxes.size(); ++i) draw_piece(i, boxes[i]);
        draw_yarns();
        if (listed_) draw_joins();
        y_ += listed_ ? drawing_margin : 0.0;
        return y_;
    }

  private:
    void draw_piece(std::size_t index, const Box& box) {
        const DrawnPiece& piece = make_.pieces[index];
        canvas_.begin_part("piece " + piece.name);
        if (piece.from_centre)
            draw_rings(piece, box);
        else
            draw_rows(piece, draw_border(piece, box));
        draw_marks(index, box);
        draw_measures(piece, box);
        canvas_.end_part();
    }

    /// Half the width of a row on the page.
    static double half(const DrawnPiece& piece, const Box& box, std::size_t row) {
        const double widest = piece.inner_width() / units::metre * (piece.round ? 2.0 : 1.0);
        if (widest <= 0.0) return 0.0;
        return box.width / 2 * static_cast<double>(piece.widths[row] / units::metre) / widest;
    }

    static double y_of(const DrawnPiece& piece, const Box& box, double rows) {
        if (piece.lie == Lie::wings) return box.top + depth(piece, rows) * box.height;
        if (piece.lie == Lie::blocks) return diagonal_after(box, piece.blocks, rows).right.y;
        return box.bottom() - rows / static_cast<double>(piece.widths.size()) * box.height;
    }

    /// Of a triangle's depth, the share that so many rows make: the root of that of their area.
    static double depth(const DrawnPiece& piece, double rows) {
        double done = 0.0;
        double all = 0.0;
        for (std::size_t row = 0; row < piece.widths.size(); ++row) {
            const double wide = piece.widths[row] / units::metre;
            all += wide;
            done += wide * std::clamp(rows - static_cast<double>(row), 0.0, 1.0);
        }
        return all > 0.0 ? std::sqrt(done / all) : 0.0;
    }

    /// The rounds about a piece, the outer ones first; says what is left for its rows.
    Box draw_border(const DrawnPiece& piece, const Box& box) {
        const double all = margin_of(piece, box);
        if (piece.border.empty()) return box;
        const double each = all / static_cast<double>(piece.border.size());
        canvas_.begin_part(fmt::format(
            "border of {}",
            counted(static_cast<std::int64_t>(piece.border.size()), "round", "rounds")));
        for (std::size_t round = piece.border.size(); round > 0; --round)
            canvas_.dyed(
                edge_of(piece, inside(piece, box,
                                      each * static_cast<double>(piece.border.size() - round))),
                dyes_[piece.border[round - 1]]);
        canvas_.outline(edge_of(piece, box));
        canvas_.end_part();
        return inside(piece, box, all);
    }

    /// A piece in its box, so much within its edges on every side.
    static Box inside(const DrawnPiece& piece, const Box& box, double margin) {
        return piece.lie == Lie::wings ? within_wings(box, margin) : box.within(margin);
    }
    static std::vector<Point> edge_of(const DrawnPiece& piece, const Box& box) {
        return piece.lie == Lie::wings ? wings_outline(box, 0.0, 1.0) : box.corners();
    }

    static double margin_of(const DrawnPiece& piece, const Box& box) {
        return piece.border.empty() ? 0.0 : box.width * double{piece.border_high / piece.width};
    }

    /// The outline of rows `from` to `to`, a corner only where it turns.
    static std::vector<Point> outline(const DrawnPiece& piece, const Box& box, std::size_t from,
                                      std::size_t to) {
        if (piece.lie == Lie::wings)
            return wings_outline(box, depth(piece, static_cast<double>(from)),
                                 depth(piece, static_cast<double>(to)));
        if (piece.lie == Lie::blocks)
            return blocks_outline(box, piece.blocks, static_cast<double>(from),
                                  static_cast<double>(to));
        std::vector<Point> right;
        const auto put = [&](double x, double y) {
            const auto count = right.size();
            if (count > 1 && std::abs(right[count - 1].x - x) < 0.05 &&
                std::abs(right[count - 2].x - x) < 0.05)
                right.back().y = y;
            else
                right.push_back({x, y});
        };
        for (std::size_t row = from; row < to; ++row) {
            const double x = box.middle() + half(piece, box, row);
            put(x, y_of(piece, box, static_cast<double>(row)));
            put(x, y_of(piece, box, static_cast<double>(row + 1)));
        }
        std::vector<Point> out = right;
        for (std::size_t i = right.size(); i-- > 0;)
            out.push_back({2 * box.middle() - right[i].x, right[i].y});
        return out;
    }

    [[nodiscard]] const joins::PieceColours* colours_of(const DrawnPiece& piece) const {
        if (piece.lie != Lie::across) return nullptr;
        for (const joins::RoleJoins& role : answer_.roles) {
            if (!role.colours || role.plan.role != project_.roles[piece.roles.front()].id) continue;
            for (const joins::PieceColours& one : role.colours->pieces)
                if (one.piece == piece.piece && one.copy == piece.copy && !one.rows.empty())
                    return &one;
        }
        return nullptr;
    }

    void draw_rows(const DrawnPiece& piece, const Box& box) {
        const std::size_t rows = piece.widths.size();
        if (const joins::PieceColours* colours = colours_of(piece)) {
            const int across = std::max(1, static_cast<int>(box.width * Canvas::pixels_per_point));
            const int down = std::max(1, static_cast<int>(box.height * Canvas::pixels_per_point));
            canvas_.image({box.left, box.top}, box.width, box.height, across,
                          fabric_pixels(project_, project_.roles[piece.roles.front()], *colours,
                                        across, down));
        } else {
            const DrawnStretches stretches = stretches_of(piece, box.height);
            thin_ = thin_ || stretches.thin;
            for (const DrawnStretch& one : stretches.all) {
                if (stretches.thin) {
                    canvas_.dyed(outline(piece, box, one.from, one.to), dyes_[one.role]);
                    continue;
                }
                std::string yarns = base::shown_inert(project_.roles[one.role].id);
                for (const YarnShare& other : piece.others[one.from])
                    yarns += " and " + base::shown_inert(project_.roles[other.role].id);
                canvas_.begin_part(fmt::format("rows {} to {} in {}", one.from + 1, one.to, yarns));
                canvas_.dyed(outline(piece, box, one.from, one.to), dyes_[one.role]);
                draw_others(piece, box, one.from, one.to);
                canvas_.end_part();
            }
        }
        canvas_.outline(outline(piece, box, 0, rows));
    }

    void draw_blocks(const DrawnPiece& piece, const Box& box, std::size_t from, std::size_t to) {
        const double low = y_of(piece, box, static_cast<double>(from));
        const double high = y_of(piece, box, static_cast<double>(to));
        const double wide = 2 * half(piece, box, from);
        const double left = box.middle() - wide / 2;
        for (const DrawnBlock& block : piece.colour_blocks[from]) {
            const double x = left + block.from * wide;
            const double far = left + block.to * wide;
            canvas_.dyed({{x, low}, {far, low}, {far, high}, {x, high}}, dyes_[block.role]);
        }
    }

    /// Rows that several yarns work: of each of the others as much as it has, in blocks that move
    /// by half a block every second row, unless the rows say where they stand.
    void draw_others(const DrawnPiece& piece, const Box& box, std::size_t from, std::size_t to) {
        constexpr std::size_t blocks = 12;
        constexpr std::size_t step = 2;
        if (piece.lie != Lie::across) return;
        if (!piece.colour_blocks[from].empty()) return draw_blocks(piece, box, from, to);
        for (std::size_t row = from; row < to; row += step) {
            const std::size_t end = std::min(row + step, to);
            const double wide = 2 * half(piece, box, row);
            const double left = box.middle() - wide / 2;
            const double each = wide / static_cast<double>(blocks);
            double at = (row - from) / step % 2 == 0 ? 0.25 * each : 0.75 * each;
            for (const YarnShare& other : piece.others[from]) {
                for (std::size_t i = 0; i < blocks; ++i) {
                    const double x = std::min(at + static_cast<double>(i) * each, wide);
                    const double far = std::min(x + other.share * each, wide);
                    const double low = y_of(piece, box, static_cast<double>(row));
                    const double high = y_of(piece, box, static_cast<double>(end));
                    canvas_.dyed(
                        {{left + x, low}, {left + far, low}, {left + far, high}, {left + x, high}},
                        dyes_[other.role]);
                }
                at += other.share * each;
            }
        }
    }

    /// A circle or a figure with corners whose sides are so far from its centre.
    static std::vector<Point> ring(const DrawnPiece& piece, const Box& box, double radius) {
        constexpr std::int64_t smooth = 72;
        const std::int64_t corners = piece.corners >= 3 ? piece.corners : smooth;
        const double turn = 2.0 * std::numbers::pi / static_cast<double>(corners);
        const double far = radius / std::cos(turn / 2.0);
        const Point centre{box.middle(), box.top + box.height / 2};
        std::vector<Point> out;
        for (std::int64_t i = 0; i < corners; ++i) {
            const double angle = std::numbers::pi / 2 + turn * (static_cast<double>(i) + 0.5);
            out.push_back({centre.x + far * std::cos(angle), centre.y + far * std::sin(angle)});
        }
        return out;
    }

    void draw_rings(const DrawnPiece& piece, const Box& box) {
        const auto rows = piece.widths.size();
        const double each = box.width / 2 / static_cast<double>(rows);
        for (std::size_t to = rows; to > 0;) {
            std::size_t from = to - 1;
            while (from > 0 && piece.roles[from - 1] == piece.roles[to - 1]) --from;
            canvas_.begin_part(
                fmt::format("rounds {} to {} in {}", from + 1, to,
                            base::shown_inert(project_.roles[piece.roles[to - 1]].id)));
            canvas_.dyed(ring(piece, box, static_cast<double>(to) * each),
                         dyes_[piece.roles[to - 1]]);
            canvas_.end_part();
            to = from;
        }
        canvas_.outline(ring(piece, box, box.width / 2));
    }

    void draw_marks(std::size_t index, const Box& outer) {
        const DrawnPiece& piece = make_.pieces[index];
        const Box box = inside(piece, outer, margin_of(piece, outer));
        struct Placed {
            double y;
            int column;
        };
        std::vector<Placed> placed;
        for (const DrawnJoin& join : make_.joins) {
            if (join.shape != index) continue;
            double y = y_of(piece, box, join.rows);
            double from = box.left;
            const double to = outer.right();
            if (join.border_round > 0) {
                const double each =
                    (outer.bottom() - box.bottom()) / static_cast<double>(piece.border.size());
                y = box.bottom() + (static_cast<double>(join.border_round) - 0.5) * each;
                from = piece.lie == Lie::wings ? outer.middle() : outer.left;
            } else if (piece.lie == Lie::blocks) {
                const Diagonal edge = diagonal_after(box, piece.blocks, join.rows);
                canvas_.line_on_dye(edge.left, edge.right);
                from = edge.right.x;
            } else if (piece.lie == Lie::wings) {
                const double half = depth(piece, join.rows) * box.width / 2;
                for (const double end : {box.middle() - half, box.middle() + half})
                    canvas_.line_on_dye({end, box.top}, {box.middle(), y});
                // From its tip, thin, for no row lies so.
                canvas_.line({box.middle(), y}, {to, y}, 0.7);
                from = to;
            } else if (piece.from_centre) {
                const double radius =
                    join.rows / static_cast<double>(piece.widths.size()) * box.width / 2;
                if (radius > 1.0) canvas_.outline(ring(piece, box, radius));
                y = box.top + box.height / 2 - radius;
                from = box.middle();
            } else {
                const auto last = static_cast<double>(piece.widths.size()) - 1.0;
                from = box.middle() -
                       half(piece, box,
                            static_cast<std::size_t>(std::clamp(join.rows - 0.5, 0.0, last)));
            }
            int column = 0;
            for (const Placed& other : placed)
                if (std::abs(other.y - y) < mark_width) column = std::max(column, other.column + 1);
            column = std::min(column, columns_ - 1);
            placed.push_back({y, column});
            canvas_.begin_part(fmt::format("join {}", join.number));
            const double x = to + 14.0 + mark_width * column;
            canvas_.line_on_dye({from, y}, {to, y});
            canvas_.line({to, y}, {x, y}, 1.6);
            // From where on to weigh, and the last row it may reach.
            if (!piece.from_centre && piece.lie == Lie::across && join.border_round == 0 &&
                join.latest > join.weigh_from) {
                const double low = y_of(piece, box, join.weigh_from);
                const double top = y_of(piece, box, join.latest);
                const double at = to + 4.0 + mark_width * column;
                canvas_.line({at, low}, {at, top}, 1.2);
                for (const double end : {low, top}) canvas_.line({at - 3, end}, {at + 3, end}, 1.2);
            }
            canvas_.mark({x, y}, std::to_string(join.number));
            canvas_.end_part();
        }
    }

    /// "59 in" above "(150 cm)".
    static std::vector<std::string> in_two_lines(const std::string& measure) {
        const std::size_t bracket = measure.find(" (");
        if (bracket == std::string::npos) return {measure};
        return {measure.substr(0, bracket), measure.substr(bracket + 1)};
    }

    void draw_measures(const DrawnPiece& piece, const Box& box) {
        const double left = box.left - 10.0;
        const double floor = box.bottom() + 10.0;
        if (!piece.from_centre) {
            canvas_.line({left, box.top}, {left, box.bottom()}, 0.7);
            for (const double y : {box.top, box.bottom()})
                canvas_.line({left - 3, y}, {left + 3, y}, 0.7);
            const auto lines = in_two_lines(ruler_text(piece.height));
            double y = box.top + box.height / 2 + 3.0 - 5.5 * static_cast<double>(lines.size() - 1);
            for (const std::string& line : lines) {
                canvas_.text({left - 6, y}, line, letters::small, Align::right);
                y += 11.0;
            }
        }
        canvas_.line({box.left, floor}, {box.left + box.width, floor}, 0.7);
        for (const double x : {box.left, box.left + box.width})
            canvas_.line({x, floor - 3}, {x, floor + 3}, 0.7);
        const double room = std::max(box.width, name_room) + height_words;
        const std::string rows =
            counted(static_cast<std::int64_t>(piece.widths.size()), piece.round ? "round" : "row",
                    piece.round ? "rounds" : "rows");
        if (slip_) {
            canvas_.fitted({box.middle(), floor + 12}, width_words(piece), letters::small, room,
                           Align::centre);
            canvas_.fitted({box.middle(), floor + 23}, piece.name + ", " + rows, letters::small,
                           room, Align::centre, true);
            return;
        }
        canvas_.fitted({box.middle(), floor + 13}, width_words(piece), letters::small, room,
                       Align::centre);
        canvas_.fitted({box.middle(), floor + 27}, piece.name, letters::body, room, Align::centre,
                       true);
        canvas_.fitted({box.middle(), floor + 39}, rows, letters::small, room, Align::centre);
    }

    /// `run`: of a colour-changing yarn, with the texture its fabric has.
    void swatch(const Dye& dye, const std::string& words, double& x, bool run = false) {
        constexpr double box = 24.0;
        const double wide = std::min(box + 6 + canvas_.text_width(words, letters::body) + 16,
                                     sizes_.page - 2 * sizes_.margin);
        if (x > sizes_.margin && x + wide > sizes_.page - sizes_.margin) {
            x = sizes_.margin;
            y_ += make_line + 3;
        }
        const std::vector<Point> corners{
            {x, y_ - 9}, {x + box, y_ - 9}, {x + box, y_ + 3}, {x, y_ + 3}};
        if (run) {
            constexpr int across = 48;
            constexpr int down = 24;
            std::vector<std::uint32_t> pixels;
            for (int py = 0; py < down; ++py)
                for (int px = 0; px < across; ++px)
                    pixels.push_back(textured(dye.shade, dye.pattern, px, py));
            canvas_.image({x, y_ - 9}, box, 12.0, across, pixels);
        } else {
            canvas_.dyed(corners, dye);
        }
        canvas_.outline(corners);
        const double room = wide - box - 6;
        const std::vector<std::string> lines = canvas_.wrapped(words, letters::body, room);
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (i > 0) y_ += make_line;
            canvas_.fitted({x + box + 6, y_}, lines[i], letters::body, room);
        }
        // What took several lines has them for itself.
        x += lines.size() > 1 ? sizes_.page : wide;
    }

    void draw_yarns() {
        y_ += 6.0;
        double x = sizes_.margin;
        canvas_.begin_part("yarns");
        for (std::size_t i = 0; i < project_.roles.size(); ++i) {
            const project::Role& role = project_.roles[i];
            if (!make_.used[i]) continue;
            if (role.colours.empty()) {
                swatch(dyes_[i], role_heading(role), x);
                continue;
            }
            for (std::size_t run = 0; run < role.colours.size(); ++run)
                swatch(
                    {shade_of_run(role.colours[run], run), run, {}},
                    base::shown_inert(role.id) + " " + base::shown_inert(role.colours[run].colour),
                    x, true);
        }
        canvas_.end_part();
        y_ += listed_ ? make_line + 4 : 6.0;
        bool first = true;
        const auto note = [&](const std::string& words) {
            if (!listed_ && std::exchange(first, false)) y_ += make_line;
            canvas_.fitted({sizes_.margin, y_}, words, letters::small,
                           sizes_.page - 2 * sizes_.margin);
            y_ += make_line;
        };
        if (!make_.size.empty()) note("drawn in size " + make_.size);
        if (make_.left_out > 0)
            note(fmt::format("{} more look like the one of their piece that is drawn",
                             make_.left_out));
        if (make_.no_room_for > 0)
            note(fmt::format("{} more pieces are not drawn: they would be too small to see",
                             make_.no_room_for));
        if (thin_) note("rows too thin to see one by one are drawn in bands of their yarns");
    }

    void draw_joins() {
        canvas_.begin_part("joins");
        constexpr std::size_t on_a_page = 14;
        constexpr std::size_t alone = 200;
        const std::size_t most = all_listed_ ? alone : on_a_page;
        for (std::size_t i = 0; i < std::min(most, make_.joins.size()); ++i) {
            const DrawnJoin& join = make_.joins[i];
            y_ += 4;
            canvas_.mark({sizes_.margin + 8, y_ - 3}, std::to_string(join.number));
            const double room = sizes_.page - 2 * sizes_.margin - 22;
            for (const std::string& line : canvas_.wrapped(join.words, letters::body, room)) {
                canvas_.fitted({sizes_.margin + 22, y_}, line, letters::body, room);
                y_ += make_line;
            }
        }
        if (make_.joins.size() > most) {
            canvas_.text({sizes_.margin + 22, y_},
                         fmt::format("and {} more{}", make_.joins.size() - most,
                                     all_listed_ ? "" : ", listed below"),
                         letters::body);
            y_ += make_line;
        }
        canvas_.end_part();
    }

    const project::Project& project_;
    const joins::Answer& answer_;
    const DrawnMake& make_;
    PictureSizes sizes_;
    bool listed_;          ///< the joins, below the pieces
    bool all_listed_;      ///< however many they are
    bool slip_;            ///< what is said of a piece in one line
    int columns_;          ///< of join marks that would lie on each other
    double beside_right_;  ///< room for them
    std::vector<Dye> dyes_;
    Canvas& canvas_;
    bool thin_ = false;  ///< rows that cannot be told apart
    double y_ = 0.0;
};

}  // namespace

double draw_make(Canvas& canvas, const project::Project& project, const joins::Answer& answer,
                 const DrawnMake& make, PictureWidth width, double top) {
    return MakePicture(project, answer, make, width, canvas).draw(top);
}

std::string make_picture_at(const project::Project& project, const need::MakeNeed& need,
                            const joins::Answer& answer, PictureFormat format, PictureWidth width) {
    const DrawnMake make = drawn_make(project, need, answer);
    const auto canvas = [&](PictureFormat on, double height) {
        return std::make_unique<Canvas>(sizes_of(width).page, height, on,
                                        base::shown_inert(project.title) + " as it will look",
                                        make_words_of(project, make));
    };
    const auto scratch = canvas(PictureFormat::web, 1.0);
    const double height = draw_make(*scratch, project, answer, make, width, drawing_margin);
    const auto page = canvas(format, height);
    draw_make(*page, project, answer, make, width, drawing_margin);
    return page->finish();
}

std::string make_picture(const MakePage& page, PictureFormat format) {
    const units::WithNumberStyle in_force(page.style.numbers);
    return make_picture_at(page.project, page.need, page.joins, format, PictureWidth::alone);
}

}  // namespace skeinfall::report
