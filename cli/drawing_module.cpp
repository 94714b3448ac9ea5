// The module that drawing() loads.

#include <optional>

#include "drawing.hpp"

extern "C" const skeinfall::cli::Drawing* skeinfall_drawing(
    const skeinfall::units::NumberStyle& style);

const skeinfall::cli::Drawing* skeinfall_drawing(const skeinfall::units::NumberStyle& style) {
    // The module has a copy of the library, with a style in force of its own.
    thread_local std::optional<skeinfall::units::WithNumberStyle> in_force;
    in_force.emplace(style);
    namespace report = skeinfall::report;
    static constexpr skeinfall::cli::Drawing all{
        &report::joins_picture, &report::cover_bar,      &report::grading_chart, &report::page_html,
        &report::page_pdf,      &report::materials_html, &report::materials_pdf};
    return &all;
}
