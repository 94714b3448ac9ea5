#include <algorithm>
#include <optional>

#include "skeinfall/base/text.hpp"
#include "skeinfall/measure/chance.hpp"
#include "skeinfall/report/charts.hpp"
#include "skeinfall/report/detail/dyes.hpp"
#include "skeinfall/report/detail/look.hpp"
#include "skeinfall/report/detail/make_drawing.hpp"
#include "skeinfall/report/detail/picture_canvas.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;
using units::Length;
using units::Rounding;
namespace letters = look::letters;

constexpr double bar_height = 34.0;

struct Bar {
    std::string heading;
    struct Part {
        std::string id;
        std::string lot;
        Length length{};
    };
    std::vector<Part> parts;  ///< lot by lot
    Length has{};
    Length needed{};
    Length least{};  ///< the need's band, margin included
    Length most{};
    std::string needs;
    std::string holds;
    std::string outcome;
    std::optional<Dye> dye;  ///< nothing: no colour is known of the yarn
};

Bar bar_of(const cover::RoleCover& role, const cover::Rules& rules) {
    Bar bar;
    if (!role.role.shade.empty())
        bar.dye = Dye{shade_of(role.role.shade), 0, {}};
    else if (const auto shade = shade_by_words(role.role.colour))
        bar.dye = Dye{*shade, 0, {}};
    bar.heading = role_heading(role.role) + ": " + std::string(cover::name_of(role.verdict)) +
                  ", chance " + chance_text(role.chance);
    std::vector<std::string> lots;
    for (const stash::Skein& skein : role.chosen) {
        const std::string lot = stash::lot_text(skein);
        if (std::find(lots.begin(), lots.end(), lot) == lots.end()) lots.push_back(lot);
    }
    for (const std::string& lot : lots)
        for (const stash::Skein& skein : role.chosen) {
            if (stash::lot_text(skein) != lot) continue;
            const auto supply = stash::supply_of(skein);
            bar.parts.push_back(
                {shown_inert(skein.id), shown_inert(lot), supply ? supply->length : Length{}});
            bar.has += bar.parts.back().length;
        }
    bar.needed = role.needed;
    const double z = measure::deviations_for(rules.confidence).value();
    const Length half = z * role.compared.spread;
    bar.least = std::max(Length{}, role.needed - half);
    bar.most = role.needed + half;
    bar.needs = "needs " + yards_and_metres(role.needed, Rounding::up);
    bar.holds = "has " + yards_and_metres(role.supply.centre, Rounding::down);
    bar.outcome = role.spare >= Length{} ? "spare " + yards_and_metres(role.spare, Rounding::down)
                                         : "missing " + yards_and_metres(-role.spare, Rounding::up);
    return bar;
}

std::string words_of(const std::vector<Bar>& bars) {
    std::string out;
    for (const Bar& bar : bars) {
        out += bar.heading + "; " + bar.needs + ", " + bar.holds + ", " + bar.outcome;
        for (const Bar::Part& part : bar.parts)
            out += "; " + part.id + " (" + part.lot + ") " +
                   yards_and_metres(part.length, Rounding::down);
        out += ".\n";
    }
    return out;
}

class Drawing {
  public:
    Drawing(Canvas& canvas, double width, double margin)
        : canvas_(canvas), page_width_(width), margin_(margin), y_(margin + 6) {}

    void title(const std::string& words) { lines(words, letters::title, true, 24.0, 32.0); }

    void draw(const Bar& bar) {
        lines(bar.heading, letters::lead, true, 17.0, 0.0);
        constexpr double room = 1.04;
        const Length longest = std::max({bar.has, bar.most, bar.needed}) * room;
        const double scale = (page_width_ - 2 * margin_) / (longest / units::metre);
        const auto at = [&](Length length) { return margin_ + length / units::metre * scale; };
        const double top = y_ + 44;
        const double floor = top + bar_height;
        draw_parts(bar, at, top, floor);
        if (bar.most > bar.has && bar.needed > bar.has)
            for (const double y : {top, floor})
                canvas_.line({at(bar.has), y}, {at(bar.needed), y}, 0.8, true);
        // The need stands above the bar and cuts through it.
        const double need = at(bar.needed);
        const double bracket = top - 9;
        canvas_.line({at(bar.least), bracket}, {at(bar.most), bracket}, 1.2);
        for (const Length& end : {bar.least, bar.most})
            canvas_.line({at(end), bracket - 4}, {at(end), bracket + 4}, 1.2);
        canvas_.line({need, bracket - 8}, {need, floor + 6}, 2.6);
        place(need, bracket - 13, bar.needs, true);
        place(at(bar.has), floor + 32, bar.holds + ", " + bar.outcome, false);
        y_ = floor + 58;
    }

