#pragma once
/// \file
/// Pictures beside the join map, in its style: the cover bar (need against skeins) and the
/// grading chart (yarn over sizes). Their figures are those of the texts; an SVG carries them in
/// words.

#include <string>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/materials/section.hpp"
#include "skeinfall/report/materials.hpp"
#include "skeinfall/report/picture.hpp"

namespace skeinfall::report {

/// A bar a yarn: the chosen skeins end to end, lot by lot, and over them where the need ends and
/// the band it may lie in.
[[nodiscard]] std::string cover_bar(const project::Project& project, const cover::MakeCover& cover,
                                    const cover::Rules& rules, PictureFormat format);

/// What tells every yarn of a make, each with its band, and what all of it comes to.
[[nodiscard]] std::string evidence_picture(const project::Project& project,
                                           const need::MakeNeed& make, PictureFormat format);

/// The total of every yarn in every size, its skeins below. Drawn for one size too.
[[nodiscard]] std::string grading_chart(const materials::Section& section, const Style& style,
                                        PictureFormat format);

/// What it says, in words.
[[nodiscard]] std::string grading_words(const materials::Section& section, const Style& style);

}  // namespace skeinfall::report
