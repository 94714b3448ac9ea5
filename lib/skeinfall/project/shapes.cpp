#include "skeinfall/project/shapes.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <numbers>
#include <string>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/data/shapes.hpp"
#include "skeinfall/project/detail/nearest_whole.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::project {
namespace {

/// "3 dc + 1 ch"
std::vector<KindCount> kinds_in(std::string_view cell) {
    std::vector<KindCount> out;
    for (const std::string& part : base::split(cell, '+')) {
        const std::string_view one = base::trimmed(part);
        const std::size_t blank = one.find(' ');
        if (blank == std::string_view::npos) continue;
        out.push_back(
            {std::string(one.substr(blank + 1)),
             static_cast<double>(base::number_of<std::int64_t>(one.substr(0, blank)).value_or(0)) *
                 units::stitch});
    }
    return out;
}

RowLaw law_in(std::string_view cell) {
    static const std::map<std::string_view, RowLaw> laws{{"growing", RowLaw::growing},
                                                         {"even", RowLaw::even},
                                                         {"there and back", RowLaw::there_and_back},
                                                         {"doubling", RowLaw::doubling},
                                                         {"diagonal", RowLaw::diagonal}};
    return laws.at(cell);
}

/// At least one, to the nearest whole.

/// Shaping rows of RowLaw::even done by a row: the first row has none, the last all.
std::int64_t even_stitches(const PieceCounts& counts, std::int64_t row) {
    const std::int64_t apart = std::abs(counts.last - counts.stitches);
    const std::int64_t step = apart % 2 == 0 ? 2 : 1;  // one at each edge where that works out
    // To the nearest, for rounding down would leave out yarn of every growing piece; a tie waits
    // for the next row, as "every second row" is worked.
    const std::int64_t gaps = counts.rows - 1;
    const std::int64_t done =
        gaps > 0 ? (2 * (apart / step) * (row - 1) + gaps - 1) / (2 * gaps) : 0;
    return counts.stitches + (counts.last < counts.stitches ? -1 : 1) * step * done;
}

std::int64_t doubled_stitches(std::int64_t first, std::int64_t row) {
    std::int64_t stitches = first;
    std::int64_t last = 1;   // row of the section
    std::int64_t plain = 3;  // rounds after the next doubling
    while (row > last) {
        stitches *= 2;
        last += 1 + plain;
        plain *= 2;
    }
    return stitches;
}

/// Stitches of row 1 with which doubling fills a disc so wide at the gauge: the usual number is
/// that of one gauge, and in tall stitches fills less than half of it.
std::int64_t doubled_from(units::Length width, std::int64_t rows, const Gauge& gauge) {
    std::int64_t from_one = 0;
    for (std::int64_t row = 1; row <= rows; ++row) from_one += doubled_stitches(1, row);
    const double disc =
        units::Ratio(0.25 * std::numbers::pi * (width * gauge.stitches / units::stitch) *
                     (width * gauge.rows / units::row))
            .value();
    return static_cast<std::int64_t>(
        std::ceil(disc / static_cast<double>(std::max<std::int64_t>(1, from_one)) - 1e-9));
}

/// Stitches or groups of a row.
std::int64_t units_in_row(const PieceCounts& counts, const Piece& piece, std::int64_t row) {
    const std::int64_t back = counts.rows + 1 - row;
    switch (piece.shape == nullptr ? RowLaw::growing : piece.shape->law) {
        case RowLaw::even:
            return even_stitches(counts, row);
        case RowLaw::there_and_back:
            row = std::min(row, back);
            if (counts.last == 0) break;
            return even_stitches(
                {(counts.rows + 1) / 2, counts.stitches, counts.increase, counts.last}, row);
        case RowLaw::doubling:
            return doubled_stitches(counts.stitches, row);
        case RowLaw::diagonal:
            return std::min({row, back, counts.stitches});
        case RowLaw::growing:
            if (counts.last > 0) return even_stitches(counts, row);
            if (counts.flat.value() > 0.0)
                return piece.corners *
                       nearest_whole(counts.flat.value() * static_cast<double>(row));
            break;
    }
    return std::max<std::int64_t>(0,
                                  counts.stitches + counts.increase * ((row - 1) / counts.every));
}

const std::vector<KindCount>& group_of(const Piece& piece) {
    return piece.group.empty() ? piece.shape->group : piece.group;
}

/// Stitches across, chains among them; a joining takes no width.
std::int64_t across(const std::vector<KindCount>& kinds) {
    double sum = 0.0;
    for (const KindCount& kind : kinds)
        if (kind.kind != "sl st") sum += kind.count / units::stitch;
    return std::llround(sum);
}

}  // namespace

