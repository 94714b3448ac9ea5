#pragma once
/// \file
/// A page to keep beside the work: is there enough yarn, where it is joined, when to stop, what is
/// needed, and every row to tick off. As HTML it is one file that asks the network for nothing;
/// it is read without a script, which only keeps the ticks in the reader's own browser. As PDF it
/// is the same, with boxes to tick by hand.

#include <string>

#include "skeinfall/cover/cover.hpp"
#include "skeinfall/joins/answer.hpp"
#include "skeinfall/materials/section.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/project/project.hpp"
#include "skeinfall/report/materials.hpp"
#include "skeinfall/report/picture.hpp"

namespace skeinfall::report {

/// What the page is about; all of one project in one size.
struct MakePage {
    const project::Project& project;
    const need::MakeNeed& need;
    const cover::MakeCover& cover;
    const cover::Rules& rules;
    const joins::Answer& joins;
    const materials::Section& materials;
    Style style;  ///< of the numbers everywhere, and of the words of the materials
};

/// The make as it will look: every piece row by row in its own colours, with its measures, and on
/// it where yarn is joined and from where on to weigh. A yarn is drawn in its `shade`, else as its
/// colour's words say, with a pattern beside it.
[[nodiscard]] std::string make_picture(const MakePage& page, PictureFormat format);

/// The page's beginning for a terminal: verdict, why in one line, what to do next.
[[nodiscard]] std::string page_head_text(const MakePage& page);

[[nodiscard]] std::string page_html(const MakePage& page);

enum class Paper { a4, letter };

[[nodiscard]] std::string page_pdf(const MakePage& page, Paper paper);

/// The materials section alone, for a pattern's first page.
[[nodiscard]] std::string materials_pdf(const materials::Section& section, const Style& style,
                                        Paper paper, Chart chart = Chart::yes);

}  // namespace skeinfall::report
