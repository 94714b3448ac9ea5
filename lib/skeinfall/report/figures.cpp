#include "skeinfall/report/detail/figures.hpp"

#include <algorithm>

#include <utf8.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/yarn/tools.hpp"

namespace skeinfall::report {
namespace {

using units::Length;
using units::Ratio;
using units::Rounding;
using units::Shown;
using units::Step;
namespace shown = units::shown;

template <class Q>
std::vector<std::string> in_unit(const std::vector<Q>& values, const Shown<Q>& unit,
                                 const std::function<std::string(Ratio)>& number) {
    std::vector<std::string> out;
    out.reserve(values.size());
    for (const Q& value : values) out.push_back(number(Ratio(value / unit.one)));
    return out;
}

/// Whether a label's text is in yards, feet, inches, ounces or pounds.
bool is_imperial(const std::string& text) {
    const std::size_t at =
        text.find_first_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ");
    return at != std::string::npos &&
           std::string_view("yfioplYFIOPL").find(text[at]) != std::string_view::npos;
}

bool right_to_left(std::string_view text) {
    for (auto at = text.begin(); at != text.end();) {
        const char32_t point = utf8::unchecked::next(at);
        if ((point >= 0x590 && point < 0x900) || (point >= 0xfb1d && point < 0xfe00) ||
            (point >= 0xfe70 && point < 0xff00) || (point >= 0x10800 && point < 0x11000) ||
            (point >= 0x1e800 && point < 0x1f000))
            return true;
    }
    return false;
}

/// The label a chart gives a tool of this diameter; empty when none does.
std::string_view label_of(yarn::Tool tool, Length diameter,
                          std::string_view yarn::ToolSize::*which) {
    for (const yarn::ToolSize& size : yarn::sizes_of(tool))
        if (yarn::same_diameter(size.diameter, diameter)) return size.*which;
    return {};
}

}  // namespace

std::string total_number(Length total, const Shown<Length>& unit) {
    constexpr double large = 100.0;
    return units::number_text(Ratio(total / unit.one),
                              total / unit.one >= large ? Step::five : Step::one, Rounding::up);
}

std::string shown_apart(const std::string& text) {
    const std::string inert = base::shown_inert(text);
    return right_to_left(inert) ? "\u2068" + inert + "\u2069" : inert;
}

std::string Figures::marked(std::string number) const {
    if (style_.decimal_comma) std::replace(number.begin(), number.end(), '.', ',');
    return number;
}

std::string Figures::number(Ratio value, Step step, Rounding rounding) const {
    return marked(units::plain_number(value, step, rounding));
}

std::string Figures::percent(Ratio share, Step step, Rounding rounding) const {
    return marked(units::percent_text(share, step, rounding));
}

std::string Figures::sizes(const std::vector<std::string>& values) const {
    if (values.empty()) return {};
    if (std::all_of(values.begin(), values.end(),
                    [&](const std::string& value) { return value == values.front(); }))
        return values.front();
    return values.front() + " (" +
           base::join({values.begin() + 1, values.end()}, style_.decimal_comma ? "; " : ", ") + ")";
}

std::string Figures::both(const std::string& imperial_text, const std::string& metric_text) const {
    if (!metric()) return imperial_text;
    if (!imperial()) return metric_text;
    return imperial_text + " / " + metric_text;
}

std::string Figures::totals(const std::vector<Length>& totals) const {
    const auto in = [&](const Shown<Length>& unit) {
        std::vector<std::string> texts;
        texts.reserve(totals.size());
        for (const Length& total : totals) texts.push_back(total_number(total, unit));
        return sizes(texts) + " " + std::string(unit.symbol);
    };
    return both(in(shown::yards), in(shown::metres));
}

std::string Figures::finished(const std::vector<Length>& lengths) const {
    const auto in = [&](const Shown<Length>& unit, Step step) {
        return sizes(in_unit<Length>(
                   lengths, unit,
                   [&](Ratio value) { return number(value, step, Rounding::nearest); })) +
               " " + std::string(unit.symbol);
    };
    return both(in(shown::inches, Step::quarter), in(shown::centimetres, Step::one));
}

std::string Figures::as_printed(const std::string& text, const std::string& imperial_text,
                                const std::string& metric_text) const {
    const std::string inert = shown_apart(text);
    const std::string& other = is_imperial(text) ? metric_text : imperial_text;
    const bool own_wanted = is_imperial(text) ? imperial() : metric();
    const bool other_wanted = is_imperial(text) ? metric() : imperial();
    if (!own_wanted) return other;
    return other_wanted ? words_.fill("also", {{"first", inert}, {"second", other}}) : inert;
}

std::string Figures::label(const units::Printed<Length>& length) const {
    const auto in = [&](const Shown<Length>& unit) {
        return number(Ratio(length.value / unit.one), Step::one, Rounding::nearest) + " " +
               std::string(unit.symbol);
    };
    return as_printed(length.text, in(shown::yards), in(shown::metres));
}

std::string Figures::label(const units::Printed<units::Mass>& mass) const {
    const auto in = [&](const Shown<units::Mass>& unit, Step step) {
        return number(Ratio(mass.value / unit.one), step, Rounding::nearest) + " " +
               std::string(unit.symbol);
    };
    return as_printed(mass.text, in(shown::ounces, Step::hundredth), in(shown::grams, Step::one));
}

std::string Figures::grist(units::Grist grist) const {
    const auto in = [&](const Shown<units::Grist>& per, const Shown<Length>& unit) {
        constexpr double few = 50.0;
        const double value = grist / per.one;
        return words_.fill("per_100g",
                           {{"length", number(Ratio(value), value < few ? Step::one : Step::five,
                                              Rounding::nearest) +
                                           " " + std::string(unit.symbol)}});
    };
    std::string yards = in(shown::yards_per_100g, shown::yards);
    std::string metres = in(shown::metres_per_100g, shown::metres);
    if (!metric()) return yards;
    if (!imperial()) return metres;
    return words_.fill("also", {{"first", yards}, {"second", metres}});
}

std::string Figures::gauge(const project::Gauge& gauge) const {
    const auto counts = [&](const Shown<units::StitchGauge>& stitches,
                            const Shown<units::RowGauge>& rows) {
        return std::pair(
            number(Ratio(gauge.stitches / stitches.one), Step::half, Rounding::nearest),
            number(Ratio(gauge.rows / rows.one), Step::half, Rounding::nearest));
    };
    const auto line = [&](const std::pair<std::string, std::string>& count,
                          const std::string& square) {
        return words_.fill("gauge_counts",
                           {{"stitches", count.first}, {"rows", count.second}, {"square", square}});
    };
    const auto in = counts(shown::per_4in, shown::rows_per_4in);
    const auto cm = counts(shown::per_10cm, shown::rows_per_10cm);
    if (!metric()) return line(in, "4 in");
    if (!imperial()) return line(cm, "10 cm");
    if (in == cm) return line(in, "4 in / 10 cm");
    return line(in, "4 in") + ", " + line(cm, "10 cm");
}

std::string Figures::hook(Length diameter) const {
    const std::string size = yarn::hook_text(diameter);
    return marked(size.substr(0, size.find(" ("))) +
           (size.find(" (") == std::string::npos ? "" : size.substr(size.find(" (")));
}

std::string Figures::needle(Length diameter) const {
    using yarn::Tool;
    std::vector<std::string> labels;
    const std::string_view us = label_of(Tool::needle, diameter, &yarn::ToolSize::us);
    const std::string_view uk = label_of(Tool::needle, diameter, &yarn::ToolSize::uk);
    if (!us.empty()) labels.push_back(words_.fill("us_label", {{"label", std::string(us)}}));
    if (!uk.empty()) labels.push_back(words_.fill("uk_label", {{"label", std::string(uk)}}));
    const std::string size = yarn::needle_text(diameter);
    return marked(size.substr(0, size.find(" ("))) +
           (labels.empty() ? "" : " (" + base::join(labels, ", ") + ")");
}

}  // namespace skeinfall::report
