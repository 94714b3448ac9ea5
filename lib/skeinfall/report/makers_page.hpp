#pragma once
/// \file
/// A designer's page to publish beside a pattern: width and length in whole repeats, or the sizes
/// of the pattern, to choose from; what each of them takes; the materials. One file that asks the
/// network for nothing. Every figure is worked out here: the page looks it up. It holds nothing of
/// a stash, of testers by name or of the designer's own swatches.

#include <cstddef>
#include <string>

#include "skeinfall/materials/on_offer.hpp"
#include "skeinfall/materials/section.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/report/materials.hpp"
#include "skeinfall/report/page.hpp"

namespace skeinfall::report {

struct MakersPage {
    const project::Project& project;
    const need::MakeNeed& need;  ///< of the size that is drawn
    const materials::Section& section;
    const materials::Offer& offer;
    Style style;
};

[[nodiscard]] std::string makers_page_html(const MakersPage& page);

/// The same on paper: every size with what it takes, where the other is looked up.
[[nodiscard]] std::string makers_page_pdf(const MakersPage& page, Paper paper);

/// "Long Ferry wrap: 13 widths, 4 in (10 cm) to 16 in (41 cm), by 13 lengths, ...": what there is
/// to choose, or why there is nothing. Ends its line.
[[nodiscard]] std::string offer_text(const project::Project& project,
                                     const materials::Offer& offer);

}  // namespace skeinfall::report
