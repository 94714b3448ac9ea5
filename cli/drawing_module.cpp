// The module that drawing() loads.

#include <optional>

#include "skeinfall/units/number_style.hpp"

#include "drawing.hpp"

extern "C" const skeinfall::cli::Drawing* skeinfall_drawing(const skeinfall::units::NumberStyle&);

const skeinfall::cli::Drawing* skeinfall_drawing(const skeinfall::units::NumberStyle& style) {
    namespace report = skeinfall::report;
    static constexpr skeinfall::cli::Drawing all{
        &report::joins_picture,      &report::cover_bar,       &report::grading_chart,
        &report::make_picture,       &report::page_html,       &report::page_pdf,
        &report::makers_page_html,   &report::makers_page_pdf, &report::materials_html,
        &report::materials_fragment, &report::materials_pdf,   &report::evidence_picture};
    // The module's copy of the library has a style of its own.
    thread_local std::optional<skeinfall::units::WithNumberStyle> in_force;
    in_force.emplace(style);
    return &all;
}
