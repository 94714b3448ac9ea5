#include "skeinfall/report/detail/make_room.hpp"

#include <algorithm>

#include "skeinfall/report/detail/look.hpp"

namespace skeinfall::report {
namespace {

constexpr double above_pieces = 12.0;
/// Motifs are told apart by their joins.
constexpr double smallest_seen = 26.0;

double in_points(units::Length length, double scale) {
    return length / units::metre * scale;
}

/// Lines of pieces at a scale; no boxes when they do not fit.
MakeRoom room_at(const DrawnMake& make, const PictureSizes& sizes, double top, double marks,
                 double scale) {
    MakeRoom out;
    double x = sizes.margin;
    double y = top + above_pieces;
    double line = 0.0;
    std::size_t begin = 0;
    const double end_of_page = sizes.page - sizes.margin;
    const auto end_line = [&](std::size_t end) {
        // All of a line stand on one floor.
        for (std::size_t i = begin; i < end; ++i) out.boxes[i].top += line - out.boxes[i].height;
        y += line + sizes.below;
        begin = end;
        line = 0.0;
        x = sizes.margin;
    };
    for (std::size_t i = 0; i < make.pieces.size(); ++i) {
        const DrawnPiece& piece = make.pieces[i];
        const double wide = in_points(piece.width, scale);
        const double tall = in_points(piece.from_centre ? piece.width : piece.height, scale);
        const double own = height_words + std::max(wide, name_room);
        if (x > sizes.margin && x + own + marks > end_of_page) end_line(i);
        if (x + own + marks > end_of_page || tall > sizes.tallest) return {};
        out.boxes.push_back({x + height_words + (own - height_words - wide) / 2, y, wide, tall});
        x += own + marks;
        line = std::max(line, tall);
    }
    end_line(out.boxes.size());
    out.floor = y;
    return y - top > sizes.all ? MakeRoom{} : out;
}

MakeRoom largest_room(const DrawnMake& make, const PictureSizes& sizes, double top, double marks) {
    units::Length largest{};
    for (const DrawnPiece& piece : make.pieces)
        largest = std::max({largest, piece.width, piece.height});
    double low = 0.0;
    double high = std::max(sizes.page, sizes.tallest) / (largest / units::metre);
    constexpr int halvings = 24;
    for (int i = 0; i < halvings; ++i) {
        const double middle = (low + high) / 2;
        (room_at(make, sizes, top, marks, middle).boxes.empty() ? high : low) = middle;
    }
    return low > 0.0 ? room_at(make, sizes, top, marks, low) : MakeRoom{};
}

/// A strap beside a blanket may be thin, a motif among others may not.
bool can_be_seen(const DrawnMake& make, const MakeRoom& room) {
    if (room.boxes.empty()) return false;
    return make.fields.empty() ||
           std::all_of(room.boxes.begin(), room.boxes.end(),
                       [](const Box& box) { return box.width >= smallest_seen; });
}

}  // namespace

PictureSizes sizes_of(PictureWidth width) {
    constexpr double below = 62.0;
    constexpr double in_two_lines = 40.0;
    switch (width) {
        case PictureWidth::wide:
        case PictureWidth::alone:
            return {760.0, drawing_margin, 320.0, 520.0, below};
        case PictureWidth::slip:
            return {508.0, drawing_margin, 52.0, 160.0, in_two_lines};
        case PictureWidth::narrow:
            return {300.0, drawing_margin, 280.0, 900.0, below};
        case PictureWidth::sheet:
            return {508.0, drawing_margin, 230.0, 400.0, below};
        case PictureWidth::with_tables:
            return {look::page_width, look::page_margin, 320.0, 520.0, below};
        case PictureWidth::paper:
            break;
    }
    return {508.0, drawing_margin, 100.0, 300.0, below};
}

MakeRoom room_of(const DrawnMake& make, PictureSizes sizes, double top, double marks) {
    if (make.pieces.empty()) return {};
    constexpr double taller = 1.25;
    constexpr int times = 12;
    MakeRoom out = largest_room(make, sizes, top, marks);
    for (int i = 0; i < times && !can_be_seen(make, out); ++i) {
        sizes.all *= taller;
        out = largest_room(make, sizes, top, marks);
    }
    // One that fits nowhere is drawn all the same.
    sizes.all *= 1000.0;
    sizes.page *= 1000.0;
    return out.boxes.empty() ? largest_room(make, sizes, top, marks) : out;
}

}  // namespace skeinfall::report
