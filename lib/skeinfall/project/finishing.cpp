#include "skeinfall/project/finishing.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/data/finishing.hpp"
#include "skeinfall/project/edging.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::project {
namespace {

using base::leading_number;

const std::vector<FinishWay>& ways() {
    static const std::vector<FinishWay> all = [] {
        std::vector<FinishWay> out;
        for (const auto& row : data::finishing) {
            FinishWay way;
            way.part = row.part;
            way.name = row.name;
            way.craft = row.craft;
            const auto amount = leading_number<double>(row.amount);
            const std::string_view measure = row.measure;
            if (measure == "rows") way.rows = units::Ratio(amount);
            if (measure == "times the length") way.times_length = units::Ratio(amount);
            if (measure == "cm") way.yarn = amount * units::centimetre;
            way.note = row.note;
            way.source = row.source;
            out.push_back(way);
        }
        return out;
    }();
    return all;
}

bool has(const FinishWay& way, std::string_view part, Craft craft) {
    return way.part == part &&
           (way.craft == "any" || way.craft == (craft == Craft::knit ? "knit" : "crochet"));
}

units::Length tie(std::string_view name) {
    return find_finish_way("tie", name, Craft::knit)->yarn;
}

/// Of a piece that is joined, at a size.
struct Motifs {
    std::int64_t count = 0;
    std::int64_t columns = 1;
    units::Length wide{};             ///< where one lies below the next
    units::Length high{};             ///< where they lie side by side
    std::int64_t stitches_round = 0;  ///< of the outside, at the gauge of the piece
    MotifSides sides;

    [[nodiscard]] units::Length joined() const {
        return static_cast<double>(sides.beside) * high +
               static_cast<double>(sides.joined - sides.beside) * wide;
    }
    [[nodiscard]] units::Length way_round() const {
        return static_cast<double>(sides.outer_high) * high +
               static_cast<double>(sides.outer - sides.outer_high) * wide;
    }
};

/// As they are joined: a border goes round them as they lie.
std::optional<std::int64_t> columns_of(const Project& project, const FinishPart& part,
                                       std::size_t size) {
    if (part.columns.stated()) return part.columns.at(size);
    for (const FinishPart& other : project.finish)
        if (other.kind == PartKind::joining && other.of == part.of && other.columns.stated())
            return other.columns.at(size);
    return std::nullopt;
}

/// Where nobody says: so that the whole is as square as can be.
std::int64_t columns_for(const Motifs& motifs) {
    if (motifs.wide == motifs.high || !(motifs.high > units::Length{}))
        return square_columns(motifs.count);
    const double stretch = motifs.wide / motifs.high;
    const auto squareness = [&](std::int64_t columns) {
        const auto rows = static_cast<double>((motifs.count + columns - 1) / columns);
        return std::abs(std::log(static_cast<double>(columns) * stretch / rows));
    };
    std::int64_t best = 1;
    for (std::int64_t columns = 2; columns <= motifs.count; ++columns)
        if (squareness(columns) < squareness(best)) best = columns;
    return best;
}

Motifs motifs_of(const Project& project, const FinishPart& part, std::size_t size) {
    Motifs out;
    const auto piece = std::find_if(project.pieces.begin(), project.pieces.end(),
                                    [&](const Piece& one) { return one.name == part.of; });
    if (piece == project.pieces.end()) return out;
    out.count = piece->count.stated() ? piece->count.at(size) : 1;
    const std::int64_t corners = piece->corners > 0 ? piece->corners : 4;
    const std::vector<std::int64_t> rows = row_widths(project, *piece, size);
    if (rows.empty()) return out;
    const units::StitchGauge gauge = gauge_of(project, *piece).stitches;
    // A figure from the centre has its sides in the last round.
    const bool round =
        lies_flat(project, *piece, size) || (piece->shape != nullptr && piece->shape->from_centre);
    if (round) {
        out.wide = static_cast<double>(rows.back() / corners) * units::stitch / gauge;
        out.high = out.wide;
    } else if (has_right_angles(project, *piece, size) && corners == 4) {
        const FinishedSize whole = finished_size(project, *piece, size);
        out.wide = whole.width;
        out.high = whole.length;
    } else {
        out.wide = way_round(project, *piece, size) / static_cast<double>(corners);
        out.high = out.wide;
    }
    out.columns = columns_of(project, part, size).value_or(columns_for(out));
    out.sides = motif_sides(out.count, out.columns, corners);
    const double around = units::Ratio(out.way_round() * gauge / units::stitch).value();
    out.stitches_round = static_cast<std::int64_t>(std::ceil(around - 1e-9));
    return out;
}

units::StitchCount stitch_count(double count) {
    return count * units::stitch;
}

/// Yarn known outright, shared over the rounds.
std::vector<FinishStep> evenly(units::Length yarn, std::int64_t rounds) {
    std::vector<FinishStep> out;
    for (std::int64_t round = 1; round <= rounds; ++round)
        out.push_back({rounds > 1 ? round : 0, 1, false, {}, yarn / static_cast<double>(rounds)});
    return out;
}

/// Round a single flat piece: as long as its edges are.
std::optional<double> stitches_round(const Project& project, const FinishPart& part,
                                     std::size_t size) {
    const auto piece = std::find_if(project.pieces.begin(), project.pieces.end(),
                                    [&](const Piece& one) { return one.name == part.of; });
    if (piece == project.pieces.end()) return std::nullopt;
    const bool many = piece->count.stated() && piece->count.at(size) != 1;
    if (many ? joining_of(project, *piece).has_value() : piece->worked == Worked::round)
        return std::nullopt;
    const double exact =
        units::Ratio(way_round(project, *piece, size) * project.gauge.stitches / units::stitch)
            .value();
    return std::ceil(exact - 1e-9);
}

/// Rounds of an edging, and its bind-off.
std::vector<FinishStep> rounds_of(const Project& project, const FinishPart& part,
                                  std::size_t size) {
    std::vector<FinishStep> out;
    const std::int64_t rounds = part.rounds.at(size);
    double first = 0.0;
    if (part.first_round.stated()) {
        first = static_cast<double>(part.first_round.at(size));
    } else if (!part.of.empty()) {
        const Motifs motifs = motifs_of(project, part, size);
        if (const auto around = stitches_round(project, part, size))
            first = *around;
        else
            first = static_cast<double>(motifs.stitches_round);
    } else {
        first = static_cast<double>(part.stitches.at(size)) / static_cast<double>(rounds);
    }
    const std::int64_t increase = part.increase.stated() ? part.increase.at(size) : 0;
    for (std::int64_t round = 1; round <= rounds; ++round)
        out.push_back(
            {round,
             1,
             false,
             stitch_count(std::max(0.0, first + static_cast<double>(increase * (round - 1)))),
             {}});
    if (part.bind_off_rows && part.bind_off_rows->value() > 0.0)
        out.push_back({rounds, 1, true, out.back().stitches * *part.bind_off_rows, {}});
    return out;
}

/// Those of one copy.
std::vector<FinishStep> steps_of_one(const Project& project, const FinishPart& part,
                                     std::size_t size) {
    if (part.yarn.stated()) return evenly(part.yarn.at(size), part.rounds.at(size));
    const units::Ratio factor =
        part.factor.value_or(find_finish_way("seam", "mattress", project.craft)->times_length);
    if (part.length.stated()) return evenly(part.length.at(size) * factor, part.rounds.at(size));
    if (part.kind == PartKind::joining) {
        const Motifs motifs = motifs_of(project, part, size);
        return {{0, 1, false, {}, motifs.joined() * factor}};
    }
    if (part.kind == PartKind::border || part.kind == PartKind::neckband)
        return rounds_of(project, part, size);
    return {{0, 1, false, stitch_count(static_cast<double>(part.stitches.at(size))), {}}};
}

/// Pieces that are not joined have a border each.
std::int64_t borders_of_its_own(const Project& project, const FinishPart& part, std::size_t size) {
    if (part.kind != PartKind::border || part.of.empty() || part.first_round.stated() ||
        part.yarn.stated() || part.length.stated())
        return 1;
    for (const Piece& piece : project.pieces)
        if (piece.name == part.of && piece.count.stated() && !joining_of(project, piece))
            return std::max<std::int64_t>(1, piece.count.at(size));
    return 1;
}

}  // namespace

