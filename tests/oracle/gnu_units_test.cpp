// Conversions compared with another program that knows them: GNU units (Debian package "units",
// version 2.22). It must be there: without it these tests fail.

#include "gnu_units.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <optional>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "skeinfall/units/parse.hpp"

namespace {

using namespace skeinfall::units;

constexpr std::uint32_t gnu_units_seed = 20220701;
/// What GNU units calls our unit names; names it does not know are on the right as a unit it
/// does, or the definition in lib/data/units.csv. "gr" is its grain, and on yarn labels the gram.
const std::map<std::string, std::string>& gnu_lengths() {
    static const std::map<std::string, std::string> names{{"m", "m"},
                                                          {"metre", "metre"},
                                                          {"metres", "metres"},
                                                          {"meter", "meter"},
                                                          {"meters", "meters"},
                                                          {"mtr", "meter"},
                                                          {"mtrs", "meter"},
                                                          {"mts", "meter"},
                                                          {"mt", "meter"},
                                                          {"cm", "cm"},
                                                          {"cms", "cm"},
                                                          {"centimetre", "centimetre"},
                                                          {"centimetres", "centimetres"},
                                                          {"centimeter", "centimeter"},
                                                          {"centimeters", "centimeters"},
                                                          {"mm", "mm"},
                                                          {"millimetre", "millimetre"},
                                                          {"millimetres", "millimetres"},
                                                          {"millimeter", "millimeter"},
                                                          {"millimeters", "millimeters"},
                                                          {"km", "km"},
                                                          {"kilometre", "kilometre"},
                                                          {"kilometres", "kilometres"},
                                                          {"kilometer", "kilometer"},
                                                          {"kilometers", "kilometers"},
                                                          {"yd", "yd"},
                                                          {"yds", "yard"},
                                                          {"yard", "yard"},
                                                          {"yards", "yards"},
                                                          {"metro", "meter"},
                                                          {"metros", "meter"},
                                                          {"yarda", "yard"},
                                                          {"yardas", "yard"},
                                                          {"ft", "ft"},
                                                          {"foot", "foot"},
                                                          {"feet", "feet"},
                                                          {"in", "in"},
                                                          {"ins", "inch"},
                                                          {"inch", "inch"},
                                                          {"inches", "inches"},
                                                          {"\"", "inch"},
                                                          {"\u2033", "inch"},
                                                          {"cotton lea", "skeincotton"},
                                                          {"cotton leas", "skeincotton"},
                                                          {"worsted lea", "80 yard"},
                                                          {"worsted leas", "80 yard"},
                                                          {"linen lea", "lea"},
                                                          {"linen leas", "lea"},
                                                          {"linen cut", "cut"},
                                                          {"linen cuts", "cut"},
                                                          {"heer", "heer"},
                                                          {"heers", "heer"},
                                                          {"cotton hank", "840 yard"},
                                                          {"cotton hanks", "840 yard"},
                                                          {"worsted hank", "560 yard"},
                                                          {"worsted hanks", "560 yard"},
                                                          {"linen hank", "12 cut"},
                                                          {"linen hanks", "12 cut"},
                                                          {"jute hank", "12 cut"},
                                                          {"jute hanks", "12 cut"},
                                                          {"spyndle", "48 cut"},
                                                          {"spyndles", "48 cut"},
                                                          {"spindle", "48 cut"},
                                                          {"spindles", "48 cut"},
                                                          {"linen bundle", "200 cut"},
                                                          {"linen bundles", "200 cut"}};
    return names;
}

const std::map<std::string, std::string>& gnu_masses() {
    static const std::map<std::string, std::string> names{{"g", "g"},
                                                          {"gr", "gram"},
                                                          {"gm", "gm"},
                                                          {"gms", "gram"},
                                                          {"gram", "gram"},
                                                          {"grams", "grams"},
                                                          {"gramme", "gramme"},
                                                          {"grammes", "grammes"},
                                                          {"kg", "kg"},
                                                          {"kgs", "kg"},
                                                          {"kilo", "kg"},
                                                          {"kilos", "kg"},
                                                          {"gramm", "gram"},
                                                          {"gramo", "gram"},
                                                          {"gramos", "gram"},
                                                          {"unze", "ounce"},
                                                          {"unzen", "ounce"},
                                                          {"onza", "ounce"},
                                                          {"onzas", "ounce"},
                                                          {"kilogram", "kilogram"},
                                                          {"kilograms", "kilograms"},
                                                          {"mg", "mg"},
                                                          {"oz", "oz"},
                                                          {"ozs", "ounce"},
                                                          {"ounce", "ounce"},
                                                          {"ounces", "ounces"},
                                                          {"lb", "lb"},
                                                          {"lbs", "lbs"},
                                                          {"pound", "pound"},
                                                          {"pounds", "pounds"},
                                                          {"dr", "dram"},
                                                          {"dram", "dram"},
                                                          {"drams", "drams"},
                                                          {"drachm", "dram"},
                                                          {"drachms", "dram"},
                                                          {"grain", "grain"},
                                                          {"grains", "grains"}};
    return names;
}

/// One conversion: what GNU units is asked, and our answer.
struct UnitQuestion {
    std::string have;
    std::string want;
    double ours = 0.0;
};

class Generator {
  public:
    std::string number() {
        // Six digits and up to five of them behind the point: 0.00001 to 999999.
        const std::int64_t digits = std::uniform_int_distribution<std::int64_t>(1, 999999)(random_);
        const int decimals = std::uniform_int_distribution<int>(0, 5)(random_);
        std::string text = std::to_string(digits);
        if (decimals == 0) return text;
        const auto places = static_cast<std::size_t>(decimals);
        if (text.size() <= places) text.insert(0, places + 1 - text.size(), '0');
        return text.insert(text.size() - places, ".");
    }

