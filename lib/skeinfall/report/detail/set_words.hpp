#pragma once
/// \file
/// Words set by Pango on a Cairo page: it breaks lines, joins the letters of Arabic, turns
/// right-to-left text and finds a font for signs that the usual one lacks; Cairo alone does none
/// of that. Inner header of report.

#include <memory>
#include <string>

// The names are Cairo's and Pango's own.
struct _cairo;        // NOLINT(bugprone-reserved-identifier)
struct _PangoLayout;  // NOLINT(bugprone-reserved-identifier)

namespace skeinfall::report {

class SetWords {
  public:
    /// `size` in points of the page; a width of 0 never breaks a line.
    SetWords(_cairo* context, const std::string& words, double size, double width = 0.0,
             bool strong = false);

    /// Ends the line in dots where it would be wider than that; at the narrowest only dots are
    /// left.
    void cut_to(double width);

    [[nodiscard]] double width() const;
    [[nodiscard]] double height() const;

    /// With the upper left corner there.
    void show(double x, double y) const;
    /// With the left end of the first base line there.
    void show_on_line(double x, double y) const;

  private:
    struct Done {
        void operator()(_PangoLayout* layout) const;
    };
    _cairo* context_;
    std::unique_ptr<_PangoLayout, Done> layout_;
};

}  // namespace skeinfall::report
