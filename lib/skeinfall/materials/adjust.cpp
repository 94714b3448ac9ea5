#include "skeinfall/materials/adjust.hpp"

#include <algorithm>

#include "skeinfall/fit/fit.hpp"
#include "skeinfall/project/edging.hpp"

namespace skeinfall::materials {
namespace {

/// What is printed for a yarn over what was worked out.
double printed_over_model(const YarnLine& yarn, std::size_t size) {
    const units::Length model = yarn.model.at(size);
    return model > units::Length{} ? units::Ratio(yarn.total.at(size) / model).value() : 1.0;
}

bool is_plain(const project::Project& project, const project::Piece& one) {
    // Of a piece that is shaped, wider is not a matter of its foundation alone.
    const bool plain = one.shape == nullptr || (one.shape->law == project::RowLaw::growing &&
                                                !one.shape->from_centre && one.group.empty());
    return plain && (one.pattern.stated() || project::counts(project, one, 0).increase == 0);
}

fit::EachMore::Of what_is_more(const project::Project& project, std::size_t piece) {
    using Of = fit::EachMore::Of;
    const project::Piece& one = project.pieces[piece];
    const bool diagonal = one.shape != nullptr && one.shape->law == project::RowLaw::diagonal &&
                          !one.pattern.stated();
    if (!diagonal && !project::joining_of(project, one)) return Of::stitches;
    const auto each = fit::each_more(project, piece, 0);
    return each ? each->of : Of::stitches;
}

/// Pieces as wide as that one in every size, as a front is as wide as its back.
std::vector<std::size_t> alike_pieces(const project::Project& project, std::size_t piece) {
    std::vector<std::size_t> out{piece};
    const project::Piece& one = project.pieces[piece];
    if (one.worked == project::Worked::round) return out;
    for (std::size_t at = 0; at < project.pieces.size(); ++at) {
        const project::Piece& other = project.pieces[at];
        if (at == piece || other.worked != one.worked || !is_plain(project, other)) continue;
        bool alike = true;
        for (std::size_t size = 0; alike && size < project.size_count(); ++size)
            alike = project::counts(project, other, size).stitches ==
                    project::counts(project, one, size).stitches;
        if (alike) out.push_back(at);
    }
    return out;
}

/// Finishing parts that go along the edges and do not follow them.
std::vector<std::string> parts_left_out(const project::Project& project, std::size_t piece) {
    std::vector<std::string> out;
    for (const project::FinishPart& part : project.finish) {
        using project::PartKind;
        const bool along = part.kind == PartKind::border || part.kind == PartKind::neckband ||
                           part.kind == PartKind::seam || part.kind == PartKind::fringe;
        const bool of_piece = !part.of.empty() && project::is_border_of(project, part, piece, 0);
        // Reckoned from all copies, it goes round them as they become.
        const bool of_all = part.of == project.pieces[piece].name &&
                            project::joining_of(project, project.pieces[piece]).has_value();
        if (along && !of_piece && !of_all && !project::way_of_edging(project, part, piece, 0) &&
            !project::width_of_fringe(project, part, 0))
            out.push_back(part.name);
    }
    return out;
}

void add_to(std::vector<units::Length>& sums, std::size_t size, units::Length more) {
    if (sums.size() <= size) sums.resize(size + 1);
    sums[size] += std::max(units::Length{}, more);
}

}  // namespace

void add_adjustment(Section& section, const project::Project& project) {
    if (project.pieces.empty()) return;
    const std::size_t piece = fit::largest_piece(project, 0);
    const project::Piece& one = project.pieces[piece];
    Adjustment out;
    out.of = what_is_more(project, piece);
    const bool in_units = out.of != fit::EachMore::Of::stitches;
    if (!in_units && !is_plain(project, one)) return;
    out.piece = one.name;
    out.round = one.worked == project::Worked::round;
    if (one.count.stated()) out.copies = one.count.at(0);
    for (const YarnLine& yarn : section.yarns) out.yarns.push_back({yarn.role, {}, {}});
    const std::vector<std::size_t> all_alike =
        in_units ? std::vector<std::size_t>{piece} : alike_pieces(project, piece);
    // Nobody reads on for more, and each is fitted anew.
    constexpr std::size_t most_alike = 24;
    std::vector<std::size_t> follow;
    if (all_alike.size() > most_alike) return;
    for (const std::size_t at : all_alike) {
        std::vector<fit::EachMore> sizes;
        for (std::size_t size = 0; size < project.size_count(); ++size)
            if (auto each = fit::each_more(project, at, size)) sizes.push_back(std::move(*each));
        const bool stretches =
            sizes.size() == project.size_count() &&
            (!in_units || std::all_of(sizes.begin(), sizes.end(), [&](const fit::EachMore& each) {
                return each.stitches == sizes.front().stitches && each.rows == sizes.front().rows;
            }));
        if (at == piece) {
            if (!stretches) return;
            out.stitches = sizes.front().stitches;
            out.repeat_known = sizes.front().repeat_known;
            out.on_live_stitches =
                at > 0 && one.foundation_rows && one.foundation_rows->value() <= 0.0;
            for (const fit::Followed& more : sizes.front().followed) {
                const project::Piece& other = project.pieces[more.piece];
                follow.push_back(more.piece);
                out.followed.push_back({other.name, more.now.rows - more.was.rows,
                                        other.worked == project::Worked::round});
            }
            out.wider = sizes.front().wider;
            out.rows = sizes.front().rows;
            out.longer = sizes.front().longer;
        } else if (!stretches || sizes.front().stitches != out.stitches ||
                   sizes.front().rows != out.rows) {
            continue;
        } else {
            out.alike.push_back(project.pieces[at].name);
        }
        // What follows the first piece is in its yarn.
        const bool in_it = std::find(follow.begin(), follow.end(), at) != follow.end();
        for (std::size_t size = 0; size < sizes.size(); ++size)
            for (std::size_t yarn = 0; yarn < section.yarns.size(); ++yarn) {
                units::Length wider{};
                units::Length longer{};
                for (const fit::EachMore::OfRole& role : sizes[size].roles)
                    if (role.role == section.yarns[yarn].role) {
                        wider = role.for_width;
                        longer = role.for_length;
                    }
                const double printed = printed_over_model(section.yarns[yarn], size);
                add_to(out.yarns[yarn].for_width, size, in_it ? units::Length{} : wider * printed);
                add_to(out.yarns[yarn].for_length, size, longer * printed);
            }
    }
    out.without = parts_left_out(project, piece);
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
