#pragma once
/// \file
/// A page to draw on, in points. Inner header of report: Cairo stays behind it.

#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "skeinfall/report/picture.hpp"

// Names that Cairo gave them. NOLINTBEGIN(bugprone-reserved-identifier)
struct _cairo;
struct _cairo_surface;
// NOLINTEND(bugprone-reserved-identifier)

namespace skeinfall::report {

struct Point {
    double x = 0.0;
    double y = 0.0;
};

struct Shade {
    double red = 0.0;
    double green = 0.0;
    double blue = 0.0;
};

/// "#2e8b57" as exchange has checked it.
[[nodiscard]] Shade shade_of(const std::string& hexadecimal);

enum class Align { left, centre, right };

class SetWords;

class Canvas {
  public:
    /// `words` is what the picture says, for readers that do not see it.
    Canvas(double width, double height, PictureFormat format, std::string title, std::string words);

    /// (x, y) is the left, middle or right end of the base line.
    void text(Point at, const std::string& words, double size, Align align = Align::left,
              bool bold = false);
    /// Words that must not be wider than `width`: made smaller, and then cut.
    void fitted(Point at, const std::string& words, double size, double width,
                Align align = Align::left, bool bold = false);
    [[nodiscard]] double text_width(const std::string& words, double size, bool bold = false);
    /// Filled and hatched with one of `hatches` ways, then outlined.
    void area(const std::vector<Point>& corners, std::size_t hatch);
    void outline(const std::vector<Point>& corners);
    void line(Point from, Point to, double width, bool dashed = false);
    /// A numbered mark.
    void mark(Point at, const std::string& number);
    /// Words in a white box, so that they stand clear of a hatch.
    void label(Point at, const std::string& words, double size);
    /// `pixels` (rows from the top, as wide as `across`) fill the box.
    void image(Point corner, double width, double height, int across,
               const std::vector<std::uint32_t>& pixels);
    /// The file's bytes; the canvas is done then.
    [[nodiscard]] std::string finish();

    static constexpr std::size_t hatches = 4;
    static constexpr double pixels_per_point = 2.0;  ///< of a PNG

  private:
    struct Done {
        void operator()(_cairo* context) const;
        void operator()(_cairo_surface* surface) const;
    };
    void trace(const std::vector<Point>& corners);
    void show(Point at, const SetWords& set, Align align);

    PictureFormat format_;
    std::string title_;
    std::string words_;
    std::string bytes_;
    std::unique_ptr<_cairo_surface, Done> surface_;
    std::unique_ptr<_cairo, Done> context_;
};

/// 0xRRGGBB of a shade, roughened by a texture of its own for each run: at a pixel (x, y).
[[nodiscard]] std::uint32_t textured(const Shade& shade, std::size_t run, int x, int y);

/// A shade for a run that names none; neighbours differ in lightness.
[[nodiscard]] Shade usual_shade(std::size_t run);

}  // namespace skeinfall::report
