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
#include <fmt/format.h>
#include <glib.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/detail/cairo_bytes.hpp"
#include "skeinfall/report/detail/look.hpp"
#include "skeinfall/report/detail/set_words.hpp"

namespace skeinfall::report {
namespace {

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

std::string attribute(const std::string& text) {
    std::string out;
    for (const char c : escaped(text)) out += c == '"' ? std::string("&quot;") : std::string(1, c);
    return out;
}

/// "12.3", "12": tenths of a point are enough for a screen.
std::string short_number(double value) {
    std::string out = fmt::format("{:.1f}", value);
    if (out.ends_with(".0")) out.resize(out.size() - 2);
    return out == "-0" ? "0" : out;
}

std::string path_of(const std::vector<Point>& corners) {
    std::string out;
    for (const Point& corner : corners)
        out += (out.empty() ? "M" : "L") + short_number(corner.x) + " " + short_number(corner.y);
    return out + "Z";
}

std::string hexadecimal(const Shade& shade) {
    const auto channel = [](double value) {
        return static_cast<unsigned>(std::llround(255.0 * std::clamp(value, 0.0, 1.0)));
    };
    return fmt::format("#{:02x}{:02x}{:02x}", channel(shade.red), channel(shade.green),
                       channel(shade.blue));
}

struct Bounds {
    double left = 0.0;
    double right = 0.0;
    double top = 0.0;
    double bottom = 0.0;
};

Bounds bounds_of(const std::vector<Point>& corners) {
    Bounds out{corners[0].x, corners[0].x, corners[0].y, corners[0].y};
    for (const Point& corner : corners) {
        out.left = std::min(out.left, corner.x);
        out.right = std::max(out.right, corner.x);
        out.top = std::min(out.top, corner.y);
        out.bottom = std::max(out.bottom, corner.y);
    }
    return out;
}

/// Ways of a pattern's lines: rising, falling, level, upright, both slopes.
enum class Way { rising, falling, level, upright, crossed };
constexpr double pattern_apart = 7.0;

Way way_of(std::size_t pattern) {
    return static_cast<Way>((pattern - 1) % (Canvas::dye_patterns - 1));
}

/// A yarn's pattern is drawn in what stands out from its shade.
Shade against(const Shade& shade) {
    const double light = 0.3 * shade.red + 0.6 * shade.green + 0.1 * shade.blue;
    const double towards = light > 0.5 ? 0.0 : 1.0;
    constexpr double share = 0.5;
    return {shade.red + share * (towards - shade.red),
            shade.green + share * (towards - shade.green),
            shade.blue + share * (towards - shade.blue)};
}

/// Lines of a way over a box; all patterns of a picture lie on one grid.
void draw_lines(cairo_t* c, const Bounds& box, Way way) {
    const auto first = [](double from) { return std::floor(from / pattern_apart) * pattern_apart; };
    const double down = box.bottom - box.top;
    if (way == Way::level)
        for (double y = first(box.top); y <= box.bottom; y += pattern_apart) {
            cairo_move_to(c, box.left, y);
            cairo_line_to(c, box.right, y);
        }
    if (way == Way::upright)
        for (double x = first(box.left); x <= box.right; x += pattern_apart) {
            cairo_move_to(c, x, box.top);
            cairo_line_to(c, x, box.bottom);
        }
    if (way == Way::rising || way == Way::crossed)
        for (double x = first(box.left + box.top - box.bottom) - box.bottom + first(box.bottom);
             x < box.right; x += pattern_apart) {
            cairo_move_to(c, x, box.bottom);
            cairo_line_to(c, x + down, box.top);
        }
    if (way == Way::falling || way == Way::crossed)
        for (double x = first(box.left - down) + box.top - first(box.top); x < box.right;
             x += pattern_apart) {
            cairo_move_to(c, x, box.top);
            cairo_line_to(c, x + down, box.bottom);
        }
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
    : format_(format),
      title_(std::move(title)),
      words_(std::move(words)),
      width_(width),
      height_(height) {
    switch (format) {
        case PictureFormat::web:
            // Nothing is painted there: letters are measured on it.
            surface_.reset(cairo_recording_surface_create(CAIRO_CONTENT_ALPHA, nullptr));
            break;
        case PictureFormat::svg:
            surface_.reset(
                cairo_svg_surface_create_for_stream(append_bytes, &bytes_, width, height));
            break;
        case PictureFormat::pdf:
            surface_.reset(
                cairo_pdf_surface_create_for_stream(append_bytes, &bytes_, width, height));
            cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_TITLE,
                                           title_.c_str());
            // The same plan gives the same bytes.
            cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_CREATE_DATE, "");
            break;
        case PictureFormat::png:
            surface_.reset(cairo_image_surface_create(
                CAIRO_FORMAT_RGB24, static_cast<int>(std::llround(width * pixels_per_point)),
                static_cast<int>(std::llround(height * pixels_per_point))));
            break;
    }
    context_.reset(cairo_create(surface_.get()));
    if (cairo_status(context_.get()) != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error("a picture of this size cannot be drawn");
    if (web()) return;
    if (format == PictureFormat::png)
        cairo_scale(context_.get(), pixels_per_point, pixels_per_point);
    cairo_set_source_rgb(context_.get(), 1, 1, 1);
    cairo_paint(context_.get());
}

double Canvas::text_width(const std::string& words, double size, bool bold) {
    return SetWords(context_.get(), words, size, 0.0, bold).width();
}

std::vector<std::string> Canvas::wrapped(const std::string& words, double size, double width,
                                         bool bold) {
    std::vector<std::string> out{""};
    for (const std::string& word : base::split(words, ' ')) {
        const std::string longer = out.back().empty() ? word : out.back() + " " + word;
        if (out.back().empty() || text_width(longer, size, bold) <= width)
            out.back() = longer;
        else
            out.push_back(word);
    }
    return out;
}

void Canvas::fitted(Point at, const std::string& words, double size, double width, Align align,
                    bool bold) {
    while (size > look::letters::fine && text_width(words, size, bold) > width) size -= 0.5;
    if (web()) {
        constexpr std::size_t some = 4;
        std::string shown = words;
        while (shown.size() > some && text_width(shown, size, bold) > width) {
            const std::size_t before = shown.size();
            // A long name loses much at once.
            const double share = width / text_width(shown, size, bold);
            shown.resize(std::max(some, std::min(shown.size() - some,
                                                 static_cast<std::size_t>(
                                                     static_cast<double>(shown.size()) * share))));
            while (!shown.empty() && (static_cast<unsigned char>(shown.back()) & 0xC0U) == 0x80U)
                shown.pop_back();
            if (!shown.empty() && (static_cast<unsigned char>(shown.back()) & 0x80U) != 0)
                shown.pop_back();
            shown += "...";
            if (shown.size() >= before) break;  // no room for the dots either
        }
        text(at, shown, size, align, bold);
        return;
    }
    SetWords set(context_.get(), words, size, 0.0, bold);
    if (set.width() > width) set.cut_to(width);
    show(at, set, align);
}

void Canvas::text(Point at, const std::string& words, double size, Align align, bool bold) {
    if (web()) {
        emit(fmt::format(
            "<text x=\"{}\" y=\"{}\" font-size=\"{}\"{}{} fill=\"currentColor\">{}</text>",
            short_number(at.x), short_number(at.y), short_number(size),
            align == Align::left     ? ""
            : align == Align::centre ? " text-anchor=\"middle\""
                                     : " text-anchor=\"end\"",
            bold ? " font-weight=\"bold\"" : "", escaped(words)));
        return;
    }
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

void Canvas::begin_part(const std::string& name) {
    if (web()) emit("<g data-part=\"" + attribute(name) + "\">");
}

void Canvas::end_part() {
    if (web()) emit("</g>");
}

std::string Canvas::pattern(std::size_t way, const std::string& shade) {
    static constexpr std::array<const char*, 5> paths{"M0 7L7 0", "M0 0L7 7", "M0 3.5H7",
                                                      "M3.5 0V7", "M0 7L7 0M0 0L7 7"};
    const std::string body = fmt::format(
        "width=\"7\" height=\"7\" patternUnits=\"userSpaceOnUse\"><path d=\"{}\" fill=\"none\" "
        "stroke=\"{}\" stroke-width=\"0.8\"/></pattern>",
        paths.at(way), shade);
    auto found = std::find(patterns_.begin(), patterns_.end(), body);
    if (found == patterns_.end()) found = patterns_.insert(patterns_.end(), body);
    return "p" + std::to_string(found - patterns_.begin());
}

void Canvas::dyed(const std::vector<Point>& corners, const Dye& dye) {
    if (corners.empty()) return;
    const bool patterned = dye.pattern % dye_patterns != 0 || dye.with;
    const Way way = way_of(dye.pattern % dye_patterns == 0 ? 1 : dye.pattern % dye_patterns);
    const Shade lines = dye.with.value_or(against(dye.shade));
    if (web()) {
        const std::string path = path_of(corners);
        emit(fmt::format("<path d=\"{}\" fill=\"{}\"/>", path, hexadecimal(dye.shade)));
        if (patterned)
            emit(fmt::format("<path d=\"{}\" fill=\"url(#{})\"/>", path,
                             pattern(static_cast<std::size_t>(way), hexadecimal(lines))));
        return;
    }
    cairo_t* c = context_.get();
    trace(corners);
    cairo_set_source_rgb(c, dye.shade.red, dye.shade.green, dye.shade.blue);
    cairo_fill_preserve(c);
    if (!patterned) {
        cairo_new_path(c);
        return;
    }
    cairo_save(c);
    cairo_clip(c);
    draw_lines(c, bounds_of(corners), way);
    cairo_set_source_rgb(c, lines.red, lines.green, lines.blue);
    cairo_set_line_width(c, 0.8);
    cairo_stroke(c);
    cairo_restore(c);
}

void Canvas::area(const std::vector<Point>& corners, std::size_t hatch) {
    cairo_t* c = context_.get();
    const std::size_t way = hatch % hatches;
    if (web()) {
        const std::string path = path_of(corners);
        emit(
            fmt::format("<path d=\"{}\" fill=\"{}\" stroke=\"currentColor\" stroke-width=\"0.8\"/>",
                        path, look::fills.at(way)));
        if (way % 2 == 1)
            emit(fmt::format("<path d=\"{}\" fill=\"url(#{})\"/>", path,
                             pattern(way == 1 ? 0 : 1, "#808080")));
        return;
    }
    const Shade tone = shade_of(std::string(look::fills.at(way)));
    trace(corners);
    cairo_set_source_rgb(c, tone.red, tone.green, tone.blue);
    cairo_fill_preserve(c);
    if (way % 2 == 1) {
        cairo_save(c);
        cairo_clip(c);
        const auto [left, right, top, bottom] = bounds_of(corners);
        constexpr double apart = pattern_apart;
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
    if (web()) {
        emit(fmt::format(
            "<path d=\"{}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"0.8\"/>",
            path_of(corners)));
        return;
    }
    cairo_t* c = context_.get();
    trace(corners);
    ink(c);
    cairo_set_line_width(c, 0.8);
    cairo_stroke(c);
}

void Canvas::line(Point from, Point to, double width, bool dashed) {
    if (web()) {
        emit(fmt::format("<path d=\"M{} {}L{} {}\" stroke=\"currentColor\" stroke-width=\"{}\"{}/>",
                         short_number(from.x), short_number(from.y), short_number(to.x),
                         short_number(to.y), short_number(width),
                         dashed ? " stroke-dasharray=\"4 3\"" : ""));
        return;
    }
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

void Canvas::line_on_dye(Point from, Point to) {
    if (web()) {
        const std::string path =
            fmt::format("M{} {}L{} {}", short_number(from.x), short_number(from.y),
                        short_number(to.x), short_number(to.y));
        emit(fmt::format("<path d=\"{}\" stroke=\"#fff\" stroke-width=\"3.6\"/>", path));
        emit(fmt::format("<path d=\"{}\" stroke=\"{}\" stroke-width=\"1.8\"/>", path,
                         look::picture_ink));
        return;
    }
    cairo_t* c = context_.get();
    cairo_set_source_rgb(c, 1, 1, 1);
    cairo_set_line_width(c, 3.6);
    cairo_move_to(c, from.x, from.y);
    cairo_line_to(c, to.x, to.y);
    cairo_stroke(c);
    line(from, to, 1.8);
}

void Canvas::mark(Point at, const std::string& number) {
    cairo_t* c = context_.get();
    constexpr double radius = 8.0;
    if (web()) {
        emit(fmt::format(
            "<circle cx=\"{}\" cy=\"{}\" r=\"8\" fill=\"currentColor\"/><text x=\"{}\" y=\"{}\" "
            "font-size=\"9\" font-weight=\"bold\" text-anchor=\"middle\" fill=\"Canvas\" "
            "class=\"paper\">{}</text>",
            short_number(at.x), short_number(at.y), short_number(at.x), short_number(at.y + 3.2),
            escaped(number)));
        return;
    }
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
    if (web()) {
        emit(
            fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"Canvas\" "
                        "class=\"paper\"/>",
                        short_number(at.x - width / 2), short_number(at.y - size),
                        short_number(width), short_number(size * 1.4)));
        text(at, words, size, Align::centre);
        return;
    }
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
        cairo_image_surface_create(CAIRO_FORMAT_ARGB32, across, down));
    unsigned char* data = cairo_image_surface_get_data(picture.get());
    const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(picture.get()));
    const auto row_bytes = static_cast<std::size_t>(across) * sizeof(std::uint32_t);
    for (std::size_t y = 0; y < static_cast<std::size_t>(down); ++y) {
        const auto* row = reinterpret_cast<const unsigned char*>(
            pixels.data() + y * static_cast<std::size_t>(across));
        std::copy(row, row + row_bytes, data + y * stride);
    }
    cairo_surface_mark_dirty(picture.get());
    if (web()) {
        std::string png;
        cairo_surface_write_to_png_stream(picture.get(), append_bytes, &png);
        const std::unique_ptr<gchar, decltype(&g_free)> base64(
            g_base64_encode(reinterpret_cast<const guchar*>(png.data()), png.size()), g_free);
        emit(
            fmt::format("<image x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" "
                        "preserveAspectRatio=\"none\" href=\"data:image/png;base64,{}\"/>",
                        short_number(corner.x), short_number(corner.y), short_number(width),
                        short_number(height), base64.get()));
        return;
    }
    cairo_save(c);
    cairo_translate(c, corner.x, corner.y);
    cairo_scale(c, width / across, height / down);
    cairo_set_source_surface(c, picture.get(), 0, 0);
    cairo_pattern_set_filter(cairo_get_source(c), CAIRO_FILTER_NEAREST);
    cairo_paint(c);
    cairo_restore(c);
}

std::string Canvas::finish() {
    if (web()) {
        std::string out = fmt::format(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" role=\"img\" "
            "aria-label=\"{}\">\n",
            short_number(width_), short_number(height_), attribute(title_));
        if (!patterns_.empty()) out += "<defs>";
        for (std::size_t i = 0; i < patterns_.size(); ++i)
            out += fmt::format("<pattern id=\"p{}\" {}", i, patterns_[i]);
        if (!patterns_.empty()) out += "</defs>\n";
        return out + bytes_ + "</svg>";
    }
    if (format_ == PictureFormat::png)
        cairo_surface_write_to_png_stream(surface_.get(), append_bytes, &bytes_);
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
        return static_cast<std::uint32_t>(
            std::llround(255.0 * (value + share * (towards - value))));
    };
    return 0xFF000000U | channel(shade.red) << 16U | channel(shade.green) << 8U |
           channel(shade.blue);
}

}  // namespace skeinfall::report
