#pragma once
/// \file
/// What is drawn with Cairo and Pango. They and what they bring along take longer to load than a
/// short command takes to run, so they lie in a module that is loaded when something is drawn.

#include <string>

#include "skeinfall/report/charts.hpp"
#include "skeinfall/report/makers_page.hpp"
#include "skeinfall/report/materials.hpp"
#include "skeinfall/report/page.hpp"
#include "skeinfall/report/picture.hpp"
#include "skeinfall/units/number_style.hpp"

namespace skeinfall::cli {

/// The functions of `report` that draw.
struct Drawing {
    decltype(&report::joins_picture) joins_picture;
    decltype(&report::cover_bar) cover_bar;
    decltype(&report::grading_chart) grading_chart;
    decltype(&report::make_picture) make_picture;
    decltype(&report::page_html) page_html;
    decltype(&report::page_pdf) page_pdf;
    decltype(&report::makers_page_html) makers_page_html;
    decltype(&report::makers_page_pdf) makers_page_pdf;
    decltype(&report::materials_html) materials_html;
    decltype(&report::materials_fragment) materials_fragment;
    decltype(&report::materials_pdf) materials_pdf;
    decltype(&report::evidence_picture) evidence_picture;
};

/// Loads the module the first time; it draws in the number style in force. Throws base::InputError
/// when it is not installed.
[[nodiscard]] const Drawing& drawing();

/// What the module gives under this name.
inline constexpr const char* drawing_module = "skeinfall_drawing.so";
inline constexpr const char* drawing_entry = "skeinfall_drawing";
using DrawingEntry = const Drawing* (*)(const units::NumberStyle&);

}  // namespace skeinfall::cli
