#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "skeinfall/base/name.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/need/detail/kind_weights.hpp"
#include "skeinfall/need/rate.hpp"
#include "skeinfall/need/reckoning.hpp"
#include "skeinfall/project/makes_like_it.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/grist_match.hpp"

namespace skeinfall::need {
namespace {

using units::Length;
using units::Ratio;
using units::Rounding;

/// One swatch as it was measured.
struct Measured {
    std::vector<project::KindCount> kinds;
    Length yarn{};             ///< without its ends
    Length weighing_spread{};  ///< from the scale
    Length length_spread{};    ///< from the tape, where yarn was measured
    Ratio size_spread{};       ///< of the number of stitches; 0 when counted
    Ratio gauge_spread{};      ///< of its yarn taken from its own gauge to the project's
    units::RowCount rows{};    ///< 1 where they are not known
};

/// The gauge of the stitch that a swatch is of.
const project::Gauge& gauge_of(const project::Swatch& swatch, const project::Project& project) {
    if (swatch.stitch.empty()) return project.gauge;
    for (const project::Piece& piece : project.pieces)
        if (piece.gauge && kind_of(piece.gauge->stitch, project) == kind_of(swatch.stitch, project))
            return *piece.gauge;
    return project.gauge;
}

/// A gauge tells the counts of its own stitch only: those of another lie as far from it as is
/// usual.
project::Gauge gauge_in_its_stitch(const project::Swatch& swatch, const project::Project& project,
                                   const project::Role& role, Measured& out) {
    project::Gauge gauge = gauge_of(swatch, project);
    if (swatch.stitch.empty() || kind_of(gauge.stitch, project) == kind_of(swatch.stitch, project))
        return gauge;
    project::FabricFacts facts = project::fabric_of(project, role);
    facts.stitch = gauge.stitch;
    const auto of_gauge = project::usual_gauge(facts);
    facts.stitch = swatch.stitch;
    const auto of_swatch = project::usual_gauge(facts);
    if (!of_gauge || !of_swatch)
        throw base::InputError(base::Problem{
            "the gauge is in " + gauge.stitch + ", the measured swatch in " + swatch.stitch,
            {.file = project.file, .line = 0, .column = 0},
            "the stitches and rows of the swatch",
            "Count them, or work the swatch in the stitch of the gauge."});
    // In one hand and yarn they are about as wide, and taller.
    gauge.rows *= of_swatch->rows / of_swatch->stitches / (of_gauge->rows / of_gauge->stitches);
    out.size_spread = usual::gauge_of_another_stitch;
    return gauge;
}

void count_stitches(const project::Swatch& swatch, const project::Project& project,
                    const project::Role& role, Measured& out) {
    out.rows = std::max(1.0 * units::row, swatch.rows.value_or(1.0 * units::row));
    if (!swatch.kinds.empty()) {
        out.kinds = swatch.kinds;
        return;
    }
    const std::string kind =
        kind_of(swatch.stitch.empty() ? project.gauge.stitch : swatch.stitch, project);
    units::StitchCount stitches{};
    if (swatch.stitches) {
        stitches = *swatch.stitches * (swatch.rows ? swatch.rows->value() : 1.0);
        // The mark falls anywhere within a stitch.
        if (swatch.marked && !swatch.rows)
            out.size_spread = Ratio(units::stitch / stitches / std::sqrt(12.0));
    } else {
        const project::Gauge gauge = gauge_in_its_stitch(swatch, project, role, out);
        const Length width = *swatch.width;
        const Length height = *swatch.height;
        out.rows = height * gauge.rows;
        stitches = width * gauge.stitches * (out.rows / units::row);
        out.size_spread =
            Ratio(std::hypot(out.size_spread.value(), usual::tape / width, usual::tape / height));
    }
    out.kinds = {{kind, stitches}};
}

/// A stitch of a swatch with a gauge of its own has another room than the project's. Yarn goes with
/// some power of it, from 0 to 1. Tighter swatches are taken up by the root, looser ones are left:
/// the piece may come out at either gauge, and too little is the worse answer.
void at_project_gauge(const project::Swatch& swatch, const project::Project& project,
                      Measured& out) {
    constexpr double worth_a_word = 0.05;
    if (!swatch.stitches || !swatch.width || !swatch.stitch.empty() || project.gauge.usual) return;
    const project::Gauge& gauge = gauge_of(swatch, project);
    double room = *swatch.stitches / *swatch.width / gauge.stitches;
    if (swatch.rows && swatch.height) room *= *swatch.rows / *swatch.height / gauge.rows;
    if (std::abs(std::log(room)) <= worth_a_word) return;
    out.gauge_spread = Ratio(std::abs(std::log(room)) * usual::power_of_room.value());
    const double times = std::max(1.0, std::sqrt(room));
    out.yarn *= times;
    out.weighing_spread *= times;
    out.length_spread *= times;
}

Measured measured(const project::Swatch& swatch, const project::Project& project,
                  const project::Role& role) {
    Measured out;
    count_stitches(swatch, project, role, out);
    if (swatch.weighing) {
        units::Grist grist = grist_for(project, role, "swatch").value;
        // What was weighed holds every yarn that was in it.
        if (swatch.strands > 1) grist = project::fabric_of(project, role).grist.value_or(grist);
        const auto mass = measure::net_mass(swatch.weighing->reading());
        out.yarn = mass.centre * grist;
        out.weighing_spread = mass.spread * grist;
    } else {
        out.yarn = *swatch.yarn;
        out.length_spread = out.yarn * usual::measured_yarn;
    }
    out.yarn -= swatch.ends;
    if (!(out.yarn > Length{}))
        throw base::InputError(
            base::Problem{"the ends of a swatch of yarn " + role.id + " are all of its yarn",
                          {.file = project.file, .line = 0, .column = 0},
                          "ends that are less than the swatch's yarn",
                          "Correct ends, or weigh the swatch again."});
    at_project_gauge(swatch, project, out);
    return out;
}

std::string stitches_text(const project::Swatch& swatch) {
    if (!swatch.kinds.empty()) {
        std::string out;
        for (const project::KindCount& kind : swatch.kinds)
            out +=
                fmt::format("{}{:g} {}", out.empty() ? "" : " + ", kind.count.value(), kind.kind);
        return out;
    }
    const std::string of = swatch.stitch.empty() ? "" : " of " + swatch.stitch;
    if (swatch.stitches && swatch.rows)
        return fmt::format("{:g} sts x {:g} rows{}", swatch.stitches->value(), swatch.rows->value(),
                           of);
    if (swatch.stitches) return fmt::format("{:g} sts{}", swatch.stitches->value(), of);
    const auto side = [](Length length) {
        return units::side_text(length, units::Step::tenth, Rounding::nearest);
    };
    return side(*swatch.width) + " x " + side(*swatch.height) + of;
}

std::string described(const project::Swatch& swatch) {
    std::string out = stitches_text(swatch) + ", ";
    if (swatch.weighing && swatch.by_rest)
        return out + "the ball from " + swatch.weighing->shown.text + " to " +
               swatch.weighing->tare->text;
    if (swatch.weighing) return out + swatch.weighing->shown.text;
    return out + units::yarn_text(*swatch.yarn, units::Step::hundredth, Rounding::nearest) +
           (swatch.marked ? " marked off" : " of yarn");
}

/// A swatch that was both counted and measured tells the maker's own gauge.
void note_gauge(const project::Swatch& swatch, const project::Gauge& gauge, Rate& rate) {
    constexpr double worth_a_word = 0.05;
    if (!swatch.stitches || !swatch.width || !swatch.stitch.empty()) return;
    const double ratio = *swatch.stitches / *swatch.width / gauge.stitches;
    if (std::abs(ratio - 1.0) > worth_a_word)
        rate.cautions.push_back(fmt::format(
            "your swatch has {}, and the project's gauge has {}. With these counts the "
            "piece comes out {} of the planned width, and the amount is less sure",
            units::text(*swatch.stitches / *swatch.width, units::shown::per_10cm,
                        units::Step::tenth, Rounding::nearest),
            units::text(gauge.stitches, units::shown::per_10cm, units::Step::tenth,
                        Rounding::nearest),
            units::percent_text(Ratio(1.0 / ratio), units::Step::one, Rounding::nearest)));
}

std::string how_text(const std::vector<const project::Swatch*>& swatches) {
    constexpr std::size_t most_told = 3;
    std::string out = swatches.size() == 1 ? "from a swatch of " : "from swatches of ";
    for (std::size_t i = 0; i < std::min(most_told, swatches.size()); ++i)
        out += (i == 0 ? "" : " and ") + described(*swatches[i]);
    if (swatches.size() > most_told)
        out += fmt::format(" and {} more", swatches.size() - most_told);
    return out;
}

/// Swatches of one stitch that differ by more than their own noise: the band is widened, and the
/// two farthest apart are named.
void note_apart(const std::vector<Measured>& all, Rate& rate) {
    if (all.size() < 2) return;
    std::vector<Observation> each;
    for (const Measured& one : all) {
        const double rows = usual::row_to_row.value() / std::sqrt(std::max(1.0, one.rows.value()));
        const double read =
            measure::in_quadrature(one.weighing_spread, one.length_spread) / one.yarn;
        each.push_back({one.yarn / one.kinds.front().count * units::stitch,
                        Ratio(std::hypot(
                            std::hypot(rows, read),
                            std::hypot(one.size_spread.value(), usual::swatch_to_piece.value())))});
    }
    const Ratio between = spread_between(each);
    if (!(between.value() > 0.0)) return;
    rate.causes.push_back({"swatches that differ from each other",
                           Ratio(between.value() / std::sqrt(static_cast<double>(all.size()))),
                           "Work one more swatch in this yarn and weigh it."});
    const auto [least, most] = std::minmax_element(
        each.begin(), each.end(),
        [](const Observation& a, const Observation& b) { return a.yarn < b.yarn; });
    const double apart = std::log(most->yarn / least->yarn) /
                         std::hypot(least->spread.value(), most->spread.value());
    if (apart > discord_limit.value())
        rate.cautions.push_back(fmt::format(
            "swatches {} and {} contradict each other: a stitch of the second takes {} of the yarn "
            "of the first. Weigh both again; until then the amount is less sure",
            least - each.begin() + 1, most - each.begin() + 1,
            units::percent_text(Ratio(most->yarn / least->yarn), units::Step::one,
                                Rounding::nearest)));
}

/// One kind of stitch in all of them, that of the gauge: plain division.
void divide(const std::vector<Measured>& all, Rate& rate) {
    Length yarn{};
    Length weighing{};
    Length tape{};
    units::StitchCount stitches{};
    units::StitchCount size{};
    Length gauge{};
    double rows = 0.0;
    for (const Measured& each : all) {
        gauge += each.yarn * each.gauge_spread;
        const units::StitchCount count = each.kinds.front().count;
        yarn += each.yarn;
        weighing = measure::in_quadrature(weighing, each.weighing_spread);
        tape = measure::in_quadrature(tape, each.length_spread);
        stitches += count;
        size = measure::in_quadrature(size, units::StitchCount(count * each.size_spread));
        rows += each.rows / units::row;
    }
    rate.per_stitch = yarn / stitches;
    const auto add = [&](std::string name, double relative, std::string remedy, double falls) {
        if (relative > 0.0)
            rate.causes.push_back(
                {std::move(name), Ratio(relative), std::move(remedy), Ratio(falls)});
    };
    add("a swatch that is light for your scale", weighing / yarn,
        "Weigh the swatch on a finer scale, or work a larger one.", 2.0);
    add("the measured length of the swatch's yarn", tape / yarn,
        "Measure its yarn again, pulled straight, or work a larger swatch.", 2.0);
    add("the swatch's measured size", size / stitches,
        "Count the swatch's stitches and rows, or work a larger one.", 1.0);
    add("rows that differ from each other",
        usual::row_to_row.value() / std::sqrt(std::max(1.0, rows)), "Work a swatch with more rows.",
        0.5);
    add("a swatch at another gauge than the project's", gauge / yarn,
        "Work a swatch at the project's gauge.", 0.0);
    note_apart(all, rate);
}

std::vector<CountedSwatch> counted(const std::vector<Measured>& all) {
    std::vector<CountedSwatch> out;
    for (const Measured& each : all) {
        const double rows = usual::row_to_row.value() / std::sqrt(each.rows / units::row);
        const Length of_rows =
            each.yarn * std::hypot(rows, each.size_spread.value(), each.gauge_spread.value());
        const Length read = measure::in_quadrature(each.weighing_spread, each.length_spread);
        out.push_back({each.kinds, {each.yarn, measure::in_quadrature(read, of_rows)}});
    }
    return out;
}

/// The role whose swatches tell: itself, else one in another colour of the same yarn.
const project::Role* told_by(const project::Project& project, const project::Role& role) {
    const auto has_swatch = [&](const project::Role& one) {
        return std::any_of(project.swatches.begin(), project.swatches.end(),
                           [&](const project::Swatch& swatch) { return swatch.role == one.id; });
    };
    if (has_swatch(role)) return &role;
    for (const project::Role& other : project.roles)
        if (!role.name.empty() && base::same_name(role.name, other.name) && has_swatch(other) &&
            role.grist.has_value() == other.grist.has_value() &&
            (!role.grist ||
             yarn::grist_difference(role.grist->value, other.grist->value) <= yarn::limit_noise))
            return &other;
    return nullptr;
}

}  // namespace

std::optional<Rate> swatch_rate(const project::Project& project, const project::Role& role) {
    const project::Role* const of = told_by(project, role);
    if (of == nullptr) return std::nullopt;
    std::vector<const project::Swatch*> swatches;
    std::vector<Measured> all;
    for (const project::Swatch& swatch : project.swatches) {
        if (swatch.role != of->id) continue;
        swatches.push_back(&swatch);
        all.push_back(measured(swatch, project, *of));
    }

    Rate rate;
    rate.source = Source::swatch;
    rate.short_name = swatches.size() == 1 ? "your swatch" : "your swatches";
    rate.how = how_text(swatches) + (of == &role ? "" : ", in " + of->id + ", the same yarn");
    if (const auto grist = grist_of(role)) rate.grist = grist->value;
    rate.by_mass = std::any_of(swatches.begin(), swatches.end(),
                               [](const project::Swatch* swatch) { return swatch->weighing; });
    if (rate.by_mass) rate.shared = grist_of(role)->spread;
    for (const project::Swatch* swatch : swatches)
        note_gauge(*swatch, gauge_of(*swatch, project), rate);
    const bool held =
        std::any_of(project.roles.begin(), project.roles.end(), [&](const project::Role& other) {
            return other.held_with == role.id || role.held_with == other.id;
        });
    const bool unsaid = std::any_of(swatches.begin(), swatches.end(), [](const auto* swatch) {
        return swatch->weighing && swatch->strands == 0;
    });
    if (held && unsaid)
        rate.notes.emplace_back(
            "the weight of the swatch counts as this yarn alone; if both strands were weighed "
            "together, record that");

    const std::string plain = kind_of(project.gauge.stitch, project);
    const bool one_kind = std::all_of(all.begin(), all.end(), [&](const Measured& each) {
        return each.kinds.size() == 1 && each.kinds.front().kind == plain;
    });
    if (one_kind) {
        divide(all, rate);
    } else {
        rate.calibration = calibrate(counted(all), project.stitches);
        rate.notes.insert(rate.notes.end(), rate.calibration->notes.begin(),
                          rate.calibration->notes.end());
    }
    rate.notes.insert(rate.notes.end(), rate.cautions.begin(), rate.cautions.end());
    rate.causes.push_back({"tension changing from swatch to piece", usual::swatch_to_piece,
                           "Weigh the piece itself after some rows."});
    return rate;
}

}  // namespace skeinfall::need
