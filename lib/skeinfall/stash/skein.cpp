#include "skeinfall/stash/skein.hpp"

#include <map>

#include "skeinfall/base/name.hpp"
#include "skeinfall/measure/propagate.hpp"
#include "skeinfall/stash/at_hand.hpp"

namespace skeinfall::stash {

const std::string& text(const Amount& amount) {
    return std::visit([](const auto& printed) -> const std::string& { return printed.text; },
                      amount);
}

std::string lot_key(const Skein& skein) {
    const std::string of =
        base::name_key(skein.yarn.name) + "\x1f" + base::name_key(skein.colourway) + "\x1f";
    if (skein.shade_group) return of + "group\x1f" + base::name_key(*skein.shade_group);
    if (skein.dye_lot) return of + "lot\x1f" + base::lot_name_key(*skein.dye_lot);
    return of + "skein\x1f" + skein.id;
}

std::string lot_text(const Skein& skein) {
    if (skein.shade_group && *skein.shade_group == shade_at_hand) return "your lot";
    if (skein.shade_group) return "shade group " + *skein.shade_group;
    if (skein.dye_lot) {
        // As it was typed, but never "lot lot 4411".
        const bool has_word = base::lot_name_key(*skein.dye_lot) != base::name_key(*skein.dye_lot);
        return (has_word ? "" : "lot ") + *skein.dye_lot;
    }
    return "lot unknown (" + skein.id + ")";
}

std::optional<Supply> supply_of(const Skein& skein) {
    const auto grist = yarn::label_grist(skein.yarn.label);
    const double label_share = measure::within(yarn::label_grist_half_width);
    const Changes since = skein.since.value_or(Changes{});
    Supply out;
    units::Mass mass = since.mass;
    units::Mass mass_spread = since.mass_spread;
    if (skein.weighing && grist) {
        const auto net = measure::net_mass(skein.weighing->reading());
        mass += net.centre;
        mass_spread = measure::in_quadrature(mass_spread, net.spread);
        out.basis = SupplyBasis::weighed;
    } else if (since.from_nothing) {
        out.basis = SupplyBasis::amounts;
    } else {
        const bool counted_from_label = !skein.part || (skein.since && !skein.weighing);
        if (!counted_from_label || !skein.yarn.label.length) return std::nullopt;
        out.length = skein.yarn.label.length->value;
        // A weighing says nothing when the label has no mass, but a whole skein still has its
        // label's length. A label without a mass gets the spread of a 100 g ball.
        const units::Mass nominal =
            skein.yarn.label.mass ? skein.yarn.label.mass->value : 100.0 * units::gram;
        out.own = out.length * (yarn::label_mass_spread(nominal) / nominal);
        out.shared = out.length * label_share;
    }
    if (mass.value() != 0.0) {
        if (!grist) return std::nullopt;
        out.length += mass * grist->centre;
        out.shared += mass * grist->spread;
        out.own = measure::in_quadrature(out.own, mass_spread * grist->centre);
    }
    out.length += since.length;
    out.own = measure::in_quadrature(out.own, since.length_spread);
    if (out.length.value() <= 0.0) return std::nullopt;
    if (out.shared.value() < 0.0) out.shared = -out.shared;
    return out;
}

bool is_part(const Skein& skein) {
    if (skein.part) return true;
    if (!skein.weighing || !skein.yarn.label.mass) return false;
    const units::Mass label = skein.yarn.label.mass->value;
    const auto net = measure::net_mass(skein.weighing->reading());
    return net.centre + 0.5 * skein.weighing->scale.value <
           label - 2.0 * yarn::tolerable_error(label);
}

bool never_weighed_part(const Skein& skein) {
    return skein.part && !skein.weighing && !skein.since;
}

std::optional<SupplyGap> supply_gap(const Skein& skein) {
    if (supply_of(skein)) return std::nullopt;
    if (!skein.yarn.label.length) return SupplyGap::no_label_length;
    if (never_weighed_part(skein)) return SupplyGap::never_weighed;
    if (!skein.yarn.label.mass) return SupplyGap::no_label_mass;
    return skein.since ? SupplyGap::nothing_left : SupplyGap::no_more_than_tare;
}

measure::Estimate<units::Length> total(const std::vector<const Skein*>& skeins,
                                       bool leave_out_shared) {
    units::Length sum{};
    units::Length own{};
    std::map<std::string, units::Length> shared;
    for (const Skein* skein : skeins) {
        const auto supply = supply_of(*skein);
        if (!supply) continue;
        sum += supply->length;
        own = measure::in_quadrature(own, supply->own);
        shared[base::name_key(skein->yarn.name)] += supply->shared;
    }
    units::Length spread = own;
    if (!leave_out_shared)
        for (const auto& [yarn, part] : shared) spread = measure::in_quadrature(spread, part);
    return {sum, spread};
}

measure::Estimate<units::Length> total(const std::vector<Skein>& skeins, bool leave_out_shared) {
    std::vector<const Skein*> all;
    all.reserve(skeins.size());
    for (const Skein& skein : skeins) all.push_back(&skein);
    return total(all, leave_out_shared);
}

std::vector<std::string> faults(const Skein& skein) {
    std::vector<std::string> out;
    if (!skein.weighing) return out;
    const auto mass = measure::net_mass(skein.weighing->reading());
    if (mass.centre.value() <= 0.0)
        out.emplace_back("the scale shows no more than the cone or bag: nothing would be left");
    if (skein.yarn.label.mass) {
        // Above the heaviest plausible whole skein, or two that were wound as one, it was misread
        // or mislabelled.
        const double most = skein.part ? 1.2 : 2.4;
        if (mass.centre - 0.5 * skein.weighing->scale.value > most * skein.yarn.label.mass->value)
            out.push_back((skein.part ? "a part skein that weighs more than a whole one"
                                      : "a skein that weighs more than two") +
                          (" by its label (" + skein.yarn.label.mass->text) + ")");
    }
    return out;
}

}  // namespace skeinfall::stash
