#include "skeinfall/units/format.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <system_error>

#include <fmt/format.h>

#include "skeinfall/base/numbers.hpp"
#include "skeinfall/units/number_style.hpp"

namespace skeinfall::units {
namespace {

struct StepSize {
    double size;
    int decimals;
};

StepSize size_of(Step step) {
    switch (step) {
        case Step::thousandth:
            return {0.001, 3};
        case Step::hundredth:
            return {0.01, 2};
        case Step::tenth:
            return {0.1, 1};
        case Step::quarter:
            return {0.25, 2};
        case Step::half:
            return {0.5, 1};
        case Step::five:
            return {5.0, 0};
        case Step::one:
            break;
    }
    return {1.0, 0};
}

/// "8.5" for "8.50", "8" for "8.00".
std::string without_end_zeros(std::string number) {
    if (number.find('.') == std::string::npos) return number;
    number.erase(number.find_last_not_of('0') + 1);
    if (number.ends_with('.')) number.pop_back();
    return number;
}

/// With the reader's decimal mark for the point.
std::string marked(std::string number) {
    std::replace(number.begin(), number.end(), '.', number_style().decimal_mark);
    return number;
}

/// All its decimals, behind a point.
std::string rounded(Ratio value, Step step, Rounding rounding) {
    constexpr double noise = 1e-6;
    const StepSize unit = size_of(step);
    double steps = value.value() / unit.size;
    switch (rounding) {
        case Rounding::up:
            steps = std::ceil(steps - noise);
            break;
        case Rounding::down:
            steps = std::floor(steps + noise);
            break;
        case Rounding::nearest:
            steps = std::round(steps);
            break;
    }
    // Adding 0 turns -0 into 0.
    return fmt::format("{:.{}f}", steps * unit.size + 0.0, unit.decimals);
}

std::string in_both_systems(const std::string& imperial, const std::string& metric) {
    const NumberStyle& style = number_style();
    if (!style.metric()) return imperial;
    if (!style.imperial()) return metric;
    return style.metres_first ? metric + " (" + imperial + ")" : imperial + " (" + metric + ")";
}

/// See NumberStyle::yarn_in_grams.
std::string in_grams(Length yarn, Rounding rounding) {
    constexpr double small = 10.0;
    const Mass mass = yarn / metre * gram;
    return text(mass, shown::grams, std::abs(mass / gram) < small ? Step::tenth : Step::one,
                rounding);
}

}  // namespace

std::string number_text(Ratio value, Step step, Rounding rounding) {
    return marked(rounded(value, step, rounding));
}

std::string yards_and_metres(Length yarn, Rounding rounding) {
    if (number_style().yarn_in_grams) return in_grams(yarn, rounding);
    const auto in = [&](const Shown<Length>& unit) {
        constexpr double small = 10.0;
        return text(yarn, unit, std::abs(yarn / unit.one) < small ? Step::tenth : Step::one,
                    rounding);
    };
    return in_both_systems(in(shown::yards), in(shown::metres));
}

std::string inches_and_centimetres(Length side) {
    // Never a side of nothing.
    const auto in = [&](const Shown<Length>& unit) {
        constexpr double least = 0.1;
        return text(side, unit, std::abs(side / unit.one) < least ? Step::thousandth : Step::tenth,
                    Rounding::nearest);
    };
    return in_both_systems(in(shown::inches), in(shown::centimetres));
}

std::string yarn_text(Length yarn, Step step, Rounding rounding) {
    if (number_style().yarn_in_grams) return in_grams(yarn, rounding);
    return text(yarn, number_style().metric_leads() ? shown::metres : shown::yards, step, rounding);
}

std::string side_text(Length side, Step step, Rounding rounding) {
    return text(side, number_style().metric_leads() ? shown::centimetres : shown::inches, step,
                rounding);
}

std::string plain_number(Ratio value, Step step, Rounding rounding) {
    return marked(without_end_zeros(rounded(value, step, rounding)));
}

std::string figures_text(Ratio value, int figures) {
    const double size = std::abs(value.value());
    const int whole = size == 0.0 ? 1 : static_cast<int>(std::floor(std::log10(size))) + 1;
    std::array<char, 400> digits{};  // the largest double has 309 digits before its point
    const auto [end, error] =
        std::to_chars(digits.data(), digits.data() + digits.size(), value.value(),
                      std::chars_format::fixed, std::clamp(figures - whole, 0, 15));
    return marked(
        without_end_zeros(std::string(digits.data(), error == std::errc() ? end : digits.data())));
}

Ratio full_digits(Ratio value) {
    return Ratio(base::leading_number<double>(fmt::format("{:.15g}", value.value())));
}

std::string percent_text(Ratio share, Step step, Rounding rounding) {
    return plain_number(100.0 * share, step, rounding) + " %";
}

}  // namespace skeinfall::units
