#include "skeinfall/report/detail/fabric.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "skeinfall/report/detail/dyes.hpp"

namespace skeinfall::report {

std::vector<std::uint32_t> fabric_pixels(const project::Project& project, const project::Role& role,
                                         const joins::PieceColours& piece, int across, int down) {
    const joins::Fabric fabric =
        joins::fabric_of(role.colours, piece.start, piece.rows, project.pieces[piece.piece].worked);
    const auto rows = static_cast<double>(piece.rows.size());
    std::int64_t widest = 1;
    for (const joins::ColourRow& row : piece.rows) widest = std::max(widest, row.stitches);
    std::vector<std::uint32_t> pixels;
    pixels.reserve(static_cast<std::size_t>(across) * static_cast<std::size_t>(down));
    constexpr std::uint32_t clear = 0;
    std::vector<Shade> shades;
    for (std::size_t run = 0; run < role.colours.size(); ++run)
        shades.push_back(shade_of_run(role.colours[run], run));
    for (int py = 0; py < down; ++py) {
        const auto from_top = static_cast<std::size_t>((py + 0.5) / down * rows);
        const std::size_t row = piece.rows.size() - 1 - std::min(from_top, piece.rows.size() - 1);
        const std::int64_t stitches = piece.rows[row].stitches;
        for (int px = 0; px < across; ++px) {
            // Right edge first; a narrow row lies in the middle.
            const double along = (across - px - 0.5) / across * static_cast<double>(widest) -
                                 static_cast<double>(widest - stitches) / 2.0;
            const auto stitch = static_cast<std::int64_t>(std::floor(along));
            if (stitch < 0 || stitch >= stitches) {
                pixels.push_back(clear);
                continue;
            }
            const std::size_t run =
                fabric.run[fabric.row_begin[row] + static_cast<std::size_t>(stitch)];
            pixels.push_back(textured(shades[run], run, px, py));
        }
    }
    return pixels;
}

}  // namespace skeinfall::report
