#include <algorithm>
#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/project/edging.hpp"
#include "skeinfall/report/detail/figures.hpp"
#include "skeinfall/report/detail/look.hpp"
#include "skeinfall/report/detail/make_drawing.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

struct Cell {
    double left = 0.0;
    double bottom = 0.0;
    double width = 0.0;
    double height = 0.0;
};

std::vector<Point> rectangle(double left, double top, double width, double height) {
    return {{left, top}, {left + width, top}, {left + width, top + height}, {left, top + height}};
}

/// Rounds as squares one in another, rows as bands one above another.
void draw_motif(Canvas& canvas, const DrawnPiece& motif, const std::vector<Dye>& dyes,
                const Cell& cell) {
    const std::size_t rows = motif.roles.size();
    for (std::size_t to = rows; to > 0;) {
        std::size_t from = to - 1;
        while (from > 0 && motif.roles[from - 1] == motif.roles[to - 1]) --from;
        const double high = static_cast<double>(to) / static_cast<double>(rows);
        const double wide = motif.from_centre ? high : 1.0;
        const double low = motif.from_centre ? 0.5 * (1.0 - high) : 0.0;
        const double top = cell.bottom - (low + high) * cell.height;
        canvas.dyed(rectangle(cell.left + 0.5 * (1.0 - wide) * cell.width, top, wide * cell.width,
                              high * cell.height),
                    dyes[motif.roles[to - 1]]);
        to = from;
    }
    canvas.outline(rectangle(cell.left, cell.bottom - cell.height, cell.width, cell.height));
}

}  // namespace

std::vector<DrawnField> drawn_fields(const project::Project& project, std::size_t size,
                                     const std::vector<DrawnPiece>& pieces) {
    constexpr std::size_t few = 4;
    constexpr std::size_t most = 240;
    std::vector<DrawnField> out;
    for (const project::FinishPart& part : project.finish) {
        if (part.kind != project::PartKind::joining || part.of.empty()) continue;
        DrawnField field;
        for (const DrawnPiece& piece : pieces)
            if (project.pieces[piece.piece].name == part.of) field.motifs.push_back(piece);
        const bool square =
            std::all_of(field.motifs.begin(), field.motifs.end(), [](const DrawnPiece& motif) {
                constexpr std::int64_t corners = 4;
                return motif.from_centre ? motif.corners == corners : !motif.round;
            });
        if (field.motifs.size() < few || field.motifs.size() > most || !square) continue;
        const auto count = static_cast<std::int64_t>(field.motifs.size());
        field.name = field.motifs.front().name;
        field.columns =
            std::clamp<std::int64_t>(project::laid_motifs(project, part, size).columns, 1, count);
        const DrawnPiece& one = field.motifs.front();
        field.width = one.width;
        field.height = one.from_centre ? one.width : one.height;
        out.push_back(std::move(field));
    }
    return out;
}

std::string field_words(const DrawnField& field) {
    return fmt::format("all {} of {}, {} across: {} wide, {} high", field.motifs.size(), field.name,
                       field.columns, ruler_text(static_cast<double>(field.columns) * field.width),
                       ruler_text(static_cast<double>(field.rows()) * field.height));
}

double draw_field(Canvas& canvas, const DrawnField& field, const std::vector<Dye>& dyes,
                  Point corner, double width, double height) {
    constexpr double words_room = 20.0;
    const double across = static_cast<double>(field.columns) * (field.width / units::metre);
    const double along = static_cast<double>(field.rows()) * (field.height / units::metre);
    const double scale = std::min(width / across, (height - words_room) / along);
    const double wide = field.width / units::metre * scale;
    const double tall = field.height / units::metre * scale;
    const double left = corner.x + (width - across * scale) / 2;
    const double floor = corner.y + along * scale;
    canvas.begin_part("all of " + field.name);
    for (std::size_t i = 0; i < field.motifs.size(); ++i) {
        const auto column = static_cast<double>(static_cast<std::int64_t>(i) % field.columns);
        const auto row = static_cast<double>(static_cast<std::int64_t>(i) / field.columns);
        draw_motif(canvas, field.motifs[i], dyes,
                   {left + column * wide, floor - row * tall, wide, tall});
    }
    canvas.fitted({corner.x + width / 2, floor + 14.0}, field_words(field), look::letters::small,
                  width, Align::centre);
    canvas.end_part();
    return along * scale + words_room;
}

}  // namespace skeinfall::report
