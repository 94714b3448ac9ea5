#pragma once
/// \file
/// Pages of paper, filled from the top, with the structure a screen reader follows (headings,
/// paragraphs, lists, tables, figures with a text in their place) and the headings as bookmarks.
/// A heading goes to the page of what follows it. Inner header of report.

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "skeinfall/report/detail/page_parts.hpp"
#include "skeinfall/report/page.hpp"

// The names are Cairo's own.
struct _cairo;          // NOLINT(bugprone-reserved-identifier)
struct _cairo_surface;  // NOLINT(bugprone-reserved-identifier)

namespace skeinfall::report {

class SetWords;

class Sheet {
  public:
    /// `language` is a tag of BCP 47.
    Sheet(Paper paper, const std::string& title, std::string language = "en");

    /// Level 1 is the page's, 2 that of a part, 3 that of a list; no level may be left out.
    void heading(int level, const std::string& words);
    /// The same as small as a list's.
    void small_heading(int level, const std::string& words);
    void paragraph(const std::string& words, bool strong = false);
    /// A small paragraph that begins with its title.
    void run_in(const std::string& title, const std::string& words);
    /// Several of them, short ones side by side.
    void run_ins(const std::vector<std::pair<std::string, std::string>>& entries);
    void bullets(const std::vector<std::string>& lines);
    void table(const PageTable& table);
    /// Every cell in one line; heads may be broken.
    [[nodiscard]] bool fits_across(const PageTable& table) const;
    /// The bytes of a PNG, that share of as wide as it is and as the text permits; `words` stand
    /// for it.
    void picture(const std::string& png, const std::string& words, double share = 1.0);
    /// Boxes to tick, several columns; a row with marks takes the whole width.
    void checklist(const PageGroup& group);

    /// What follows is set in letters of that share of their size.
    void set_letters(double share) { letters_ = share; }

    /// Nothing is printed; what comes after the first page is not even set.
    void only_measure() { measuring_ = true; }
    /// Measured, and more than a page.
    [[nodiscard]] bool full() const { return measuring_ && page_ > 1; }

    /// What follows begins on a new page, unless this one is empty.
    void turn();
    /// Points that are left on this page.
    [[nodiscard]] double room() const;
    /// Pages begun.
    [[nodiscard]] int pages() const { return page_; }

    [[nodiscard]] std::string finish();

  private:
    struct Done {
        void operator()(_cairo* context) const;
        void operator()(_cairo_surface* surface) const;
    };

    class Tag;

    struct Heading {
        int level = 1;
        std::string words;
        double size = 0.0;
    };
    void draw(const Heading& heading);
    void add_bookmark(const Heading& heading);
    void show(const SetWords& set, double x, double y) const;
    [[nodiscard]] double sized(double size) const { return size * letters_; }
    /// Opens a part of the structure that may go over several pages, and closes it.
    void begin_group(const char* name);
    void end_group();
    void bullet(const std::string& words);
    [[nodiscard]] std::vector<double> natural_widths(const PageTable& table,
                                                     bool break_heads) const;
    /// Beside the gaps of its columns.
    [[nodiscard]] bool too_tall(const PageTable& table) const;
    [[nodiscard]] double table_room(const PageTable& table) const;
    [[nodiscard]] std::vector<double> column_widths(const PageTable& table) const;
    /// Of an image of so many pixels.
    [[nodiscard]] double scale_of(double across, double high) const;
    /// Begins a page where there is no room for so much, and for the headings that wait for it;
    /// then prints them.
    void need_room(double height);
    void new_page();
    void footer();
    void rule(double y, bool strong);

    double width_;
    double height_;
    double y_ = 0.0;
    int page_ = 1;
    bool measuring_ = false;
    double letters_ = 1.0;
    std::string language_;
    std::vector<Heading> waiting_;
    std::vector<std::string> figures_;  ///< the texts for them
    const char* group_ = nullptr;
    std::vector<int> outline_;  ///< the last bookmark of each level
    std::string bytes_;
    std::unique_ptr<_cairo_surface, Done> surface_;
    std::unique_ptr<_cairo, Done> context_;
};

}  // namespace skeinfall::report
