#include "skeinfall/need/rate.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "skeinfall/units/format.hpp"

namespace skeinfall::need {
namespace {

using units::Ratio;
using units::Rounding;
using units::Step;

/// Grist of a role's yarn with the relative spread of a label.
struct RoleGrist {
    units::Grist value{};
    Ratio spread{};
};

std::optional<RoleGrist> grist_of(const project::Role& role) {
    if (!role.grist) return std::nullopt;
    return RoleGrist{role.grist->value,
                     Ratio(yarn::label_grist_half_width.value() / std::sqrt(3.0))};
}

/// Stitches of a swatch: counted, or from its size and the gauge.
struct SwatchStitches {
    units::Quantity<boost::units::multiply_typeof_helper<units::StitchUnit, units::RowUnit>::type>
        count{};
    Ratio size_spread{};  ///< from the tape, 0 when counted
    units::RowCount rows{};
};

SwatchStitches stitches_of(const project::Swatch& swatch, const project::Gauge& gauge) {
    if (swatch.stitches && swatch.rows)
        return {*swatch.stitches * *swatch.rows, Ratio(0.0), *swatch.rows};
    const units::Length width = *swatch.width;
    const units::Length height = *swatch.height;
    return {width * gauge.stitches * (height * gauge.rows),
            Ratio(std::hypot(usual::tape / width, usual::tape / height)), height * gauge.rows};
}

std::string described(const project::Swatch& swatch) {
    std::string size;
    if (swatch.stitches && swatch.rows)
        size = fmt::format("{:g} sts x {:g} rows", swatch.stitches->value(), swatch.rows->value());
    else
        size =
            units::text(*swatch.width, units::shown::centimetres, Step::tenth, Rounding::nearest) +
            " x " +
            units::text(*swatch.height, units::shown::centimetres, Step::tenth, Rounding::nearest);
    if (swatch.weighing) return size + ", " + swatch.weighing->shown.text;
    return size + ", " +
           units::text(*swatch.yarn, units::shown::metres, Step::hundredth, Rounding::nearest) +
           " of yarn";
}

/// A swatch that was both counted and measured tells the maker's own gauge.
void note_gauge(const project::Swatch& swatch, const project::Gauge& gauge,
                std::vector<std::string>& notes) {
    constexpr double worth_a_word = 0.05;
    if (!swatch.stitches || !swatch.width) return;
    const double ratio = *swatch.stitches / *swatch.width / gauge.stitches;
    if (std::abs(ratio - 1.0) > worth_a_word)
        notes.push_back(fmt::format(
            "the swatch has {} stitches to a width, the project's gauge asks for {}: at the same "
            "stitch counts the piece comes out {} of the planned width",
            units::text(*swatch.stitches / *swatch.width, units::shown::per_10cm, Step::tenth,
                        Rounding::nearest),
            units::text(gauge.stitches, units::shown::per_10cm, Step::tenth, Rounding::nearest),
            units::percent_text(Ratio(1.0 / ratio), Step::one, Rounding::nearest)));
}

Rate from_swatches(const project::Project& project, const project::Role& role,
                   const std::vector<const project::Swatch*>& swatches) {
    Rate rate;
    rate.source = Source::swatch;
    const auto grist = grist_of(role);
    units::Length yarn{};
    units::Length weighing_spread{};
    double size_spread_squared = 0.0;
    SwatchStitches all;
    std::vector<std::string> described_each;
    for (const project::Swatch* swatch : swatches) {
        const SwatchStitches stitches = stitches_of(*swatch, project.gauge);
        if (swatch->weighing) {
            if (!grist)
                throw base::InputError(base::Problem{
                    "yarn " + role.id + " has a weighed swatch but no length per mass",
                    {.file = project.file, .line = 0, .column = 0},
                    "grist in [yarn." + role.id + "]",
                    "Write grist = \"200 m / 100 g\" as its label says."});
            const auto mass = measure::net_mass(swatch->weighing->reading());
            yarn += mass.centre * grist->value;
            weighing_spread = measure::in_quadrature(weighing_spread, mass.spread * grist->value);
            rate.by_mass = true;
        } else {
            yarn += *swatch->yarn;
        }
        // Weighted by stitches, the share of each swatch in the sum.
        const double part = (stitches.count * stitches.size_spread).value();
        size_spread_squared += part * part;
        all.count += stitches.count;
        all.rows += stitches.rows;
        described_each.push_back(described(*swatch));
        note_gauge(*swatch, project.gauge, rate.notes);
    }
    rate.per_stitch = yarn / (all.count / units::row);
    rate.how = (swatches.size() == 1 ? "from a swatch of " : "from swatches of ");
    for (std::size_t i = 0; i < described_each.size(); ++i)
        rate.how += (i == 0 ? "" : " and ") + described_each[i];
    if (grist) rate.grist = grist->value;
    if (rate.by_mass) rate.shared = grist->spread;

    const auto add = [&](std::string name, Ratio relative, std::string remedy, double falls) {
        if (relative.value() > 0.0)
            rate.causes.push_back({std::move(name), relative, std::move(remedy), Ratio(falls)});
    };
    add("the scale's step against the swatch", Ratio(weighing_spread / yarn),
        "Weigh the swatch on a finer scale, or work a larger one.", 2.0);
    add("the swatch's measured size", Ratio(std::sqrt(size_spread_squared) / all.count.value()),
        "Count the swatch's stitches and rows, or work a larger one.", 1.0);
    add("rows that differ from each other",
        Ratio(usual::row_to_row.value() / std::sqrt(std::max<double>(1.0, all.rows / units::row))),
        "Work a swatch with more rows.", 0.5);
    add("tension that drifts from swatch to piece", usual::swatch_to_piece,
        "Weigh the piece itself after some rows.", 0.0);
    return rate;
}

}  // namespace

Ratio combined(const std::vector<Cause>& causes) {
    double sum = 0.0;
    for (const Cause& cause : causes) sum = std::hypot(sum, cause.relative.value());
    return Ratio(sum);
}

Rate stated_total_of(const project::Role& role) {
    Rate rate;
    if (const auto grist = grist_of(role)) rate.grist = grist->value;
    rate.source = Source::stated_total;
    rate.how = role.total_basis == project::TotalBasis::measured
                   ? "from the stated total"
                   : "from a stated total that was counted in whole skeins";
    rate.causes.push_back({"a total stated by someone else", usual::stated_total,
                           "Work a swatch in this yarn and weigh it."});
    if (role.total_basis == project::TotalBasis::whole_skeins)
        rate.notes.emplace_back(
            "the total counts whole skeins, so it was rounded up already; the true need may be "
            "up to one skein less");
    return rate;
}

Rate rate_of(const project::Project& project, const project::Role& role) {
    std::vector<const project::Swatch*> swatches;
    for (const project::Swatch& swatch : project.swatches)
        if (swatch.role == role.id) swatches.push_back(&swatch);
    if (!swatches.empty()) return from_swatches(project, role, swatches);

    if (role.rate || role.area_rate) {
        Rate rate;
        if (const auto grist = grist_of(role)) rate.grist = grist->value;
        rate.source = Source::stated_rate;
        rate.how = "from the stated rate";
        rate.per_stitch = role.rate ? *role.rate
                                    : units::YarnPerStitch(*role.area_rate / project.gauge.rows *
                                                           units::row / project.gauge.stitches);
        rate.causes.push_back({"a rate from other hands", usual::stated_rate,
                               "Work a swatch in this yarn and weigh it."});
        return rate;
    }
    if (!role.total_length.stated() && !role.total_mass.stated())
        throw base::InputError(base::Problem{
            "nothing says how much of yarn " + role.id + " the make takes",
            {.file = project.file, .line = 0, .column = 0},
            "a swatch, a rate or a total for it",
            "Add a [[swatch]] with yarn = \"" + role.id +
                "\", or rate = \"2.9 in per stitch\" or total = \"380 yd\" in [yarn." + role.id +
                "]."});
    return stated_total_of(role);
}

}  // namespace skeinfall::need
