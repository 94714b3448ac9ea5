#include <algorithm>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/report/charts.hpp"
#include "skeinfall/report/detail/look.hpp"
#include "skeinfall/report/detail/picture_canvas.hpp"
#include "skeinfall/report/words.hpp"

namespace skeinfall::report {
namespace {

using base::shown_inert;
using units::Length;
using units::Ratio;
using units::Rounding;
using units::Step;
namespace letters = look::letters;

constexpr double names_width = 250.0;
constexpr double evidence_height = 30.0;
/// To either side, so that nineteen makes in twenty fall within.
constexpr double nineteen_in_twenty = 1.96;

/// One thing that tells the yarn, or what all of them come to.
struct Told {
    std::string name;
    Length yarn{};
    Length least{};
    Length most{};
    bool answer = false;
    bool discord = false;
};

Told told(const std::string& name, Length yarn, Ratio spread) {
    const double half = nineteen_in_twenty * spread.value();
    return {name, yarn, yarn * std::max(0.0, 1.0 - half), yarn * (1.0 + half), false, false};
}

std::vector<Told> told_of(const need::RoleNeed& role) {
    std::vector<Told> out;
    for (const need::Evidence& one : role.evidence) {
        out.push_back(told(shown_inert(one.name.empty() ? role.how : one.name) + ", " +
                               units::percent_text(one.weight, Step::one, Rounding::nearest) +
                               " of the answer",
                           one.yarn, one.spread));
        out.back().discord = one.discord;
    }
    if (out.empty())
        out.push_back(told(shown_inert(role.how), role.length.centre, role.length.relative()));
    out.push_back(told("the answer", role.length.centre, role.length.relative()));
    out.back().answer = true;
    return out;
}

/// The answer is what has to be there; what tells of it leans to neither side.
std::string amount(const Told& one) {
    return yards_and_metres(one.yarn, one.answer ? Rounding::up : Rounding::nearest);
}

std::string in_words(const Told& one) {
    return fmt::format(
        "{}: {}, {} to {}{}", one.name, amount(one), yards_and_metres(one.least, Rounding::down),
        yards_and_metres(one.most, Rounding::up), one.discord ? "; it contradicts the rest" : "");
}

void draw(Canvas& canvas, double& y, const project::Role& role, const std::vector<Told>& all) {
    canvas.fitted({look::page_margin, y}, role_heading(role), letters::lead,
                  look::page_width - 2 * look::page_margin, Align::left, true);
    y += 12.0;
    Length longest{};
    for (const Told& one : all) longest = std::max(longest, one.most);
    const double from = look::page_margin + names_width;
    const double scale =
        (look::page_width - look::page_margin - from) / (1.04 * (longest / units::metre));
    const auto at = [&](Length length) { return from + length / units::metre * scale; };
    for (const Told& one : all) {
        y += evidence_height;
        canvas.fitted({look::page_margin, y}, one.name, letters::body, names_width - 12,
                      Align::left, one.answer);
        const double middle = y - 4;
        const double width = one.answer ? 3.0 : 1.2;
        canvas.line({at(one.least), middle}, {at(one.most), middle}, width, one.discord);
        for (const Length& end : {one.least, one.most})
            canvas.line({at(end), middle - 5}, {at(end), middle + 5}, 1.2);
        canvas.line({at(one.yarn), middle - 9}, {at(one.yarn), middle + 9}, 2.6);
        const std::string figure = amount(one);
        const double half = canvas.text_width(figure, letters::small) / 2;
        canvas.text(
            {std::clamp(at(one.yarn), from + half, look::page_width - look::page_margin - half),
             y - 15},
            figure, letters::small, Align::centre, one.answer);
    }
    y += 36.0;
}

}  // namespace

std::string evidence_picture(const project::Project& project, const need::MakeNeed& make,
                             PictureFormat format) {
    std::string words;
    double height = look::page_margin + 90.0;
    std::vector<std::vector<Told>> all;
    for (const need::RoleNeed& role : make.roles) {
        all.push_back(told_of(role));
        words += role.role + ": ";
        for (const Told& one : all.back()) words += in_words(one) + ". ";
        height += 48.0 + evidence_height * static_cast<double>(all.back().size());
    }
    const std::string title = title_text(project, make.size) + ": where the yarn figure comes from";
    Canvas canvas(look::page_width, height, format, title, words);
    canvas.fitted({look::page_margin, look::page_margin + 6}, title, letters::title,
                  look::page_width - 2 * look::page_margin, Align::left, true);
    double y = look::page_margin + 44.0;
    for (std::size_t at = 0; at < make.roles.size(); ++at)
        draw(canvas, y, *project.role(make.roles[at].role), all[at]);
    canvas.fitted({look::page_margin, y},
                  "bracket: what 19 makes in 20 take, going by that alone; dashed: it "
                  "contradicts the rest",
                  letters::small, look::page_width - 2 * look::page_margin);
    return canvas.finish();
}

}  // namespace skeinfall::report
