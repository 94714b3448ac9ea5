#pragma once
/// \file
/// The colour each yarn of a project is drawn in. Inner header of report.

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "skeinfall/project/project.hpp"
#include "skeinfall/report/detail/picture_canvas.hpp"

namespace skeinfall::report {

/// What the words of a colourway say: "teal", "dark sea green" (its last words that
/// lib/data/colour_words.csv knows). Nothing for a name that is no colour.
[[nodiscard]] std::optional<Shade> shade_by_words(std::string_view colour);

/// Of each role, in the project's order: its own shade, else what its colour's words say, else one
/// of the usual ones. Each has a pattern of its own beside it, so that a grey print tells them
/// apart. A strand held with another is drawn on that one.
[[nodiscard]] std::vector<Dye> dyes_of(const project::Project& project);

/// The same of a run of a colour-changing yarn, by its index.
[[nodiscard]] Shade shade_of_run(const project::ColourRun& run, std::size_t index);

}  // namespace skeinfall::report
