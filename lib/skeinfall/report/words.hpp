#pragma once
/// \file
/// The words and figures all reports share, so that one thing reads the same everywhere.

#include <cstdint>
#include <string>
#include <vector>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/joins/plan.hpp"
#include "skeinfall/measure/chance.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/units/quantity.hpp"

namespace skeinfall::report {

using units::yards_and_metres;

/// "97 %", rounded down; "> 99 %" and "< 1 %" at the ends, never 100 or 0.
[[nodiscard]] std::string chance_text(measure::Chance chance);
/// For programs: at most 0.9999, since nothing measured is certain.
[[nodiscard]] units::Ratio chance_figure(measure::Chance chance);

/// "Wharfside pullover, size M".
[[nodiscard]] std::string title_text(const project::Project& project, std::size_t size);

/// The same of a title and a size that are known apart; no size where it is empty.
[[nodiscard]] std::string sized_title(const std::string& title, const std::string& size);

/// "MC Gorsebrook Worsted moss".
[[nodiscard]] std::string role_heading(const project::Role& role);

/// "g" or "oz": the unit of a scale with this step.
[[nodiscard]] std::string scale_unit(units::Mass step);

/// What a scale with this step must show: "13 g", "13.2 g", "13.25 g".
[[nodiscard]] std::string scale_text(units::Mass mass, units::Mass step,
                                     units::Rounding rounding = units::Rounding::nearest);

/// "2 skeins", "1 skein".
[[nodiscard]] std::string counted(std::int64_t count, const std::string& one,
                                  const std::string& many);

/// "row 12 of wrap", "row 3 of mitten 2", "foundation of wrap", "border".
[[nodiscard]] std::string step_text(const project::Project& project, const need::Step& step);

/// "after row 59 of wrap", "in row 60 of wrap, 40 % along".
[[nodiscard]] std::string place_text(const project::Project& project, const joins::JoinPlan& plan,
                                     const joins::Position& position);

/// Rows of cells with aligned columns, `indent` blanks before each; columns named in `right` are
/// set flush right. Widths count characters, not bytes. No trailing blanks. Where the page of the
/// units::number_style() is narrower, the widest columns are folded.
[[nodiscard]] std::string table(const std::vector<std::vector<std::string>>& rows,
                                const std::vector<bool>& right, std::size_t indent);

}  // namespace skeinfall::report
