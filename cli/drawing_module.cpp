// The module that drawing() loads.

#include "drawing.hpp"

extern "C" const skeinfall::cli::Drawing* skeinfall_drawing();

const skeinfall::cli::Drawing* skeinfall_drawing() {
    namespace report = skeinfall::report;
    static constexpr skeinfall::cli::Drawing all{
        &report::joins_picture, &report::cover_bar,      &report::grading_chart, &report::page_html,
        &report::page_pdf,      &report::materials_html, &report::materials_pdf};
    return &all;
}
