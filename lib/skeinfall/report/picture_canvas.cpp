#include "skeinfall/report/detail/picture_canvas.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <memory>
#include <numbers>
#include <stdexcept>
#include <utility>

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>

#include "skeinfall/report/detail/look.hpp"
#include "skeinfall/report/detail/set_words.hpp"

namespace skeinfall::report {
namespace {

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
    static_cast<std::string*>(bytes)->append(data, data + length);
    return CAIRO_STATUS_SUCCESS;
}

std::string escaped(const std::string& text) {
    std::string out;
    for (const char c : text) {
        if (c == '&')
            out += "&amp;";
        else if (c == '<')
            out += "&lt;";
        else if (c == '>')
            out += "&gt;";
        else
            out += c;
    }
    return out;
}

void ink(cairo_t* context) {
    const Shade shade = shade_of(std::string(look::picture_ink));
    cairo_set_source_rgb(context, shade.red, shade.green, shade.blue);
}

}  // namespace

void Canvas::Done::operator()(_cairo* context) const {
    cairo_destroy(context);
}
void Canvas::Done::operator()(_cairo_surface* surface) const {
    cairo_surface_destroy(surface);
}

Shade shade_of(const std::string& hexadecimal) {
    const auto channel = [&](std::size_t at) {
        unsigned value = 0;
        std::from_chars(hexadecimal.data() + at, hexadecimal.data() + at + 2, value, 16);
        return value / 255.0;
    };
    return {channel(1), channel(3), channel(5)};
}

Canvas::Canvas(double width, double height, PictureFormat format, std::string title,
               std::string words)
    : format_(format), title_(std::move(title)), words_(std::move(words)) {
    switch (format) {
        case PictureFormat::svg:
            surface_.reset(cairo_svg_surface_create_for_stream(append, &bytes_, width, height));
            break;
        case PictureFormat::pdf:
            surface_.reset(cairo_pdf_surface_create_for_stream(append, &bytes_, width, height));
            cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_TITLE,
                                           title_.c_str());
            // The same plan gives the same bytes.
            cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_CREATE_DATE, "");
            break;
        case PictureFormat::png:
            surface_.reset(cairo_image_surface_create(
                CAIRO_FORMAT_RGB24, static_cast<int>(std::lround(width * pixels_per_point)),
                static_cast<int>(std::lround(height * pixels_per_point))));
            break;
    }
    context_.reset(cairo_create(surface_.get()));
    if (cairo_status(context_.get()) != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error("a picture of this size cannot be drawn");
    if (format == PictureFormat::png)
        cairo_scale(context_.get(), pixels_per_point, pixels_per_point);
    cairo_set_source_rgb(context_.get(), 1, 1, 1);
    cairo_paint(context_.get());
}

double Canvas::text_width(const std::string& words, double size, bool bold) {
    return SetWords(context_.get(), words, size, 0.0, bold).width();
}

void Canvas::fitted(Point at, const std::string& words, double size, double width, Align align,
                    bool bold) {
    while (size > look::letters::fine && text_width(words, size, bold) > width) size -= 0.5;
    SetWords set(context_.get(), words, size, 0.0, bold);
    if (set.width() > width) set.cut_to(width);
    show(at, set, align);
}

void Canvas::text(Point at, const std::string& words, double size, Align align, bool bold) {
    show(at, SetWords(context_.get(), words, size, 0.0, bold), align);
}

void Canvas::show(Point at, const SetWords& set, Align align) {
    const double shift = align == Align::left     ? 0.0
                         : align == Align::centre ? set.width() / 2
                                                  : set.width();
    ink(context_.get());
    set.show_on_line(at.x - shift, at.y);
}

void Canvas::trace(const std::vector<Point>& corners) {
    cairo_t* c = context_.get();
    cairo_new_path(c);
    for (const Point& corner : corners) cairo_line_to(c, corner.x, corner.y);
    cairo_close_path(c);
}

void Canvas::area(const std::vector<Point>& corners, std::size_t hatch) {
    cairo_t* c = context_.get();
    const std::size_t way = hatch % hatches;
    const Shade tone = shade_of(std::string(look::fills.at(way)));
    trace(corners);
    cairo_set_source_rgb(c, tone.red, tone.green, tone.blue);
    cairo_fill_preserve(c);
    if (way % 2 == 1) {
        cairo_save(c);
        cairo_clip(c);
        double left = corners[0].x;
        double right = left;
        double top = corners[0].y;
        double bottom = top;
        for (const Point& corner : corners) {
            left = std::min(left, corner.x);
            right = std::max(right, corner.x);
            top = std::min(top, corner.y);
            bottom = std::max(bottom, corner.y);
        }
        constexpr double apart = 7.0;
        const double rise = (bottom - top) * (way == 1 ? 1.0 : -1.0);
        for (double x = std::floor((left - (bottom - top)) / apart) * apart;
             x < right + (bottom - top); x += apart) {
            cairo_move_to(c, x, rise > 0 ? bottom : top);
            cairo_line_to(c, x + (bottom - top), rise > 0 ? top : bottom);
        }
        cairo_set_source_rgb(c, look::hatch_grey, look::hatch_grey, look::hatch_grey);
        cairo_set_line_width(c, 0.5);
        cairo_stroke(c);
        cairo_restore(c);
    }
    outline(corners);
}

