#include "skeinfall/need/rate.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "skeinfall/measure/propagate.hpp"
#include "skeinfall/need/earlier_makes.hpp"
#include "skeinfall/need/gauge.hpp"
#include "skeinfall/need/loop_model.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/put_up.hpp"
#include "skeinfall/yarn/yarn.hpp"

namespace skeinfall::need {
namespace {

using units::Length;
using units::Ratio;
using units::Rounding;
using units::Step;

const std::string work_a_swatch = "Work a swatch in this yarn and weigh it.";

/// What a pattern's figure becomes at the maker's gauge, and its cause of the band.
double at_makers_gauge(const project::Project& project, bool whole, Rate& rate) {
    if (!project.pattern_gauge) return 1.0;
    const GaugeChange counts =
        gauge_change(*project.pattern_gauge, project.gauge, Keeping::stitch_counts);
    const GaugeChange kept = gauge_change(*project.pattern_gauge, project.gauge, project.keeping);
    const double times = whole ? kept.yarn.value() : counts.yarn.value();
    // Yarn goes with some power, from 0 to 1, of the room a stitch has; the model takes the root.
    const Ratio spread = measure::within(Ratio(std::abs(std::log(counts.yarn.value()))));
    rate.causes.push_back({"a pattern's figure taken to your gauge", spread, work_a_swatch});
    rate.notes.push_back(
        fmt::format("{} is for the pattern's gauge; at yours, keeping the {}, {} of it counts",
                    rate.short_name, project.keeping == Keeping::size ? "size" : "stitch counts",
                    units::percent_text(Ratio(times), Step::one, Rounding::nearest)));
    rate.short_name += " at your gauge";
    return times;
}

std::optional<Rate> stated_rate(const project::Project& project, const project::Role& role) {
    if (!role.rate && !role.area_rate) return std::nullopt;
    Rate rate;
    if (const auto grist = grist_of(role)) rate.grist = grist->value;
    rate.source = Source::stated_rate;
    rate.how = "from the stated rate";
    rate.short_name = "the stated rate";
    rate.causes.push_back({"a rate from other hands", usual::stated_rate, work_a_swatch});
    const project::Gauge& gauge = project.pattern_gauge.value_or(project.gauge);
    const units::YarnPerStitch given =
        role.rate
            ? *role.rate
            : units::YarnPerStitch(*role.area_rate / gauge.rows * units::row / gauge.stitches);
    rate.per_stitch = given * at_makers_gauge(project, false, rate);
    return rate;
}

/// Yarn of an earlier make; its own spread is small beside that between makes.
Length yarn_of(const project::EarlierMake& make, const project::Project& project,
               const project::Role& role) {
    if (!make.weighing) return *make.yarn;
    return measure::net_mass(make.weighing->reading()).centre *
           grist_for(project, role, "earlier make").value;
}

std::string size_text(Ratio size, bool by_stitches) {
    return by_stitches ? units::number_text(size, Step::one, Rounding::nearest) + " stitches"
                       : units::number_text(size, Step::hundredth, Rounding::nearest) + " sq m";
}

FromEarlier best_line(const std::vector<EarlierMake>& makes, Ratio size) {
    if (makes.size() == 1) return from_one_make(makes.front(), size, usual::one_earlier_make);
    FromEarlier plain = from_earlier(makes, size);
    const auto [small, large] = std::minmax_element(
        makes.begin(), makes.end(),
        [](const EarlierMake& a, const EarlierMake& b) { return a.size.value() < b.size.value(); });
    constexpr double apart = 1.1;
    if (makes.size() < 4 || large->size.value() < apart * small->size.value()) return plain;
    // A part that is the same for all makes is believed where it makes the answer surer.
    const FromEarlier fixed = from_earlier_with_fixed(makes, size);
    return fixed.fixed > Length{} && upper_half_width(fixed) < upper_half_width(plain) ? fixed
                                                                                       : plain;
}

std::optional<Rate> earlier_rate(const project::Project& project, const project::Role& role,
                                 const RoleSize& worked) {
    std::vector<EarlierMake> by_stitches;
    std::vector<EarlierMake> by_area;
    bool weighed = false;
    for (const project::EarlierMake& make : project.earlier_makes) {
        if (make.role != role.id) continue;
        const Length yarn = yarn_of(make, project, role);
        weighed = weighed || make.weighing;
        if (make.stitches) by_stitches.push_back({Ratio(*make.stitches / units::stitch), yarn});
        if (make.area) by_area.push_back({Ratio(make.area->value()), yarn});
    }
    if (by_stitches.empty() && by_area.empty()) return std::nullopt;
    const bool stitches = by_stitches.size() >= by_area.size();
    const std::vector<EarlierMake>& makes = stitches ? by_stitches : by_area;
    const Ratio size(stitches ? worked.stitches.value() : worked.area.value());
    if (!(size.value() > 0.0)) return std::nullopt;

    const FromEarlier line = best_line(makes, size);
    Rate rate;
    rate.source = Source::earlier_make;
    rate.short_name = makes.size() == 1 ? "your earlier make" : "your earlier makes";
    rate.whole = line.yarn.estimate.centre;
    rate.how = fmt::format(
        "from {} of your own, by {}: {} a {}{}",
        makes.size() == 1 ? std::string("an earlier make")
                          : fmt::format("{} earlier makes", makes.size()),
        stitches ? "stitches" : "area",
        units::text(line.per_size, stitches ? units::shown::millimetres : units::shown::metres,
                    Step::tenth, Rounding::nearest),
        stitches ? "stitch" : "square metre",
        line.fixed > Length{}
            ? " and " +
                  units::text(line.fixed, units::shown::metres, Step::tenth, Rounding::nearest) +
                  " besides"
            : "");
    if (const auto grist = grist_of(role)) {
        rate.grist = grist->value;
        rate.by_mass = weighed;
        if (weighed) rate.shared = grist->spread;
    }
    double relative = upper_half_width(line) / line.yarn.estimate.centre;
    if (makes.size() < 4) relative = std::max(relative, usual::swatch_to_piece.value());
    rate.causes.push_back({makes.size() == 1 ? "one earlier make, which tells no scatter"
                                             : "earlier makes that differ from each other",
                           Ratio(relative), work_a_swatch});
    if (line.widened)
        rate.notes.push_back(fmt::format(
            "this make, {}, lies outside the earlier ones, {}: the band was widened for that",
            size_text(size, stitches),
            line.beyond_largest.value() > 1.0
                ? units::number_text(line.beyond_largest, Step::tenth, Rounding::nearest) +
                      " times the largest"
                : "below the smallest"));
    if (stitches ? !by_area.empty() : !by_stitches.empty())
        rate.notes.push_back(
            fmt::format("earlier makes measured by {} were passed over: the others are told by {}",
                        stitches ? "area" : "stitches", stitches ? "stitches" : "area"));
    return rate;
}

std::optional<Rate> guessed_rate(const project::Project& project, const project::Role& role) {
    auto guess = measured_by_others(project, role);
    const bool others = guess.has_value();
    if (!guess) guess = by_loop_model(project, role);
    if (!guess) return std::nullopt;
    Rate rate;
    if (const auto grist = grist_of(role)) rate.grist = grist->value;
    rate.source = others ? Source::measured_by_others : Source::loop_model;
    rate.short_name = others ? "the table" : "the model";
    rate.how = guess->how;
    rate.per_stitch = guess->per_stitch;
    rate.causes.push_back({others ? "hands that differ by a sixth for one stitch"
                                  : "a model in place of a measurement",
                           guess->spread, work_a_swatch});
    if (guess->yarn_spread.value() > 0.0)
        rate.causes.push_back({"a thickness known by its class only", guess->yarn_spread,
                               "Add the label's length per mass as grist."});
    rate.notes.emplace_back(
        "nothing of your own tells this yet: a guess, only fit to buy for "
        "with a wide margin");
    return rate;
}

}  // namespace

Ratio combined(const std::vector<Cause>& causes) {
    double sum = 0.0;
    for (const Cause& cause : causes) sum = std::hypot(sum, cause.relative.value());
    return Ratio(sum);
}

std::optional<RoleGrist> grist_of(const project::Role& role) {
    if (!role.grist) return std::nullopt;
    return RoleGrist{role.grist->value,
                     measure::within(role.label_tolerance.value_or(yarn::label_grist_half_width))};
}

RoleGrist grist_for(const project::Project& project, const project::Role& role,
                    const std::string& what) {
    if (const auto grist = grist_of(role)) return *grist;
    throw base::InputError(
        base::Problem{"yarn " + role.id + " has a weighed " + what + " but no length per mass",
                      {.file = project.file, .line = 0, .column = 0},
                      "grist in [yarn." + role.id + "]",
                      "Write grist = \"200 m / 100 g\" as its label says."});
}

std::optional<Rate> stated_total_of(const project::Project& project, const project::Role& role,
                                    std::size_t size) {
    if (!role.total_length.stated() && !role.total_mass.stated()) return std::nullopt;
    if (!role.total_length.stated() && !role.grist)
        throw base::InputError(
            base::Problem{"yarn " + role.id + " has a total by mass but no length per mass",
                          {.file = project.file, .line = 0, .column = 0},
                          "grist in [yarn." + role.id + "]",
                          "Write grist = \"200 m / 100 g\" as its label says."});
    Rate rate;
    if (const auto grist = grist_of(role)) rate.grist = grist->value;
    const bool measured = role.total_basis == project::TotalBasis::measured;
    rate.source = Source::stated_total;
    rate.short_name = "the stated total";
    rate.how =
        measured ? "from the stated total" : "from a stated total that was counted in whole skeins";
    rate.causes.push_back({"a total stated by someone else", usual::stated_total, work_a_swatch});
    if (!measured && role.grist)
        if (const auto skein = yarn::put_up_in(role.grist->text).length)
            rate.may_be_less = skein->value;
    if (!measured)
        rate.notes.emplace_back(
            "the total counts whole skeins, so it was rounded up already; the true need may be "
            "up to one skein less");
    const Length total = role.total_length.stated()
                             ? role.total_length.at(size)
                             : Length(role.total_mass.at(size) * role.grist->value);
    rate.whole = total * at_makers_gauge(project, true, rate);
    return rate;
}

std::vector<Rate> other_rates(const project::Project& project, const project::Role& role,
                              std::size_t size, const RoleSize& worked, bool measured) {
    std::vector<Rate> out;
    if (auto rate = earlier_rate(project, role, worked)) out.push_back(std::move(*rate));
    if (auto rate = stated_rate(project, role)) out.push_back(std::move(*rate));
    if (auto rate = stated_total_of(project, role, size)) out.push_back(std::move(*rate));
    if (!out.empty() || measured) return out;
    if (auto rate = guessed_rate(project, role)) out.push_back(std::move(*rate));
    return out;
}

base::Problem nothing_known(const project::Project& project, const project::Role& role) {
    return {"nothing says how much of yarn " + role.id + " the make takes",
            project.place("yarn." + role.id), "a swatch, a rate or a total for it",
            "Add a [[swatch]] with yarn = \"" + role.id +
                "\", or rate = \"2.9 in per stitch\" or total = \"380 yd\" in [yarn." + role.id +
                "]; with a grist or a class there, a rough guess can be made."};
}

}  // namespace skeinfall::need
