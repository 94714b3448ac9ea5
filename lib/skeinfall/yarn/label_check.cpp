#include "skeinfall/yarn/label_check.hpp"

#include <algorithm>
#include <cmath>

#include "skeinfall/measure/chance.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/detail/cells.hpp"
#include "skeinfall/yarn/fibre_facts.hpp"
#include "skeinfall/yarn/yarn.hpp"

namespace skeinfall::yarn {
namespace {

using units::Ratio;
using units::Rounding;
using units::Step;

std::string yarn(units::Length length) {
    return units::yards_and_metres(length, Rounding::nearest);
}

bool is_hand_grist(units::Grist grist) {
    return grist >= least_hand_grist && grist <= most_hand_grist;
}

void check_lengths(units::Length one, units::Length other, std::vector<Finding>& out) {
    const double off = std::abs(Ratio(one / other).value() - 1.0);
    if (off <= same_length_within.value() + 1e-9) return;
    out.push_back({Level::caution, "lengths",
                   "The two lengths differ by " +
                       units::percent_text(Ratio(off), Step::tenth, Rounding::nearest) +
                       ": read one way it is " + yarn(one) + ", the other way " + yarn(other) +
                       ". Use one unit throughout; the shorter is the safe one.",
                   "case: yards one way, metres the other (agoodyarn.biz/tips.html)"});
}

void check_grist(units::Grist grist, std::vector<Finding>& out) {
    if (is_hand_grist(grist)) return;
    const bool too_long = grist > most_hand_grist;
    const units::Grist swapped = too_long ? grist * Ratio(units::gram / units::ounce).value()
                                          : grist * Ratio(units::ounce / units::gram).value();
    std::string says =
        metres_per_100g(grist) +
        (too_long ? " is finer than any hand yarn" : " is thicker than any hand yarn") +
        " (2 to 4000)";
    if (is_hand_grist(swapped))
        says += std::string("; if the weight is in ") + (too_long ? "ounces" : "grams") +
                " it is " + metres_per_100g(swapped);
    out.push_back(
        {Level::caution, "grist", says + ". Check both units.", "limits of ours; no source"});
}

void check_class(units::Grist grist, WeightClass weight, std::vector<Finding>& out) {
    const auto range = published_grist(weight);
    if (!range) return;
    // Charts leave gaps; a tenth beyond their ends is still no contradiction.
    if (range->holds(grist) || range->holds(grist * 1.1) || range->holds(grist / 1.1)) return;
    std::string others;
    for (const WeightClass other : known_classes()) {
        const auto theirs = published_grist(other);
        if (theirs && theirs->holds(grist)) others += (others.empty() ? "" : " or ") + text(other);
    }
    out.push_back({Level::caution, "class",
                   "The label says class " + text(weight) + ", for which charts give " +
                       text(*range) + ", but it runs " + metres_per_100g(grist) +
                       (others.empty() ? "." : ", like class " + others + "."),
                   "lib/data/length_per_mass_by_class.csv, eight charts"});
}

}  // namespace

std::vector<Finding> check_label(const LabelFigures& label) {
    std::vector<Finding> out;
    if (label.length && label.other_length) check_lengths(*label.length, *label.other_length, out);
    if (label.length && label.mass) {
        const units::Grist grist = *label.length / *label.mass;
        check_grist(grist, out);
        if (label.weight && is_hand_grist(grist)) check_class(grist, *label.weight, out);
    }
    return out;
}

std::vector<Finding> check_parts(units::Length whole, const std::vector<units::Length>& parts) {
    units::Length sum{};
    for (const units::Length& part : parts) sum += part;
    const double off = std::abs(Ratio(sum / whole).value() - 1.0);
    if (off <= same_length_within.value() + 1e-9) return {};
    return {{Level::caution, "total",
             "The parts add up to " + yarn(sum) + ", the whole is " + yarn(whole) +
                 ": one of them is wrong.",
             "S184 ledger of one skein"}};
}

std::optional<ShortWeight> short_weight(units::Length label_length, units::Mass label_mass,
                                        const measure::Estimate<units::Mass>& weighed,
                                        const FibreContent& content) {
    const units::Mass missing = label_mass - weighed.centre;
    const units::Mass usual =
        measure::in_quadrature(weighed.spread, label_mass_spread(label_mass)) *
        measure::deviations_for(measure::usual_confidence).value();
    if (missing <= usual) return std::nullopt;
    ShortWeight out{label_length * Ratio(weighed.centre / label_mass).value(), label_length,
                    std::nullopt};
    if (const auto dry = mass_change(content, Humidity::standard_65, Humidity::dry_40))
        out.dry_explains =
            Ratio(std::min(1.0, Ratio(label_mass * (1.0 - dry->value()) / missing).value()));
    return out;
}

}  // namespace skeinfall::yarn
