// What must hold for every count and every text. RapidCheck prints the seed of a failing run.

#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/base/text.hpp"
#include "skeinfall/units/any.hpp"
#include "skeinfall/units/count.hpp"
#include "skeinfall/units/parse.hpp"

namespace {

using namespace skeinfall::units;

CountSystem any_system() {
    const auto systems = count_systems();
    return systems[*rc::gen::inRange<std::size_t>(0, systems.size())];
}

bool alike(double a, double b) {
    return std::abs(a / b - 1.0) < 1e-12;
}

RC_GTEST_PROP(CountProperties, NumbersGoRoundThroughEverySystem, ()) {
    const CountSystem from = any_system();
    const CountSystem to = any_system();
    const Ratio number(*rc::gen::inRange(1, 1000000) / 1000.0);
    const Grist there = from.grist(number);
    RC_ASSERT(alike(from.number(to.grist(to.number(there))).value(), number.value()));
}

RC_GTEST_PROP(CountProperties, MoreIsFinerInIndirectSystemsAndThickerInDirectOnes, ()) {
    const CountSystem system = any_system();
    const double number = *rc::gen::inRange(1, 1000) / 10.0;
    const bool finer = system.grist(Ratio(2.0 * number)) > system.grist(Ratio(number));
    RC_ASSERT(finer != system.direct);
}

RC_GTEST_PROP(CountProperties, PliesShareTheCount, ()) {
    const int plies = *rc::gen::inRange(1, 9);
    const int count = *rc::gen::inRange(13, 200);
    const std::string p = std::to_string(plies);
    const std::string c = std::to_string(count);
    const double folded =
        static_cast<double>(plies) * *parse_grist(p + "/" + c + " NeW") / *parse_grist(c + " NeW");
    RC_ASSERT(alike(folded, 1.0));
    RC_ASSERT(alike(*parse_grist(c + "/" + p + " NeC") / *parse_grist(p + "/" + c + "s NeC"), 1.0));
    RC_ASSERT(alike(*parse_grist(c + "/" + p + " Nm") / *parse_grist(p + "/" + c + " Nm"), 1.0));
    RC_ASSERT(!parse_count(p + "/" + c).ok());
}

RC_GTEST_PROP(CountProperties, OutputUnitsUndoThemselves, ()) {
    const auto* unit = *rc::gen::element<const char*>("m/100g", "yd/lb", "g/m", "tex", "den", "NeC",
                                                      "NeW", "run", "yd/oz", "m / 50 g");
    const std::string number = std::to_string(*rc::gen::inRange(1, 100000));
    const auto back = in_unit(parse_quantity(number + " " + unit)->value, *parse_output_unit(unit));
    RC_ASSERT(back.has_value());
    RC_ASSERT(alike(back->value(), std::stod(number)));
}

/// Pieces of labels, cones and noise in any order.
std::string noise() {
    const auto piece = rc::gen::element<std::string>(
        "2", "24", "/", "-", " ", "s", "'", "NeW", "Nm", "cotton", "spun silk", "silk", "hank",
        "lea", "tex", "1,5", "1/2", "\u00bd", "\u2019", "\u2033", "\u00a0", "500", "yd", "m", "g",
        "=", "per", ".", "0", "Tkt", "run", "\xff", "west of", "\x1b", "sts", "rows", "%", "\"");
    std::string out;
    for (const std::string& part : *rc::gen::container<std::vector<std::string>>(piece))
        out += part;
    return out;
}

template <class R>
void expect_sound(const std::string& text, const R& read) {
    if (read.ok()) return;
    RC_ASSERT(read.problem().place.column >= 1U);
    RC_ASSERT(read.problem().place.column <= text.size() + 1);
    RC_ASSERT(!read.problem().what.empty());
    RC_ASSERT(!read.problem().expected.empty());
    RC_ASSERT(!read.problem().remedy.empty());
    const std::string message = to_text(read.problem());
    RC_ASSERT(message.find('\x1b') == std::string::npos);
    RC_ASSERT(!skeinfall::base::first_invalid_utf8(message));
}

RC_GTEST_PROP(CountProperties, NoTextIsTooStrange, ()) {
    const std::string text = noise();
    RC_LOG() << text << std::endl;
    expect_sound(text, parse_count(text));
    expect_sound(text, parse_grist(text));
    expect_sound(text, parse_linear_density(text));
    expect_sound(text, parse_quantity(text));
    expect_sound(text, parse_output_unit(text));
    if (const auto count = parse_count(text)) {
        RC_ASSERT(std::isfinite(count->grist.value()));
        RC_ASSERT(count->grist.value() > 0.0);
        RC_ASSERT(count->plies >= 1);
    }
}

RC_GTEST_PROP(CountProperties, ArbitraryBytesDoNoHarm, (const std::string& text)) {
    expect_sound(text, parse_count(text));
    expect_sound(text, parse_quantity(text));
    expect_sound(text, parse_output_unit(text));
}

}  // namespace
