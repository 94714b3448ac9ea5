#include "skeinfall/materials/detail/lint_lines.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>

#include <fmt/format.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/data/materials_words.hpp"
#include "skeinfall/materials/adjust.hpp"
#include "skeinfall/materials/detail/scan.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/yarn/tools.hpp"

namespace skeinfall::materials {
namespace {

using units::Length;

std::string figure(double value) {
    constexpr int figures = 10;
    return units::figures_text(units::Ratio(value), figures);
}

std::string tenth(double value) {
    return units::number_text(units::Ratio(value), units::Step::tenth, units::Rounding::nearest);
}

double in_unit(Length length, const std::string& unit) {
    return length / (unit == "yd" ? units::yard : units::metre);
}

/// Printed up by a whole one, or to the next 5 from 100 on.
bool printed_up(double said, double made) {
    constexpr double large = 100.0;
    const double step = said >= large ? 5.0 : 1.0;
    return made <= said + scan_noise && said - made < step + scan_noise;
}

void compare(const Group& said, const std::vector<Length>& made, const std::string& of,
             std::vector<Otherwise>& out) {
    for (std::size_t at = 0; at < made.size(); ++at) {
        if (said.numbers.size() != 1 && at >= said.numbers.size()) return;
        const double number = said.numbers.size() == 1 ? said.numbers.front() : said.numbers[at];
        const double wanted = in_unit(made[at], said.unit);
        if (printed_up(number, wanted)) continue;
        out.push_back({said.column, fmt::format("{} {}{} here, and the project makes it {}",
                                                figure(number), said.unit, of, tenth(wanted))});
        return;
    }
}

}  // namespace

std::string_view block_of(const std::string& title) {
    const auto found =
        std::find_if(data::materials_words.begin(), data::materials_words.end(),
                     [&](const data::materials_words_row& row) { return row.text == title; });
    std::string_view key = found == data::materials_words.end() ? "" : found->key;
    constexpr std::string_view uk = "_uk";
    if (key.ends_with(uk)) key.remove_suffix(uk.size());
    return key;
}

bool tells_colours(const std::string& head) {
    constexpr std::string_view of = "{role}";
    return std::any_of(data::materials_words.begin(), data::materials_words.end(),
                       [&](const data::materials_words_row& row) {
                           if (row.key != "changes_colour") return false;
                           const std::string_view text(row.text);
                           const std::size_t from = text.find(of) + of.size();
                           return head.ends_with(text.substr(from, text.find(": ") - from));
                       });
}

GridShape grid_shape_of(const std::vector<Line>& lines) {
    GridShape out;
    std::string_view block;
    std::map<std::size_t, int> lists;
    std::map<std::string, std::size_t> lengths;
    for (const Line& line : lines) {
        if (line.heading) block = block_of(line.text);
        const Group* const yarn = line.first("yd") != nullptr ? line.first("yd") : line.first("m");
        if (line.heading || block != "by_size" || line.head().empty() || yarn == nullptr) continue;
        ++lists[yarn->numbers.size()];
        const std::size_t count = ++lengths[line.text.substr(0, line.text.find(", "))];
        out.lengths = std::max(out.lengths, count);
    }
    // What most of them have: one of them may be the slip that is looked for.
    int most = 0;
    for (const auto& [widths, count] : lists)
        if (count > most) {
            most = count;
            out.widths = widths;
        }
    return out;
}

bool in_a_size_name(const Line& line, const Group& group, const Section* section) {
    if (section == nullptr || !section->grid) return false;
    for (const auto* names : {&section->grid->widths, &section->grid->lengths})
        for (const std::string& printed : *names) {
            const std::string name = base::shown_inert(printed);
            if (name.empty()) continue;
            for (std::size_t at = line.text.find(name); at != std::string::npos;
                 at = line.text.find(name, at + 1))
                if (group.column >= line.columns[at] &&
                    group.column <= line.columns[at + name.size() - 1])
                    return true;
        }
    return false;
}

std::vector<Otherwise> tool_labels_against(const Line& line) {
    const Group* size = line.first("mm");
    const std::size_t open = line.text.find("(US ");
    if (size == nullptr || open == std::string::npos) return {};
    std::vector<Otherwise> out;
    const std::size_t end = line.text.find_first_of(",)", open);
    const std::string label = line.text.substr(open + 4, end - open - 4);
    const Length diameter = size->numbers.front() * units::millimetre;
    const auto hook = yarn::us_hook_label(diameter);
    const auto needle = yarn::us_needle_label(diameter);
    if (label != hook.value_or(label) && label != needle.value_or(label))
        out.push_back({size->column, fmt::format("{} mm is a US {} hook and a US {} needle, not {}",
                                                 figure(size->numbers.front()), *hook, *needle,
                                                 base::quoted(label))});
    constexpr std::string_view uk = ", UK ";
    const std::size_t second = line.text.find(uk, open);
    if (second == std::string::npos) return out;
    const std::size_t begin = second + uk.size();
    const std::string old = line.text.substr(begin, line.text.find(')', begin) - begin);
    for (const yarn::ToolSize& one : yarn::sizes_of(yarn::Tool::needle))
        if (yarn::same_diameter(one.diameter, diameter) && one.uk != old)
            out.push_back({size->column,
                           fmt::format("{} mm is a UK {} needle, not {}",
                                       figure(size->numbers.front()), one.uk, base::quoted(old))});
    return out;
}

std::vector<Otherwise> grid_line_against(const Line& line, const Section& section) {
    std::vector<Otherwise> out;
    if (!section.grid) return out;
    const std::string head = line.text.substr(0, line.text.find(": "));
    const std::size_t lengths = std::max<std::size_t>(1, section.grid->lengths.size());
    for (const YarnLine& yarn : section.yarns)
        for (std::size_t length = 0; length < section.grid->lengths.size(); ++length) {
            const std::string named = base::shown_inert(yarn.role) + ", " +
                                      base::shown_inert(section.grid->lengths[length]);
            if (!head.starts_with(named + " ")) continue;
            std::vector<Length> made;
            for (std::size_t size = length; size < yarn.total.size(); size += lengths)
                made.push_back(yarn.total[size]);
            for (const Group& group : line.groups)
                if ((group.unit == "yd" || group.unit == "m") &&
                    group.numbers.size() == made.size())
                    compare(group, made, " of " + head, out);
            return out;
        }
    return out;
}

namespace {

/// "6 chains", "3 rows", of motifs "8 more".
const Group* count_in(const Line& line) {
    for (const char* unit :
         {"rows", "row", "rounds", "round", "chains", "chain", "stitches", "stitch", "more"})
        if (const Group* const found = line.first(unit)) return found;
    return nullptr;
}

}  // namespace

std::vector<Otherwise> adjust_line_against(const Line& line, const Section& section) {
    std::vector<Otherwise> out;
    if (!section.adjust) return out;
    const Adjustment& more = *section.adjust;
    const Group* const count = count_in(line);
    const bool in_stitches = more.of == fit::EachMore::Of::stitches;
    if (count == nullptr && in_stitches) return out;
    const bool along = in_stitches ? count->unit.starts_with("ro")
                                   : line.text.find(" longer") != std::string::npos;
    const std::int64_t wanted = along ? more.rows : more.stitches;
    if (count != nullptr &&
        std::abs(count->numbers.front() - static_cast<double>(wanted)) > scan_noise)
        out.push_back(
            {count->column, fmt::format("{} {} here, and the project makes it {}",
                                        figure(count->numbers.front()), count->unit, wanted)});
    const Length each = along ? more.longer : more.wider;
    constexpr double half_centimetre = 0.5;
    if (const Group* const cm = line.first("cm");
        cm != nullptr &&
        std::abs(cm->numbers.front() - each / units::centimetre) > half_centimetre + scan_noise)
        out.push_back({cm->column,
                       fmt::format("{} cm here, and the project makes it {}",
                                   figure(cm->numbers.front()), tenth(each / units::centimetre))});
    // The yarns stand in their order, each in one unit or two.
    for (const char* unit : {"yd", "m"}) {
        auto group = line.groups.begin();
        for (const Adjustment::OfYarn& yarn : more.yarns) {
            std::vector<Length> made = along ? yarn.for_length : yarn.for_width;
            const Length most = *std::max_element(made.begin(), made.end());
            if (most <= Length{}) continue;
            made = printed_figures(section, made, along ? Grows::longer : Grows::wider);
            group = std::find_if(group, line.groups.end(),
                                 [&](const Group& one) { return one.unit == unit; });
            if (group == line.groups.end()) break;
            compare(*group, made, more.yarns.size() > 1 ? " of " + yarn.role : "", out);
            ++group;
        }
    }
    return out;
}

}  // namespace skeinfall::materials
