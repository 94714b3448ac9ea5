// Every text that cannot be read: the column (from 1, in bytes, counted by hand), what is said
// about it and what is proposed.

#include <cstdint>
#include <optional>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/units/parse.hpp"

namespace {

using namespace skeinfall::units;
using namespace std::string_literals;
using skeinfall::base::Problem;
using testing::HasSubstr;

struct Fault {
    std::string text;
    std::size_t column;
    std::string what;
    std::string remedy;
};

template <class Q>
void expect_faults(skeinfall::base::Result<Q> (*parse)(std::string_view), const char* example,
                   const std::vector<Fault>& faults) {
    for (const Fault& fault : faults) {
        SCOPED_TRACE(testing::PrintToString(fault.text));
        const auto read = parse(fault.text);
        if (read.ok()) {
            ADD_FAILURE() << "was read";
            continue;
        }
        const Problem& problem = read.problem();
        EXPECT_EQ(problem.place.column, fault.column);
        EXPECT_EQ(problem.place.line, 0U);
        EXPECT_THAT(problem.what, HasSubstr(": " + fault.what));
        EXPECT_FALSE(problem.expected.empty());
        EXPECT_EQ(problem.remedy, fault.remedy.empty()
                                      ? "Write it like \"" + std::string(example) + "\"."
                                      : fault.remedy);
        EXPECT_LT(to_text(problem).size(), 400U);
    }
}

TEST(ParseFaults, Lengths) {
    expect_faults<Length>(
        parse_length, "380 yd",
        {
            {"", 1, "nothing there", ""},
            {"   ", 4, "nothing there", ""},
            {"380", 4, "the unit is missing", ""},
            {"380 ", 5, "the unit is missing", ""},
            {"380 yrd", 5, "unknown unit \"yrd\"", "Did you mean \"yd\"?"},
            {"380 meteres", 5, "unknown unit \"meteres\"", "Did you mean \"metres\"?"},
            {"380 furlongs", 5, "unknown unit \"furlongs\"", ""},
            {"380 g", 5, "\"g\" is a weight", ""},
            {"0 yd", 1, "the amount is zero", ""},
            {"-0 yd", 1, "the amount is zero", ""},
            {"-5 yd", 1, "the amount is negative", ""},
            {" -5 yd", 2, "the amount is negative", ""},
            {"- 5 yd", 2, "this is not a number", ""},
            {"5 yd left", 6, "\"left\" is left over", ""},
            {"5 yd / 3 oz", 6, "\"/ 3 oz\" is left over", ""},
            {"1.5.2 yd", 1, "two decimal points", ""},
            {"about 5 yd", 1, "this is not a number", ""},
            {"nan m", 1, "this is not a number", ""},
            {"inf m", 1, "this is not a number", ""},
            {"5e3 m", 2, "unknown unit \"e\"", ""},
            {"1/2/3 m", 4, "there is no unit here", ""},
            {"1/0 m", 2, "there is no unit here", ""},
            {"5 . yd", 3, "there is no unit here", ""},
            {"2000000000000 m", 1, "this number is out of range", ""},
            {"0.0000000009 m", 1, "this number is out of range", ""},
            {"1 1/2000000000000 m", 5, "this number is out of range", ""},
            {"1 2000000000000/3 m", 3, "this number is out of range", ""},
        });
}

// Two sizes of a pattern are no part of a yard: so little would count as enough.
TEST(ParseFaults, TwoFiguresThatAreNoFraction) {
    for (const char* const text : {"380/520 yd", "50/100 yd", "4/2 yd", "1 50/100 yd", "7/24 yd"})
        EXPECT_FALSE(parse_length(text)) << text;
    for (const char* const text :
         {"1/2 yd", "1/10 yd", "7/8 yd", "2 2/3 yd", "5/16 yd", "63/64 yd"})
        EXPECT_TRUE(parse_length(text)) << text;
}

TEST(ParseFaults, ThousandsOrDecimals) {
    expect_faults<Length>(parse_length, "380 yd",
                          {
                              {"1,500 yd", 1, "\"1,500\" can be read as 1500 or as 1.500",
                               "Write 1500 or 1.5 instead."},
                              {"  12,345 yd", 3, "\"12,345\" can be read as 12345 or as 12.345",
                               "Write 12345 or 12.345 instead."},
                              {"1,23,456 m", 1, "the commas do not sit where thousands end", ""},
                              {"1,234,56 m", 1, "the commas do not sit where thousands end", ""},
                              {"1,,500 m", 1, "the commas do not sit where thousands end", ""},
                              {"1.234,5 m", 1, "the commas do not sit where thousands end", ""},
                              {"0,234,567 m", 1, "the commas do not sit where thousands end", ""},
                              {"3.5, m", 4, "there is no unit here", ""},
                          });
}

// "1,0000 g" was taken for a gram.
TEST(ParseFaults, ThousandsASlipOfTheFingerLong) {
    for (const std::string text : {"1,0000 g", "10,0000 g", "1,00000 g"}) {
        const auto read = parse_mass(text);
        ASSERT_FALSE(read.ok()) << text;
        EXPECT_THAT(read.problem().what, HasSubstr("can be read in two ways"));
    }
    EXPECT_TRUE(parse_mass("12,3450 g").ok());
}

TEST(ParseFaults, BytesThatAreNoText) {
    expect_faults<Length>(parse_length, "380 yd",
                          {
                              {"5 yd\0"s, 5, "\"\\x00\" is left over", ""},
                              {"\0005 yd"s, 1, "this is not a number", ""},
                              {"5\0yd"s, 2, "there is no unit here", ""},
                              {"\uff15 yd", 1, "this is not a number", ""},
                              {"5 \u044f\u0440\u0434", 3, "there is no unit here", ""},
                              {"\u22125 yd", 1, "this is not a number", ""},
                              {"\xff\xfe", 1, "this is not a number", ""},
                              {"5 yd\x1b[31m", 5, "\"\\x1b[31m\" is left over", ""},
                          });
}

TEST(ParseFaults, TenKilobytes) {
    expect_faults<Length>(
        parse_length, "380 yd",
        {
            {std::string(10240, '9') + " yd", 1, "this number is out of range", ""},
            {" " + std::string(10240, '9') + " yd", 2, "this number is out of range", ""},
            {"0." + std::string(10240, '0') + "1 yd", 1, "this number is out of range", ""},
            {"1/" + std::string(10240, '9') + " yd", 3, "this number is out of range", ""},
            {"5 " + std::string(10240, 'y'), 3, "unknown unit \"yyy", ""},
            {std::string(10240, ','), 1, "this is not a number", ""},
            {"5 yd " + std::string(10240, '-'), 6, "\"---", ""},
        });
}

TEST(ParseFaults, Masses) {
    expect_faults<Mass>(
        parse_mass, "100 g",
        {
            {"3.5", 4, "the unit is missing", ""},
            {"3.5 yd", 5, "\"yd\" is a length", ""},
            {"3.5 uonces", 5, "unknown unit \"uonces\"", "Did you mean \"ounces\"?"},
            {"3.5 grms", 5, "unknown unit \"grms\"", "Did you mean \"gms\"?"},
            // "m" is as near as "oz", but it would be refused at once.
            {"3.5 mz", 5, "unknown unit \"mz\"", "Did you mean \"mg\"?"},
            {"1.5 1/2 lb", 5, "there is no unit here", ""},
            {"1.5\u00bd lb", 4, "there is no unit here", ""},
            {"\u00bd\u00bd oz", 3, "there is no unit here", ""},
            {"\u00bd", 3, "the unit is missing", ""},
            {"0 oz", 1, "the amount is zero", ""},
        });
}

TEST(ParseFaults, LengthPerMass) {
    expect_faults<Grist>(parse_grist, "200 m / 100 g",
                         {
                             {"170 yd", 7, "the part after the first amount is missing", ""},
                             {"170 yd 3.5 oz", 8, "the part after the first amount is missing", ""},
                             {"170 yd / 3.5", 13, "the unit is missing", ""},
                             {"170 yd per", 11, "the unit is missing", ""},
                             {"170 yd / 0 oz", 10, "the amount is zero", ""},
                             {"170 yd / -1 oz", 10, "the amount is negative", ""},
                             {"170 yd / 3.5 yd", 14, "\"yd\" is a length", ""},
                             {"170 g / 3.5 oz", 13, "\"oz\" is a weight", ""},
                             {"170 yd / 3.5 oz ball", 17, "\"ball\" is left over", ""},
                             {"170 yd / 1,500 g", 10, "\"1,500\" can be read as 1500 or as 1.500",
                              "Write 1500 or 1.5 instead."},
                         });
}

TEST(ParseFaults, Gauges) {
    expect_faults<StitchGauge>(
        parse_stitch_gauge, "13 per 10 cm",
        {
            {"13", 3, "the part after the first amount is missing", ""},
            {"13 sts 10 cm", 8, "the part after the first amount is missing", ""},
            {"13 rows per 10 cm", 4, "the part after the first amount is missing", ""},
            {"13 per 10 g", 11, "\"g\" is a weight", ""},
            {"13 sts / 10 st", 13, "\"st\" is a count", ""},
            {"13 per 10 cn", 11, "unknown unit \"cn\"", "Did you mean \"cm\"?"},
            {"13 sts per 10 cm wide", 18, "\"wide\" is left over", ""},
            {"0 sts per 10 cm", 1, "the amount is zero", ""},
            {"13 per 0 cm", 8, "the amount is zero", ""},
            {"sts per 10 cm", 1, "this is not a number", ""},
        });
    expect_faults<RowGauge>(
        parse_row_gauge, "8 per 10 cm",
        {
            {"8 sts per 10 cm", 3, "the part after the first amount is missing", ""},
            {"8 rows per 10", 14, "the unit is missing", ""},
        });
}

TEST(ParseFaults, YarnRates) {
    expect_faults<YarnPerStitch>(
        parse_yarn_per_stitch, "2.9 in per stitch",
        {
            {"2.9 in", 7, "the part after the first amount is missing", ""},
            {"2.9 in per stich", 12, "unknown unit \"stich\"", "Did you mean \"stitch\"?"},
            {"2.9 in per row", 12, "\"row\" is a count", ""},
            {"2.9 per stitch", 5, "unknown unit \"per\"", ""},
            {"29 in / 0 sts", 9, "the amount is zero", ""},
        });
    expect_faults<Area>(parse_area, "0.62 sq m",
                        {
                            {"0.62 m", 6, "the area unit is missing", ""},
                            {"0.62", 5, "the area unit is missing", ""},
                            {"0 sq m", 1, "the amount is zero", ""},
                            {"4 sq g", 6, "\"g\" is a weight", ""},
                        });
    expect_faults<YarnPerArea>(
        parse_yarn_per_area, "32.08 in per sq in",
        {
            {"32.08 in", 9, "the part after the first amount is missing", ""},
            {"32 in per in", 11, "the area unit is missing", ""},
            {"32 in per", 10, "the area unit is missing", ""},
            {"500 cm / 100 cm", 14, "the area unit is missing", ""},
            {"32.08 in per sq g", 17, "\"g\" is a weight", ""},
            {"32.08 in per sq", 16, "the unit is missing", ""},
            {"500 cm / 0 sq cm", 10, "the amount is zero", ""},
        });
}

TEST(ParseFaults, Percents) {
    expect_faults<Ratio>(parse_percent, "10 %",
                         {
                             {"", 1, "nothing there", ""},
                             {"10", 3, "the percent sign is missing", ""},
                             {"-1 %", 1, "the amount is negative", ""},
                             {"10 % off", 6, "\"off\" is left over", ""},
                             {"ten %", 1, "this is not a number", ""},
                         });
}

TEST(ParseFaults, WholeNumbers) {
    expect_faults<std::int64_t>(parse_whole, "12",
                                {
                                    {"", 1, "this is not a whole number", ""},
                                    {"   ", 4, "this is not a whole number", ""},
                                    {"12.5", 1, "this is not a whole number", ""},
                                    {"1,500", 1, "this is not a whole number", ""},
                                    {"  x", 3, "this is not a whole number", ""},
                                    {"12\0"s, 1, "this is not a whole number", ""},
                                    {"0", 1, "the count is zero", ""},
                                    {" -3", 2, "the count is negative", ""},
                                    {"1000000001", 1, "this number is out of range", ""},
                                    {std::string(10240, '9'), 1, "this number is out of range", ""},
                                });
}

}  // namespace
