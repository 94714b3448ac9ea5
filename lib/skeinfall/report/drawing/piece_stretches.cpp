#include <algorithm>
#include <cmath>
#include <utility>

#include "skeinfall/report/detail/make_drawing.hpp"

namespace skeinfall::report {
namespace {

constexpr double thinnest_row = 0.25;  // of a row on the drawing, in points

/// How many rows of the range each yarn has, in the order in which they begin.
std::vector<std::pair<std::size_t, std::size_t>> rows_of_each(const DrawnPiece& piece,
                                                              std::size_t from, std::size_t to) {
    std::vector<std::pair<std::size_t, std::size_t>> out;
    for (std::size_t row = from; row < to; ++row) {
        const auto found = std::find_if(
            out.begin(), out.end(), [&](const auto& one) { return one.first == piece.roles[row]; });
        if (found == out.end())
            out.emplace_back(piece.roles[row], 1);
        else
            ++found->second;
    }
    return out;
}

}  // namespace

DrawnStretches stretches_of(const DrawnPiece& piece, double high) {
    const std::size_t rows = piece.widths.size();
    DrawnStretches out;
    const auto band = static_cast<std::size_t>(
        std::ceil(static_cast<double>(rows) * thinnest_row / std::max(high, 1.0)));
    if (band <= 1) {
        for (std::size_t from = 0; from < rows;) {
            std::size_t to = from + 1;
            while (to < rows && piece.roles[to] == piece.roles[from] &&
                   piece.others[to] == piece.others[from] &&
                   piece.colour_blocks[to] == piece.colour_blocks[from])
                ++to;
            out.all.push_back({piece.roles[from], from, to});
            from = to;
        }
        return out;
    }
    for (std::size_t from = 0; from < rows; from += band) {
        std::size_t at = from;
        for (const auto& [role, count] : rows_of_each(piece, from, std::min(rows, from + band))) {
            if (!out.all.empty() && out.all.back().role == role)
                out.all.back().to += count;
            else
                out.all.push_back({role, at, at + count});
            at += count;
        }
    }
    out.thin = out.all.size() > 1;
    return out;
}

}  // namespace skeinfall::report