const std::vector<Shape>& shapes() {
    static const std::vector<Shape> all = [] {
        std::vector<Shape> out;
        for (const auto& row : data::shapes) {
            Shape shape;
            shape.name = row.name;
            shape.law = law_in(row.law);
            shape.first = base::number_of<std::int64_t>(row.first);
            shape.increase = base::number_of<std::int64_t>(row.increase);
            shape.every = base::number_of<std::int64_t>(row.every).value_or(1);
            shape.flat = std::string_view(row.increase) == "flat";
            shape.from_centre = !std::string_view(row.corners).empty();
            shape.rounds = std::string_view(row.rounds) == "yes";
            shape.wings = std::string_view(row.wings) == "yes";
            shape.corners = base::number_of<std::int64_t>(row.corners).value_or(0);
            shape.group = kinds_in(row.group);
            shape.extra = kinds_in(row.extra);
            shape.note = row.note;
            out.push_back(std::move(shape));
        }
        return out;
    }();
    return all;
}

const Shape* find_shape(std::string_view name) {
    for (std::size_t i = 0; i < shapes().size(); ++i) {
        if (base::same_word(shapes()[i].name, name)) return &shapes()[i];
        for (const std::string& other : base::split(data::shapes.at(i).also_called, ';'))
            if (!other.empty() && base::same_word(other, name)) return &shapes()[i];
    }
    return nullptr;
}

units::Ratio flat_increase(std::int64_t corners, const Gauge& gauge) {
    const double height_over_width =
        gauge.stitches / units::stitch * (1.0 * units::row / gauge.rows);
    const auto n = static_cast<double>(corners);
    const double around =
        corners < 3 ? 2.0 * std::numbers::pi : 2.0 * n * std::tan(std::numbers::pi / n);
    return units::Ratio(around * height_over_width);
}

std::int64_t whole_flat_increase(std::int64_t corners, const Gauge& gauge) {
    const double exact = flat_increase(corners, gauge).value();
    if (corners < 3)
        return std::max<std::int64_t>(1, std::llround(std::ceil(exact - rounding_noise)));
    return corners * std::max<std::int64_t>(1, std::llround(exact / static_cast<double>(corners)));
}

void give_shape(Piece& piece, const Shape& shape) {
    piece.shape = &shape;
    piece.every = shape.every;
    if (shape.rounds) piece.worked = Worked::round;
    if (piece.corners == 0) piece.corners = shape.corners;
    const bool sized = piece.width.stated() && !piece.rows.stated() && !piece.length.stated();
    if (!piece.stitches.stated() && shape.first && !(shape.law == RowLaw::doubling && sized))
        piece.stitches = PerSize<std::int64_t>(*shape.first);
    if (!piece.increase.stated() && shape.increase)
        piece.increase = PerSize<std::int64_t>(*shape.increase);
}

