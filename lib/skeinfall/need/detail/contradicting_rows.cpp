#include "skeinfall/need/detail/contradicting_rows.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace skeinfall::need {

void note_contradictions(const project::Project& project, const std::string& role, std::size_t size,
                         std::vector<std::string>& notes) {
    for (const project::Piece& piece : project.pieces) {
        const bool uses =
            piece.role == role ||
            std::any_of(piece.stripes.begin(), piece.stripes.end(),
                        [&](const project::Stripe& stripe) { return stripe.role == role; });
        if (!uses || !piece.pattern.stated()) continue;
        const project::Findings& findings = piece.pattern.at(size).findings;
        const auto is_stop = [](const project::Finding& finding) {
            return finding.severity == project::Severity::stop;
        };
        const auto first = std::find_if(findings.begin(), findings.end(), is_stop);
        if (first == findings.end()) continue;
        const auto all = std::count_if(first, findings.end(), is_stop);
        notes.push_back(
            fmt::format("the rows of {} do not fit together in {} place{}, first at line {}: {}",
                        piece.name, all, all == 1 ? "" : "s", first->place.line, first->what));
    }
}

}  // namespace skeinfall::need
