#pragma once
/// \file
/// Yarn of one stitch from gauge and yarn alone, where no hand has measured it yet: figures that
/// others measured, and models of the loop. Both are a last resort, and their bands say so.
///
/// Tables: lib/data/stitch_yarn.csv (measured), loop_constants.csv (Munden, Peirce: from memory)
/// and loop_paths.csv (crochet: our own count of the yarn's path, not published).

#include <optional>
#include <string>
#include <string_view>

#include "skeinfall/project/project.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::need {

/// What has become of the fabric since it left the needles.
enum class Relaxation { dry, wet, full };

/// Loop of plain knitting from the room a stitch has: sqrt(ks x width x height). Munden, J. Text.
/// Inst. 50 (1959) T448, from memory.
[[nodiscard]] units::Length munden_loop(units::Length width, units::Length height,
                                        Relaxation state);

/// The same from the shape of the loop: 2 heights + a width + 5.94 diameters. Peirce, Text. Res.
/// J. 17 (1947) 123, from memory.
[[nodiscard]] units::Length peirce_loop(units::Length width, units::Length height,
                                        units::Length diameter);

/// Yarn of one chain, sc, hdc, dc, tr or dtr by our own model; nothing for another stitch.
[[nodiscard]] std::optional<units::Length> crochet_loop(std::string_view stitch,
                                                        units::Length width, units::Length height,
                                                        units::Length diameter);

/// Core diameter of a hand yarn of this length per mass, with the packing of the table. An unknown
/// content counts as wool.
[[nodiscard]] units::Length hand_yarn_diameter(units::Grist grist,
                                               const yarn::FibreContent& content);

/// Relative spread of one kind by each way (judgements from how far published measurements of one
/// stitch lie apart: 16 to 24 % between two makers).
inline constexpr units::Ratio measured_by_others_spread = units::Ratio::from_value(0.17);
inline constexpr units::Ratio crochet_model_spread = units::Ratio::from_value(0.15);
/// The states of relaxation are 5 % apart, and hand fabrics are looser than any the constants were
/// found on.
inline constexpr units::Ratio knit_model_spread = units::Ratio::from_value(0.10);
/// A knitted stitch that the model does not know: a published lace takes 1.6 times the plain loop.
inline constexpr units::Ratio unknown_knit_spread = units::Ratio::from_value(0.25);

/// Yarn of one stitch of the gauge.
struct GuessedRate {
    units::YarnPerStitch per_stitch{};
    units::Ratio spread{};       ///< of the way itself
    units::Ratio yarn_spread{};  ///< from a thickness that only the weight class tells
    std::string how;
};

/// What others measured of this stitch in this class of yarn, taken to the project's gauge by
/// area. Nothing when the table has no such row.
[[nodiscard]] std::optional<GuessedRate> measured_by_others(const project::Project& project,
                                                            const project::Role& role);

/// The model of the craft. Crochet needs a stitch that the model knows, and a length per mass or a
/// class of yarn; nothing otherwise.
[[nodiscard]] std::optional<GuessedRate> by_loop_model(const project::Project& project,
                                                       const project::Role& role);

}  // namespace skeinfall::need
