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

constexpr double tallest_bar = 140.0;
constexpr double panel_height = tallest_bar + 92.0;
constexpr std::size_t sizes_a_line = 16;
constexpr std::size_t fewest = 4;  // so that one size is no wall
constexpr double bar_line = 15.0;  // of many sizes, one below the other

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
          canvas_(look::page_width, height(), format, title(), described()) {}

    std::string draw() {
        y_ = look::page_margin + 6;
        canvas_.fitted({look::page_margin, y_}, title(), letters::title,
                       look::page_width - 2 * look::page_margin, Align::left, true);
        y_ += 8;
        for (std::size_t yarn = 0; yarn < section_.yarns.size(); ++yarn)
            if (many_sizes())
                draw_lines(section_.yarns[yarn], yarn);
            else
                draw_panel(section_.yarns[yarn], yarn);
        return canvas_.finish();
    }

  private:
    [[nodiscard]] std::size_t sizes() const {
        return section_.yarns.empty() ? 0 : section_.yarns.front().total.size();
    }
    [[nodiscard]] double height() const {
        const double one =
            many_sizes() ? bar_line * static_cast<double>(sizes()) + 40 : panel_height;
        return look::page_margin + 40 + one * static_cast<double>(section_.yarns.size());
    }
    /// Too many for bars side by side.
    [[nodiscard]] bool many_sizes() const { return sizes() > sizes_a_line; }
    [[nodiscard]] std::string title() const {
        return words_("table_caption") + ": " + shown_inert(section_.title);
    }
    [[nodiscard]] std::string described() const { return words_of(section_); }

    /// Of all yarns: one scale, so that bars compare.
    [[nodiscard]] Length largest_total() const {
        Length out{};
        for (const YarnLine& yarn : section_.yarns)
            for (const Length& total : yarn.total) out = std::max(out, total);
        return out;
    }

    void draw_heading(const YarnLine& yarn) {
        y_ += 26;
        std::string heading = shown_inert(yarn.role);
        if (!yarn.name.empty()) heading += " " + shown_inert(yarn.name);
        if (!yarn.colour.empty()) heading += " " + shown_inert(yarn.colour);
        canvas_.fitted({look::page_margin, y_}, heading, letters::lead,
                       look::page_width - 2 * look::page_margin, Align::left, true);
    }

    void draw_panel(const YarnLine& yarn, std::size_t hatch) {
        draw_heading(yarn);
        const double floor = y_ + 26 + tallest_bar;
        const Length most = largest_total();
        const auto count = static_cast<double>(std::max(sizes(), fewest));
        const double wide = (look::page_width - 2 * look::page_margin) / count;
        const double bar = std::min(wide * 0.62, 64.0);
        canvas_.line({look::page_margin, floor}, {look::page_width - look::page_margin, floor},
                     0.8);
        for (std::size_t size = 0; size < sizes(); ++size) {
            const double middle = look::page_margin + wide * (static_cast<double>(size) + 0.5);
            const double high =
                most > Length{} ? tallest_bar * units::Ratio(yarn.total[size] / most).value() : 0.0;
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

    /// A line a size: its name, its bar, its figures.
    void draw_lines(const YarnLine& yarn, std::size_t hatch) {
        constexpr double names = 110.0;
        constexpr double figures = 190.0;
        draw_heading(yarn);
        y_ += 4;
        const Length most = largest_total();
        const double from = look::page_margin + names;
        const double room = look::page_width - look::page_margin - figures - from;
        for (std::size_t size = 0; size < sizes(); ++size) {
            y_ += bar_line;
            const double wide =
                most > Length{} ? room * units::Ratio(yarn.total[size] / most).value() : 0.0;
            canvas_.fitted({look::page_margin, y_}, size_name(section_, size), letters::body,
                           names - 8);
            if (wide > 0.0)
                canvas_.area(
                    {{from, y_ - 9}, {from + wide, y_ - 9}, {from + wide, y_ + 2}, {from, y_ + 2}},
                    hatch + 1);
            std::string words = base::join(amounts(yarn, size), " / ");
            if (!yarn.skeins.empty()) words += "; " + skeins(yarn, size);
            canvas_.fitted({from + wide + 6, y_}, words, letters::body, figures - 6);
        }
        y_ += 10;
    }

    /// "205 yd", "185 m" in the order and the systems of the style.
    [[nodiscard]] static std::vector<std::string> amounts(const YarnLine& yarn, std::size_t size) {
        std::vector<std::string> out;
        const units::NumberStyle& style = units::number_style();
        const auto add = [&](const units::Shown<Length>& unit) {
            out.push_back(total_number(yarn.total[size], unit, held_by(yarn.skeins_hold, size)) +
                          " " + std::string(unit.symbol));
        };
        if (style.imperial()) add(units::shown::yards);
        if (style.metric()) add(units::shown::metres);
        if (style.metres_first) std::reverse(out.begin(), out.end());
        return out;
    }
    [[nodiscard]] std::string skeins(const YarnLine& yarn, std::size_t size) const {
        const std::int64_t count = yarn.skeins[size];
        return words_.fill(count == 1 ? "skein_one" : "skein_many",
                           {{"count", std::to_string(count)}});
    }

    void draw_figures(const YarnLine& yarn, std::size_t size, double middle, double room,
                      double floor, double top) {
        constexpr double letter = letters::small;
        const std::vector<std::string> lines = amounts(yarn, size);
        for (std::size_t i = 0; i < lines.size(); ++i)
            canvas_.fitted(
                {middle, top - 4 - (letter + 2) * static_cast<double>(lines.size() - 1 - i)},
                lines[i], letter, room, Align::centre);
        canvas_.fitted({middle, floor + 14}, size_name(section_, size), letters::body, room,
                       Align::centre, true);
        if (yarn.skeins.empty()) return;
        canvas_.fitted({middle, floor + 27}, skeins(yarn, size), letter, room, Align::centre);
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