void Canvas::outline(const std::vector<Point>& corners) {
    cairo_t* c = context_.get();
    trace(corners);
    ink(c);
    cairo_set_line_width(c, 0.8);
    cairo_stroke(c);
}

void Canvas::line(Point from, Point to, double width, bool dashed) {
    cairo_t* c = context_.get();
    constexpr std::array<double, 2> dashes{4.0, 3.0};
    cairo_set_dash(c, dashes.data(), dashed ? 2 : 0, 0);
    ink(c);
    cairo_set_line_width(c, width);
    cairo_move_to(c, from.x, from.y);
    cairo_line_to(c, to.x, to.y);
    cairo_stroke(c);
    cairo_set_dash(c, nullptr, 0, 0);
}

void Canvas::mark(Point at, const std::string& number) {
    cairo_t* c = context_.get();
    constexpr double radius = 8.0;
    cairo_new_path(c);
    cairo_arc(c, at.x, at.y, radius, 0, 2 * std::numbers::pi);
    ink(c);
    cairo_fill(c);
    const SetWords set(c, number, number.size() > 2 ? look::letters::fine : look::letters::small,
                       0.0, true);
    cairo_set_source_rgb(c, 1, 1, 1);
    set.show(at.x - set.width() / 2, at.y - set.height() / 2);
}

void Canvas::label(Point at, const std::string& words, double size) {
    cairo_t* c = context_.get();
    const double width = text_width(words, size) + 6;
    cairo_rectangle(c, at.x - width / 2, at.y - size, width, size * 1.4);
    cairo_set_source_rgb(c, 1, 1, 1);
    cairo_fill(c);
    text(at, words, size, Align::centre);
}

void Canvas::image(Point corner, double width, double height, int across,
                   const std::vector<std::uint32_t>& pixels) {
    cairo_t* c = context_.get();
    const int down = static_cast<int>(pixels.size()) / across;
    std::unique_ptr<cairo_surface_t, Done> picture(
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, across, down));
    unsigned char* data = cairo_image_surface_get_data(picture.get());
    const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(picture.get()));
    const auto row_bytes = static_cast<std::size_t>(across) * sizeof(std::uint32_t);
    for (std::size_t y = 0; y < static_cast<std::size_t>(down); ++y) {
        const auto* row = reinterpret_cast<const unsigned char*>(
            pixels.data() + y * static_cast<std::size_t>(across));
        std::copy(row, row + row_bytes, data + y * stride);
    }
    cairo_surface_mark_dirty(picture.get());
    cairo_save(c);
    cairo_translate(c, corner.x, corner.y);
    cairo_scale(c, width / across, height / down);
    cairo_set_source_surface(c, picture.get(), 0, 0);
    cairo_pattern_set_filter(cairo_get_source(c), CAIRO_FILTER_NEAREST);
    cairo_paint(c);
    cairo_restore(c);
}

std::string Canvas::finish() {
    if (format_ == PictureFormat::png)
        cairo_surface_write_to_png_stream(surface_.get(), append, &bytes_);
    context_.reset();
    cairo_surface_finish(surface_.get());
    const cairo_status_t status = cairo_surface_status(surface_.get());
    if (status != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error(std::string("the picture cannot be drawn: ") +
                                 cairo_status_to_string(status));
    if (format_ == PictureFormat::svg) {
        // Cairo draws letters as outlines; the words go in beside them.
        const std::size_t begin = bytes_.find("<svg");
        const std::size_t open = bytes_.find('>', begin);
        bytes_.insert(open + 1, "\n<title>" + escaped(title_) + "</title>\n<desc>" +
                                    escaped(words_) + "</desc>");
    }
    return std::move(bytes_);
}

Shade usual_shade(std::size_t run) {
    constexpr std::array<Shade, 6> shades{Shade{0.16, 0.27, 0.46}, Shade{0.93, 0.80, 0.52},
                                          Shade{0.55, 0.24, 0.22}, Shade{0.62, 0.80, 0.76},
                                          Shade{0.33, 0.45, 0.28}, Shade{0.95, 0.93, 0.88}};
    return shades.at(run % shades.size());
}

std::uint32_t textured(const Shade& shade, std::size_t run, int x, int y) {
    constexpr int apart = 7;
    constexpr std::size_t textures = 6;
    bool rough = false;
    switch (run % textures) {
        case 1:
            rough = (x + y) % apart == 0;
            break;
        case 2:
            rough = y % apart == 0;
            break;
        case 3:
            rough = x % apart < 2 && y % apart < 2;
            break;
        case 4:
            rough = (x - y + 1'000'006) % apart == 0;
            break;
        case 5:
            rough = x % apart == 0;
            break;
        default:
            break;
    }
    const double light = 0.3 * shade.red + 0.6 * shade.green + 0.1 * shade.blue;
    const double towards = light > 0.5 ? 0.0 : 1.0;
    const double share = rough ? 0.45 : 0.0;
    const auto channel = [&](double value) {
        return static_cast<std::uint32_t>(std::lround(255.0 * (value + share * (towards - value))));
    };
    return channel(shade.red) << 16U | channel(shade.green) << 8U | channel(shade.blue);
}

}  // namespace skeinfall::report
