#pragma once
/// \file
/// Every figure of a materials section, so that a thing reads the same in all its formats. Inner
/// header of report.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "skeinfall/report/detail/materials_words.hpp"
#include "skeinfall/report/materials.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::report {

/// Totals of a hundred and more are printed to the next 5, in yards and in metres each from the
/// unrounded length.
[[nodiscard]] std::string total_number(units::Length total, const units::Shown<units::Length>& unit,
                                       std::optional<units::Length> at_most = std::nullopt);

/// What the skeins beside a total hold, where they are counted.
[[nodiscard]] std::optional<units::Length> held_by(const std::vector<units::Length>& skeins_hold,
                                                   std::size_t size);

/// A measure as a ruler shows it, without its unit and never 0: quarters of an inch from 4 in on,
/// eighths below; centimetres from 10 cm on, millimetres below.
[[nodiscard]] std::string ruler_inches(units::Length side);
[[nodiscard]] std::string ruler_centimetres(units::Length side);
/// "27.5 in (70 cm)", or what the style in force asks for.
[[nodiscard]] std::string ruler_text(units::Length side);

/// To a tenth of a gram.
[[nodiscard]] std::string grams_text(units::Mass mass, units::Rounding rounding);

/// A mass that is needed: "168 g", or "6 oz (168 g)" for who reads no metric units.
[[nodiscard]] std::string mass_up(units::Mass mass);

class Figures {
  public:
    /// Figures are in the units::number_style() in force.
    explicit Figures(const MaterialsWords& words) : words_(words) {}

    /// "S (M, L, XL)"; one entry when all are alike.
    [[nodiscard]] static std::string sizes(const std::vector<std::string>& values);

    /// "940 (1055, 1180) yd / 860 (965, 1080) m".
    [[nodiscard]] static std::string totals(const std::vector<units::Length>& totals,
                                            const std::vector<units::Length>& skeins_hold);
    /// "16.5 (18.5) in / 42 (47) cm".
    [[nodiscard]] static std::string finished(const std::vector<units::Length>& lengths);
    /// "200 yd (183 m)": the figure of the label as printed, the other system beside it.
    [[nodiscard]] std::string label(const units::Printed<units::Length>& length) const;
    [[nodiscard]] std::string label(const units::Printed<units::Mass>& mass) const;
    /// "200 yd per 100 g (185 m per 100 g)", to the next 5 or the nearest.
    [[nodiscard]] std::string grist(units::Grist grist) const;
    /// "14 sts and 9 rows to 4 in (10 cm)", as the trade has it; each exact, to the half, where the
    /// two differ by a whole stitch or row. `rounds`: all is worked in the round.
    [[nodiscard]] std::string gauge(const project::Gauge& gauge, bool rounds) const;
    /// "5.5 mm (US I-9)". Hooks have no UK label that charts agree on.
    [[nodiscard]] static std::string hook(units::Length diameter, bool us);
    /// "4 mm (US 6, UK 8)", with the labels that are wanted.
    [[nodiscard]] std::string needle(units::Length diameter, bool us, bool uk) const;

  private:
    [[nodiscard]] std::string as_printed(const std::string& text, const std::string& imperial,
                                         const std::string& metric) const;

    const MaterialsWords& words_;
};

/// User text in the middle of other text: inert, and kept apart when its script runs from right
/// to left.
[[nodiscard]] std::string shown_apart(const std::string& text);

}  // namespace skeinfall::report
