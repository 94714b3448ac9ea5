#include "skeinfall/yarn/label_text.hpp"

#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace {

using namespace skeinfall;
using yarn::parse_put_up;

/// One unit or two, in either order, with what stands between them on bands.
std::vector<std::string> combined_layouts() {
    std::vector<std::string> out;
    for (const std::string length : {"{length}", "{length} / {other}", "{length} ({other})",
                                     "{length} = {other}", "approx. {length}"})
        for (const std::string mass :
             {"{mass}", "{mass} ({heavy})", "{heavy}/{mass}", "net {mass}"})
            for (const std::string between : {" / ", " = ", ", ", " - ", " | ", "; ", " "}) {
                out.push_back(length + between + mass);
                out.push_back(mass + between + length);
            }
    return out;
}

/// Bands of our own making: {length} and {other} are one length in two units, {mass} and {heavy}
/// one mass. Written as bands of four languages have them.
const std::vector<std::string>& layouts() {
    static const std::vector<std::string> all = [] {
        std::vector<std::string> out{
            "{length} / {mass}",
            "{mass} / {length}",
            "{mass} = {length}",
            "{length} {mass}",
            "{mass} {length}",
            "{mass}, {length}",
            "{length} per {mass}",
            "{length} - {mass}",
            "{mass} - {length}",
            "{mass} | {length}",
            "{length} ({other}) / {mass}",
            "{length} / {other} / {mass}",
            "{length} / {other}, {mass}",
            "{mass}, {length} / {other}",
            "{mass} e {length} / {other}",
            "{mass} \xe2\x84\xae {length}",
            "{mass} / {heavy}, {length} / {other}",
            "{heavy} / {mass}, {length} / {other}",
            "{length} / {other}; {mass} / {heavy}",
            "{length} ({other}) {mass} ({heavy})",
            "net wt {mass} ({heavy}) {length} ({other})",
            "approx. {length} / {mass}",
            "about {length} per {mass} ball",
            "{mass} skein, approx {length}",
            "each ball: {mass}, {length}",
            "LL {length} / {mass}",
            "Laufl\xc3\xa4nge ca. {length} auf {mass}",
            "Laufl\xc3\xa4nge: {length} / {mass}",
            "{mass} Kn\xc3\xa4uel, {length}",
            "je {mass} ca. {length}",
            "Gewicht {mass}, L\xc3\xa4nge {length}",
            "poids {mass}, longueur {length}",
            "{mass} = env. {length}",
            "pelote {mass}, environ {length}",
            "{length} par pelote, {mass}",
            "peso {mass}, longitud {length}",
            "ovillo {mass}, aprox. {length}",
            "{mass} por ovillo: {length}",
        };
        for (std::string& one : combined_layouts()) out.push_back(std::move(one));
        return out;
    }();
    return all;
}

struct Units {
    const char* length;
    double metres;
    const char* other;
    double other_metres;
    const char* mass;
    double grams;
    const char* heavy;
    double heavy_grams;
};
/// The factors are exact by definition (international yard and pound, 1959).
const std::vector<Units>& units_of_bands() {
    static const std::vector<Units> all{
        {" yd", 0.9144, " m", 1.0, " oz", 28.349523125, " g", 1.0},
        {"yds", 0.9144, "m", 1.0, "oz", 28.349523125, "g", 1.0},
        {" m", 1.0, " yds", 0.9144, " g", 1.0, " oz.", 28.349523125},
        {"m", 1.0, "yd", 0.9144, "g", 1.0, "oz", 28.349523125},
        {" yards", 0.9144, " metres", 1.0, " ounces", 28.349523125, " grams", 1.0},
        {" Meter", 1.0, " yards", 0.9144, " Gramm", 1.0, " oz", 28.349523125},
        {" m\xc3\xa8tres", 1.0, " yards", 0.9144, " grammes", 1.0, " oz", 28.349523125},
        {" metros", 1.0, " yardas", 0.9144, " gramos", 1.0, " onzas", 28.349523125},
    };
    return all;
}

std::string band(std::string layout, const Units& of, double metres, double grams) {
    const auto put = [&](const std::string& name, const std::string& text) {
        if (const auto at = layout.find(name); at != std::string::npos)
            layout.replace(at, name.size(), text);
    };
    // Printed as bands do: whole yards and metres, tenths of an ounce.
    const auto number = [](double value, bool tenths) {
        return tenths ? fmt::format("{:.2f}", value) : fmt::format("{:.0f}", value);
    };
    put("{length}", number(metres / of.metres, false) + of.length);
    put("{other}", number(metres / of.other_metres, false) + of.other);
    put("{mass}", number(grams / of.grams, of.grams > 2) + of.mass);
    put("{heavy}", number(grams / of.heavy_grams, of.heavy_grams > 2) + of.heavy);
    return layout;
}

