#include "skeinfall/report/detail/set_words.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

#include <pango/pangocairo.h>

namespace skeinfall::report {
namespace {

constexpr const char* font = "DejaVu Sans";

struct FontDone {
    void operator()(PangoFontDescription* it) const { pango_font_description_free(it); }
};

double points(int units) {
    return units / static_cast<double>(PANGO_SCALE);
}

}  // namespace

void SetWords::Done::operator()(_PangoLayout* layout) const {
    g_object_unref(layout);
}

SetWords::SetWords(_cairo* context, const std::string& words, double size, double width,
                   bool strong)
    : context_(context), layout_(pango_cairo_create_layout(context)) {
    const std::unique_ptr<PangoFontDescription, FontDone> description(pango_font_description_new());
    pango_font_description_set_family(description.get(), font);
    // Absolute: a point of the page, whatever a screen would make of it.
    pango_font_description_set_absolute_size(description.get(), size * PANGO_SCALE);
    if (strong) pango_font_description_set_weight(description.get(), PANGO_WEIGHT_BOLD);
    pango_layout_set_font_description(layout_.get(), description.get());
    // A line begins at the left even when its first word runs from the right.
    pango_layout_set_auto_dir(layout_.get(), FALSE);
    if (width > 0.0)
        pango_layout_set_width(layout_.get(), static_cast<int>(std::llround(width * PANGO_SCALE)));
    pango_layout_set_wrap(layout_.get(), PANGO_WRAP_WORD_CHAR);
    pango_layout_set_text(layout_.get(), words.data(), static_cast<int>(words.size()));
}

void SetWords::cut_to(double width) {
    pango_layout_set_single_paragraph_mode(layout_.get(), TRUE);
    pango_layout_set_ellipsize(layout_.get(), PANGO_ELLIPSIZE_END);
    pango_layout_set_width(layout_.get(),
                           static_cast<int>(std::llround(std::max(width, 0.0) * PANGO_SCALE)));
}

double SetWords::width() const {
    int width = 0;
    pango_layout_get_size(layout_.get(), &width, nullptr);
    return points(width);
}

double SetWords::height() const {
    int height = 0;
    pango_layout_get_size(layout_.get(), nullptr, &height);
    return points(height);
}

void SetWords::show(double x, double y) const {
    cairo_move_to(context_, x, y);
    pango_cairo_show_layout(context_, layout_.get());
}

void SetWords::show_on_line(double x, double y) const {
    show(x, y - points(pango_layout_get_baseline(layout_.get())));
}

}  // namespace skeinfall::report
