#include "skeinfall/report/detail/figures.hpp"

#include <algorithm>
#include <cmath>

#include <utf8.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/units/number_style.hpp"
#include "skeinfall/yarn/tools.hpp"

namespace skeinfall::report {
namespace {

using units::Length;
using units::Ratio;
using units::Rounding;
using units::Shown;
using units::Step;
namespace shown = units::shown;

bool digit(char c) {
    return c >= '0' && c <= '9';
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

/// Both systems, the one that is read first in front, or one of them alone.
template <class Join>
std::string wanted(const std::string& imperial, const std::string& metric, const Join& join) {
    const units::NumberStyle& style = units::number_style();
    if (!style.metric()) return imperial;
    if (!style.imperial()) return metric;
    return style.metres_first ? join(metric, imperial) : join(imperial, metric);
}

std::string slashed(const std::string& first, const std::string& second) {
    return first + " / " + second;
}

/// A figure of a label as it is printed there, with the reader's decimal mark.
std::string marked(std::string label) {
    for (std::size_t at = 1; at + 1 < label.size(); ++at)
        if (label[at] == '.' && digit(label[at - 1]) && digit(label[at + 1]))
            label[at] = units::number_style().decimal_mark;
    return label;
}

/// The label a chart gives a tool of this diameter; empty when none does.
std::string_view label_of(yarn::Tool tool, Length diameter,
                          std::string_view yarn::ToolSize::*which) {
    for (const yarn::ToolSize& size : yarn::sizes_of(tool))
        if (yarn::same_diameter(size.diameter, diameter)) return size.*which;
    return {};
}

}  // namespace

std::optional<Length> held_by(const std::vector<Length>& skeins_hold, std::size_t size) {
    return size < skeins_hold.size() ? std::optional(skeins_hold[size]) : std::nullopt;
}

std::string total_number(Length total, const Shown<Length>& unit, std::optional<Length> at_most) {
    constexpr double large = 100.0;
    const Ratio figure(total / unit.one);
    const auto whole = [&](double step) { return std::ceil(figure.value() / step - 1e-9) * step; };
    const auto fits = [&](double printed) {
        return !at_most || printed <= *at_most / unit.one + 1e-9;
    };
    constexpr double fives = 5.0;
    if (figure.value() >= large && fits(whole(fives)))
        return units::number_text(figure, Step::five, Rounding::up);
    if (fits(whole(1.0))) return units::number_text(figure, Step::one, Rounding::up);
    return units::number_text(figure, Step::tenth, Rounding::up);
}

std::string shown_apart(const std::string& text) {
    const std::string inert = base::shown_inert(text);
    return right_to_left(inert) ? "\u2068" + inert + "\u2069" : inert;
}

std::string Figures::sizes(const std::vector<std::string>& values) {
    if (values.empty()) return {};
    if (std::all_of(values.begin(), values.end(),
                    [&](const std::string& value) { return value == values.front(); }))
        return values.front();
    return values.front() + " (" +
           base::join({values.begin() + 1, values.end()}, units::number_style().list_mark()) + ")";
}

std::string Figures::totals(const std::vector<Length>& totals,
                            const std::vector<Length>& skeins_hold) {
    const auto in = [&](const Shown<Length>& unit) {
        std::vector<std::string> texts;
        texts.reserve(totals.size());
        for (std::size_t size = 0; size < totals.size(); ++size)
            texts.push_back(total_number(totals[size], unit, held_by(skeins_hold, size)));
        return sizes(texts) + " " + std::string(unit.symbol);
    };
    return wanted(in(shown::yards), in(shown::metres), slashed);
}

std::string ruler_inches(Length side) {
    constexpr double coarse = 4.0;
    const double inches = side / units::inch;
    if (inches >= coarse)
        return units::plain_number(Ratio(inches), Step::quarter, Rounding::nearest);
    constexpr double eighths = 8.0;
    const double marks = std::round(inches * eighths);
    return units::plain_number(Ratio((inches > 0.0 ? std::max(1.0, marks) : marks) / eighths),
                               Step::thousandth, Rounding::nearest);
}

std::string ruler_centimetres(Length side) {
    constexpr double coarse = 10.0;
    const double centimetres = side / units::centimetre;
    if (centimetres >= coarse)
        return units::plain_number(Ratio(centimetres), Step::one, Rounding::nearest);
    constexpr double millimetres = 10.0;
    const double marks = std::round(centimetres * millimetres);
    return units::plain_number(
        Ratio((centimetres > 0.0 ? std::max(1.0, marks) : marks) / millimetres), Step::tenth,
        Rounding::nearest);
}

std::string ruler_text(Length side) {
    return wanted(ruler_inches(side) + " in", ruler_centimetres(side) + " cm",
                  [](const std::string& first, const std::string& second) {
                      return first + " (" + second + ")";
                  });
}

std::string grams_text(units::Mass mass, Rounding rounding) {
    return units::text(mass, shown::grams, Step::tenth, rounding);
}

std::string mass_up(units::Mass mass) {
    const std::string grams = units::text(mass, shown::grams, Step::one, Rounding::up);
    if (units::number_style().metric()) return grams;
    return units::text(mass, shown::ounces, Step::tenth, Rounding::up) + " (" + grams + ")";
}

std::string Figures::finished(const std::vector<Length>& lengths) {
    const auto in = [&](const Shown<Length>& unit, auto ruler) {
        std::vector<std::string> texts;
        texts.reserve(lengths.size());
        for (const Length& length : lengths) texts.push_back(ruler(length));
        return sizes(texts) + " " + std::string(unit.symbol);
    };
    return wanted(in(shown::inches, ruler_inches), in(shown::centimetres, ruler_centimetres),
                  slashed);
}

std::string Figures::as_printed(const std::string& text, const std::string& imperial_text,
                                const std::string& metric_text) const {
    const units::NumberStyle& style = units::number_style();
    const std::string inert = marked(shown_apart(text));
    const std::string& other = is_imperial(text) ? metric_text : imperial_text;
    const bool own_wanted = is_imperial(text) ? style.imperial() : style.metric();
    const bool other_wanted = is_imperial(text) ? style.metric() : style.imperial();
    if (!own_wanted) return other;
    return other_wanted ? words_.fill("also", {{"first", inert}, {"second", other}}) : inert;
}

std::string Figures::label(const units::Printed<Length>& length) const {
    const auto in = [&](const Shown<Length>& unit) {
        return units::plain_number(Ratio(length.value / unit.one), Step::one, Rounding::nearest) +
               " " + std::string(unit.symbol);
    };
    return as_printed(length.text, in(shown::yards), in(shown::metres));
}

std::string Figures::label(const units::Printed<units::Mass>& mass) const {
    const auto in = [&](const Shown<units::Mass>& unit, Step step) {
        return units::plain_number(Ratio(mass.value / unit.one), step, Rounding::nearest) + " " +
               std::string(unit.symbol);
    };
    return as_printed(mass.text, in(shown::ounces, Step::hundredth), in(shown::grams, Step::one));
}

std::string Figures::grist(units::Grist grist) const {
    constexpr double few = 50.0;
    const auto in = [&](const char* key, const Shown<units::Grist>& per,
                        const Shown<Length>& unit) {
        const double value = grist / per.one;
        return words_.fill(
            key, {{"length", units::plain_number(Ratio(value), value < few ? Step::one : Step::five,
                                                 Rounding::nearest) +
                                 " " + std::string(unit.symbol)}});
    };
    const auto also = [&](const std::string& first, const std::string& second) {
        return words_.fill("also", {{"first", first}, {"second", second}});
    };
    const std::string yards = in("per_100g", shown::yards_per_100g, shown::yards);
    // Who asks for inches and ounces meets grams in brackets only.
    if (!units::number_style().metric())
        return also(
            words_.fill("per_oz",
                        {{"length", units::plain_number(Ratio(grist / shown::yards_per_ounce.one),
                                                        Step::one, Rounding::nearest) +
                                        " yd"}}),
            yards);
    return wanted(yards, in("per_100g", shown::metres_per_100g, shown::metres), also);
}

std::string Figures::gauge(const project::Gauge& gauge, bool rounds) const {
    struct Counts {
        double stitches = 0.0;
        double rows = 0.0;
        double off = 0.0;  ///< from the half stitches and rows that are printed
    };
    const auto counts = [&](const Shown<units::StitchGauge>& stitches,
                            const Shown<units::RowGauge>& rows) {
        constexpr double halves = 2.0;
        const auto to_half = [&](double count) { return std::round(count * halves) / halves; };
        const double across = gauge.stitches / stitches.one;
        const double high = gauge.rows / rows.one;
        return Counts{to_half(across), to_half(high),
                      std::abs(across - to_half(across)) + std::abs(high - to_half(high))};
    };
    const auto line = [&](const Counts& count, const std::string& square) {
        const auto half = [](double number) {
            return units::plain_number(Ratio(number), Step::half, Rounding::nearest);
        };
        return words_.fill(
            rounds ? "gauge_counts_rounds" : "gauge_counts",
            {{"stitches", half(count.stitches)}, {"rows", half(count.rows)}, {"square", square}});
    };
    const auto also = [&](const std::string& first, const std::string& second) {
        return words_.fill("also", {{"first", first}, {"second", second}});
    };
    const Counts in = counts(shown::per_4in, shown::rows_per_4in);
    const Counts cm = counts(shown::per_10cm, shown::rows_per_10cm);
    const units::NumberStyle& style = units::number_style();
    if (style.metric() && style.imperial()) {
        // The trade takes 4 in for 10 cm, as long as no one counts the difference.
        const bool alike =
            std::abs(in.stitches - cm.stitches) < 1.0 && std::abs(in.rows - cm.rows) < 1.0;
        const bool same = in.stitches == cm.stitches && in.rows == cm.rows;
        if (same)
            return line(in, style.metres_first ? also("10 cm", "4 in") : also("4 in", "10 cm"));
        if (alike)
            return cm.off <= in.off ? line(cm, also("10 cm", "4 in"))
                                    : line(in, also("4 in", "10 cm"));
    }
    return wanted(
        line(in, "4 in"), line(cm, "10 cm"),
        [](const std::string& first, const std::string& second) { return first + ", " + second; });
}

namespace {

/// "4 mm" of "4 mm (US 6)".
std::string size_alone(const std::string& labelled) {
    return labelled.substr(0, labelled.find(" ("));
}

}  // namespace

std::string Figures::hook(Length diameter, bool us) {
    const std::string size = yarn::hook_text(diameter);
    return us ? size : size_alone(size);
}

std::string Figures::needle(Length diameter, bool us, bool uk) const {
    using yarn::Tool;
    std::vector<std::string> labels;
    const auto add = [&](bool wanted, const char* key, std::string_view label) {
        if (wanted && !label.empty())
            labels.push_back(words_.fill(key, {{"label", std::string(label)}}));
    };
    add(us, "us_label", label_of(Tool::needle, diameter, &yarn::ToolSize::us));
    add(uk, "uk_label", label_of(Tool::needle, diameter, &yarn::ToolSize::uk));
    return size_alone(yarn::needle_text(diameter)) +
           (labels.empty() ? "" : " (" + base::join(labels, ", ") + ")");
}

}  // namespace skeinfall::report
