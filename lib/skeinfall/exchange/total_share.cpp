#include "skeinfall/exchange/total_share.hpp"

#include <algorithm>
#include <cstdint>

namespace skeinfall::exchange {
namespace {

/// Stitches of all pieces in every size.
std::vector<double> stitches_by_size(const project::Project& project) {
    std::vector<double> out(project.size_count(), 0.0);
    for (std::size_t size = 0; size < out.size(); ++size)
        for (const project::Piece& piece : project.pieces) {
            const double copies =
                piece.count.stated() ? static_cast<double>(piece.count.at(size)) : 1.0;
            for (const std::int64_t width : project::row_widths(project, piece, size))
                out[size] += copies * static_cast<double>(width);
        }
    return out;
}

template <class Q>
void share(project::PerSize<Q>& total, const std::vector<double>& parts, std::size_t whole) {
    if (!total.stated()) return;
    const Q one = total.values.front();
    total.values.clear();
    for (const double part : parts) total.values.push_back(one * (part / parts[whole]));
}

}  // namespace

bool share_totals(project::Project& project) {
    if (project.size_count() < 2) return true;
    std::vector<double> parts;
    for (project::Role& role : project.roles) {
        const bool one = role.total_length.values.size() == 1 || role.total_mass.values.size() == 1;
        if (!one) continue;
        if (parts.empty()) parts = stitches_by_size(project);
        const auto [least, most] = std::minmax_element(parts.begin(), parts.end());
        const bool asked = project.grid || !role.total_of_size.empty();
        // A total that is no size's own is no promise for the larger ones.
        if (!asked && (*least <= 0.0 || *most <= *least)) continue;
        if (*least <= 0.0) return false;
        auto whole = static_cast<std::size_t>(least - parts.begin());
        if (role.total_of_size.empty()) {
            role.total_size_assumed = true;
            role.total_of_size = project.sizes[whole];
        } else {
            const auto named =
                std::find(project.sizes.begin(), project.sizes.end(), role.total_of_size);
            whole = static_cast<std::size_t>(named - project.sizes.begin());
        }
        share(role.total_length, parts, whole);
        share(role.total_mass, parts, whole);
        share(role.total_least, parts, whole);
        share(role.total_as_mass, parts, whole);
        role.printed_twice.clear();
    }
    return true;
}

}  // namespace skeinfall::exchange
