// What must hold for every text and every amount. RapidCheck prints the seed of a failing run.

#include <cmath>
#include <cstdint>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/units/format.hpp"
#include "skeinfall/units/parse.hpp"

#include "support/builders.hpp"

namespace {

using namespace skeinfall::units;

template <class Q>
double number_of(const Q& read) {
    if constexpr (std::is_arithmetic_v<Q>)
        return static_cast<double>(read);
    else
        return read.value();
}

/// Either an amount above zero, or a problem at a place within the text.
template <class Q>
void sound(const std::string& text, const skeinfall::base::Result<Q>& read, bool zero_allowed) {
    if (read.ok()) {
        const double value = number_of(read.value());
        RC_ASSERT(std::isfinite(value));
        RC_ASSERT(value > 0.0 || (zero_allowed && value == 0.0));
        return;
    }
    const auto& problem = read.problem();
    RC_ASSERT(problem.place.column >= 1U);
    RC_ASSERT(problem.place.column <= text.size() + 1);
    RC_ASSERT(!problem.what.empty());
    RC_ASSERT(!problem.expected.empty());
    RC_ASSERT(!problem.remedy.empty());
    const std::string message = problem.what + problem.expected + problem.remedy;
    RC_ASSERT(skeinfall::base::shown_inert(message) == message);
}

void all_sound(const std::string& text) {
    sound(text, parse_length(text), false);
    sound(text, parse_mass(text), false);
    sound(text, parse_grist(text), false);
    sound(text, parse_stitch_gauge(text), false);
    sound(text, parse_row_gauge(text), false);
    sound(text, parse_yarn_per_stitch(text), false);
    sound(text, parse_yarn_per_area(text), false);
    sound(text, parse_percent(text), true);
    sound(text, parse_whole(text), false);
}

RC_GTEST_PROP(Units, RandomBytesAreReadOrRefused, ()) {
    all_sound(*rc::gen::container<std::string>(rc::gen::cast<char>(rc::gen::inRange(0, 256))));
}

/// Words of the grammar in any order come far deeper than random bytes do.
RC_GTEST_PROP(Units, RandomWordsAreReadOrRefused, ()) {
    const auto words = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
        "0", "1", "12", "500", ".", ",", "/", "-", "+", " ", " ", "\u00bd", "\u2153", "\u00a0",
        "per", "sq", "yd", "m", "km", "mg", "oz", "g", "in", "\"", "\u2033", "sts", "row", "%", "x",
        "\xff", "0.000000001", "1000000000000"));
    std::string text;
    for (const std::string& word : words) text += word;
    all_sound(text);
}

/// From a millimetre to 1000 km.
Length any_length() {
    return static_cast<double>(*rc::gen::inRange<std::int64_t>(1, 1'000'000'000)) * millimetre;
}

Shown<Length> any_unit() {
    return *rc::gen::elementOf(std::vector<Shown<Length>>{
        shown::yards, shown::metres, shown::centimetres, shown::millimetres, shown::inches});
}

RC_GTEST_PROP(Units, PrintedLengthsReadBackWithinHalfAStep, ()) {
    const Length length = any_length();
    const Shown<Length> unit = any_unit();
    const auto read = parse_length(text(length, unit, Step::thousandth, Rounding::nearest));
    RC_PRE(length / unit.one > 0.001);
    RC_ASSERT(read.ok());
    const double steps = (read.value() - length) / (0.001 * unit.one);
    RC_ASSERT(std::abs(steps) <= 0.5 + 1e-5);
}

RC_GTEST_PROP(Units, NeedsReadBackAsEnoughAndSuppliesAsThere, ()) {
    const Length length = any_length();
    const Shown<Length> unit = any_unit();
    const Step step = *rc::gen::element(Step::thousandth, Step::hundredth, Step::tenth, Step::half,
                                        Step::one, Step::five);
    const auto up = parse_length(text(length, unit, step, Rounding::up));
    RC_ASSERT(up.ok());
    // A step is at most 5 of the unit; less than one step is added, and none is taken away but
    // noise.
    RC_ASSERT((up.value() - length) / unit.one > -1e-5);
    RC_ASSERT((up.value() - length) / unit.one < 5.0);
    const auto down = parse_length(text(length, unit, step, Rounding::down));
    if (down.ok()) {
        RC_ASSERT((length - down.value()) / unit.one > -1e-5);
        RC_ASSERT((length - down.value()) / unit.one < 5.0);
    } else {
        RC_ASSERT(length / unit.one < 5.0);  // printed as 0, which no length is
    }
}

RC_GTEST_PROP(Units, ExactNumbersReadBackToTheLastBit, ()) {
    const double value =
        std::ldexp(static_cast<double>(*rc::gen::inRange<std::int64_t>(1, std::int64_t{1} << 52U)),
                   *rc::gen::inRange(-60, -13));
    RC_PRE(value >= 1e-4);
    const auto read = parse_length(skeinfall::support::digits_of(value) + " m");
    RC_ASSERT(read.ok());
    RC_ASSERT(read.value().value() == value);
}

}  // namespace
