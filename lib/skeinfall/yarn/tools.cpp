#include "skeinfall/yarn/tools.hpp"

#include <charconv>
#include <cmath>
#include <string_view>

#include "skeinfall/data/hooks.hpp"
#include "skeinfall/data/needles.hpp"
#include "skeinfall/units/format.hpp"

namespace skeinfall::yarn {
namespace {

bool is_size(std::string_view printed, units::Length diameter) {
    double mm = 0.0;
    std::from_chars(printed.data(), printed.data() + printed.size(), mm);
    return std::abs(mm - diameter / units::millimetre) < 1e-6;
}

std::string with_label(units::Length diameter, const std::optional<std::string>& label) {
    std::string out = units::exact_number(units::Ratio(
                          std::round(1000.0 * (diameter / units::millimetre)) / 1000.0)) +
                      " mm";
    if (label) out += " (US " + *label + ")";
    return out;
}

}  // namespace

std::optional<std::string> us_hook_label(units::Length diameter) {
    for (const auto& row : data::hooks)
        if (row.kind == "regular" && !row.us_label.empty() && is_size(row.mm, diameter))
            return std::string(row.us_label);
    return std::nullopt;
}

std::optional<std::string> us_needle_label(units::Length diameter) {
    for (const auto& row : data::needles)
        if (!row.us.empty() && is_size(row.mm, diameter)) return std::string(row.us);
    return std::nullopt;
}

std::string hook_text(units::Length diameter) {
    return with_label(diameter, us_hook_label(diameter));
}

std::string needle_text(units::Length diameter) {
    return with_label(diameter, us_needle_label(diameter));
}

}  // namespace skeinfall::yarn