namespace {

/// Rows and last stitches of a shape whose finished width or length is stated.
void count_finished(const Gauge& gauge, const Piece& piece, std::size_t size, PieceCounts& counts) {
    const auto stitches = [&](units::Length wide) {
        return nearest_whole(wide * gauge.stitches / units::stitch);
    };
    const bool wide = piece.width.stated();
    if (piece.shape->wings) {
        if (!wide && !piece.length.stated()) return;
        const units::Length width = wide ? piece.width.at(size) : 2.0 * piece.length.at(size);
        const units::Length length = piece.length.stated() ? piece.length.at(size) : 0.5 * width;
        const Wings wings = wings_of(width, length);
        const std::int64_t rows = nearest_whole(wings.high * gauge.rows / units::row);
        const bool other_rows = piece.rows.stated();
        const double by =
            other_rows ? static_cast<double>(counts.rows) / static_cast<double>(rows) : 1.0;
        if (!other_rows) counts.rows = rows;
        counts.last = std::max(counts.stitches, stitches(by * wings.along));
        return;
    }
    if (!wide) return;
    const std::int64_t last = std::max(counts.stitches, stitches(piece.width.at(size)));
    if (piece.rows.stated() || piece.length.stated()) {
        counts.last = last;
        return;
    }
    // As many rows as its own increases take.
    const std::int64_t more = std::max<std::int64_t>(1, counts.increase);
    const std::int64_t up = counts.every * ((last - counts.stitches + more - 1) / more);
    counts.rows = piece.shape->law == RowLaw::there_and_back ? 2 * up + 1 : up + 1;
}

/// The gauge at which counts were found that are kept at the maker's own.
Gauge gauge_of_counts(const Project& project, const Piece& piece) {
    Gauge out = gauge_of(project, piece);
    if (!project.pattern_gauge || project.keeping != Keeping::stitch_counts) return out;
    out.stitches *= project.pattern_gauge->stitches / project.gauge.stitches;
    out.rows *= project.pattern_gauge->rows / project.gauge.rows;
    return out;
}

/// A polygon that lies flat: as many stitches more a round as the gauge has it, in whole ones at
/// every corner of every round. Counts that are kept say so by their last row.
void count_flat(const Project& project, const Piece& piece, PieceCounts& counts) {
    const bool kept = piece.last_stitches.stated();
    if (!kept && (piece.stitches.stated() || piece.increase.stated())) return;
    counts.flat =
        units::Ratio(flat_increase(piece.corners, gauge_of_counts(project, piece)).value() /
                     static_cast<double>(piece.corners));
    counts.stitches = piece.corners * nearest_whole(counts.flat.value());
}

}  // namespace

Wings wings_of(units::Length width, units::Length length) {
    const units::Length half = 0.5 * width;
    const units::Length edge =
        std::hypot(half / units::metre, length / units::metre) * units::metre;
    if (edge <= units::Length{}) return {};
    return {half * (length / edge), 2.0 * edge};
}

bool lies_flat(const Project& project, const Piece& piece, std::size_t size) {
    const bool written = piece.pattern.stated();
    if (!written && piece.shape != nullptr) return piece.shape->from_centre;
    if (piece.worked != Worked::round || (!written && !piece.increase.stated())) return false;
    const std::vector<std::int64_t> rounds = row_widths(project, piece, size);
    if (rounds.size() < 2 || 2 * rounds.back() <= 3 * rounds.front() ||
        rounds.back() < *std::max_element(rounds.begin(), rounds.end()))
        return false;
    const Gauge& gauge = gauge_of(project, piece);
    const units::Length edge = static_cast<double>(rounds.back()) * units::stitch / gauge.stitches;
    const units::Length radius = static_cast<double>(rounds.size()) * units::row / gauge.rows;
    const units::Ratio of_flat(edge / (2.0 * std::numbers::pi * radius));
    // A yoke goes round what is open in the middle.
    constexpr double few = 2.5;
    const units::Length begun =
        static_cast<double>(rounds.front()) * units::stitch / gauge.stitches;
    if (!written && begun > few * 2.0 * std::numbers::pi * (1.0 * units::row / gauge.rows))
        return false;
    constexpr double cups = 0.7;
    constexpr double ruffles = 1.4;
    return of_flat.value() > cups && of_flat.value() < ruffles;
}

bool grows_from_centre(const Project& project, const Piece& piece, std::size_t size) {
    if (piece.shape != nullptr && piece.shape->from_centre) return true;
    return !piece.pattern.stated() && lies_flat(project, piece, size);
}