/// 318 layouts in 8 sets of unit words: printing and reading agree within what printing rounds.
RC_GTEST_PROP(Bands, PrintingAndReadingAgree, ()) {
    const auto metres = static_cast<double>(*rc::gen::inRange(100, 900));
    const auto grams = static_cast<double>(*rc::gen::inRange(25, 300));
    const std::string& layout = *rc::gen::elementOf(layouts());
    const Units& of = *rc::gen::elementOf(units_of_bands());
    const std::string text = band(layout, of, metres, grams);
    const auto read = parse_put_up(text);
    if (!read) RC_FAIL(text + ": " + to_text(read.problem()));
    RC_ASSERT(std::abs(read->label.length->value.value() / metres - 1.0) < 0.0101);
    RC_ASSERT(std::abs(read->label.mass->value / units::gram / grams - 1.0) < 0.0101);
}

TEST(Bands, EveryLayoutInEveryUnit) {
    EXPECT_GE(layouts().size(), 150U);
    std::size_t read = 0;
    for (const std::string& layout : layouts())
        for (const Units& of : units_of_bands()) {
            const std::string text = band(layout, of, 156, 100);
            const auto put_up = parse_put_up(text);
            EXPECT_TRUE(put_up.ok()) << text << ": " << to_text(put_up.problem());
            if (put_up.ok()) ++read;
        }
    EXPECT_EQ(read, layouts().size() * units_of_bands().size());
}

/// A dash between two figures parts them; before one it would be its sign.
TEST(Bands, NothingBelowZero) {
    for (const std::string text : {"-170 yd / 100 g", "170 yd / -100 g", "170 yd, -100 g",
                                   "\xe2\x88\x92"
                                   "170 yd / 100 g"})
        EXPECT_FALSE(parse_put_up(text).ok()) << text;
    EXPECT_TRUE(parse_put_up("50g-125m").ok());
    EXPECT_TRUE(parse_put_up("50 g - 125 m").ok());
}

TEST(Bands, OneAmountAlone) {
    const auto length = yarn::parse_printed_amount("approx. 170 yds (155 m)").value();
    EXPECT_EQ(length.label.length->text, "170 yds");
    EXPECT_FALSE(length.label.mass);
    EXPECT_EQ(yarn::parse_printed_amount("100 g / 3.5 oz").value().label.mass->text, "100 g");
    EXPECT_FALSE(yarn::parse_printed_amount("blue").ok());
}

TEST(Bands, OfTheIssue) {
    const auto one = parse_put_up("3.5 oz/100 g, 170 yd/156 m").value();
    EXPECT_EQ(one.label.length->text, "170 yd");
    EXPECT_EQ(one.label.mass->text, "3.5 oz");
    const auto two = parse_put_up("50g e 85m / 93yd").value();
    EXPECT_EQ(two.label.length->text, "85m");
    EXPECT_EQ(two.label.mass->text, "50g");
    EXPECT_EQ(parse_put_up("170yd 100g").value().label.length->text, "170yd");
    const auto bare = parse_put_up("170 yd / 100").value();
    EXPECT_TRUE(bare.grams_meant);
    EXPECT_EQ(bare.label.mass->text, "100 g");
    EXPECT_EQ(parse_put_up("1 3/4 oz, 93 yd").value().label.mass->text, "1 3/4 oz");
}

/// Printed 200 yd and 182 m: 0.5 % apart (182.88 m), which is rounding; 200 yd and 180 m is not.
TEST(Bands, TheSmallerOfTwoThatDiffer) {
    EXPECT_FALSE(parse_put_up("200 yd / 182 m / 100 g").value().lengths_apart);
    const auto apart = parse_put_up("200 yd / 180 m / 100 g").value();
    ASSERT_TRUE(apart.lengths_apart);
    EXPECT_EQ(apart.label.length->text, "180 m");
}

TEST(Bands, WhatIsNotUnderstoodIsRefused) {
    for (const std::string text :
         {"", "170", "170 yd", "100 g", "170 100", "170 yd / 140 m / 100 g",
          "3.5 oz / 50 g, 170 yd", "170 yd / 100 g / 50 g / 25 g", "170 yd / 100 g washed",
          "170 yd, 3", "300 to 500 yd", "300-500 yd", "300 or 500 yd", "170 blobs / 100 g",
          "170 yd / 100 g %"})
        EXPECT_FALSE(parse_put_up(text).ok()) << text;
}

}  // namespace
