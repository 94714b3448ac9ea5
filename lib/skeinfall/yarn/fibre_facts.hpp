#pragma once
/// \file
/// What a fibre does: weight, stretch, heat, felting, washing, moisture.
///
/// Tables: lib/data/fibre_summary.csv (one row a fibre) and fibre_facts.csv (one row a fact, with
/// its source; rows from memory say so), regain_by_humidity.csv (from memory).

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "skeinfall/units/quantity.hpp"
#include "skeinfall/yarn/fibre.hpp"
#include "skeinfall/yarn/finding.hpp"

namespace skeinfall::yarn {

using Density = units::Over<units::Mass, units::Times<units::Area, units::Length>>;
inline constexpr Density gram_per_cm3 = Density::from_value(1e6);

/// How far a fibre springs back, from "very low" (linen) to "very high" (elastane).
enum class Elasticity { very_low, low, low_to_medium, medium, high, very_high };

/// One row of the summary.
struct Fibre {
    std::string_view name;   ///< "flax (linen)"
    std::string_view group;  ///< "animal", "plant", "synthetic", ...
    Density density{};       ///< at 65 % relative humidity
    bool density_from_memory = false;
    Elasticity elasticity = Elasticity::medium;
    bool melts = false;
    bool felts = false;
};

/// The fibre a printed name is a kind of; nothing when the table does not know it. Superwash wool
/// does not felt; mercerised cotton has its own row.
[[nodiscard]] std::optional<Fibre> fibre_called(std::string_view printed);

/// Every fibre of the summary, in its order.
[[nodiscard]] std::vector<Fibre> known_fibres();

/// The fibres that the table does not know, as printed. Nothing follows for them: a content that
/// holds one may melt, felt or itch for all that can be said.
[[nodiscard]] std::vector<std::string> unknown_fibres(const FibreContent& content);

/// The known name that a printed one may be a slip for.
[[nodiscard]] std::optional<std::string> nearest_fibre(std::string_view printed);

/// A caution that names them, with a known name that one may be a slip for; nothing when there is
/// none.
[[nodiscard]] std::optional<Finding> check_fibres(const FibreContent& content);

/// One fact in words.
struct Fact {
    std::string_view value;
    std::string_view source;
    bool from_memory = false;
};

/// A fact of a printed fibre: "care", "drape", "heat behaviour", "skin", "ironing temperature,
/// upper guide". The row of a form named in print ("superwash") goes before the plain one, and
/// a source read before memory.
[[nodiscard]] std::optional<Fact> fact_of(std::string_view printed, std::string_view property);

/// Mean density of a content: its mass over the volume of its fibres. Nothing when a fibre is
/// not known.
[[nodiscard]] std::optional<Density> density_of(const FibreContent& content);

/// Mean elasticity, 0 (very low) to 5 (very high), weighted by mass. Nothing when a fibre is not
/// known.
[[nodiscard]] std::optional<units::Ratio> elasticity_of(const FibreContent& content);

/// A range, for a trade allowance depends on how a fibre was prepared and labels seldom say.
struct Allowance {
    units::Ratio least{};
    units::Ratio most{};
};

/// Agreed allowance for moisture as a share of dry mass: the mean of the fibres' allowances
/// weighted by their shares (Regulation (EU) 1007/2011, Annex IX). "combed wool" narrows wool's
/// 17.00 to 18.25 %. Nothing when a fibre is not listed.
[[nodiscard]] std::optional<Allowance> agreed_allowance(const FibreContent& content);

/// Air of a room, by relative humidity.
enum class Humidity { dry_40, standard_65, damp_80 };

/// Mass of the content in air `to` over its mass in air `from`. Fibres whose regain is known at
/// 65 % only count as unchanged. Nothing when a fibre is not listed. The table is from memory.
[[nodiscard]] std::optional<units::Ratio> mass_change(const FibreContent& content, Humidity from,
                                                      Humidity to);

/// Relative standard uncertainty of a mass when the air may be anywhere from 40 to 80 % humid.
/// Leave it out when both weighings were made on one day in one room: it cancels.
[[nodiscard]] std::optional<units::Ratio> humidity_spread(const FibreContent& content);

}  // namespace skeinfall::yarn
