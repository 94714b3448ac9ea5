#include "skeinfall/project/project.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "skeinfall/project/detail/nearest_whole.hpp"

namespace skeinfall::project {
namespace {

/// At least one, to the nearest whole.

/// The nearest count that fits; the smaller one on a tie.
std::int64_t in_repeats(units::Ratio value, const std::optional<Multiple>& multiple) {
    if (!multiple) return nearest_whole(value.value());
    const std::int64_t near = nearest_whole(value.value());
    const std::int64_t above = multiple->at_least(near);
    const std::optional<std::int64_t> below = multiple->at_most(near);
    if (!below) return above;
    const double middle = static_cast<double>(*below + above) / 2.0;
    return value.value() > middle + rounding_noise ? above : *below;
}

}  // namespace

const Role* Project::role(const std::string& id) const {
    const auto found =
        std::find_if(roles.begin(), roles.end(), [&](const Role& r) { return r.id == id; });
    return found == roles.end() ? nullptr : &*found;
}

std::string_view row_word(Worked worked) {
    return worked == Worked::round ? "round" : "row";
}

base::Place Project::place(const std::string& table, const std::string& key) const {
    const auto known = [this](const std::string& name) { return places.find(name); };
    auto found = known(table + "." + key);
    if (found == places.end()) found = known(table);
    return found == places.end() ? base::Place{file, 0, 0} : found->second;
}

PieceCounts counts(const Project& project, const Piece& piece, std::size_t size) {
    PieceCounts out;
    out.every = piece.every.at(size);
    if (piece.pattern.stated()) {
        const WorkedRows& rows = piece.pattern.at(size);
        out.rows = rows.rows();
        if (rows.stated()) out.stitches = std::llround(rows.row(1).across / units::stitch);
        return out;
    }
    if (piece.rows.stated())
        out.rows = piece.rows.at(size);
    else if (piece.length.stated())
        out.rows = in_repeats(piece.length.at(size) * gauge_of(project, piece).rows / units::row,
                              piece.row_multiple);
    if (piece.stitches.stated())
        out.stitches = piece.stitches.at(size);
    else if (piece.width.stated())
        out.stitches =
            in_repeats(piece.width.at(size) * gauge_of(project, piece).stitches / units::stitch,
                       piece.multiple);
    if (piece.increase.stated()) out.increase = piece.increase.at(size);
    if (piece.shape != nullptr) count_by_shape(project, piece, size, out);
    return out;
}

namespace {

std::int64_t copies_of(const Piece& piece, std::size_t size) {
    return piece.count.stated() ? piece.count.at(size) : 1;
}

/// A row of several yarns, once for each. Two parts of one yarn are one.
void add_colours(const RowWork& work, Row row, std::vector<Row>& sequence) {
    const std::string own = row.role;
    const std::size_t first = sequence.size();
    for (const ColourWork& colour : work.colours) {
        const std::string& role = colour.role.empty() ? own : colour.role;
        auto known = std::find_if(sequence.begin() + static_cast<std::ptrdiff_t>(first),
                                  sequence.end(), [&](const Row& one) { return one.role == role; });
        if (known == sequence.end()) {
            row.role = role;
            row.stitches = {};
            row.kinds.clear();
            row.carried = {};
            row.begun = 0;
            row.beside = sequence.size() > first;
            sequence.push_back(row);
            known = sequence.end() - 1;
        }
        known->stitches += colour.stitches;
        known->carried += colour.carried;
        known->begun += colour.begun;
        known->kinds.insert(known->kinds.end(), colour.kinds.begin(), colour.kinds.end());
    }
}

void add_rows(const Project& project, std::size_t at, std::int64_t copy, std::size_t size,
              std::vector<Row>& sequence) {
    const Piece& piece = project.pieces[at];
    const PieceCounts total = counts(project, piece, size);
    // Written rows may change their yarn in other rows in other sizes.
    const bool written = piece.pattern.stated() && !piece.pattern.at(size).stripes.empty();
    const std::vector<Stripe>& stripes = written ? piece.pattern.at(size).stripes : piece.stripes;
    std::size_t stripe = 0;
    std::int64_t left_in_stripe = stripes.empty() ? total.rows : stripes[0].rows;
    for (std::int64_t number = 1; number <= total.rows; ++number) {
        if (left_in_stripe == 0) {
            stripe = (stripe + 1) % stripes.size();
            left_in_stripe = stripes[stripe].rows;
        }
        --left_in_stripe;
        Row row;
        row.piece = at;
        row.copy = copy;
        row.number = number;
        row.role = stripes.empty() ? piece.role : stripes[stripe].role;
        if (piece.pattern.stated()) {
            const RowWork& work = piece.pattern.at(size).row(number);
            row.stitches = row.width = work.across;
            row.kinds = work.kinds;
            if (!work.colours.empty()) {
                add_colours(work, std::move(row), sequence);
                continue;
            }
        } else {
            row.stitches =
                static_cast<double>(stitches_in_row(total, piece, number)) * units::stitch;
            row.kinds = kinds_in_row(total, piece, number);
            row.width = row.stitches;
        }
        sequence.push_back(std::move(row));
    }
}

}  // namespace

std::vector<std::int64_t> row_widths(const Project& project, const Piece& piece, std::size_t size) {
    const PieceCounts total = counts(project, piece, size);
    std::vector<std::int64_t> out;
    out.reserve(static_cast<std::size_t>(total.rows));
    for (std::int64_t row = 1; row <= total.rows; ++row)
        out.push_back(piece.pattern.stated()
                          ? std::llround(piece.pattern.at(size).row(row).across / units::stitch)
                          : stitches_in_row(total, piece, row));
    return out;
}

std::vector<Row> row_sequence(const Project& project, std::size_t size) {
    std::vector<Row> sequence;
    const std::vector<Piece>& pieces = project.pieces;
    for (std::size_t first = 0; first < pieces.size();) {
        const std::int64_t copies = copies_of(pieces[first], size);
        std::size_t after = first + 1;
        while (after < pieces.size() && copies_of(pieces[after], size) == copies) ++after;
        for (std::int64_t copy = 1; copy <= copies; ++copy)
            for (std::size_t at = first; at < after; ++at)
                add_rows(project, at, copy, size, sequence);
        first = after;
    }
    return sequence;
}

namespace {

/// As it is stated; else the triangle of its area with a straight upper edge, twice as wide as
/// long.
FinishedSize of_wings(const Project& project, const Piece& piece,
                      const std::vector<std::int64_t>& widths, std::size_t size) {
    const bool wide = piece.width.stated();
    const bool measured = wide || piece.length.stated();
    if (measured && !piece.last_stitches.stated()) {
        const units::Length width = wide ? piece.width.at(size) : 2.0 * piece.length.at(size);
        const units::Length length = piece.length.stated() ? piece.length.at(size) : 0.5 * width;
        if (!piece.rows.stated()) return {width, length};
        const double by = static_cast<double>(widths.size()) * units::row /
                          gauge_of(project, piece).rows / wings_of(width, length).high;
        return {by * width, by * length};
    }
    double stitches = 0.0;
    for (const std::int64_t row : widths) stitches += static_cast<double>(row);
    const Gauge& gauge = gauge_of(project, piece);
    const units::Length side =
        std::sqrt(stitches * units::Ratio(units::stitch / gauge.stitches / units::metre).value() *
                  units::Ratio(units::row / gauge.rows / units::metre).value()) *
        units::metre;
    return {2.0 * side, side};
}

}  // namespace

FinishedSize finished_size(const Project& project, const Piece& piece, std::size_t size) {
    const std::vector<std::int64_t> widths = row_widths(project, piece, size);
    const std::int64_t widest =
        widths.empty() ? 0 : *std::max_element(widths.begin(), widths.end());
    const units::Length high =
        static_cast<double>(widths.size()) * units::row / gauge_of(project, piece).rows;
    FinishedSize out;
    if (lies_flat(project, piece, size)) return {2.0 * high, 2.0 * high};
    if (piece.shape != nullptr && piece.shape->wings) return of_wings(project, piece, widths, size);
    const PieceCounts total = counts(project, piece, size);
    if (piece.shape != nullptr && piece.shape->law == RowLaw::diagonal) {
        const Blocks blocks = blocks_of(piece, total, size);
        const units::Length side = block_side(gauge_of(project, piece));
        return {static_cast<double>(blocks.wide) * side, static_cast<double>(blocks.high) * side};
    }
    // A stated width is that of row 1, but of a shape from a few stitches.
    const bool measured =
        piece.width.stated() && !piece.multiple &&
        (widest == total.stitches || (piece.shape != nullptr && piece.shape->from_few()));
    out.width =
        measured ? piece.width.at(size)
                 : static_cast<double>(widest) * units::stitch / gauge_of(project, piece).stitches;
    out.length = piece.length.stated() && !piece.row_multiple ? piece.length.at(size) : high;
    return out;
}

}  // namespace skeinfall::project
