// Yarn counts against published examples. Sources are named beside each; their list is
// lib/data/sources.csv.

#include "skeinfall/units/count.hpp"

#include <gtest/gtest.h>

#include "skeinfall/units/parse.hpp"

namespace {

using namespace skeinfall::units;

constexpr double exact = 1e-12;

/// A grist in yards per pound.
double yards_per_pound(const Grist& grist) {
    return grist / (yard / pound);
}

double yards_per_pound(std::string_view text) {
    return yards_per_pound(parse_count(text)->grist);
}

double tex_of(const Grist& grist) {
    return 1.0 / grist / (gram / (1000.0 * metre));
}

double number(std::string_view text, std::string_view system) {
    return find_count_system(system)->number(parse_count(text)->grist).value();
}

void expect_yards(std::string_view text, double expected) {
    const auto count = parse_count(text);
    ASSERT_TRUE(count.ok()) << to_text(count.problem());
    EXPECT_NEAR(yards_per_pound(count->grist) / expected, 1.0, exact) << text;
}

// ASTM D2260 (S16): factors and the two worked examples of its public page.
TEST(Count, AstmFactors) {
    EXPECT_NEAR(tex_of(parse_count("1 NeC")->grist), 590.541, 0.0005);
    EXPECT_NEAR(tex_of(parse_count("1 NeW")->grist), 885.812, 0.0005);
    EXPECT_NEAR(tex_of(parse_count("1 run")->grist), 310.034, 0.0005);
    EXPECT_NEAR(tex_of(parse_count("1 American grain")->grist), 0.590541, 5e-7);
    EXPECT_NEAR(yards_per_pound("1 Nm"), 496.055, 0.0005);
}

TEST(Count, AstmExamples) {
    EXPECT_NEAR(number("10 NeC", "new"), 15.0, exact * 15.0);
    EXPECT_NEAR(number("NeW 15", "nec"), 10.0, exact * 10.0);
    EXPECT_NEAR(number("30 tex", "nec"), 19.7, 0.05);
    EXPECT_NEAR(number("30 tex", "nec"), 19.685, 0.0005);
}

// S20, yarn conversion formula sheet: NeL constant 1653.5; dtex and denier.
TEST(Count, FormulaSheet) {
    EXPECT_NEAR(tex_of(parse_count("1 NeL")->grist), 1653.5, 0.05);
    EXPECT_NEAR(number("167 dtex", "tex"), 16.7, 1e-11);
    EXPECT_NEAR(number("90 den", "tex"), 10.0, 1e-11);
    EXPECT_NEAR(number("50 Nm", "tex"), 20.0, 1e-11);
}

// S179, worsted and cotton count page.
TEST(Count, WorstedIsPliesFirst) {
    expect_yards("2/24 NeW", 6720.0);
    expect_yards("2/28 NeW", 7840.0);
    expect_yards("3/15 NeW", 2800.0);
    const Grist grist = parse_count("2/24 NeW")->grist;
    EXPECT_NEAR(tex_of(grist), 73.818, 0.001);
    EXPECT_NEAR(number("2/24 NeW", "nm"), 13.547, 0.001);
    EXPECT_NEAR(grist / (metre / (100.0 * gram)), 1354.7, 0.05);
    // Two strands of 2/24 held together (S179): 3360 yd/lb.
    const LinearDensity pair = 2.0 * *parse_linear_density("2/24 NeW");
    EXPECT_NEAR(yards_per_pound(1.0 / pair), 3360.0, 1e-8);
}

TEST(Count, CottonIsCountFirst) {
    expect_yards("16/2 NeC", 6720.0);
    expect_yards("20/2 NeC", 8400.0);
    EXPECT_NEAR(parse_count("16/2 NeC")->grist / parse_count("2/24 NeW")->grist, 1.0, exact);
}

// S181, weavers guild newsletter.
TEST(Count, GuildExamples) {
    expect_yards("5/3 cotton", 1400.0);
    expect_yards("2/8 worsted", 2240.0);
    expect_yards("6 cut woollen", 1800.0);
    expect_yards("4/1 linen", 1200.0);
}

// S15, Taylor, Cotton Weaving and Designing.
TEST(Count, TaylorFoldedYarns) {
    expect_yards("2-40s cotton", 20.0 * 840.0);
    expect_yards("40s-2 spun silk", 40.0 * 840.0);
    const auto silk = parse_count("40s-2 spun silk");
    EXPECT_EQ(silk->plies, 2);
    EXPECT_EQ(silk->number.value(), 40.0);
    // Each of the two singles is an 80.
    EXPECT_NEAR(number("40s-2 spun silk", "nec") * silk->plies, 80.0, 1e-10);
    // Cotton 60s and 40s twisted together make 24s.
    const LinearDensity both =
        *parse_linear_density("60s cotton") + *parse_linear_density("40s cotton");
    EXPECT_NEAR(find_count_system("nec")->number(1.0 / both).value(), 24.0, 1e-11);
}

TEST(Count, TaylorSilkScales) {
    const auto yards_per_ounce = [](std::string_view text) {
        return double(parse_count(text)->grist / (yard / ounce));
    };
    EXPECT_NEAR(yards_per_ounce("40 denier old scale"), 6933.0 + 1.0 / 3.0, 1e-8);
    EXPECT_NEAR(yards_per_ounce("4 dram Manchester"), 4000.0, 1e-8);
}

// S23, handspinning article: 450 yd weigh 8 oz in two plies.
TEST(Count, HandspunTwoPly) {
    const Grist plied = *parse_grist("450 yd / 8 oz");
    EXPECT_NEAR(yards_per_pound(plied), 900.0, 1e-9);
    EXPECT_NEAR(yards_per_pound(2.0 * plied), 1800.0, 1e-9);
    EXPECT_NEAR(find_count_system("cut")->number(2.0 * plied).value(), 6.0, 1e-11);
}

// S18, Kilgour and Woodhouse: the spyndle is 14400 yd, jute is counted in pounds for one of it.
TEST(Count, Jute) {
    EXPECT_NEAR(*parse_linear_density("1 lb / spyndle") / (gram / (1000.0 * metre)), 34.4482, 5e-5);
    EXPECT_NEAR(number("8 jute", "jute_count"), 8.0, 1e-11);
    EXPECT_NEAR(*parse_length("1 spyndle") / yard, 14400.0, 1e-9);
}

// S22 and S23 (citing Ross): lengths for a pound.
TEST(Count, WoollenSystems) {
    expect_yards("1 Yorkshire skein", 256.0);
    expect_yards("20 Y.sk", 5120.0);
    expect_yards("1 Gala", 200.0);
    expect_yards("20 Galashiels cuts", 4000.0);
    expect_yards("1 West of England", 320.0);
    expect_yards("1 run", 1600.0);
    expect_yards("5 1/2 run", 8800.0);
    expect_yards("1 cut", 300.0);
    expect_yards("1.8 typp", 1800.0);
    expect_yards("992 ypp", 992.0);
}

// From memory, and marked so: stated here to catch a slip of the table, not as a published check.
TEST(Count, SystemsFromMemorySaySo) {
    for (const auto* id : {"dewsbury", "hawick", "alloa", "irish_woollen"})
        EXPECT_TRUE(find_count_system(id)->from_memory) << id;
    for (const auto* id : {"nm", "nec", "new", "nel", "run", "cut", "tex", "denier"})
        EXPECT_FALSE(find_count_system(id)->from_memory) << id;
}

// Published yards for machine-knitting cones: 2/30 is 8400 yd/lb, two ends of it are a 2/15 and
// three a 2/10 (needlesofsteel.blogspot.com, yarn counts and equivalents, 2011).
TEST(Count, EndsOfACone) {
    expect_yards("2/30 NeW", 8400.0);
    const LinearDensity end = *parse_linear_density("2/30 NeW");
    EXPECT_NEAR(1.0 / (2.0 * end) / parse_count("2/15 NeW")->grist, 1.0, exact);
    EXPECT_NEAR(1.0 / (3.0 * end) / parse_count("2/10 NeW")->grist, 1.0, exact);
}

TEST(Count, MetricIsWrittenBothWays) {
    for (const auto* text : {"2/28 Nm", "28/2 Nm", "Nm 2/28", "Nm 28/2", "2/28s Nm", "28s/2 Nm"})
        EXPECT_NEAR(number(text, "nm"), 14.0, 1e-11) << text;
    EXPECT_NEAR(number("8/8 Nm", "nm"), 1.0, 1e-12);
}

TEST(Count, TheMarkSettlesTheOrder) {
    expect_yards("2/40s cotton", 20.0 * 840.0);
    expect_yards("2/40's cotton", 20.0 * 840.0);
    expect_yards("40s/2 cotton", 20.0 * 840.0);
    expect_yards("24s/2 NeW", 6720.0);
    expect_yards("2/8s Nm", 4.0 * 496.054647856518);
    expect_yards("8s/2 Nm", 4.0 * 496.054647856518);
    expect_yards("3/4s run", 4.0 * 1600.0 / 3.0);
}

TEST(Count, NamesAndPlaces) {
    for (const auto* text : {"16/2 NeC", "16/2 nec", "16/2 Ne", "16/2 cc", "16/2 cotton count",
                             "NeC 16/2", "cotton 16/2", "16 / 2 NeC", "16/2NeC", "Ne. 16/2"})
        expect_yards(text, 6720.0);
    for (const auto* text : {"60s cotton", "cotton 60s", "60 NeC", "NeC 60", "60's cotton"})
        expect_yards(text, 50400.0);
    expect_yards("\u00bd run", 800.0);
    expect_yards("5\u00bd run", 8800.0);
}

TEST(Count, GristReadsCountsToo) {
    EXPECT_EQ(parse_grist("2/24 NeW")->value(), parse_count("2/24 NeW")->grist.value());
    EXPECT_NEAR(*parse_linear_density("30 tex") / (gram / (1000.0 * metre)), 30.0, 1e-12);
    EXPECT_NEAR(*parse_linear_density("100 g / 200 m") / (gram / (1000.0 * metre)), 500.0, 1e-10);
}

// Two plies of 34 tex weigh 68 g per km before twist takes up: the definition of tex (S02).
TEST(YarnCount, ADirectSystemMultiplies) {
    for (const auto* text : {"34 tex x 2", "34 tex \u00d7 2", "34tex x2"}) {
        const auto count = parse_count(text);
        ASSERT_TRUE(count.ok()) << text;
        EXPECT_EQ(count->plies, 2);
        EXPECT_NEAR(count->grist * (68.0 * gram) / (1000.0 * metre), 1.0, exact) << text;
    }
    EXPECT_NEAR(parse_count("70 den x 3")->grist * (210.0 * gram) / (9000.0 * metre), 1.0, exact);
    EXPECT_FALSE(parse_count("34 tex x").ok());
    EXPECT_FALSE(parse_count("34 tex x 2.5").ok());
    EXPECT_FALSE(parse_count("28 Nm x 2").ok());
}

}  // namespace
