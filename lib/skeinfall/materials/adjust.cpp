#include "skeinfall/materials/adjust.hpp"

#include <algorithm>

#include "skeinfall/fit/fit.hpp"

namespace skeinfall::materials {
namespace {

/// What is printed for a yarn over what was worked out.
double printed_over_model(const YarnLine& yarn, std::size_t size) {
    const units::Length model = yarn.model.at(size);
    return model > units::Length{} ? units::Ratio(yarn.total.at(size) / model).value() : 1.0;
}

}  // namespace

void add_adjustment(Section& section, const project::Project& project) {
    if (project.pieces.empty()) return;
    const std::size_t piece = fit::largest_piece(project, 0);
    const project::Piece& one = project.pieces[piece];
    // Of a piece that is shaped, wider is not a matter of its foundation alone.
    const bool plain = one.shape == nullptr || (one.shape->law == project::RowLaw::growing &&
                                                !one.shape->from_centre && one.group.empty());
    if (!plain) return;
    if (!one.pattern.stated() && project::counts(project, one, 0).increase != 0) return;
    Adjustment out;
    out.piece = one.name;
    out.round = one.worked == project::Worked::round;
    for (const YarnLine& yarn : section.yarns) out.yarns.push_back({yarn.role, {}, {}});
    for (std::size_t size = 0; size < project.size_count(); ++size) {
        const auto each = fit::each_more(project, piece, size);
        if (!each) return;  // its shape does not stretch
        if (size == 0) {
            out.stitches = each->stitches;
            out.repeat_known = each->repeat_known;
            out.wider = each->wider;
            out.rows = each->rows;
            out.longer = each->longer;
        }
        for (std::size_t at = 0; at < section.yarns.size(); ++at) {
            const YarnLine& yarn = section.yarns[at];
            units::Length wider{};
            units::Length longer{};
            for (const fit::EachMore::OfRole& role : each->roles)
                if (role.role == yarn.role) {
                    wider = role.for_width;
                    longer = role.for_length;
                }
            const double printed = printed_over_model(yarn, size);
            out.yarns[at].for_width.push_back(std::max(units::Length{}, wider * printed));
            out.yarns[at].for_length.push_back(std::max(units::Length{}, longer * printed));
        }
    }
    section.adjust = std::move(out);
}

std::vector<units::Length> printed_figures(const Section& section,
                                           const std::vector<units::Length>& of_sizes, Grows way) {
    if (!section.grid) return of_sizes;
    const std::size_t lengths = std::max<std::size_t>(1, section.grid->lengths.size());
    const std::size_t widths = std::max<std::size_t>(1, section.grid->widths.size());
    std::vector<units::Length> out(way == Grows::wider ? lengths : widths);
    for (std::size_t size = 0; size < std::min(of_sizes.size(), lengths * widths); ++size) {
        units::Length& most = out[way == Grows::wider ? size % lengths : size / lengths];
        most = std::max(most, of_sizes[size]);
    }
    return out;
}

}  // namespace skeinfall::materials
