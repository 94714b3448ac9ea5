#pragma once
/// \file
/// The Craft Yarn Council's weight classes, 0 to 7; the Council has announced an 8, so the number
/// is open upwards. Table: lib/data/yarn_weight_classes.csv.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/units/quantity.hpp"

namespace skeinfall::yarn {

/// Printed once wherever the Council's table is shown, as the Council asks.
inline constexpr std::string_view class_credit =
    "Source: Craft Yarn Council's www.YarnStandards.com";

struct WeightClass {
    int number = 0;
    bool operator==(const WeightClass&) const = default;
};

/// "Medium" for 4; empty for a class the table does not name yet.
[[nodiscard]] std::string_view class_name(WeightClass weight);

/// "4 (Medium)".
[[nodiscard]] std::string text(WeightClass weight);

/// The classes the table names, in order.
[[nodiscard]] std::vector<WeightClass> known_classes();

/// "4", "#4", "class 4", the Council's name ("medium") or both, without regard to case. Nothing for
/// anything else, nor where the two do not agree.
[[nodiscard]] std::optional<WeightClass> parse_weight_class(std::string_view text);

/// The widest range of yarn length per mass that published charts give a class; an end is open
/// when some chart leaves it open.
struct GristRange {
    std::optional<units::Grist> least;
    std::optional<units::Grist> most;

    [[nodiscard]] bool holds(units::Grist grist) const {
        return (!least || grist >= *least) && (!most || grist <= *most);
    }
};

/// From lib/data/length_per_mass_by_class.csv, eight sources taken together; they disagree, so
/// neighbouring classes overlap. Nothing when no source knows the class.
[[nodiscard]] std::optional<GristRange> published_grist(WeightClass weight);

/// "130 to 250 m per 100 g", "at least 484 m per 100 g", "at most 40 m per 100 g".
[[nodiscard]] std::string text(const GristRange& range);

}  // namespace skeinfall::yarn
