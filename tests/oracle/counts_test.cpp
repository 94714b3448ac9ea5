// Yarn counts and yarn sizes compared with another program that knows them: GNU units (Debian
// package "units", version 2.22). It must be there: without it these tests fail. RapidCheck draws
// the conversions and prints the seed of a failing run.

#include <array>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <unistd.h>

#include "skeinfall/units/any.hpp"

#include "gnu_units.hpp"

namespace {

using namespace skeinfall::units;

/// A unit in our words and in those of GNU units. `direct` is mass per length.
struct Pair {
    const char* ours;
    const char* theirs;
    bool direct;
};

// Systems that GNU units defines itself; for the others the definition of lib/data/units.csv.
constexpr auto sizes = std::to_array<Pair>({
    {"tex", "tex", true},
    {"dtex", "drex", true},
    {"ktex", "1000 tex", true},
    {"den", "denier", true},
    {"Manchester dram", "manchesteryarnnumber", true},
    {"poumar", "poumar", true},
    {"g/m", "g/m", true},
    {"lb/spyndle", "lb/(14400 yd)", true},
    {"American grain", "grain/(120 yd)", true},
    {"Nm", "metricyarncount", false},
    {"NeC", "cottonyarncount", false},
    {"NeW", "worstedyarncount", false},
    {"NeL", "linenyarncount", false},
    {"run", "woolyarnrun", false},
    {"cut", "yarncut", false},
    {"glass cut", "asbestoscut", false},
    {"typp", "typp", false},
    {"ypp", "yd/lb", false},
    {"Yorkshire skein", "256 yd/lb", false},
    {"Gala", "300 yd/(24 oz)", false},
    {"West of England", "320 yd/lb", false},
    {"m/100g", "m/(100 g)", false},
    {"yd/oz", "yd/oz", false},
});

constexpr auto lengths = std::to_array<Pair>({
    {"m", "m", false},
    {"yd", "yd", false},
    {"in", "in", false},
    {"ft", "ft", false},
    {"linen cut", "cut", false},
    {"linen lea", "lea", false},
    {"heer", "heer", false},
    {"cotton lea", "skeincotton", false},
    {"worsted hank", "560 yd", false},
    {"spyndle", "14400 yd", false},
});

constexpr auto masses = std::to_array<Pair>({
    {"g", "g", false},
    {"kg", "kg", false},
    {"oz", "oz", false},
    {"lb", "lb", false},
    {"dr", "dram", false},
    {"grain", "grain", false},
});

/// What GNU units is asked, and our text and unit.
struct CountQuestion {
    std::string text;
    std::string unit;
    std::string have;
    std::string want;
};

std::string drawn_number() {
    const int digits = *rc::gen::inRange(1, 100000);
    const int decimals = *rc::gen::inRange(0, 4);
    std::string text = std::to_string(digits);
    if (decimals == 0) return text;
    const auto places = static_cast<std::size_t>(decimals);
    if (text.size() <= places) text.insert(0, places + 1 - text.size(), '0');
    return text.insert(text.size() - places, ".");
}

template <class Table>
Pair drawn(const Table& table) {
    return table.at(*rc::gen::inRange<std::size_t>(0, table.size()));
}

CountQuestion size_question() {
    const Pair from = drawn(sizes);
    const Pair to = drawn(sizes);
    const std::string number = drawn_number();
    const std::string have = "(" + number + " " + from.theirs + ")";
    return {number + " " + from.ours, to.ours, from.direct == to.direct ? have : "1/" + have,
            to.theirs};
}

CountQuestion folded_question() {
    const std::string plies = std::to_string(*rc::gen::inRange(1, 9));
    const std::string count = std::to_string(*rc::gen::inRange(13, 121));
    const Pair to = drawn(sizes);
    const std::vector<std::pair<std::string, std::string>> ways{
        {plies + "/" + count + " NeW", "worstedyarncount"},
        {count + "/" + plies + " NeC", "cottonyarncount"},
        {count + "/" + plies + " NeL", "linenyarncount"},
        {plies + "/" + count + " Nm", "metricyarncount"},
        {count + "/" + plies + " Nm", "metricyarncount"}};
    const auto [text, theirs] = *rc::gen::elementOf(ways);
    const std::string have = "(" + count + " " + theirs + " / " + plies + ")";
    return {text, to.ours, to.direct ? "1/" + have : have, to.theirs};
}

template <class Table>
CountQuestion plain_question(const Table& table) {
    const Pair from = drawn(table);
    const Pair to = drawn(table);
    const std::string number = drawn_number();
    return {number + " " + from.ours, to.ours, number + " " + from.theirs, to.theirs};
}

std::vector<CountQuestion> drawn_questions() {
    std::vector<CountQuestion> all;
    for (int i = 0; i < 5; ++i) {
        all.push_back(size_question());
        all.push_back(folded_question());
    }
    all.push_back(plain_question(lengths));
    all.push_back(plain_question(masses));
    return all;
}

// A hundred runs of twelve conversions.
RC_GTEST_PROP(GnuUnitsCounts, Agrees, ()) {
    const std::vector<CountQuestion> asked = drawn_questions();
    const auto text = skeinfall::oracle::units_answers(asked);
    if (!text) RC_FAIL("GNU units did not run: install the package \"units\"");
    std::istringstream lines(*text);
    std::string line;
    for (const CountQuestion& question : asked) {
        RC_LOG() << question.text << " in " << question.unit << ", asked as " << question.have
                 << " in " << question.want << std::endl;
        RC_ASSERT(static_cast<bool>(std::getline(lines, line)));
        const auto number =
            in_unit(parse_quantity(question.text)->value, *parse_output_unit(question.unit));
        RC_ASSERT(number.has_value());
        RC_LOG() << "ours " << number->value() << ", theirs " << line << std::endl;
        RC_ASSERT(std::abs(number->value() / std::stod(line) - 1.0) <
                  skeinfall::oracle::units_tolerance);
    }
    RC_ASSERT(!std::getline(lines, line));
}

// Each system once, so that none depends on the draw.
TEST(GnuUnitsCounts, EverySystemOnce) {
    std::vector<CountQuestion> asked;
    for (const Pair& from : sizes)
        asked.push_back({std::string("7 ") + from.ours, "m/100g",
                         std::string(from.direct ? "1/" : "") + "(7 " + from.theirs + ")",
                         "m/(100 g)"});
    const auto text = skeinfall::oracle::units_answers(asked);
    ASSERT_TRUE(text) << "GNU units did not run: install the package \"units\"";
    std::istringstream lines(*text);
    std::string line;
    for (const CountQuestion& question : asked) {
        ASSERT_TRUE(std::getline(lines, line)) << question.text;
        const auto number =
            in_unit(parse_quantity(question.text)->value, *parse_output_unit(question.unit));
        ASSERT_TRUE(number) << question.text;
        EXPECT_NEAR(number->value() / std::stod(line), 1.0, skeinfall::oracle::units_tolerance)
            << question.text;
    }
}

}  // namespace
