#include "skeinfall/need/loop_model.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/base/text.hpp"
#include "skeinfall/data/loop_constants.hpp"
#include "skeinfall/data/loop_paths.hpp"
#include "skeinfall/data/stitch_yarn.hpp"
#include "skeinfall/measure/propagate.hpp"
#include "skeinfall/yarn/diameter.hpp"
#include "skeinfall/yarn/weight_class.hpp"

namespace skeinfall::need {
namespace {

using base::leading_number;
using units::Length;
using units::Ratio;

double constant(std::string_view id) {
    const auto& rows = data::loop_constants;
    return leading_number<double>(std::find_if(rows.begin(), rows.end(), [&](const auto& row) {
                                      return row.id == id;
                                  })->value);
}

Length stitch_width(const project::Gauge& gauge) {
    return 1.0 * units::stitch / gauge.stitches;
}

Length row_height(const project::Gauge& gauge) {
    return 1.0 * units::row / gauge.rows;
}

struct Thickness {
    units::Grist grist{};
    Ratio spread{};  ///< of the grist; 0 when the label tells it
    std::string from;
};

/// By the label, else the middle of what published charts together give the class.
std::optional<Thickness> thickness(const project::Role& role) {
    if (role.grist) return Thickness{role.grist->value, Ratio(0.0), role.grist->text};
    if (!role.weight) return std::nullopt;
    const auto range = yarn::published_grist(*role.weight);
    if (!range || !range->least || !range->most) return std::nullopt;
    const double least = range->least->value();
    const double most = range->most->value();
    return Thickness{units::Grist::from_value(std::sqrt(least * most)),
                     measure::within(Ratio(0.5 * std::log(most / least))),
                     "class " + yarn::text(*role.weight)};
}

/// Plain fabrics, and purl and garter, are one loop a stitch.
bool plain_knit(const project::Project& project) {
    const std::string stitch = base::lower(project.gauge.stitch);
    const auto kind = project::stitch_kind(stitch, project.craft, project.terms);
    if (kind && (*kind == "k" || *kind == "p")) return true;
    const auto says = [&stitch](const char* word) {
        return stitch.find(word) != std::string::npos;
    };
    return says("stockinette") || says("stocking") || says("garter") || says("jersey");
}

GuessedRate knit_rate(const project::Project& project) {
    const project::Gauge& gauge = project.gauge;
    GuessedRate out;
    out.per_stitch =
        munden_loop(stitch_width(gauge), row_height(gauge), Relaxation::wet) / units::stitch;
    const bool plain = plain_knit(project);
    out.spread = plain ? knit_model_spread : unknown_knit_spread;
    out.how = plain ? "from a model of the knitted loop, by the gauge alone"
                    : "from a model of the plain knitted loop, by the gauge alone: it does not "
                      "know " +
                          gauge.stitch;
    return out;
}

}  // namespace

Length munden_loop(Length width, Length height, Relaxation state) {
    const double ks = constant(state == Relaxation::dry   ? "ks_dry"
                               : state == Relaxation::wet ? "ks_wet"
                                                          : "ks_full");
    return Length::from_value(std::sqrt(ks * (width * height).value()));
}

Length peirce_loop(Length width, Length height, Length diameter) {
    return 2.0 * height + width + constant("peirce_d") * diameter;
}

std::optional<Length> crochet_loop(std::string_view stitch, Length width, Length height,
                                   Length diameter) {
    for (const auto& row : data::loop_paths)
        if (row.stitch == stitch)
            return leading_number<double>(row.widths) * width +
                   leading_number<double>(row.heights) * height +
                   leading_number<double>(row.half_turns) * std::numbers::pi * diameter;
    return std::nullopt;
}

Length hand_yarn_diameter(units::Grist grist, const yarn::FibreContent& content) {
    const auto told = yarn::density_of(content);
    const yarn::Density density = told ? *told : constant("fibre_density") * yarn::gram_per_cm3;
    return yarn::round_diameter(1.0 / grist, density, Ratio(constant("packing")));
}

std::optional<GuessedRate> measured_by_others(const project::Project& project,
                                              const project::Role& role) {
    const auto kind = project::stitch_kind(project.gauge.stitch, project.craft, project.terms);
    if (!kind || !role.weight) return std::nullopt;
    for (const auto& row : data::stitch_yarn) {
        if (row.stitch != *kind || leading_number<double>(row.weight_class) != role.weight->number)
            continue;
        GuessedRate out;
        const units::YarnPerArea by_area = leading_number<double>(row.yarn_per_sq_in_in) *
                                           units::inch / (units::inch * units::inch);
        out.per_stitch =
            by_area * stitch_width(project.gauge) * row_height(project.gauge) / units::stitch;
        out.spread = measured_by_others_spread;
        out.how = fmt::format("from what another maker's {} took in class {} yarn", *kind,
                              yarn::text(*role.weight));
        return out;
    }
    return std::nullopt;
}

std::optional<GuessedRate> by_loop_model(const project::Project& project,
                                         const project::Role& role) {
    if (project.craft == project::Craft::knit) return knit_rate(project);
    const auto kind = project::stitch_kind(project.gauge.stitch, project.craft, project.terms);
    const auto thick = thickness(role);
    if (!kind || !thick) return std::nullopt;
    const Length width = stitch_width(project.gauge);
    const Length height = row_height(project.gauge);
    const Length diameter = hand_yarn_diameter(thick->grist, role.fibre);
    const auto loop = crochet_loop(*kind, width, height, diameter);
    if (!loop) return std::nullopt;
    GuessedRate out;
    out.per_stitch = *loop / units::stitch;
    out.spread = crochet_model_spread;
    // The diameter goes with the root of the mass per length, and only turns hang on it.
    const Length turns = *loop - *crochet_loop(*kind, width, height, Length{});
    out.yarn_spread = Ratio(0.5 * thick->spread.value() * (turns / *loop));
    out.how =
        fmt::format("from a model of the {} stitch, by the gauge and {} alone", *kind, thick->from);
    return out;
}

}  // namespace skeinfall::need
