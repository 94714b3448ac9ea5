// What makers said without a file and was passed over: each either counts, or is refused with a
// line that is taken.

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/colour_words.hpp"
#include "skeinfall/exchange/make_answers.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/need/need.hpp"
#include "skeinfall/stash/skein.hpp"
#include "skeinfall/yarn/label_text.hpp"
#include "skeinfall/yarn/stated_total.hpp"

#include "given_answers.hpp"

namespace {

using namespace skeinfall;
using testing::HasSubstr;
using testing::StartsWith;

using Said = std::vector<std::pair<std::string, std::string>>;

/// "gauge: what was wrong"; empty where the answers are taken.
std::string refused(const Said& said, const std::vector<stash::Skein>& stash = {}) {
    try {
        static_cast<void>(exchange::project_of_answers(exchange::answers(said), stash));
    } catch (const base::InputError& error) {
        return error.problems().front().place.file + ": " + to_text(error.problems().front());
    }
    return {};
}

project::Project made(const Said& said) {
    return exchange::project_of_answers(exchange::answers(said), {}).project;
}

double metres(const Said& said) {
    return need::need_of(made(said), 0).roles.front().length.centre.value();
}

const std::pair<std::string, std::string> worsted{"class", "4"};

TEST(StitchesOfPieces, TheSecondKeepsItsOwn) {
    const std::pair<std::string, std::string> gauges{
        "gauge", "14 sc and 16 rows per 10 cm; 14 tr and 6 rows per 10 cm"};
    const Said both{
        {"make", "band: 20 sc x 20 rows"}, {"make", "scarf: 33 tr x 130 rows"}, gauges, worsted};
    const project::Project project = made(both);
    ASSERT_TRUE(project.pieces.at(1).gauge.has_value());
    EXPECT_EQ(project.pieces.at(1).gauge->stitch, "tr");
    EXPECT_NEAR(project.pieces.at(1).gauge->rows.value(), 60.0, 1e-9);
    EXPECT_FALSE(project.pieces.at(0).gauge.has_value());
    EXPECT_EQ(project.gauge.stitch, "sc");
    // The treble is nine tenths of it: it cannot take less than as a piece of sc.
    const double as_sc = metres({{"make", "band: 20 sc x 20 rows"},
                                 {"make", "scarf: 33 sc x 130 rows"},
                                 {"gauge", "14 sts and 16 rows per 10 cm"},
                                 worsted});
    EXPECT_GT(metres(both), 1.8 * as_sc);
}

TEST(StitchesOfPieces, TheOrderOfThePiecesChangesNothing) {
    const std::pair<std::string, std::string> gauges{
        "gauge", "14 sc and 16 rows per 10 cm; 14 hdc and 10 rows per 10 cm"};
    const std::pair<std::string, std::string> swatch{"swatch", "20 sc x 20 rows, 14 g"};
    const std::pair<std::string, std::string> label{"label", "170 yd / 100 g"};
    const std::pair<std::string, std::string> band{"make", "band: 20 sc x 20 rows"};
    const std::pair<std::string, std::string> scarf{"make", "scarf: 33 hdc x 130 rows"};
    EXPECT_NEAR(metres({band, scarf, gauges, swatch, label}),
                metres({scarf, band, gauges, swatch, label}), 2.0);
}

TEST(StitchesOfPieces, WithoutAGaugeInEachTheyAreRefused) {
    const Said of{{"make", "scarf: 33 hdc x 96 rows"}, {"make", "hat: 80 sc x 20 rounds"}, worsted};
    for (const char* const gauge :
         {"14 sts and 10 rows per 10 cm", "14 hdc and 10 rows per 10 cm"}) {
        Said said = of;
        said.emplace_back("gauge", gauge);
        EXPECT_THAT(refused(said), StartsWith("gauge: ")) << gauge;
        EXPECT_THAT(refused(said),
                    HasSubstr("\"14 hdc and 10 rows per 10 cm; 14 sc and 6 rows per 10 cm\""));
    }
    EXPECT_THAT(refused(of), StartsWith("gauge: "));
    Said told = of;
    told.emplace_back("gauge", "14 hdc and 10 rows per 10 cm; 14 sc and 6 rows per 10 cm");
    EXPECT_EQ(refused(told), "");
    // Names of one stitch are one.
    EXPECT_EQ(refused({{"make", "scarf: 33 sc x 96 rows"},
                       {"make", "hat: 80 single crochet x 20 rounds"},
                       {"gauge", "14 sts and 10 rows per 10 cm"},
                       worsted}),
              "");
}

TEST(StitchesOfPieces, WhatIsNoStitchStops) {
    EXPECT_THAT(refused({{"make", "scarf: 33 sc x 96 rows"},
                         {"make", "edging: 150 xyzzy x 2 rows"},
                         {"gauge", "14 sts and 10 rows per 10 cm"},
                         worsted}),
                HasSubstr("\"xyzzy\" takes is not known"));
    EXPECT_THAT(refused({{"make", "scarf: 33 sc x 96 rows"},
                         {"gauge", "14 sc and 10 rows per 10 cm; 14 tr and 6 rows per 10 cm"},
                         worsted}),
                HasSubstr("no piece is of \"tr\""));
    EXPECT_THAT(refused({{"make", "a: 33 sc x 96 rows"},
                         {"make", "b: 33 tr x 96 rows"},
                         {"make", "c: 33 sts x 96 rows"},
                         {"gauge", "14 sc and 10 rows per 10 cm; 14 tr and 6 rows per 10 cm"},
                         worsted}),
                HasSubstr("that of one is not said"));
}

TEST(StitchesOfPieces, AnotherThanIsAnsweredByItselfIsRefused) {
    const Said said{{"make", "scarf: 33 tr x 150 rows"},
                    {"stitch", "sc"},
                    {"gauge", "14 sts and 16 rows per 10 cm"},
                    worsted};
    EXPECT_THAT(refused(said), StartsWith("stitch: "));
    EXPECT_THAT(refused(said), HasSubstr("\"tr\""));
    EXPECT_EQ(refused({{"make", "scarf: 33 tr x 150 rows"},
                       {"stitch", "treble crochet"},
                       {"gauge", "14 sts and 16 rows per 10 cm"},
                       worsted}),
              "");
}

TEST(Gauges, InWordsOfTheInchAndInFractions) {
    for (const char* const text :
         {"3 1/2 sts per inch and 2 1/2 rows per inch", "3 1/2 sts and 2 1/2 rows to the inch",
          "tension 3.5 sts and 2.5 rows per inch", "tension: 3.5 sts, 2.5 rows per in"}) {
        const auto gauge = exchange::parse_gauge(text);
        ASSERT_TRUE(gauge) << text << ": " << to_text(gauge.problem());
        EXPECT_NEAR(units::parse_stitch_gauge(gauge->stitches)->value(), 3.5 / 0.0254, 1e-6)
            << text;
        EXPECT_NEAR(units::parse_row_gauge(gauge->rows)->value(), 2.5 / 0.0254, 1e-6) << text;
    }
}

TEST(Gauges, RowsAreAskedForWhereTheyAreNeededAlone) {
    const std::pair<std::string, std::string> swatch{"swatch", "15 x 15 cm, 14 g"};
    const std::pair<std::string, std::string> label{"label", "170 yd / 100 g"};
    for (const char* const gauge :
         {"14 sts per 10 cm", "3.5 sts to the inch", "14 sts = 4 in", "14 hdc per 10 cm"}) {
        EXPECT_EQ(refused({{"make", "22 cm x 1.5 m"}, swatch, label, {"gauge", gauge}}), "")
            << gauge;
        EXPECT_THAT(refused({{"make", "33 hdc x 96 rows"}, swatch, label, {"gauge", gauge}}),
                    HasSubstr("rows are missing"))
            << gauge;
    }
}

TEST(FlatSizes, OfHollowThingsAreAskedWhetherTheyAreRound) {
    const std::pair<std::string, std::string> swatch{"swatch", "15 x 15 cm, 14 g"};
    for (const char* const name :
         {"mittens", "2 mittens", "socks", "hat", "bonnet for Ann", "market bag", "cushion cover",
          "hot water bottle cover", "pillow", "pouch", "tea cosy", "jumper", "adult slippers"}) {
        const auto piece = exchange::parse_piece(std::string(name) + ": 10 x 24 cm");
        ASSERT_FALSE(piece) << name;
        EXPECT_THAT(piece.problem().expected, HasSubstr("20 cm around x 24 cm")) << name;
    }
    const double flat = metres({{"make", "rag: 10 x 24 cm"}, swatch, {"label", "170 yd / 100 g"}});
    EXPECT_NEAR(
        metres({{"make", "mittens: 20 cm around x 24 cm"}, swatch, {"label", "170 yd / 100 g"}}),
        4.0 * flat, 0.05 * flat);
    for (const char* const text :
         {"hat, one layer: 25 x 20 cm", "bag (laid open): 30 x 70 cm", "hat: 60 sc x 20 rows",
          "cushion cover worked in the round: 80 x 40 cm", "hat band: 5 x 50 cm",
          "bag: 60 cm in circumference x 30 cm", "hat: 60 hdc x 20 cm"})
        EXPECT_TRUE(exchange::parse_piece(text)) << text;
}

TEST(Shapes, InThePluralAndBySynonymsAreNoRectangles) {
    for (const char* const name : {"10 triangles", "12 pennants", "20 hexagons", "30 circles",
                                   "6 stars", "half-circle shawl", "half circle shawl", "round rug",
                                   "diamond", "kerchief", "ball", "2 ovals", "circular mat"})
        EXPECT_FALSE(exchange::parse_piece(std::string(name) + ": 20 x 25 cm")) << name;
    EXPECT_FALSE(exchange::parse_piece("10 triangles of 20 cm x 25 cm"));
    for (const char* const text :
         {"10 triangles: 20 to 1 cm x 25 cm", "ball: 6 sc, 6 more every round, 20 rounds",
          "hexagon blanket: 100 x 120 cm", "round neck top: 40 sc x 60 rows"})
        EXPECT_TRUE(exchange::parse_piece(text)) << text;
}

TEST(Having, WordsBehindInThatAreNoColourAreRefused) {
    yarn::Yarn like;
    like.label = yarn::parse_put_up("110 m / 50 g")->label;
    const auto have = [&](const std::string& text) {
        return exchange::parse_having(text, like, "dusk rose", 1);
    };
    for (const char* const text :
         {"1650 m in fifteen balls", "1540 m in many scraps", "1540 m in the wash",
          "260 yd in lot A and lot B", "260 yd in bits", "260 yd in bits of rust",
          "2 strands of wool", "none", "1.5 skeins of 170 yd / 100 g", "160 g of string"})
        EXPECT_FALSE(have(text)) << text;
    for (const auto& [text, colour] : std::vector<std::pair<std::string, std::string>>{
             {"3 skeins of 170 yd / 100 g in rust", "rust"},
             {"340 yd in dark green", "dark green"},
             {"340 yd in Dusk Rose", "Dusk Rose"}}) {
        const auto some = have(text);
        ASSERT_TRUE(some) << text;
        EXPECT_EQ(some->front().colourway, colour) << text;
    }
}

TEST(Having, WhatTheYarnIsStandsBehindItsAmount) {
    yarn::Yarn like;
    like.label = yarn::parse_put_up("110 m / 50 g")->label;
    const auto have = [&](const std::string& text) {
        return exchange::parse_having(text, like, "", 1).value().front().yarn;
    };
    EXPECT_EQ(yarn::text(have("500 g acrylic").fibre), "100 % acrylic");
    EXPECT_EQ(yarn::text(have("3 balls of 170 yd / 100 g, merino wool").fibre), "100 % merino");
    EXPECT_EQ(have("160 g of wool").fibre, like.fibre);
    const yarn::Yarn both = have("500 g of worsted acrylic yarn");
    EXPECT_EQ(both.weight->number, 4);
    EXPECT_EQ(yarn::text(both.fibre), "100 % acrylic");
    EXPECT_EQ(have("2 balls of worsted wool").weight->number, 4);
}

TEST(Having, CountsInOtherWords) {
    yarn::Yarn like;
    like.label = yarn::parse_put_up("110 m / 50 g")->label;
    for (const auto& [text, count] :
         std::vector<std::pair<std::string, std::size_t>>{{"2 x 170 yd / 100 g", 2},
                                                          {"2 balls (170 yd / 100 g each)", 2},
                                                          {"two 100 g skeins", 2},
                                                          {"a dozen skeins of 50 g", 12},
                                                          {"half a dozen balls of 50 g", 6},
                                                          {"2 dozen balls of 50 g", 24},
                                                          {"170 yd / 100 g x 3", 3},
                                                          {"50g/125m x 4", 4},
                                                          {"cake of 95 g", 1},
                                                          {"160 g of wool", 1},
                                                          {"160 g of yarn", 1}}) {
        const auto some = exchange::parse_having(text, like, "", 1);
        ASSERT_TRUE(some) << text << to_text(some.problem());
        EXPECT_EQ(some->size(), count) << text;
    }
}

TEST(Having, AConeIsAskedForItsCore) {
    yarn::Yarn like;
    like.label = yarn::parse_put_up("170 yd / 100 g")->label;
    for (const char* const text :
         {"cone of 160 g", "a 500 g cone", "160 g cone", "160 g with the cone",
          "cone of 160 g with core", "cone of 160 g, core 200 g"}) {
        const auto some = exchange::parse_having(text, like, "", 1);
        ASSERT_FALSE(some) << text;
        EXPECT_THAT(some.problem().expected, HasSubstr(" g, core ")) << text;
    }
    EXPECT_THAT(exchange::parse_having("2 cones of 500 g", like, "", 1).problem().expected,
                HasSubstr("\"2 cones of 500 g, core 20 g\""));
    EXPECT_EQ(exchange::parse_having("2 cones of 500 g, core 20 g", like, "", 1)->size(), 2U);
    const auto length = [&](const std::string& text) {
        return stash::supply_of(exchange::parse_having(text, like, "", 1)->front())->length.value();
    };
    const double whole = length("160 g");
    EXPECT_NEAR(length("cone of 160 g, core 40 g"), whole * 120 / 160, 0.1);
    EXPECT_NEAR(length("160 g with the core of 40 g"), whole * 120 / 160, 0.1);
    EXPECT_NEAR(length("cone of 160 g, without core"), whole, 0.1);
    // By its label it holds what that says.
    EXPECT_TRUE(exchange::parse_having("2 cones of 4000 m / 500 g", like, "", 1));
}

// Regular expressions go as deep as their text is long.
TEST(Having, AndOtherAnswersOfAnyLengthAreRefused) {
    const std::string many(100'000, 'a');
    EXPECT_FALSE(exchange::parse_having("2 skeins of " + many, {}, "", 1));
    EXPECT_FALSE(exchange::parse_having(many + " in rust", {}, "", 1));
    EXPECT_FALSE(exchange::parse_counted("2 skeins of " + many));
    EXPECT_FALSE(exchange::parse_gauges("14 sts " + many));
    EXPECT_FALSE(exchange::parse_swatch("14 g in " + many));
    EXPECT_NE(refused({{"total", "380 yd (" + many + ")"}}), "");
}

TEST(Having, LotsAreKeptApart) {
    yarn::Yarn like;
    like.label = yarn::parse_put_up("170 yd / 100 g")->label;
    const auto one = exchange::parse_having("2 skeins of 170 yd / 100 g, lot 4411", like, "", 1);
    const auto another_lot = exchange::parse_having("170 yd / 100 g (dye lot 4412)", like, "", 3);
    ASSERT_TRUE(one);
    ASSERT_TRUE(another_lot);
    EXPECT_EQ(one->size(), 2U);
    EXPECT_EQ(one->front().dye_lot, "4411");
    EXPECT_NE(stash::lot_key(one->front()), stash::lot_key(another_lot->front()));
    EXPECT_EQ(stash::lot_key(one->front()), stash::lot_key(one->back()));
}

TEST(Swatches, SayTheirStitchAndStrandsBehind) {
    EXPECT_EQ(exchange::parse_swatch("15 x 15 cm, 14 g in sc")->stitch, "sc");
    EXPECT_EQ(exchange::parse_swatch("15 x 15 cm in sc, 14 g")->stitch, "sc");
    EXPECT_EQ(exchange::parse_swatch("15 x 15 cm, 14 g, garter")->stitch, "garter");
    EXPECT_EQ(exchange::parse_swatch("15 x 15 cm, 14 g, held double")->strands, 2);
    EXPECT_EQ(exchange::parse_swatch("15 x 15 cm, 14 g, 3 strands")->strands, 3);
    const auto counted = exchange::parse_swatch("20 stitches, 14 rows, 14 g");
    ASSERT_TRUE(counted);
    EXPECT_EQ(counted->stitches, 20);
    EXPECT_EQ(counted->rows, 14);
    const auto ball = exchange::parse_swatch("15 x 15 cm, 50 g before and 36 g after");
    ASSERT_TRUE(ball);
    EXPECT_EQ(ball->before, "50 g");
    EXPECT_EQ(ball->after, "36 g");
    for (const char* const text :
         {"15 x 15 cm, 14 g, washed", "15 x 15 cm, 14 g in the park", "20 stitches, 14 g",
          "15 x 15 cm, 14 g, 50 g before and 36 g after", "20 sc x 14 rows, 14 g in dc"})
        EXPECT_FALSE(exchange::parse_swatch(text)) << text;
    const std::pair<std::string, std::string> label{"label", "170 yd / 100 g"};
    const std::pair<std::string, std::string> gauge{"gauge", "14 sts and 10 rows per 10 cm"};
    const double same =
        metres({{"make", "33 hdc x 96 rows"}, label, gauge, {"swatch", "15 x 15 cm, 14 g"}});
    EXPECT_NEAR(metres({{"make", "33 hdc x 96 rows"},
                        label,
                        gauge,
                        {"swatch", "15 x 15 cm, 50 g before and 36 g after"}}),
                same, 0.5);
    // sc takes less yarn a stitch than hdc, and there are more of them in its lower rows.
    const double in_sc =
        metres({{"make", "33 hdc x 96 rows"}, label, gauge, {"swatch", "15 x 15 cm, 14 g in sc"}});
    EXPECT_GT(in_sc, same);
    EXPECT_LT(in_sc, 1.2 * same);
}

TEST(Strands, OfTheMakeAreThoseOfItsSwatch) {
    const std::pair<std::string, std::string> label{"label", "170 yd / 100 g"};
    const std::pair<std::string, std::string> gauge{"gauge", "14 sts and 10 rows per 10 cm"};
    const std::pair<std::string, std::string> doubled{"swatch", "15 x 15 cm, 14 g, held double"};
    EXPECT_EQ(refused({{"make", "scarf: 33 hdc x 96 rows, held double"}, label, gauge, doubled}),
              "");
    EXPECT_EQ(made({{"make", "scarf: 33 hdc x 96 rows, held double"}, label, gauge, doubled})
                  .pieces.front()
                  .name,
              "scarf, held double");
    EXPECT_THAT(refused({{"make", "scarf: 33 hdc x 96 rows"}, label, gauge, doubled}),
                StartsWith("swatch: "));
    EXPECT_THAT(refused({{"make", "scarf: 33 hdc x 96 rows, 3 strands"}, label, gauge, doubled}),
                StartsWith("swatch: "));
    EXPECT_THAT(refused({{"make", "scarf: 33 hdc x 96 rows, held double"},
                         label,
                         gauge,
                         {"swatch", "15 x 15 cm, 14 g, single strand"}}),
                StartsWith("swatch: "));
    EXPECT_THAT(refused({{"make", "scarf: 33 hdc x 96 rows, held double"}, label, gauge, worsted}),
                StartsWith("make: "));
}

TEST(Totals, SaidRoughlyAreWiderAndInTwoUnitsOne) {
    const auto of = [](const std::string& total) {
        const std::string toml =
            exchange::project_of_answers(exchange::answers({{"total", total}}), {}).toml;
        const std::string key = "\ntotal = \"";
        const std::size_t at = toml.find(key) + key.size();
        return *yarn::parse_stated_total(toml.substr(at, toml.find('"', at) - at))->length;
    };
    const auto plain = of("380 yd");
    for (const char* const text :
         {"380 yd (347 m)", "380 yd / 347 m", "347 m (380 yd)", "380 yd = 347.5 m"})
        EXPECT_NEAR(of(text).most.value(), plain.most.value(), 1.0) << text;
    EXPECT_THAT(refused({{"total", "380 yd (400 m)"}}), HasSubstr("not the same"));
    for (const char* const text : {"about 380 yd", "~380 yd", "380 yd or so"}) {
        EXPECT_NEAR(of(text).least.value(), 0.9 * plain.least.value(), 0.01) << text;
        EXPECT_NEAR(of(text).most.value(), 1.1 * plain.most.value(), 0.01) << text;
    }
    EXPECT_EQ(exchange::project_of_answers(exchange::answers({{"total", "about 380 yd"}}), {})
                  .assumed.size(),
              1U);
    EXPECT_THAT(refused({{"total", "about 4 balls of 100 m"}}), StartsWith("total: "));
    for (const char* const text :
         {"3 1/2 skeins of 100 m", "3.5 skeins of 100 m", "3 2/4 balls of 100 m / 50 g"}) {
        const double part = text[2] == '2' ? 12.5 : 25.0;
        EXPECT_NEAR(of(text).least.value(), 350.0 - part, 0.01) << text;
        EXPECT_NEAR(of(text).most.value(), 350.0 + part, 0.01) << text;
    }
    EXPECT_NEAR(of("one 100 g skein of 200 m").most.value(), 200.0, 0.01);
    EXPECT_NEAR(of("6 x200 m").most.value(), 1200.0, 0.01);
    EXPECT_THAT(refused({{"total", "2 skeins (400 yd)"}}), HasSubstr("\"400 yd in all\""));
    EXPECT_EQ(refused({{"total", "400 yd in all"}}), "");
    EXPECT_THAT(refused({{"total", "380 (420, 460) yd"}}), HasSubstr("several sizes"));
    EXPECT_THAT(refused({{"total", "12 of 45 yd"}}), HasSubstr("\"12 balls of 45 yd\""));
    EXPECT_THAT(refused({{"total", "1,200 yd"}}), HasSubstr("Write 1200 or 1.2 instead"));
}

TEST(Extras, AreReadOrShownHowTheyAreTaken) {
    const auto fringe = exchange::parse_extra("fringe: 40 strands of 30 cm");
    ASSERT_TRUE(fringe);
    EXPECT_EQ(fringe->strands, 40);
    EXPECT_EQ(fringe->cut, "30 cm");
    const Said blanket{{"make", "blanket: 80 x 100 cm"},
                       {"swatch", "15 x 15 cm, 14 g"},
                       {"label", "170 yd / 100 g"}};
    const auto with = [&](const char* const plus) {
        Said said = blanket;
        said.emplace_back("plus", plus);
        return metres(said);
    };
    EXPECT_NEAR(with("fringe: 40 strands of 30 cm") - metres(blanket), 12.0, 0.5);
    EXPECT_NEAR(with("edging 1 ball of 50 g"), with("edging 50 g"), 0.01);
    EXPECT_THAT(exchange::parse_extra("4 tassels of 30 g").problem().expected,
                HasSubstr("\"tassels 120 g in all\""));
    EXPECT_NEAR(with("4 tassels 30 g each"), with("tassels 120 g"), 1.0);
    const std::vector<std::pair<std::string, std::string>> shown{
        {"border: 5 rounds", "\"border of 5 rounds of 180 sts\""},
        {"border of 5 rounds", "\"border of 5 rounds of 180 sts\""},
        {"edging 30 to 40 yd", "\"edging 40 yd\""},
        {"straps 2 x 30 yd", "\"2 straps 30 yd each\""},
        {"strap: 8 sts x 100 rows", "\"strap 30 yd\""}};
    for (const auto& [text, form] : shown) {
        const auto extra = exchange::parse_extra(text);
        ASSERT_FALSE(extra) << text;
        EXPECT_THAT(to_text(extra.problem()), HasSubstr(form)) << text;
        EXPECT_TRUE(exchange::parse_extra(form.substr(1, form.size() - 2))) << form;
    }
    EXPECT_THAT(exchange::parse_extra("edging 30 yd and fringe 20 yd").problem().remedy,
                HasSubstr("more than one"));
    Said of_dc = blanket;
    of_dc.emplace_back("plus", "border 2 rounds of 480 dc");
    EXPECT_THAT(refused(of_dc), HasSubstr("the stitch of the make is not said"));
}

/// Makers count stitches across, and sew the first row to the last.
TEST(Rings, AreStripsWithASeamOverTheirWidth) {
    const auto seam = [](const std::string& make) {
        const auto asked = exchange::project_of_answers(
            exchange::answers({{"make", make}, {"stitch", "hdc"}, {"class", "4"}}), {});
        return asked.project.finish;
    };
    const auto measured = seam("infinity scarf 20 cm x 150 cm, sewn into a ring");
    ASSERT_EQ(measured.size(), 1U);
    EXPECT_EQ(measured[0].kind, project::PartKind::seam);
    EXPECT_NEAR(measured[0].length.at(0) / units::metre, 0.20, 1e-9);
    const auto counted = seam("2 headbands: 16 hdc x 60 rows, ends sewn together");
    ASSERT_EQ(counted.size(), 1U);
    EXPECT_EQ(counted[0].stitches.at(0), 16);
    EXPECT_EQ(counted[0].copies.at(0), 2);
    for (const std::string said : {"seamed", "stitched up into a ring", "joined into a loop"})
        EXPECT_EQ(seam("strip 10 cm x 50 cm, " + said).size(), 1U) << said;
    EXPECT_TRUE(seam("strip 10 cm x 50 cm").empty());
    EXPECT_THAT(refused({{"make", "cowl: 80 sts x 30 rounds, seamed"}, {"class", "4"}}),
                HasSubstr("worked in rounds"));
}

TEST(Stripes, AlikeAndInWords) {
    for (const char* const text : {"rust and sand, 2 rows each", "two rows of rust, two of sand",
                                   "rust, sand 2 rows each"}) {
        const auto stripes = exchange::parse_stripes(text);
        ASSERT_TRUE(stripes) << text << to_text(stripes.problem());
        ASSERT_EQ(stripes->size(), 2U) << text;
        EXPECT_EQ(stripes->front().colour, "rust") << text;
        EXPECT_EQ(stripes->back().rows, 2) << text;
    }
    EXPECT_FALSE(exchange::parse_stripes("rust 50, sand to the end"));
}

TEST(Names, OfTwoThingsOrOfWhatIsAddedAreAskedAbout) {
    const Said scarf{{"gauge", "14 sts and 10 rows per 10 cm"}, worsted};
    for (const char* const make : {"scarf/hat: 33 sc x 96 rows", "strappy bag: 60 sc x 30 rounds",
                                   "scarf w/ fringe: 33 sc x 96 rows"}) {
        Said said = scarf;
        said.emplace_back("make", make);
        EXPECT_THAT(refused(said), HasSubstr("names more than the piece")) << make;
    }
    for (const char* const make :
         {"beaded scarf: 33 sc x 96 rows", "8/4 cotton rag: 33 sc x 96 rows"}) {
        Said said = scarf;
        said.emplace_back("make", make);
        EXPECT_EQ(refused(said), "") << make;
    }
}

TEST(MadeFor, PlainWordsOfKitchenAndCradle) {
    const auto whom = [](const std::string& name) {
        return made({{"make", name + ": 20 sc x 20 rows"},
                     {"gauge", "14 sts and 10 rows per 10 cm"},
                     worsted})
            .made_for;
    };
    for (const char* const name :
         {"kettle holder", "teapot stand", "oven cloth", "hob mitt", "2 grab pads", "hot dish mat",
          "2 coasters for hot pans", "casserole cosy"})
        EXPECT_EQ(whom(name), project::Recipient::kitchen_heat) << name;
    for (const char* const name :
         {"sleeveless matinee coat", "babygro", "nursery blanket", "receiving blanket",
          "moses basket cover", "comforter for my grandson"})
        EXPECT_EQ(whom(name), project::Recipient::infant) << name;
    EXPECT_EQ(whom("hat for my granddaughter"), project::Recipient::child);
}

}  // namespace
