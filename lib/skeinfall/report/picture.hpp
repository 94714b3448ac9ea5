#pragma once
/// \file
/// Pictures of a join plan: the pieces row by row with their skeins, joins and bands, and the
/// fabric of a colour-changing yarn as it will fall. Drawn with Cairo.
///
/// Nothing is told by colour alone: skeins are hatched and named, joins numbered, colours carry a
/// texture and a letter, so that a grey print says the same. The figures are those of joins_text().

#include <optional>
#include <string>
#include <string_view>

#include "skeinfall/joins/answer.hpp"
#include "skeinfall/project/project.hpp"

namespace skeinfall::report {

/// `web` is an SVG for the middle of an HTML page: its letters are text, its ink and its paper are
/// those of the page around it, so that it follows a dark scheme.
enum class PictureFormat { svg, pdf, png, web };

/// By the ending of a file name (.svg, .pdf, .png, without regard to case).
[[nodiscard]] std::optional<PictureFormat> picture_format_of(std::string_view file_name);

/// The whole file. An SVG carries the same figures in words (its title and desc).
[[nodiscard]] std::string joins_picture(const project::Project& project,
                                        const joins::Answer& answer, PictureFormat format);

}  // namespace skeinfall::report
