#pragma once
/// \file
/// Every figure of a materials section, so that a thing reads the same in all its formats. Inner
/// header of report.

#include <functional>
#include <string>
#include <vector>

#include "skeinfall/report/detail/materials_words.hpp"
#include "skeinfall/report/materials.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::report {

/// Totals of a hundred and more are printed to the next 5, in yards and in metres each from the
/// unrounded length.
[[nodiscard]] std::string total_number(units::Length total,
                                       const units::Shown<units::Length>& unit);

class Figures {
  public:
    Figures(const Style& style, const MaterialsWords& words) : style_(style), words_(words) {}

    [[nodiscard]] std::string number(units::Ratio value, units::Step step,
                                     units::Rounding rounding) const;
    [[nodiscard]] std::string percent(units::Ratio share, units::Step step,
                                      units::Rounding rounding) const;

    /// "S (M, L, XL)"; one entry when all are alike.
    [[nodiscard]] std::string sizes(const std::vector<std::string>& values) const;

    /// "940 (1055, 1180) yd / 860 (965, 1080) m".
    [[nodiscard]] std::string totals(const std::vector<units::Length>& totals) const;
    /// "16.5 (18.5) in / 42 (47) cm".
    [[nodiscard]] std::string finished(const std::vector<units::Length>& lengths) const;
    /// "200 yd (183 m)": the figure of the label as printed, the other system beside it.
    [[nodiscard]] std::string label(const units::Printed<units::Length>& length) const;
    [[nodiscard]] std::string label(const units::Printed<units::Mass>& mass) const;
    /// "200 yd per 100 g (185 m per 100 g)", to the next 5 or the nearest.
    [[nodiscard]] std::string grist(units::Grist grist) const;
    /// "14 sts and 9 rows to 4 in / 10 cm".
    [[nodiscard]] std::string gauge(const project::Gauge& gauge) const;
    /// "4 mm (US 6, UK 8)"; hooks have no UK label that charts agree on.
    [[nodiscard]] std::string hook(units::Length diameter) const;
    [[nodiscard]] std::string needle(units::Length diameter) const;

    [[nodiscard]] bool metric() const { return style_.systems != Systems::imperial; }
    [[nodiscard]] bool imperial() const { return style_.systems != Systems::metric; }

  private:
    [[nodiscard]] std::string marked(std::string number) const;
    [[nodiscard]] std::string both(const std::string& imperial, const std::string& metric) const;
    [[nodiscard]] std::string as_printed(const std::string& text, const std::string& imperial,
                                         const std::string& metric) const;

    const Style& style_;
    const MaterialsWords& words_;
};

/// User text in the middle of other text: inert, and kept apart when its script runs from right
/// to left.
[[nodiscard]] std::string shown_apart(const std::string& text);

}  // namespace skeinfall::report