    void footnote(measure::Chance confidence) {
        lines("bracket: how much it may take, to either side as far as " + chance_text(confidence) +
                  " reaches; every lot has a fill of its own",
              letters::small, false, 12.0, 0.0);
    }

    [[nodiscard]] double bottom() const { return y_ + 0.5 * margin_ + 8.0; }

  private:
    /// Words in as many lines as they need; `y_` is the base line of the last, and then `below` it.
    void lines(const std::string& words, double size, bool bold, double each, double below) {
        const double room = page_width_ - 2 * margin_;
        const std::vector<std::string> all = canvas_.wrapped(words, size, room, bold);
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (i > 0) y_ += each;
            canvas_.fitted({margin_, y_}, all[i], size, room, Align::left, bold);
        }
        y_ += below;
    }

    template <class At>
    void draw_parts(const Bar& bar, const At& at, double top, double floor) {
        Length begin{};
        double lot_from = at(begin);
        std::size_t lot = 0;  // of this yarn
        for (std::size_t i = 0; i < bar.parts.size(); ++i) {
            const Bar::Part& part = bar.parts[i];
            const double left = at(begin);
            const double right = at(begin + part.length);
            const std::vector<Point> corners{
                {left, floor}, {left, top}, {right, top}, {right, floor}};
            if (bar.dye) {
                Dye dye = *bar.dye;
                dye.pattern = lot % Canvas::dye_patterns;
                canvas_.dyed(corners, dye);
                canvas_.outline(corners);
            } else {
                canvas_.area(corners, fill_);
            }
            // Where the need cuts through, the name stands in the larger half.
            const double cut = std::clamp(at(bar.needed), left, right);
            const bool before = cut - left >= right - cut;
            const double from = before ? left : cut;
            const double to = before ? cut : right;
            if (canvas_.text_width(part.id, letters::small) + 10 < to - from)
                canvas_.label({(from + to) / 2, top + bar_height / 2 + 3}, part.id, letters::small);
            begin += part.length;
            if (i + 1 < bar.parts.size() && bar.parts[i + 1].lot == part.lot) continue;
            if (canvas_.text_width(part.lot, letters::small) < right - lot_from)
                canvas_.text({(lot_from + right) / 2, floor + 14}, part.lot, letters::small,
                             Align::centre);
            lot_from = right;
            ++fill_;
            ++lot;
        }
    }

    /// Words about a place, moved so that they stay on the page.
    void place(double x, double y, const std::string& words, bool bold) {
        const double half = canvas_.text_width(words, letters::body, bold) / 2;
        x = std::clamp(x, margin_ + half, std::max(margin_ + half, page_width_ - margin_ - half));
        canvas_.text({x, y}, words, letters::body, Align::centre, bold);
    }

    Canvas& canvas_;
    double page_width_;
    double margin_;
    double y_;
    std::size_t fill_ = 1;  ///< of the next lot, as the grading chart begins
};

}  // namespace

std::string cover_bar_at(const project::Project& project, const cover::MakeCover& cover,
                         const cover::Rules& rules, PictureFormat format, PictureWidth width) {
    std::vector<Bar> bars;
    for (const cover::RoleCover& role : cover.roles) bars.push_back(bar_of(role, rules));
    const std::string title =
        std::string(cover::name_of(cover.verdict)) + ": " + shown_inert(project.title);
    const bool wide = width == PictureWidth::wide;
    const double across = wide ? 800.0 : 300.0;
    const auto draw_on = [&](Canvas& canvas) {
        Drawing drawing(canvas, across, wide ? look::page_margin : 8.0);
        drawing.title(title);
        for (const Bar& bar : bars) drawing.draw(bar);
        drawing.footnote(rules.confidence);
        return drawing.bottom();
    };
    Canvas scratch(across, 1.0, PictureFormat::web, title, "");
    Canvas canvas(across, draw_on(scratch), format, title, words_of(bars));
    draw_on(canvas);
    return canvas.finish();
}

std::string cover_bar(const project::Project& project, const cover::MakeCover& cover,
                      const cover::Rules& rules, PictureFormat format) {
    return cover_bar_at(project, cover, rules, format, PictureWidth::wide);
}

}  // namespace skeinfall::report