    const std::pair<const std::string, std::string>& any(
        const std::map<std::string, std::string>& names) {
        const auto last = static_cast<std::int64_t>(names.size()) - 1;
        return *std::next(names.begin(),
                          std::uniform_int_distribution<std::int64_t>(0, last)(random_));
    }

  private:
    std::mt19937 random_{gnu_units_seed};
};

std::vector<UnitQuestion> questions() {
    Generator draw;
    std::vector<UnitQuestion> all;
    const auto ask_length = [&](const std::string& from, const std::string& gnu_from) {
        const auto& [to, gnu_to] = draw.any(gnu_lengths());
        const std::string amount = draw.number();
        all.push_back({amount + " " + gnu_from, gnu_to,
                       *parse_length(amount + " " + from) / *parse_length("1 " + to)});
    };
    const auto ask_mass = [&](const std::string& from, const std::string& gnu_from) {
        const auto& [to, gnu_to] = draw.any(gnu_masses());
        const std::string amount = draw.number();
        all.push_back({amount + " " + gnu_from, gnu_to,
                       *parse_mass(amount + " " + from) / *parse_mass("1 " + to)});
    };
    // Every name is converted from at least five times; the other side is drawn.
    for (int round = 0; round < 5; ++round) {
        for (const auto& [from, gnu_from] : gnu_lengths()) ask_length(from, gnu_from);
        for (const auto& [from, gnu_from] : gnu_masses()) ask_mass(from, gnu_from);
    }
    for (int i = 0; i < 200; ++i) {
        const auto& [length, gnu_length] = draw.any(gnu_lengths());
        const auto& [mass, gnu_mass] = draw.any(gnu_masses());
        const auto& [to_length, gnu_to_length] = draw.any(gnu_lengths());
        const auto& [to_mass, gnu_to_mass] = draw.any(gnu_masses());
        const std::string a = draw.number();
        const std::string b = draw.number();
        all.push_back({"(" + a + " " + gnu_length + ") / (" + b + " " + gnu_mass + ")",
                       "(" + gnu_to_length + ")/(" + gnu_to_mass + ")",
                       *parse_grist(a + " " + length + " / " + b + " " + mass) /
                           *parse_grist("1 " + to_length + "/" + to_mass)});
    }
    return all;
}

TEST(GnuUnits, EveryUnitNameIsAsked) {
    std::vector<std::string> ours = unit_names();
    std::vector<std::string> asked;
    for (const auto* names : {&gnu_lengths(), &gnu_masses()})
        for (const auto& [name, gnu] : *names) asked.push_back(name);
    std::sort(ours.begin(), ours.end());
    std::sort(asked.begin(), asked.end());
    EXPECT_EQ(ours, asked);
}

TEST(GnuUnits, AgreesOnLengthsMassesAndLengthPerMass) {
    std::cout << "seed " << gnu_units_seed << "\n";
    const std::vector<UnitQuestion> asked = questions();
    ASSERT_GE(asked.size(), 400U);
    const auto text = skeinfall::oracle::units_answers(asked);
    ASSERT_TRUE(text) << "GNU units did not run: install the package \"units\"";
    std::istringstream lines(*text);
    std::string line;
    for (const UnitQuestion& question : asked) {
        SCOPED_TRACE(question.have + " in " + question.want);
        ASSERT_TRUE(std::getline(lines, line)) << "fewer answers than questions";
        std::size_t read = 0;
        double theirs = 0.0;
        ASSERT_NO_THROW(theirs = std::stod(line, &read)) << line;
        ASSERT_EQ(read, line.size()) << line;
        EXPECT_LT(std::abs(question.ours / theirs - 1.0), skeinfall::oracle::units_tolerance)
            << "ours " << question.ours << ", theirs " << line;
    }
    EXPECT_FALSE(std::getline(lines, line)) << "more answers than questions: " << line;
}

}  // namespace
