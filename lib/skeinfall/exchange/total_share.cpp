#include "skeinfall/exchange/total_share.hpp"

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "skeinfall/project/finishing.hpp"

namespace skeinfall::exchange {
namespace {

/// What a yarn works in each size.
struct Parts {
    std::vector<double> stitches;
    std::vector<units::Length> outright;  ///< fringes and seams, which no stitches tell
};

/// Stitches of one row of a piece that are in this yarn.
double stitches_of(const project::Piece& piece, std::size_t size, std::int64_t row,
                   std::int64_t width, const std::string& by_stripe, const std::string& role) {
    if (piece.pattern.stated()) {
        const project::RowWork& work = piece.pattern.at(size).row(row);
        double own = 0.0;
        for (const project::ColourWork& colour : work.colours)
            if ((colour.role.empty() ? by_stripe : colour.role) == role)
                own += colour.stitches / units::stitch;
        if (!work.colours.empty()) return own;
    }
    return by_stripe == role ? static_cast<double>(width) : 0.0;
}

double stitches_of(const project::Project& project, const project::Piece& piece, std::size_t size,
                   const std::string& role) {
    const bool written = piece.pattern.stated() && !piece.pattern.at(size).stripes.empty();
    const std::vector<project::Stripe>& stripes =
        written ? piece.pattern.at(size).stripes : piece.stripes;
    double sum = 0.0;
    std::size_t stripe = 0;
    std::int64_t done = 0;  // rows of the stripe
    std::int64_t row = 0;
    for (const std::int64_t width : project::row_widths(project, piece, size)) {
        if (!stripes.empty() && done == stripes[stripe].rows) {
            stripe = (stripe + 1) % stripes.size();
            done = 0;
        }
        ++done;
        sum += stitches_of(piece, size, ++row, width,
                           stripes.empty() ? piece.role : stripes[stripe].role, role);
    }
    return sum * (piece.count.stated() ? static_cast<double>(piece.count.at(size)) : 1.0);
}

Parts parts_of(const project::Project& project, const std::string& role) {
    Parts out;
    for (std::size_t size = 0; size < project.size_count(); ++size) {
        double stitches = 0.0;
        units::Length outright{};
        for (const project::Piece& piece : project.pieces)
            stitches += stitches_of(project, piece, size, role);
        for (const project::FinishPart& part : project.finish) {
            if (part.role != role || part.beyond_total) continue;
            for (const project::FinishStep& step : project::finish_steps(project, part, size)) {
                stitches += step.stitches / units::stitch;
                outright += step.yarn;
            }
        }
        out.stitches.push_back(stitches);
        out.outright.push_back(outright);
    }
    return out;
}

/// What is known outright is not shared. `per_length` turns it into what the total is in.
template <class Q, class PerLength>
void share(project::PerSize<Q>& total, const Parts& parts, std::size_t whole,
           PerLength per_length) {
    if (!total.stated()) return;
    const Q one = total.values.front();
    const Q known = parts.outright[whole] * per_length;
    const bool apart = known < one;
    total.values.clear();
    for (std::size_t size = 0; size < parts.stitches.size(); ++size) {
        const double times = parts.stitches[size] / parts.stitches[whole];
        total.values.push_back(apart ? Q((one - known) * times + parts.outright[size] * per_length)
                                     : Q(one * times));
    }
}

}  // namespace

bool share_totals(project::Project& project) {
    if (project.size_count() < 2) return true;
    for (project::Role& role : project.roles) {
        const bool one = role.total_length.values.size() == 1 || role.total_mass.values.size() == 1;
        if (!one) continue;
        const Parts parts = parts_of(project, role.id);
        const auto [least, most] =
            std::minmax_element(parts.stitches.begin(), parts.stitches.end());
        const bool asked = project.grid || !role.total_of_size.empty();
        // A total that is no size's own is no promise for the larger ones.
        if (!asked && (*least <= 0.0 || *most <= *least)) continue;
        auto whole = static_cast<std::size_t>(least - parts.stitches.begin());
        if (role.total_of_size.empty()) {
            if (*least <= 0.0) return false;
            role.total_size_assumed = true;
            role.total_of_size = project.sizes[whole];
        } else {
            const auto named =
                std::find(project.sizes.begin(), project.sizes.end(), role.total_of_size);
            whole = static_cast<std::size_t>(named - project.sizes.begin());
        }
        if (parts.stitches[whole] <= 0.0) return false;
        const auto mass =
            role.grist ? 1.0 / role.grist->value : decltype(1.0 / role.grist->value){};
        const units::Ratio same = units::Ratio(1.0);
        share(role.total_length, parts, whole, same);
        share(role.total_mass, parts, whole, mass);
        share(role.total_least, parts, whole, same);
        share(role.total_as_mass, parts, whole, mass);
        role.printed_twice.clear();
    }
    return true;
}

}  // namespace skeinfall::exchange
