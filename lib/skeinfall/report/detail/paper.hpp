#pragma once
/// \file
/// Pages of paper, filled from the top, with the structure a screen reader follows (headings,
/// paragraphs, lists, tables) and the headings as bookmarks. Pictures are left out of the
/// structure: their figures stand in words beside them. Inner header of report.

#include <memory>
#include <string>
#include <vector>

#include "skeinfall/report/detail/page_parts.hpp"
#include "skeinfall/report/page.hpp"

// The names are Cairo's own.
struct _cairo;          // NOLINT(bugprone-reserved-identifier)
struct _cairo_surface;  // NOLINT(bugprone-reserved-identifier)

namespace skeinfall::report {

class Sheet {
  public:
    Sheet(Paper paper, const std::string& title);

    /// Level 1 is the page's, 2 that of a part, 3 that of a list; no level may be left out. It
    /// stays on the page of what follows as far as `with` points down.
    void heading(int level, const std::string& words, double with = 0.0);
    /// The same as small as a list's.
    void small_heading(int level, const std::string& words);
    /// What a picture takes on the page.
    [[nodiscard]] double height_of(const std::string& png) const;
    void paragraph(const std::string& words, bool strong = false);
    void bullets(const std::vector<std::string>& lines);
    void table(const PageTable& table);
    /// The bytes of a PNG, as wide as the text.
    void picture(const std::string& png);
    /// Boxes to tick, several columns; a row with marks takes the whole width.
    void checklist(const PageGroup& group);

    [[nodiscard]] std::string finish();

  private:
    struct Done {
        void operator()(_cairo* context) const;
        void operator()(_cairo_surface* surface) const;
    };

    class Tag;

    void heading(int level, const std::string& words, double with, double size);
    /// Opens a part of the structure that may go over several pages, and closes it.
    void begin_group(const char* name);
    void end_group();
    void bullet(const std::string& words);
    [[nodiscard]] double scale_of(_cairo_surface* image) const;
    void need_room(double height);
    void new_page();
    void footer();
    void rule(double y, bool strong);

    double width_;
    double height_;
    double y_ = 0.0;
    int page_ = 1;
    const char* group_ = nullptr;
    std::vector<int> outline_;  ///< the last bookmark of each level
    std::string bytes_;
    std::unique_ptr<_cairo_surface, Done> surface_;
    std::unique_ptr<_cairo, Done> context_;
};

}  // namespace skeinfall::report
