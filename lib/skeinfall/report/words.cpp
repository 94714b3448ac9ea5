#include "skeinfall/report/words.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/base/width.hpp"
#include "skeinfall/units/number_style.hpp"

namespace skeinfall::report {
namespace {

using Cells = std::vector<std::vector<std::string>>;

/// A cell set to a column.
std::vector<std::string> lines_of(const std::string& cell, std::size_t width) {
    return base::split(base::folded(cell, width, 0), '\n');
}

/// Narrows columns until the table fits the page: the widest first, none below its longest word.
/// A table that cannot be made to fit is left as wide as it is.
void fit(std::vector<std::size_t>& widths, const Cells& rows, std::size_t indent) {
    const std::size_t page = units::number_style().columns;
    std::size_t whole = indent;
    for (const std::size_t width : widths) whole += width + 2;
    if (page == 0 || whole <= page + 2) return;
    std::size_t excess = whole - page - 2;
    std::vector<std::size_t> least(widths.size(), 0);
    for (const auto& row : rows)
        for (std::size_t c = 0; c < row.size() && c < least.size(); ++c)
            for (const std::string& word : lines_of(row[c], 1))
                least[c] = std::max(least[c], base::display_width(word));
    std::vector<std::size_t> narrowed = widths;
    for (; excess > 0; --excess) {
        std::size_t best = widths.size();
        for (std::size_t c = 0; c < widths.size(); ++c)
            if (narrowed[c] > least[c] && (best == widths.size() || narrowed[c] > narrowed[best]))
                best = c;
        if (best == widths.size()) return;
        --narrowed[best];
    }
    widths = std::move(narrowed);
}

}  // namespace

std::string chance_text(measure::Chance chance) {
    constexpr double nearly_sure = 0.99;
    constexpr double hardly = 0.01;
    if (chance.value.value() > nearly_sure) return "> 99 %";
    if (chance.value.value() < hardly) return "< 1 %";
    return units::percent_text(chance.value, units::Step::one, units::Rounding::down);
}

units::Ratio chance_figure(measure::Chance chance) {
    constexpr double at_most = 0.9999;
    return units::Ratio(std::min(chance.value.value(), at_most));
}

std::string title_text(const project::Project& project, std::size_t size) {
    return sized_title(project.title, project.sizes.empty() ? std::string() : project.sizes[size]);
}

std::string sized_title(const std::string& title, const std::string& size) {
    return base::shown_inert(title) + (size.empty() ? "" : ", size " + base::shown_inert(size));
}

std::string role_heading(const project::Role& role) {
    std::string out = base::shown_inert(role.id);
    if (!role.name.empty()) out += " " + base::shown_inert(role.name);
    if (!role.colour.empty()) out += " " + base::shown_inert(role.colour);
    return out;
}

std::string scale_unit(units::Mass step) {
    // A gram scale's step is whole in milligrams; that of a scale in ounces never is.
    const double milligrams = 1000.0 * (step / units::gram).value();
    return std::abs(milligrams - std::round(milligrams)) < 1e-6 ? "g" : "oz";
}

std::string scale_text(units::Mass mass, units::Mass step, units::Rounding rounding) {
    const auto whole = [](double number) { return std::abs(number - std::round(number)) < 1e-9; };
    const double grain = step / units::gram;
    if (scale_unit(step) == "oz") {
        const double ounces = step / units::ounce;
        return units::text(mass, units::shown::ounces,
                           whole(ounces)         ? units::Step::one
                           : whole(10 * ounces)  ? units::Step::tenth
                           : whole(100 * ounces) ? units::Step::hundredth
                                                 : units::Step::thousandth,
                           rounding);
    }
    return units::text(mass, units::shown::grams,
                       whole(grain)        ? units::Step::one
                       : whole(10 * grain) ? units::Step::tenth
                                           : units::Step::hundredth,
                       rounding);
}

std::string counted(std::int64_t count, const std::string& one, const std::string& many) {
    return std::to_string(count) + " " + (count == 1 ? one : many);
}

std::string step_text(const project::Project& project, const need::Step& step) {
    using need::Purpose;
    // A step with a name belongs to no piece.
    if (!step.name.empty())
        return (step.row > 0 ? "round " + std::to_string(step.row) + " of " : "") +
               base::shown_inert(step.name);
    switch (step.purpose) {
        case Purpose::border:
        case Purpose::seam:
        case Purpose::fringe:
        case Purpose::other:
            return std::string(need::name_of(step.purpose));
        default:
            break;
    }
    if (project.pieces.empty()) return "the make";
    const project::Piece& piece = project.pieces[step.piece];
    std::string of = base::shown_inert(piece.name);
    const bool several = std::any_of(piece.count.values.begin(), piece.count.values.end(),
                                     [](std::int64_t count) { return count > 1; });
    if (several) of += " " + std::to_string(step.copy);
    const std::string row = std::string(project::row_word(piece.worked)) + " ";
    switch (step.purpose) {
        case Purpose::foundation:
            return "foundation of " + of;
        case Purpose::bind_off:
            return "bind-off of " + of;
        case Purpose::carried:
            return "strand carried to " + row + std::to_string(step.row) + " of " + of;
        default:
            return row + std::to_string(step.row) + " of " + of;
    }
}

std::string place_text(const project::Project& project, const joins::JoinPlan& plan,
                       const joins::Position& position) {
    constexpr double hardly = 0.005;
    // A fringe is cut, and has no row to join in.
    if (position.share.value() > hardly && position.step < plan.steps.size() &&
        plan.steps[position.step].purpose == need::Purpose::fringe) {
        const need::Step& step = plan.steps[position.step];
        for (const project::FinishPart& part : project.finish)
            if (part.kind == project::PartKind::fringe && part.name == step.name &&
                part.strands.values.size() == 1)
                return fmt::format(
                    "after strand {} of {} of {}",
                    static_cast<std::int64_t>(std::floor(
                        position.share.value() * static_cast<double>(part.strands.values.front()))),
                    part.strands.values.front(), base::shown_inert(part.name));
    }
    if (position.share.value() > hardly && position.step < plan.steps.size())
        return "in " + step_text(project, plan.steps[position.step]) + ", " +
               units::percent_text(position.share, units::Step::one, units::Rounding::nearest) +
               " along";
    if (position.step == 0) return "before the first row";
    return "after " + step_text(project, plan.steps[position.step - 1]);
}

std::string table(const std::vector<std::vector<std::string>>& rows, const std::vector<bool>& right,
                  std::size_t indent) {
    std::vector<std::size_t> widths(right.size(), 0);
    for (const auto& row : rows)
        for (std::size_t c = 0; c < row.size() && c < widths.size(); ++c)
            widths[c] = std::max(widths[c], base::display_width(row[c]));
    fit(widths, rows, indent);
    std::string out;
    for (const auto& row : rows) {
        std::vector<std::vector<std::string>> cells;
        std::size_t height = 1;
        for (std::size_t c = 0; c < row.size(); ++c) {
            cells.push_back(lines_of(row[c], widths[c]));
            height = std::max(height, cells.back().size());
        }
        for (std::size_t h = 0; h < height; ++h) {
            std::string line(indent, ' ');
            for (std::size_t c = 0; c < row.size(); ++c) {
                const std::string cell = h < cells[c].size() ? cells[c][h] : std::string();
                const std::string pad(widths[c] - base::display_width(cell), ' ');
                if (c != 0) line += "  ";
                line += right[c] ? pad + cell : cell + pad;
            }
            line.erase(line.find_last_not_of(' ') + 1);
            out += line + "\n";
        }
    }
    return out;
}

}  // namespace skeinfall::report
