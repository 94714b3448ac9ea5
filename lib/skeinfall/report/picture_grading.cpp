#include <algorithm>
#include <cstdint>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/charts.hpp"
#include "skeinfall/report/detail/figures.hpp"
#include "skeinfall/report/detail/look.hpp"
#include "skeinfall/report/detail/picture_canvas.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;
using materials::YarnLine;
using units::Length;
namespace letters = look::letters;

constexpr double page_width = 800.0;
constexpr double margin = 36.0;
constexpr double tallest = 140.0;
constexpr double panel_height = tallest + 92.0;
constexpr std::size_t sizes_a_line = 16;
constexpr std::size_t fewest = 4;  // so that one size is no wall

std::string size_name(const materials::Section& section, std::size_t size) {
    return section.sizes.empty() ? std::string() : shown_inert(section.sizes[size]);
}

std::string words_of(const materials::Section& section) {
    std::string out;
    for (const YarnLine& yarn : section.yarns)
        out += shown_inert(yarn.role) + " " + Figures::totals(yarn.total, yarn.skeins_hold) + ".\n";
    return out;
}

class GradingChart {
  public:
    GradingChart(const materials::Section& section, const Style& style, PictureFormat format)
        : section_(section),
          words_(style.language),
          canvas_(page_width, height(), format, title(), described()) {}

    std::string draw() {
        y_ = margin + 6;
        canvas_.fitted({margin, y_}, title(), letters::title, page_width - 2 * margin, Align::left,
                       true);
        y_ += 8;
        for (std::size_t yarn = 0; yarn < section_.yarns.size(); ++yarn)
            for (std::size_t from = 0; from < sizes(); from += sizes_a_line)
                draw_panel(section_.yarns[yarn], yarn, from,
                           std::min(sizes(), from + sizes_a_line));
        return canvas_.finish();
    }

  private:
    [[nodiscard]] std::size_t sizes() const {
        return section_.yarns.empty() ? 0 : section_.yarns.front().total.size();
    }
    [[nodiscard]] double height() const {
        const std::size_t lines = (sizes() + sizes_a_line - 1) / sizes_a_line;
        return margin + 40 + panel_height * static_cast<double>(lines * section_.yarns.size());
    }
    [[nodiscard]] std::string title() const {
        return words_("table_caption") + ": " + shown_inert(section_.title);
    }
    [[nodiscard]] std::string described() const { return words_of(section_); }

    void draw_panel(const YarnLine& yarn, std::size_t hatch, std::size_t from, std::size_t to) {
        y_ += 26;
        std::string heading = shown_inert(yarn.role);
        if (!yarn.name.empty()) heading += " " + shown_inert(yarn.name);
        if (!yarn.colour.empty()) heading += " " + shown_inert(yarn.colour);
        canvas_.fitted({margin, y_}, heading, letters::lead, page_width - 2 * margin, Align::left,
                       true);
        const double floor = y_ + 26 + tallest;
        const Length most = *std::max_element(yarn.total.begin(), yarn.total.end());
        const auto count =
            static_cast<double>(std::clamp<std::size_t>(sizes(), fewest, sizes_a_line));
        const double wide = (page_width - 2 * margin) / count;
        const double bar = std::min(wide * 0.62, 64.0);
        canvas_.line({margin, floor}, {page_width - margin, floor}, 0.8);
        for (std::size_t size = from; size < to; ++size) {
            const double middle = margin + wide * (static_cast<double>(size - from) + 0.5);
            const double high =
                most > Length{} ? tallest * units::Ratio(yarn.total[size] / most).value() : 0.0;
            const double left = middle - bar / 2;
            if (high > 0.0)
                canvas_.area({{left, floor},
                              {left, floor - high},
                              {left + bar, floor - high},
                              {left + bar, floor}},
                             hatch + 1);
            draw_figures(yarn, size, middle, wide - 4, floor, floor - high);
        }
        y_ = floor + 40;
    }

    void draw_figures(const YarnLine& yarn, std::size_t size, double middle, double room,
                      double floor, double top) {
        constexpr double letter = letters::small;
        std::vector<std::string> lines;
        const units::NumberStyle& style = units::number_style();
        if (style.imperial())
            lines.push_back(total_number(yarn.total[size], units::shown::yards,
                                         held_by(yarn.skeins_hold, size)) +
                            " yd");
        if (style.metric())
            lines.push_back(total_number(yarn.total[size], units::shown::metres,
                                         held_by(yarn.skeins_hold, size)) +
                            " m");
        if (style.metres_first) std::reverse(lines.begin(), lines.end());
        for (std::size_t i = 0; i < lines.size(); ++i)
            canvas_.fitted(
                {middle, top - 4 - (letter + 2) * static_cast<double>(lines.size() - 1 - i)},
                lines[i], letter, room, Align::centre);
        canvas_.fitted({middle, floor + 14}, size_name(section_, size), letters::body, room,
                       Align::centre, true);
        if (yarn.skeins.empty()) return;
        const std::int64_t count = yarn.skeins[size];
        canvas_.fitted({middle, floor + 27},
                       words_.fill(count == 1 ? "skein_one" : "skein_many",
                                   {{"count", std::to_string(count)}}),
                       letter, room, Align::centre);
    }

    const materials::Section& section_;
    MaterialsWords words_;
    Canvas canvas_;
    double y_ = 0.0;
};

}  // namespace

std::string grading_chart(const materials::Section& section, const Style& style,
                          PictureFormat format) {
    const units::WithNumberStyle in_force(style.numbers);
    return GradingChart(section, style, format).draw();
}

std::string grading_words(const materials::Section& section, const Style& style) {
    const units::WithNumberStyle in_force(style.numbers);
    return words_of(section);
}

}  // namespace skeinfall::report