const FinishWay* find_finish_way(std::string_view part, std::string_view name, Craft craft) {
    for (std::size_t i = 0; i < ways().size(); ++i) {
        if (!has(ways()[i], part, craft)) continue;
        if (base::same_word(ways()[i].name, name)) return &ways()[i];
        for (const std::string& other : base::split(data::finishing.at(i).also_called, ';'))
            if (!other.empty() && base::same_word(other, name)) return &ways()[i];
    }
    return nullptr;
}

std::vector<std::string> finish_way_names(std::string_view part, Craft craft) {
    std::vector<std::string> out;
    for (const FinishWay& way : ways())
        if (has(way, part, craft)) out.emplace_back(way.name);
    return out;
}

units::Length fringe_yarn(std::int64_t strands, units::Length cut) {
    return static_cast<double>(strands) * cut;
}

units::Length tassel_yarn(std::int64_t count, std::int64_t wraps, units::Length height) {
    return static_cast<double>(count) * (2.0 * static_cast<double>(wraps) * height + tie("tassel"));
}

units::Length pompom_yarn(std::int64_t count, std::int64_t wraps, units::Length diameter) {
    return static_cast<double>(count) *
           (2.0 * static_cast<double>(wraps) * diameter + tie("pompom"));
}

MotifSides motif_sides(std::int64_t count, std::int64_t columns, std::int64_t corners) {
    columns = std::max<std::int64_t>(1, std::min(columns, count));
    MotifSides out;
    for (std::int64_t row = 0; row * columns < count; ++row) {
        const std::int64_t here = std::min(columns, count - row * columns);
        out.joined += here - 1;
        out.beside += here - 1;
        if (row == 0) continue;
        if (corners != 6)
            out.joined += here;
        else
            // Set half a motif to the right, the last of a full row meets one above it only; back
            // to the left, the first does.
            out.joined += 2 * here - (row % 2 == 0 || here == columns ? 1 : 0);
    }
    out.outer = corners * count - 2 * out.joined;
    out.outer_high = 2 * (count - out.beside);
    return out;
}

std::int64_t square_columns(std::int64_t count) {
    return std::max<std::int64_t>(
        1, std::llround(std::ceil(std::sqrt(static_cast<double>(count)) - 1e-9)));
}

LaidMotifs laid_motifs(const Project& project, const FinishPart& joining, std::size_t size) {
    const Motifs motifs = motifs_of(project, joining, size);
    return {motifs.count, motifs.columns, motifs.way_round()};
}

std::vector<FinishStep> finish_steps(const Project& project, const FinishPart& part,
                                     std::size_t size) {
    const std::vector<FinishStep> one = steps_of_one(project, part, size);
    std::vector<FinishStep> out;
    const std::int64_t copies =
        part.copies.stated() ? part.copies.at(size) : borders_of_its_own(project, part, size);
    for (std::int64_t copy = 1; copy <= copies; ++copy)
        for (FinishStep step : one) {
            step.copy = copy;
            out.push_back(step);
        }
    return out;
}

}  // namespace skeinfall::project
