// Texts as labels, scales and patterns print them. Expected values are worked by hand from
// 1 yd = 0.9144 m, 1 in = 0.0254 m, 1 lb = 453.59237 g.

#include "skeinfall/units/parse.hpp"

#include <gtest/gtest.h>

namespace {

using namespace skeinfall::units;

template <class Q>
void expect(const skeinfall::base::Result<Q>& read, double value) {
    ASSERT_TRUE(read.ok()) << to_text(read.problem());
    EXPECT_DOUBLE_EQ(read.value().value(), value);
}

struct ReadCase {
    const char* text;
    double value;
};

TEST(Parse, Lengths) {
    for (const auto& [text, metres] : std::initializer_list<ReadCase>{
             {"380 yd", 347.472},
             {"9.5 m", 9.5},
             {"9,5 m", 9.5},
             {".5 m", 0.5},
             {"6 in", 0.1524},
             {"8\"", 0.2032},
             {"8\u2033", 0.2032},
             {"4 mm", 0.004},
             {"15cm", 0.15},
             {"5 ft", 1.524},
             {"2.5 km", 2500.0},
             {"170yds.", 155.448},
             {"  12 Yards\t", 10.9728},
             {"+5 METRES", 5.0},
             {"5\u00a0m", 5.0},
             {"5\u202fm", 5.0},
             {"0.000000001 m", 1e-9},
             {"1000000000000 m", 1e12},
             {"1,234.5 yd", 1128.8268},
             {"1,234,567 m", 1234567.0},
             {"1234,5 m", 1234.5},
             {"0,500 m", 0.5},
             {"12,50 m", 12.5},
             {"1/2 yd", 0.4572},
             {"2 1/4 in", 0.05715},
             {"5 ft 6 in", 1.6764},
             {"5'6\"", 1.6764},
             {"3 ft 6", 1.0668},
             {"1 m 50", 1.5},
             {"1m50", 1.5},
             {"1 m 5 cm", 1.05},
             {"1 yd 18 in", 1.3716},
         }) {
        SCOPED_TRACE(text);
        expect(parse_length(text), metres);
    }
}

TEST(Parse, AFigureWithoutItsUnitIsNoPartOfALength) {
    for (const char* const text : {"1 m 5", "3 ft 14", "1 yd 18", "200 m 50", "5 ft 6 g", "6 in 5"})
        EXPECT_FALSE(parse_length(text)) << text;
    for (const char* const text : {"8 in by 1 m 5", "3 ft 14", "1 yd 18"})
        EXPECT_TRUE(reads_two_ways(text)) << text;
    for (const char* const text : {"1 m 50", "20 x 30 cm", "4 ft x 6 ft", "200 m 50 g"})
        EXPECT_FALSE(reads_two_ways(text)) << text;
}

TEST(Parse, Masses) {
    for (const auto& [text, grams] : std::initializer_list<ReadCase>{
             {"100 g", 100.0},
             {"3.5 oz", 99.2233309375},
             {"3,5 oz", 99.2233309375},
             {"1 1/2 lb", 680.388555},
             {"1\u00bd lb", 680.388555},
             {"1 \u00bd lbs", 680.388555},
             {"\u00bd oz", 14.1747615625},
             {"3/4 pound", 340.1942775},
             {"\u2153 lb", 453.59237 / 3},
             {"1\u00be oz", 49.61166546875},
             {"2 \u215e oz", 81.504878984375},
             {"0.1 kg", 100.0},
             {"250 mg", 0.25},
             {"50 Gramme", 50.0},
             // On yarn labels "gr" is the gram, never the grain of 64.8 mg.
             {"50 gr", 50.0},
         }) {
        SCOPED_TRACE(text);
        expect(parse_mass(text), grams);
    }
}

TEST(Parse, LengthPerMass) {
    expect(parse_grist("170 yd / 3.5 oz"), 155.448 / 99.2233309375);
    expect(parse_grist("170yds/3.5oz"), 155.448 / 99.2233309375);
    expect(parse_grist("400 m/100g"), 4.0);
    expect(parse_grist("400 m per 100 g"), 4.0);
    expect(parse_grist("400 metres PER 100 grams"), 4.0);
    expect(parse_grist("992 yd/lb"), 907.0848 / 453.59237);
    expect(parse_grist("220 yd per \u00bd lb"), 201.168 / 226.796185);
}

TEST(Parse, Gauges) {
    expect(parse_stitch_gauge("13 per 10 cm"), 130.0);
    expect(parse_stitch_gauge("13 / 10 cm"), 130.0);
    expect(parse_stitch_gauge("13 sts / 4 in"), 13 / 0.1016);
    expect(parse_stitch_gauge("13 sts/4\""), 13 / 0.1016);
    expect(parse_stitch_gauge("13 sts per 4\u2033"), 13 / 0.1016);
    expect(parse_stitch_gauge("3 per in"), 3 / 0.0254);
    expect(parse_stitch_gauge("3 sts per \""), 3 / 0.0254);
    expect(parse_stitch_gauge("3 sts per \u2033"), 3 / 0.0254);
    expect(parse_row_gauge("8 per 10 cm"), 80.0);
    expect(parse_row_gauge("8 rows/4 in"), 8 / 0.1016);
    expect(parse_row_gauge("2 rnds per in"), 2 / 0.0254);
    expect(parse_row_gauge("2 rounds per in"), 2 / 0.0254);
}

TEST(Parse, YarnRates) {
    expect(parse_yarn_per_stitch("29 in / 10 sts"), 0.07366);
    expect(parse_yarn_per_stitch("2.9 in per stitch"), 0.07366);
    expect(parse_yarn_per_stitch("2.9 in/st"), 0.07366);
    expect(parse_yarn_per_area("32.08 in per sq in"), 32.08 / 0.0254);
    expect(parse_yarn_per_area("500 cm / 100 sq cm"), 500.0);
}

TEST(Parse, Areas) {
    expect(parse_area("0.62 sq m"), 0.62);
    expect(parse_area("1200 sq in"), 1200 * 0.0254 * 0.0254);
    expect(parse_area("1 1/2 sq yd"), 1.5 * 0.9144 * 0.9144);
}

TEST(Parse, Percents) {
    expect(parse_percent("10 %"), 0.1);
    expect(parse_percent("12.5%"), 0.125);
    expect(parse_percent("0 %"), 0.0);
    expect(parse_percent("12\u00bd %"), 0.125);
}

TEST(Parse, WholeNumbers) {
    EXPECT_EQ(parse_whole("121").value(), 121);
    EXPECT_EQ(parse_whole(" 7\r\n").value(), 7);
    EXPECT_EQ(parse_whole("1000000000").value(), 1000000000);
}

TEST(Parse, EveryListedUnitIsReadAndNoneTwice) {
    const std::vector<std::string> listed = unit_names();
    for (const std::string& name : listed) {
        SCOPED_TRACE(name);
        EXPECT_NE(parse_length("2 " + name).ok(), parse_mass("2 " + name).ok());
        EXPECT_EQ(std::count(listed.begin(), listed.end(), name), 1);
    }
}

TEST(Parse, APrintedQuantityIsComparedByItsText) {
    const Printed<Length> a{"100 yd", 100.0 * yard};
    EXPECT_EQ(a, (Printed<Length>{"100 yd", 91.44 * metre}));
    EXPECT_NE(a, (Printed<Length>{"100yd", 100.0 * yard}));
}

}  // namespace
