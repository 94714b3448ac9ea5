#include "skeinfall/joins/reading_place.hpp"

#include <algorithm>
#include <cstdint>

#include "skeinfall/base/text.hpp"

namespace skeinfall::joins {

ReadingPlace place_of_reading(const project::Project& project, const std::vector<need::Step>& steps,
                              std::string_view piece, std::int64_t copy, std::int64_t row) {
    ReadingPlace out;
    if (project.pieces.empty()) return out;
    std::size_t first = 0;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const need::Step& step = steps[i];
        if (!step.name.empty() || step.copy != copy) continue;
        const bool meant = piece.empty() ? !out.piece_known || step.piece == out.piece
                                         : base::same_word(project.pieces[step.piece].name, piece);
        if (!meant) continue;
        if (!out.piece_known) {
            first = i;
            out.piece = step.piece;
            out.piece_known = true;
        }
        if (step.purpose != need::Purpose::body) continue;
        if (step.row == row && !out.steps_done) out.steps_done = i + 1;
        if (step.row < row) out.before = std::max(out.before, step.row);
        if (step.row > row && (out.behind == 0 || step.row < out.behind)) out.behind = step.row;
    }
    if (out.piece_known && row == 0) out.steps_done = first;
    return out;
}

}  // namespace skeinfall::joins
