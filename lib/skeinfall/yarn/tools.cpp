#include "skeinfall/yarn/tools.hpp"

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/data/hooks.hpp"
#include "skeinfall/data/needles.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::yarn {
namespace {

constexpr std::string_view second_steel_scale = "steel, alternative scale";

units::Length millimetres(std::string_view printed) {
    return base::leading_number<double>(printed) * units::millimetre;
}

std::string mm_text(units::Length diameter) {
    return units::figures_text(units::Ratio(diameter / units::millimetre), 5) + " mm";
}

std::optional<std::string> us_label(Tool tool, units::Length diameter) {
    for (const ToolSize& size : sizes_of(tool))
        if (!size.us.empty() && same_diameter(size.diameter, diameter)) return std::string(size.us);
    return std::nullopt;
}

std::string with_label(units::Length diameter, const std::optional<std::string>& label) {
    return mm_text(diameter) + (label ? " (US " + *label + ")" : std::string());
}

}  // namespace

bool same_diameter(units::Length a, units::Length b) {
    constexpr units::Length noise = 1e-6 * units::millimetre;
    return a - b < noise && b - a < noise;
}

std::optional<std::string> us_hook_label(units::Length diameter) {
    return us_label(Tool::hook, diameter);
}

std::optional<std::string> us_needle_label(units::Length diameter) {
    return us_label(Tool::needle, diameter);
}

std::string hook_text(units::Length diameter) {
    return with_label(diameter, us_hook_label(diameter));
}

std::string needle_text(units::Length diameter) {
    return with_label(diameter, us_needle_label(diameter));
}

std::string_view text(Tool tool) {
    switch (tool) {
        case Tool::hook:
            return "hook";
        case Tool::steel_hook:
            return "steel hook";
        case Tool::needle:
            break;
    }
    return "needle";
}

std::vector<ToolSize> sizes_of(Tool tool) {
    std::vector<ToolSize> out;
    if (tool == Tool::needle) {
        for (const auto& row : data::needles)
            out.push_back({tool, millimetres(row.mm), row.us, row.uk_old_number, false,
                           row.status == "memory", row.source, row.note, row.jp, row.us_also});
        return out;
    }
    for (const auto& row : data::hooks)
        if ((row.kind == "regular") == (tool == Tool::hook))
            out.push_back({tool, millimetres(row.mm), row.us_label, row.uk_old_number,
                           row.kind == second_steel_scale, row.status == "memory", row.source,
                           row.note, row.jp, row.us_also});
    return out;
}

std::string text(const ToolSize& size) {
    std::string out = mm_text(size.diameter);
    std::string labels;
    if (size.tool == Tool::steel_hook) {
        labels = "steel " + std::string(size.us) + (size.second_scale ? ", other numbering" : "");
    } else {
        if (!size.us.empty()) labels = "US " + std::string(size.us);
        if (!size.uk.empty()) labels += (labels.empty() ? "UK " : ", UK ") + std::string(size.uk);
    }
    if (!labels.empty()) out += " (" + labels + ")";
    return out;
}

base::Result<units::Length> parse_hook(std::string_view text) {
    return parse_tool_size(Tool::hook, text);
}

base::Result<units::Length> parse_needle(std::string_view text) {
    return parse_tool_size(Tool::needle, text);
}

}  // namespace skeinfall::yarn
