#include "skeinfall/need/detail/gauge_check.hpp"

#include <optional>
#include <set>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/need/plausible.hpp"
#include "skeinfall/project/makes_like_it.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/label_check.hpp"

namespace skeinfall::need::detail {
namespace {

using units::Length;

/// Shells and repeats are as wide as they please.
bool is_plain(const std::string& stitch) {
    static const std::set<std::string> plain{"sc", "hdc",         "dc",     "tr",  "st", "sts",
                                             "k",  "stockinette", "garter", "rib", ""};
    return plain.contains(base::lower(stitch));
}

/// "14 stitches to 10 in" for 10 cm, on the hook that she names.
std::optional<GaugeAgainstTool> against_tool(const project::Project& project) {
    const project::Gauge& gauge = project.gauge;
    const std::optional<Length> tool = gauge.hook ? gauge.hook : gauge.needle;
    if (!tool || gauge.usual || !(gauge.stitches.value() > 0.0) || !is_plain(gauge.stitch))
        return std::nullopt;
    const Length stitch = units::stitch / gauge.stitches;
    if (stitch <= widest_for_tool.value() * *tool && stitch >= narrowest_for_tool.value() * *tool)
        return std::nullopt;
    return GaugeAgainstTool{stitch, *tool};
}

/// "14 stitches to the inch" for 10 cm, in the yarn that she names. Open lace has few stitches, but
/// no fabric has so many.
std::optional<GaugeAgainstYarn> against_yarn(const project::Project& project,
                                             const project::Role& role) {
    const project::Gauge& gauge = project.gauge;
    const bool counted = !gauge.usual && gauge.stitches.value() > 0.0 && gauge.rows.value() > 0.0;
    if (!counted || !is_plain(gauge.stitch)) return std::nullopt;
    project::FabricFacts facts = project::fabric_of(project, role);
    if (!facts.grist && !facts.weight) return std::nullopt;
    facts.tool.reset();
    const auto usual = project::usual_gauge(facts);
    if (!usual || !facts.stitches || !facts.rows) return std::nullopt;
    // No hand yarn: its label is told of by itself.
    if (facts.grist &&
        (*facts.grist < yarn::least_hand_grist || *facts.grist > yarn::most_hand_grist))
        return std::nullopt;
    const double times = (*facts.stitches / usual->stitches) * (*facts.rows / usual->rows);
    if (times <= most_of_usual_gauge.value() && times >= least_of_usual_gauge.value())
        return std::nullopt;
    return GaugeAgainstYarn{units::Ratio(times)};
}

std::string tenth_text(double value) {
    return units::plain_number(units::Ratio(value), units::Step::tenth, units::Rounding::nearest);
}

std::string times_text(double times) {
    return times > 1.0 ? tenth_text(times) + " times as many"
                       : "only " + tenth_text(100.0 * times) + " % as many";
}

}  // namespace

void hold_gauge(MakeNeed& make, const project::Project& project) {
    const auto tool = against_tool(project);
    for (RoleNeed& need : make.roles) {
        if (tool) need.contradictions.emplace_back(*tool);
        if (const auto yarn = against_yarn(project, *project.role(need.role)))
            need.contradictions.emplace_back(*yarn);
    }
}

project::Findings gauge_far_off(const project::Project& project) {
    project::Findings out;
    const auto add = [&](std::string what) {
        out.push_back({project::Severity::caution, project.place("gauge", "stitches"),
                       std::move(what), "Check the gauge, and over how much it was counted."});
    };
    if (const auto tool = against_tool(project))
        add(fmt::format("by the gauge a stitch is {} mm wide, but the hook or needle is {} mm",
                        tenth_text(tool->stitch / units::millimetre),
                        tenth_text(tool->tool / units::millimetre)));
    for (const project::Role& role : project.roles)
        if (const auto yarn = against_yarn(project, role))
            add(fmt::format(
                "yarn {}: the gauge puts {} stitches into an area as is usual for such yarn",
                role.id, times_text(yarn->times.value())));
    return out;
}

}  // namespace skeinfall::need::detail
