#pragma once
/// \file
/// One physical ball, hank or cone that a maker owns, and what it can give.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "skeinfall/base/day.hpp"
#include "skeinfall/measure/estimate.hpp"
#include "skeinfall/measure/weighing.hpp"
#include "skeinfall/units/parse.hpp"
#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/yarn.hpp"

namespace skeinfall::stash {

/// An amount as it was entered.
using Amount = std::variant<units::Printed<units::Length>, units::Printed<units::Mass>>;

/// Its text.
[[nodiscard]] const std::string& text(const Amount& amount);

/// What was taken off a skein and added to it since the count of it started: since its latest
/// weighing, since nothing was left of it, or since it came whole.
struct Changes {
    bool from_nothing = false;      ///< all had gone, or it began with yarn wound off another
    units::Mass mass{};             ///< sum of the amounts entered as a mass; below zero when taken
    units::Mass mass_spread{};      ///< from the steps of the scales
    units::Length length{};         ///< sum of the amounts entered as a length
    units::Length length_spread{};  ///< see changed_length_half_width

    bool operator==(const Changes&) const = default;
};

/// Half width of the band that an amount entered as a length is taken to lie in: rectangular,
/// +-5 %. A judgement: lengths are laid along a table or taken from a pattern.
inline constexpr units::Ratio changed_length_half_width = units::Ratio::from_value(0.05);

/// Yarn of a skein that is set aside for a project.
struct Promise {
    std::string project;           ///< its title
    std::string role;              ///< which of its yarns; empty: any
    std::optional<Amount> amount;  ///< nothing: all there is
    units::Mass used_mass{};       ///< what went into the project since
    units::Length used_length{};
    std::optional<base::Day> day;

    bool operator==(const Promise&) const = default;
};

struct Skein {
    std::string id;  ///< shown to people, stable, never used again
    yarn::Yarn yarn;
    std::string colourway;                      ///< empty when not known
    std::optional<std::string> dye_lot;         ///< nothing when not known
    std::optional<std::string> shade_group;     ///< judged alike by eye; stands above the dye lot
    bool part = false;                          ///< begun, or wound off another skein
    std::optional<measure::Weighing> weighing;  ///< the latest
    std::optional<Changes> since;               ///< nothing when nothing happened since
    int knots = 0;                              ///< known joins inside the skein
    std::string note;
    std::vector<Promise> set_aside;  ///< at most one a project, in the order they were made

    bool operator==(const Skein&) const = default;
};

/// Whether it is less than a whole one: it came begun, or was weighed and shows so much less than
/// its label that no whole skein may lie that low (twice the tolerable error; Directive
/// 76/211/EEC, Annex I).
[[nodiscard]] bool is_part(const Skein& skein);

/// A part of which nobody knows how much it is: only a scale tells.
[[nodiscard]] bool never_weighed_part(const Skein& skein);

/// Skeins with the same key may be used side by side without a visible step. The shade group
/// decides when there is one, then the dye lot within its yarn and colourway; names are compared by
/// base::name_key() and base::lot_name_key(). An unknown lot equals nothing, not even another
/// unknown, so such a skein is keyed by its own id.
[[nodiscard]] std::string lot_key(const Skein& skein);

/// "lot A17", "shade group dusk", "lot unknown (s12)".
[[nodiscard]] std::string lot_text(const Skein& skein);

/// What a skein's length was worked out from.
enum class SupplyBasis {
    label,    ///< came whole and was never weighed: the label's length
    weighed,  ///< own weighing and the label's length per mass
    amounts,  ///< only the amounts entered since there was nothing of it
};

/// Length a skein can give. `own` is this skein's spread, `shared` the part that is the same
/// for every skein of its yarn (the label's length per mass): shared parts add up, own parts in
/// quadrature.
struct Supply {
    units::Length length{};
    units::Length own{};
    units::Length shared{};
    SupplyBasis basis = SupplyBasis::label;
};

/// Where the count started, with what changed since. Nothing when the length cannot be known (no
/// label, or a skein that came begun and was never weighed) or would not be above zero.
[[nodiscard]] std::optional<Supply> supply_of(const Skein& skein);

/// Why supply_of() gave nothing.
enum class SupplyGap {
    no_label_length,
    never_weighed,  ///< a part of which nobody knows how much it is
    no_label_mass,
    nothing_left,       ///< by what was entered
    no_more_than_tare,  ///< its reading
};
/// Nothing when supply_of() gave a supply.
[[nodiscard]] std::optional<SupplyGap> supply_gap(const Skein& skein);

/// Sum over skeins: own spreads in quadrature, shared ones linearly within a yarn and in
/// quadrature across yarns. Meant for skeins that serve one role; metres of different stuff are
/// not added up anywhere else.
[[nodiscard]] measure::Estimate<units::Length> total(const std::vector<Skein>& skeins,
                                                     bool leave_out_shared);
[[nodiscard]] measure::Estimate<units::Length> total(const std::vector<const Skein*>& skeins,
                                                     bool leave_out_shared);

/// What is wrong with a skein's figures (a reading not above its tare, a part skein heavier than
/// its label allows); empty when nothing is.
[[nodiscard]] std::vector<std::string> faults(const Skein& skein);

}  // namespace skeinfall::stash
