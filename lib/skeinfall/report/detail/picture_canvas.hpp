#pragma once
/// \file
/// A page to draw on, in points. Inner header of report: Cairo stays behind it.

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
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

/// How an area is filled in a yarn's own colour: a pattern beside the colour, so that a grey print
/// keeps yarns apart. `with` is the colour of a strand that is held together with it.
struct Dye {
    Shade shade;
    std::size_t pattern = 0;  ///< one of `dye_patterns` ways, 0 plain
    std::optional<Shade> with;
};

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
    /// Lines of whole words no wider than `width`, but for a word that is wider alone.
    [[nodiscard]] std::vector<std::string> wrapped(const std::string& words, double size,
                                                   double width, bool bold = false);
    /// Filled and hatched with one of `hatches` ways, then outlined.
    void area(const std::vector<Point>& corners, std::size_t hatch);
    /// Filled in a yarn's colour; no outline.
    void dyed(const std::vector<Point>& corners, const Dye& dye);
    void outline(const std::vector<Point>& corners);
    /// What is drawn until end_part() belongs together: "piece blanket 1". Only a web picture says
    /// so.
    void begin_part(const std::string& name);
    void end_part();
    void line(Point from, Point to, double width, bool dashed = false);
    /// A line over dyed areas, dark with a light edge whatever the scheme.
    void line_on_dye(Point from, Point to);
    /// A numbered mark.
    void mark(Point at, const std::string& number);
    /// Words in a white box, so that they stand clear of a hatch.
    void label(Point at, const std::string& words, double size);
    /// `pixels` (0xAARRGGBB or 0, rows from the top, as wide as `across`) fill the box.
    void image(Point corner, double width, double height, int across,
               const std::vector<std::uint32_t>& pixels);
    /// The file's bytes; the canvas is done then.
    [[nodiscard]] std::string finish();

    static constexpr std::size_t hatches = 4;
    static constexpr std::size_t dye_patterns = 6;
    static constexpr double pixels_per_point = 2.0;  ///< of a PNG

  private:
    struct Done {
        void operator()(_cairo* context) const;
        void operator()(_cairo_surface* surface) const;
    };
    void trace(const std::vector<Point>& corners);
    void show(Point at, const SetWords& set, Align align);
    [[nodiscard]] bool web() const { return format_ == PictureFormat::web; }
    void emit(const std::string& element) { bytes_ += element + "\n"; }
    /// The id of a pattern of lines in that shade, defined when it is first asked for.
    [[nodiscard]] std::string pattern(std::size_t way, const std::string& shade);

    PictureFormat format_;
    std::string title_;
    std::string words_;
    std::string bytes_;
    double width_;
    double height_;
    std::vector<std::string> patterns_;  ///< of a web picture
    std::unique_ptr<_cairo_surface, Done> surface_;
    std::unique_ptr<_cairo, Done> context_;
};

/// 0xAARRGGBB of a shade, not transparent, roughened by a texture of its own for each run: at a
/// pixel (x, y).
[[nodiscard]] std::uint32_t textured(const Shade& shade, std::size_t run, int x, int y);

/// A shade for a run that names none; neighbours differ in lightness.
[[nodiscard]] Shade usual_shade(std::size_t run);

}  // namespace skeinfall::report