Blocks blocks_of(const Piece& piece, const PieceCounts& counts, std::size_t size) {
    const std::int64_t wide =
        piece.stitches.stated() ? piece.stitches.at(size) : (counts.rows + 1) / 2;
    return {wide, std::max<std::int64_t>(1, counts.rows - wide + 1)};
}

units::Length block_side(const Gauge& gauge) {
    constexpr double across = 4.0;
    return 0.5 * (across * units::stitch / gauge.stitches + 1.0 * units::row / gauge.rows);
}

void count_by_shape(const Project& project, const Piece& piece, std::size_t size,
                    PieceCounts& counts) {
    const Shape& shape = *piece.shape;
    const Gauge& gauge = gauge_of(project, piece);
    const bool rows_stated = piece.rows.stated() || piece.length.stated();
    if (shape.flat) {
        const std::int64_t flat = whole_flat_increase(piece.corners, gauge);
        if (!piece.stitches.stated()) counts.stitches = flat;
        if (!piece.increase.stated()) counts.increase = flat;
    }
    if (shape.from_centre && !rows_stated && piece.width.stated())
        counts.rows = nearest_whole(0.5 * piece.width.at(size) * gauge.rows / units::row);
    if (shape.law == RowLaw::doubling && !rows_stated && !piece.stitches.stated() &&
        piece.width.stated())
        counts.stitches =
            std::max(*shape.first, doubled_from(piece.width.at(size), counts.rows, gauge));
    if (shape.flat && piece.corners >= 3) count_flat(project, piece, counts);
    if (shape.from_few() && piece.last_stitches.stated())
        counts.last = piece.last_stitches.at(size);
    else if (shape.from_few())
        count_finished(gauge, piece, size, counts);
    if (shape.law == RowLaw::even)
        counts.last =
            piece.last_stitches.stated()
                ? piece.last_stitches.at(size)
                : nearest_whole(piece.last_width.at(size) * gauge.stitches / units::stitch);
    if (shape.law == RowLaw::growing && counts.increase < 0 && !rows_stated)
        counts.rows = counts.every * ((counts.stitches - 1) / -counts.increase) + 1;
    // So long and so wide it still ends in its tip: the shaping is spread evenly.
    if (shape.law == RowLaw::growing && rows_stated && shape.increase.value_or(0) < 0 &&
        piece.last_stitches.stated())
        counts.last = piece.last_stitches.at(size);
    if (shape.law == RowLaw::diagonal) {
        const std::int64_t wide = counts.stitches;
        if (!rows_stated && piece.blocks_high.stated())
            counts.rows = wide + piece.blocks_high.at(size) - 1;
        counts.stitches = piece.stitches.stated()
                              ? std::min(wide, std::max<std::int64_t>(1, counts.rows - wide + 1))
                              : (counts.rows + 1) / 2;
    }
}

std::int64_t stitches_in_row(const PieceCounts& counts, const Piece& piece, std::int64_t row) {
    const std::int64_t units = units_in_row(counts, piece, row);
    if (piece.shape == nullptr || group_of(piece).empty()) return units;
    return units * across(group_of(piece)) + across(piece.shape->extra);
}

std::vector<KindCount> kinds_in_row(const PieceCounts& counts, const Piece& piece,
                                    std::int64_t row) {
    if (piece.shape == nullptr || group_of(piece).empty()) return {};
    std::vector<KindCount> kinds = group_of(piece);
    for (KindCount& kind : kinds)
        kind.count *= static_cast<double>(units_in_row(counts, piece, row));
    for (const KindCount& more : piece.shape->extra) {
        auto known = std::find_if(kinds.begin(), kinds.end(),
                                  [&](const KindCount& one) { return one.kind == more.kind; });
        if (known == kinds.end()) known = kinds.insert(kinds.end(), {more.kind, {}});
        known->count += more.count;
    }
    return kinds;
}

}  // namespace skeinfall::project
