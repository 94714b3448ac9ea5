#include "skeinfall/exchange/make_answers.hpp"

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/project_toml.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/need/need.hpp"

#include "given_answers.hpp"

namespace {

using namespace skeinfall;
using project::MakeAnswers;
using testing::HasSubstr;

base::Problems answer_problems(const MakeAnswers& given,
                               const std::vector<stash::Skein>& stash = {}) {
    try {
        static_cast<void>(exchange::project_of_answers(given, stash));
    } catch (const base::InputError& error) {
        return error.problems();
    }
    return {};
}

stash::Skein skein(const std::string& id, const std::string& name, const std::string& length,
                   const std::string& mass) {
    stash::Skein out;
    out.id = id;
    out.yarn.name = name;
    out.yarn.label = {units::Printed<units::Length>{length, *units::parse_length(length)},
                      units::Printed<units::Mass>{mass, *units::parse_mass(mass)}};
    out.yarn.weight = yarn::WeightClass{4};
    return out;
}

TEST(MakeWords, Pieces) {
    struct Known {
        std::string text;
        std::int64_t count, stitches, rows;
        std::string width, length, stitch;
        bool round;
    };
    const std::vector<Known> known{
        {"33 hdc x 96 rows", 1, 33, 96, "", "", "hdc", false},
        {"33 sts x 96 rows", 1, 33, 96, "", "", "", false},
        {"96 rows of 33 hdc", 1, 33, 96, "", "", "hdc", false},
        {"96 rows x 33 stitches", 1, 33, 96, "", "", "", false},
        {"60 sc x 36 rounds", 1, 60, 36, "", "", "sc", true},
        {"shawl: 36 rounds of 60 sc", 1, 60, 36, "", "", "sc", true},
        {"22 cm x 1.5 m", 1, 0, 0, "22 cm", "1.5 m", "", false},
        {"22 by 150 cm", 1, 0, 0, "22 cm", "150 cm", "", false},
        {"60x60 in", 1, 0, 0, "60 in", "60 in", "", false},
        {"6\xe2\x80\xb3 \xc3\x97 6\xe2\x80\xb3", 1, 0, 0, "6\"", "6\"", "", false},
        {"33 hdc x 1.5 m", 1, 33, 0, "", "1.5 m", "hdc", false},
        {"20 squares of 6 x 6 in", 20, 0, 0, "6 in", "6 in", "", false},
        {"12 squares of 14 sts x 16 rows", 12, 14, 16, "", "", "", false},
    };
    for (const Known& one : known) {
        const auto piece = exchange::parse_piece(one.text);
        ASSERT_TRUE(piece.ok()) << one.text << ": " << to_text(piece.problem());
        EXPECT_EQ(piece->count, one.count) << one.text;
        EXPECT_EQ(piece->stitches.value_or(0), one.stitches) << one.text;
        EXPECT_EQ(piece->rows.value_or(0), one.rows) << one.text;
        EXPECT_EQ(piece->width, one.width) << one.text;
        EXPECT_EQ(piece->length, one.length) << one.text;
        EXPECT_EQ(piece->stitch, one.stitch) << one.text;
        EXPECT_EQ(piece->round, one.round) << one.text;
    }
    const auto growing = exchange::parse_piece("1 st x 139 rows, 1 more every 2nd row").value();
    EXPECT_EQ(growing.increase, 1);
    EXPECT_EQ(growing.every, 2);
    EXPECT_EQ(exchange::parse_piece("80 sts x 20 rows, 2 fewer each row").value().increase, -2);
    for (const std::string text : {"", "33", "33 hdc", "33 x 96", "a scarf", "33 hdc x 40 dc",
                                   "40 rows x 50 rows", "0 hdc x 4 rows"})
        EXPECT_FALSE(exchange::parse_piece(text).ok()) << text;
}

// The figures of a name are not those of the piece.
TEST(MakeWords, TheWayOfWorkingMayBeSaid) {
    const auto round = [](const std::string& text) {
        const auto piece = exchange::parse_piece(text);
        return piece ? (piece->round ? "round" : "flat") : "refused";
    };
    for (const std::string text :
         {"36 sc x 40 rows in the round", "2 mittens, 36 sc x 40 rows, worked in the round",
          "cowl 100 dc x 20 rnds in joined rounds", "cowl worked in the round: 100 dc x 20 cm"})
        EXPECT_EQ(round(text), std::string("round")) << text;
    for (const std::string text : {"36 sc x 40 rows, flat", "36 sc x 40 rows worked back and forth",
                                   "flat bag: 36 sc x 40 rows"})
        EXPECT_EQ(round(text), std::string("flat")) << text;
    EXPECT_EQ(round("36 sc x 40 rounds worked flat"), std::string("refused"));
    EXPECT_EQ(exchange::parse_piece("2 mittens, 36 sc x 40 rows, worked in the round")->count, 2);
}

TEST(MakeWords, FiguresInANameAreNoStitches) {
    for (const std::string name : {"2 colour scarf", "3 colour scarf", "8 ply scarf",
                                   "two colour scarf", "mum's 1st scarf", "scarf no 3"}) {
        const auto piece = exchange::parse_piece(name + " 33 hdc x 96 rows").value();
        EXPECT_EQ(piece.stitches, 33) << name;
        EXPECT_EQ(piece.rows, 96) << name;
        EXPECT_EQ(piece.stitch, "hdc") << name;
        EXPECT_EQ(piece.count, 1) << name;
    }
    EXPECT_EQ(exchange::parse_piece("size 6 hat 80 sc x 30 rounds").value().name, "size 6 hat");
    for (const std::string text :
         {"scarf 33 hdc x 96 rows in dc", "33 hdc x 96 rows in pairs", "2 colour scarf 33 hdc"})
        EXPECT_FALSE(exchange::parse_piece(text).ok()) << text;
}

TEST(MakeWords, Gauges) {
    for (const std::string text :
         {"14 sts and 10 rows per 10 cm", "14 sts, 10 rows per 10 cm", "14 sts x 10 rows = 10 cm",
          "14 st by 10 rows in 10cm", "14 sts per 10 cm and 10 rows per 10 cm",
          "10 rows and 14 sts per 10 cm", "14 x 10 per 10 cm square",
          "14 sts and 10 rounds to 10 x 10 cm"}) {
        const auto gauge = exchange::parse_gauge(text);
        ASSERT_TRUE(gauge.ok()) << text << ": " << to_text(gauge.problem());
        EXPECT_NEAR(units::parse_stitch_gauge(gauge->stitches).value().value(), 140.0, 1e-9)
            << text;
        EXPECT_NEAR(units::parse_row_gauge(gauge->rows).value().value(), 100.0, 1e-9) << text;
        EXPECT_EQ(gauge->stitch, "") << text;
    }
    EXPECT_EQ(exchange::parse_gauge("3.5 hdc and 2.5 rows per in").value().stitch, "hdc");
    for (const std::string text : {"", "14 and 10", "14 sts and 10 rows per 10 cm on a 5 mm hook"})
        EXPECT_FALSE(exchange::parse_gauge(text).ok()) << text;
}

TEST(MakeWords, Swatches) {
    const auto weighed = exchange::parse_swatch("15 x 15 cm, 14 g").value();
    EXPECT_EQ(weighed.width, "15 cm");
    EXPECT_EQ(weighed.mass, "14 g");
    EXPECT_EQ(weighed.scale, "1 g");
    const auto counted =
        exchange::parse_swatch("20 hdc x 14 rows, 15 x 12.5 cm weighs 16.1 g").value();
    EXPECT_EQ(counted.stitches, 20);
    EXPECT_EQ(counted.rows, 14);
    EXPECT_EQ(counted.stitch, "hdc");
    EXPECT_EQ(counted.height, "12.5 cm");
    EXPECT_EQ(counted.scale, "0.1 g");
    EXPECT_EQ(exchange::parse_swatch("5 x 5 in, 802 in").value().length, "802 in");
    EXPECT_EQ(exchange::parse_swatch("15 x 15 cm, 6,5 g").value().mass, "6,5 g");
    for (const std::string text : {"", "14 g", "15 x 15 cm", "15 cm, 14 g", "nice, 14 g"})
        EXPECT_FALSE(exchange::parse_swatch(text).ok()) << text;
}

TEST(MakeWords, Extras) {
    EXPECT_EQ(exchange::parse_extra("edging 30 yd").value().yarn, "30 yd");
    EXPECT_EQ(exchange::parse_extra("edging: 30 yd").value().name, "edging");
    EXPECT_EQ(exchange::parse_extra("30 yd for the fringe").value().name, "fringe");
    EXPECT_EQ(exchange::parse_extra("border of 2 rounds of 180 sts").value().stitches, 180);
    EXPECT_FALSE(exchange::parse_extra("an edging").ok());
    for (const std::string text : {"two edgings of 30 yd", "both edgings 30 yd",
                                   "each edging 30 yd", "two borders of 2 rounds of 180 sts"})
        EXPECT_FALSE(exchange::parse_extra(text).ok()) << text;
}

TEST(MakeWords, ExtrasOfEachAndOfAll) {
    struct Said {
        const char* text;
        const char* name;
        const char* yarn;
        exchange::ExtraOf of;
        std::int64_t things;
    };
    using exchange::ExtraOf;
    for (const Said& said :
         {Said{"pompom 10 m each", "pompom", "10 m", ExtraOf::each, 1},
          {"2 pompoms 10 m each", "pompoms", "10 m", ExtraOf::each, 2},
          {"two pompoms, 10 m each", "pompoms", "10 m", ExtraOf::each, 2},
          {"nose 2 m each", "nose", "2 m", ExtraOf::each, 1},
          {"border 60 yd in all", "border", "60 yd", ExtraOf::all, 1},
          {"border 20 m per placemat", "border", "20 m", ExtraOf::each, 1},
          {"20 m per placemat", "placemat", "20 m", ExtraOf::each, 1},
          {"embroidery 2 yd", "embroidery", "2 yd", ExtraOf::unsaid, 1},
          {"embroidery 2 m", "embroidery", "2 m", ExtraOf::unsaid, 1},
          {"embroidery 2 metres of yarn", "embroidery", "2 metres", ExtraOf::unsaid, 1},
          {"strap 3 m of yarn", "strap", "3 m", ExtraOf::unsaid, 1},
          {"nose 80 cm of yarn", "nose", "80 cm", ExtraOf::unsaid, 1}}) {
        const auto extra = exchange::parse_extra(said.text);
        ASSERT_TRUE(extra) << said.text << ": " << extra.problem().what;
        EXPECT_EQ(extra->name, said.name) << said.text;
        EXPECT_EQ(extra->yarn, said.yarn) << said.text;
        EXPECT_EQ(extra->of, said.of) << said.text;
        EXPECT_EQ(extra->things, said.things) << said.text;
    }
    for (const char* const text : {"2 pompoms 10 m", "strap 80 cm", "strap 1 m", "embroidery 5 cm",
                                   "2 borders of 2 rounds of 60 sts"})
        EXPECT_FALSE(exchange::parse_extra(text)) << text;
}

// What is told by its way round is no flat piece so wide.
TEST(MakeWords, AroundIsWorkedInRounds) {
    EXPECT_TRUE(exchange::parse_piece("beanie: 54 cm around x 21 cm")->round);
    EXPECT_FALSE(exchange::parse_piece("beanie, worked flat: 54 cm around x 21 cm")->round);
    EXPECT_FALSE(exchange::parse_piece("beanie: 54 cm around x 30 rows")->round);
    EXPECT_FALSE(exchange::parse_piece("wrap: 54 cm wide x 180 cm")->round);
}

// "each" without a number is never one: it is asked for, or the name counts.
TEST(MakeWords, ExtrasSayHowManyByTheirPlaces) {
    for (const auto& [text, things] : std::vector<std::pair<std::string, std::int64_t>>{
             {"tassels at both ends, 8 m each", 2},
             {"ruffle at either end, 8 m each", 2},
             {"trim on front and back, 8 m each", 2},
             {"bottom and top trim 8 m each", 2},
             {"trim along all four edges, 8 m each", 4},
             {"trim on three sides, 8 m each", 3}}) {
        const auto extra = exchange::parse_extra(text);
        ASSERT_TRUE(extra) << text << ": " << extra.problem().what;
        EXPECT_EQ(extra->things, things) << text;
        EXPECT_EQ(extra->of, exchange::ExtraOf::each) << text;
    }
    for (const char* const text :
         {"trim for each edge 8 m", "trim along every side 8 m", "ruffle at both ends 8 m",
          "trim on front and back 8 m", "2 tassels on both ends, 8 m each",
          "trim on both sides of 2 rounds of 60 sts", "fringe on both ends: 40 strands of 30 cm"})
        EXPECT_FALSE(exchange::parse_extra(text)) << text;
}

/// Its yarn as the finish of the project takes it.
std::string extra_in(const std::vector<std::pair<std::string, std::string>>& given) {
    std::vector<std::pair<std::string, std::string>> all = given;
    all.emplace_back("gauge", "18 sts and 24 rows per 10 cm");
    all.emplace_back("class", "4");
    all.emplace_back("stitch", "stockinette");
    try {
        return exchange::project_of_answers(exchange::answers(all), {}).toml;
    } catch (const base::InputError& error) {
        return "refused: " + to_text(error.problems().front());
    }
}

// The yarn of one border beside four placemats is a quarter of what they take.
TEST(MakeAnswers, ExtrasOfSeveralCopiesAreAskedAbout) {
    const std::string mats = "4 placemats: 45 sts x 60 rows";
    for (const char* const text : {"border of 3 rounds of 210 sts", "border 20 m"})
        EXPECT_THAT(extra_in({{"make", mats}, {"plus", text}}), HasSubstr("of one or of all"))
            << text;
    EXPECT_THAT(extra_in({{"make", "2 hats with pompoms: 60 sts x 40 rounds"},
                          {"plus", "2 pompoms 10 m each"}}),
                HasSubstr("in all"));
    EXPECT_THAT(
        extra_in({{"make", "2 hats with pompoms: 60 sts x 40 rounds"}, {"plus", "pompom 15 m"}}),
        HasSubstr("refused"));
    EXPECT_THAT(extra_in({{"make", "socks: 60 sts x 40 rounds"}, {"plus", "cuff 15 m"}}),
                HasSubstr("refused"));
    EXPECT_THAT(extra_in({{"make", mats}, {"plus", "border of 3 rounds of 210 sts each"}}),
                HasSubstr("count = 4\nkind = \"border\"\nrounds = 3\n"));
    EXPECT_THAT(extra_in({{"make", mats}, {"plus", "border 20 m each"}}),
                HasSubstr("count = 4\nkind = \"other\"\ntakes = \"20 m\""));
    EXPECT_THAT(extra_in({{"make", mats}, {"plus", "20 yd per placemat"}}),
                HasSubstr("count = 4\nkind = \"other\"\ntakes = \"20 yd\""));
    EXPECT_THAT(extra_in({{"make", mats}, {"plus", "border 60 yd in all"}}),
                HasSubstr("takes = \"60 yd\""));
    EXPECT_THAT(extra_in({{"make", "toy: 36 sts x 40 rounds"}, {"plus", "2 eyes 2 m each"}}),
                HasSubstr("count = 2\nkind = \"other\"\ntakes = \"2 m\""));
    EXPECT_THAT(extra_in({{"make", "hat: 60 sts x 40 rounds"}, {"plus", "pompom 15 m"}}),
                HasSubstr("takes = \"15 m\""));
}

TEST(MakeAnswers, WhatANameOrARangeLeavesOpenIsTold) {
    const auto told = [](const std::string& make, const std::string& stitch) {
        std::string out;
        for (const auto& one : exchange::project_of_answers(
                                   exchange::answers({{"make", make},
                                                      {"stitch", stitch},
                                                      {"gauge", "18 sts and 12 rows per 10 cm"},
                                                      {"class", "4"}}),
                                   {})
                                   .assumed)
            out += one.what + "\n";
        return out;
    };
    EXPECT_THAT(told("wrap: 22 to 28 cm x 1.6 m", "sc"), HasSubstr("from 22 cm to 28 cm"));
    EXPECT_THAT(told("wrap: 32 to 42 sts x 90 rows", "sc"), HasSubstr("from 32 stitches to 42"));
    EXPECT_THAT(told("treble wrap: 32 sts x 90 rows", "sc"), HasSubstr("counted in sc"));
    EXPECT_THAT(told("single crochet wrap: 32 sts x 90 rows", "sc"),
                testing::Not(HasSubstr("counted in")));
    EXPECT_THAT(told("wrap: 32 sts x 90 rows", "treble"), HasSubstr("read as US"));
    EXPECT_THAT(told("wrap: 32 sts x 90 rows", "double crochet"), HasSubstr("read as US"));
    EXPECT_THAT(exchange::parse_extra("trim about 24 m").problem().expected,
                HasSubstr("\"trim 24 m\""));
    EXPECT_THAT(extra_in({{"make", "wrap using both yarns together: 32 sts x 90 rows"}}),
                HasSubstr("strands"));
}

TEST(MakeAnswers, ExtrasOfEachAreCountedOrAskedAbout) {
    const std::string sack = "sack: 90 sts x 50 rounds";
    for (const char* const text :
         {"straps, 40 m each", "flaps 9 m each", "trim each 9 m", "pompom 9 m each",
          "trim, 9 m for each side", "loops 3 rounds of 20 sts each", "tassel 5 m apiece"})
        EXPECT_THAT(extra_in({{"make", sack}, {"plus", text}}), HasSubstr("refused")) << text;
    EXPECT_THAT(extra_in({{"make", sack}, {"plus", "straps, 40 m each"}}),
                HasSubstr("\"4 straps 40 m each\""));
    EXPECT_THAT(extra_in({{"make", "40 sts x 50 rows"}, {"plus", "trim 9 m for each side"}}),
                HasSubstr("refused"));
    EXPECT_THAT(extra_in({{"make", "4 hats: 60 sts x 40 rounds"}, {"plus", "tassels 5 m each"}}),
                HasSubstr("refused"));
    EXPECT_THAT(extra_in({{"make", "2 sweaters: 60 sts x 40 rounds"}, {"plus", "cuffs 5 m each"}}),
                HasSubstr("refused"));
    for (const char* const text : {"sleeves, 90 m each", "cuffs 9 m each", "both straps 9 m each",
                                   "trim on front and back, 9 m each"})
        EXPECT_THAT(extra_in({{"make", sack}, {"plus", text}}), HasSubstr("count = 2")) << text;
    EXPECT_THAT(extra_in({{"make", sack}, {"plus", "trim on all four sides, 9 m each"}}),
                HasSubstr("count = 4"));
    EXPECT_THAT(extra_in({{"make", "mitts: 40 sts x 60 rounds"}, {"plus", "cuffs 9 m each"}}),
                HasSubstr("count = 2"));
    // Each round of it, and each strand.
    EXPECT_THAT(extra_in({{"make", sack}, {"plus", "border of 3 rounds of 90 sts each"}}),
                HasSubstr("rounds = 3"));
}

// Its yarn counted for another colour would leave that one short.
TEST(MakeAnswers, ExtrasKeepTheirColour) {
    const auto of = [](const std::string& plus) {
        return extra_in({{"make", "scarf: 40 sts x 120 rows"},
                         {"stripes", "rust 4, sand 4, moss 4"},
                         {"plus", plus}});
    };
    for (const char* const text :
         {"moss: border 80 m", "moss border 80 m", "border in moss 80 m", "border 80 m in moss",
          "border (moss) 80 m", "Moss border 80 m", "CC2: border 80 m"})
        EXPECT_THAT(of(text), HasSubstr("[[finish]]\nyarn = \"CC2\"\nname = \"border\"")) << text;
    EXPECT_THAT(of("border 80 m"), HasSubstr("yarn = \"MC\"\nname = \"border\""));
    for (const char* const text : {"teal border 30 m", "teal: border 30 m", "border 30 m in teal"})
        EXPECT_THAT(of(text), HasSubstr("one of rust, sand, moss")) << text;
    EXPECT_THAT(extra_in({{"make", "scarf: 40 sts x 120 rows"}, {"plus", "teal border 30 m"}}),
                HasSubstr("no yarn of the make"));
    EXPECT_THAT(extra_in({{"make", "scarf: 40 sts x 120 rows"},
                          {"colour", "moss"},
                          {"plus", "moss border 30 m"}}),
                HasSubstr("name = \"border\""));
}

// One strand's yarn for two would be half of it.
TEST(MakeAnswers, StrandsHeldTogetherAreAskedAboutEverywhere) {
    const std::pair<std::string, std::string> hat{"make", "hat: 60 sts x 40 rounds"};
    const std::pair<std::string, std::string> doubled{"make",
                                                      "hat held double: 60 sts x 40 rounds"};
    EXPECT_THAT(extra_in({hat, {"yarn", "Fennel DK held double"}}), HasSubstr("strands"));
    EXPECT_THAT(extra_in({hat, {"yarn", "Fennel DK x 2 strands"}}), HasSubstr("strands"));
    EXPECT_THAT(extra_in({hat, {"title", "Hat held double"}}), HasSubstr("strands"));
    EXPECT_THAT(extra_in({hat, {"plus", "edging held double 30 yd"}}), HasSubstr("strand"));
    EXPECT_THAT(extra_in({doubled}), HasSubstr("strands"));
    EXPECT_THAT(extra_in({hat, {"title", "Hat held double"}, {"total", "100 m"}}),
                HasSubstr("100 m of each strand"));
    EXPECT_THAT(extra_in({doubled, {"total", "100 m"}}), HasSubstr("of one strand or of all"));
    EXPECT_THAT(extra_in({doubled, {"total", "100 m of each strand"}}),
                HasSubstr("total = \"200.0000 m\""));
    EXPECT_THAT(extra_in({doubled, {"total", "200 m in all"}}), HasSubstr("total = \"200 m\""));
    EXPECT_THAT(extra_in({doubled, {"total", "200 m of both strands"}}),
                HasSubstr("total = \"200 m\""));
    EXPECT_THAT(extra_in({doubled, {"swatch", "15 x 15 cm, 14 g"}, {"label", "200 m / 100 g"}}),
                HasSubstr("mass = \"14 g\""));
    EXPECT_THAT(answer_problems(exchange::answers({hat, {"stitch", "stockinette held double"}}))
                    .front()
                    .place.file,
                "stitch");
}

// Cautions hang on whom a make is for; a name that says so is enough.
TEST(MakeAnswers, NamesTellForWhomAMakeIs) {
    const auto of = [](const std::string& make, const std::string& whom) {
        std::vector<std::pair<std::string, std::string>> given{{"make", make}};
        if (!whom.empty()) given.emplace_back("for", whom);
        return extra_in(given);
    };
    for (const char* const name :
         {"2 pot holders", "oven mitts", "hot pad", "potholder", "1 oven-mitt", "trivet"})
        EXPECT_THAT(of(std::string(name) + ": 30 sts x 40 rows", ""),
                    HasSubstr("made_for = \"kitchen heat\""))
            << name;
    EXPECT_THAT(of("baby blanket: 90 sts x 120 rows", ""), HasSubstr("made_for = \"infant\""));
    EXPECT_THAT(of("2 pot holders: 30 sts x 40 rows", "adult"), HasSubstr("made_for = \"adult\""));
    EXPECT_THAT(of("hat: 60 sts x 40 rounds", ""), testing::Not(HasSubstr("made_for")));
    for (const auto& [said, meant] :
         std::vector<std::pair<std::string, std::string>>{{"baby", "infant"},
                                                          {"toddler", "child"},
                                                          {"age 3", "child"},
                                                          {"6 months", "infant"},
                                                          {"a woman", "adult"},
                                                          {"kitchen", "refused"},
                                                          {"kitchen heat", "kitchen heat"}})
        EXPECT_THAT(of("hat: 60 sts x 40 rounds", said),
                    HasSubstr(meant == "refused" ? meant : "made_for = \"" + meant + "\""))
            << said;
}

/// The text can be kept: it reads as the same project again.
TEST(MakeAnswers, AreTheSameAsAFile) {
    const auto asked =
        exchange::project_of_answers(exchange::answers({{"make", "Scarf \"one\": 33 hdc x 96 rows"},
                                                        {"gauge", "14 sts and 10 rows per 10 cm"},
                                                        {"swatch", "15 x 15 cm, 14 g"},
                                                        {"label", "170 yd / 3.5 oz"},
                                                        {"plus", "edging 30 yd"}}),
                                     {});
    const auto read = exchange::parse_project(asked.toml, "kept.toml");
    EXPECT_EQ(read.title, "Scarf \"one\"");
    const auto one = need::need_of(asked.project, 0);
    const auto two = need::need_of(read, 0);
    EXPECT_EQ(one.roles.front().length.centre.value(), two.roles.front().length.centre.value());
    EXPECT_THAT(asked.toml, HasSubstr("\n[[piece]]\n"));
    EXPECT_TRUE(asked.assumed.empty());
}

/// Yarn by area from a swatch by area: whatever gauge is given, the amount is the same but for the
/// foundation. Arithmetic ours: 60 x 60 in over 6 x 6 in is a hundred swatches of 4 g.
TEST(MakeAnswers, GaugeCancelsBetweenTwoAreas) {
    const MakeAnswers given = exchange::answers(
        {{"make", "60 x 60 in"}, {"swatch", "6 x 6 in, 4 g"}, {"label", "87 yd / 50 g"}});
    const auto asked = exchange::project_of_answers(given, {});
    const double need = need::need_of(asked.project, 0).roles.front().length.centre.value();
    EXPECT_NEAR(need, 696.0 * 0.9144, 8.0 * 0.9144);
    ASSERT_EQ(asked.assumed.size(), 1U);
    EXPECT_EQ(asked.assumed.front().question, "gauge");
    MakeAnswers other = given;
    other.add("gauge", "18 sts and 14 rows per 10 cm");
    const double same = need::need_of(exchange::project_of_answers(other, {}).project, 0)
                            .roles.front()
                            .length.centre.value();
    EXPECT_NEAR(same, need, 0.01 * need);
}

TEST(MakeAnswers, LabelComesFromTheStash) {
    const std::vector<stash::Skein> stash{skein("a-1", "Brook Aran", "200 yd", "100 g"),
                                          skein("a-2", "Brook Aran", "200 yd", "100 g"),
                                          skein("b-1", "Fen Sock", "400 m", "100 g")};
    const auto asked = exchange::project_of_answers(
        exchange::answers({{"total", "180 g"}, {"yarn", "brook"}}), stash);
    EXPECT_EQ(asked.project.roles.front().name, "Brook Aran");
    EXPECT_NEAR(need::need_of(asked.project, 0).roles.front().length.centre.value(), 360 * 0.9144,
                1e-6);
    ASSERT_EQ(asked.assumed.size(), 1U);
    const auto two = answer_problems(exchange::answers({{"total", "180 g"}, {"yarn", "o"}}), stash);
    ASSERT_EQ(two.size(), 1U);
    EXPECT_EQ(two.front().place.file, "yarn");
    EXPECT_THAT(two.front().expected, HasSubstr("Brook Aran, Fen Sock"));
}

// As the program prints it: the yarn and its colour.
TEST(MakeAnswers, AYarnMayBeNamedWithItsColour) {
    auto reed = skein("a-1", "Marsh", "200 yd", "100 g");
    reed.colourway = "reed";
    auto fog = reed;
    fog.id = "a-2";
    fog.colourway = "fog";
    const auto asked = exchange::project_of_answers(
        exchange::answers({{"total", "180 g"}, {"yarn", "Marsh fog"}}), {reed, fog});
    EXPECT_EQ(asked.project.roles.front().name, "Marsh");
    EXPECT_EQ(asked.project.roles.front().colour, "fog");
}

/// A range is never a middle: what 95 % needs is what its upper end alone would.
TEST(MakeAnswers, RangesAskForTheirUpperEnd) {
    const auto at_95 = [](const std::string& total) {
        const auto asked = exchange::project_of_answers(exchange::answers({{"total", total}}), {});
        const auto need = need::need_of(asked.project, 0).roles.front();
        return need.length.centre.value() + 1.6449 * need.length.spread.value();
    };
    EXPECT_NEAR(at_95("728 to 1116 yd"), at_95("1116 yd"), 0.1);
    EXPECT_NEAR(at_95("6 balls of 110 yd"), at_95("660 yd"), 0.1);
    const auto asked =
        exchange::project_of_answers(exchange::answers({{"total", "14 oz"}, {"class", "4"}}), {});
    const auto need = need::need_of(asked.project, 0).roles.front();
    ASSERT_TRUE(need.stated_between);
    // lib/data/length_per_mass_by_class.csv: class 4 has 120 to 242 m per 100 g over all charts.
    EXPECT_NEAR(need.stated_between->least.value(), 3.968933 * 120, 0.5);
    EXPECT_NEAR(need.stated_between->most.value(), 3.968933 * 242, 0.5);
    EXPECT_THAT(need.how, HasSubstr("and the weight class alone"));
}

TEST(MakeAnswers, MistakesNameTheQuestion) {
    const auto one = [](const MakeAnswers& given) {
        const auto all = answer_problems(given);
        return all.size() == 1 ? all.front().place.file : std::to_string(all.size()) + " problems";
    };
    EXPECT_EQ(one({}), "make");
    EXPECT_EQ(one(exchange::answers({{"total", "14 oz"}})), "label");
    EXPECT_EQ(one(exchange::answers({{"total", "lots"}})), "total");
    EXPECT_EQ(one(exchange::answers({{"make", "33 hdc x 96 rows"}})), "gauge");
    EXPECT_EQ(one(exchange::answers({{"make", "33 sts x 96 rows"}})), "stitch");
    EXPECT_EQ(one(exchange::answers({{"make", "33 hdc x 96 rows"},
                                     {"swatch", "15 x 15 cm, 14 g"},
                                     {"gauge", "14 sts and 10 rows per 10 cm"}})),
              "label");
    EXPECT_EQ(one(exchange::answers({{"total", "380 yd"}, {"fibre", "70% wool"}})), "fibre");
    EXPECT_EQ(one(exchange::answers({{"total", "380 yd"}, {"for", "cat"}})), "for");
    EXPECT_EQ(one(exchange::answers({{"total", "380 yd"}, {"class", "9"}})), "class");
    EXPECT_EQ(one(exchange::answers({{"total", "380 yd"}, {"plus", "edging 2 oz"}})), "plus");
}

TEST(MakeAnswers, AGaugeOfAnotherStitchIsAskedAbout) {
    const auto told = answer_problems(exchange::answers({{"make", "scarf 20 cm x 150 cm"},
                                                         {"stitch", "hdc"},
                                                         {"gauge", "14 dc x 8 rows per 4 in"},
                                                         {"class", "4"}}));
    ASSERT_EQ(told.size(), 1U);
    EXPECT_EQ(told[0].what, "it is of \"dc\", and the piece is of \"hdc\"");
    EXPECT_EQ(told[0].place.file, "gauge");
}

// One swatch cannot be in two yarns that are not alike.
TEST(MakeAnswers, ASwatchSaysOfWhichYarnItIs) {
    const auto of = [](const std::string& swatch, const std::string& sand) {
        return exchange::answers({{"make", "40 hdc x 120 rows"},
                                  {"gauge", "14 sts and 10 rows per 10 cm"},
                                  {"stripes", "rust 6, sand 4"},
                                  {"swatch", swatch},
                                  {"label", "rust: 170 yd / 100 g"},
                                  {"label", "sand: " + sand}});
    };
    const auto read = [](const MakeAnswers& given) {
        return exchange::project_of_answers(given, {}).project.swatches;
    };
    EXPECT_EQ(read(of("15 x 15 cm, 14 g", "170 yd / 100 g")).size(), 2U);
    EXPECT_THAT(answer_problems(of("15 x 15 cm, 14 g", "120 yd / 100 g")).at(0).what,
                HasSubstr("of which yarn"));
    EXPECT_THAT(answer_problems(of("moss: 15 x 15 cm, 14 g", "170 yd / 100 g")).at(0).what,
                HasSubstr("moss"));
    const auto named = read(of("rust: 15 x 15 cm, 14 g", "120 yd / 100 g"));
    ASSERT_EQ(named.size(), 1U);
    EXPECT_EQ(named[0].role, "MC");
}

TEST(MakeAnswers, NamesOfTheTradeAreClassesWhereChartsAgree) {
    EXPECT_EQ(exchange::parse_class("worsted").value().number, 4);
    EXPECT_EQ(exchange::parse_class("DK").value().number, 3);
    EXPECT_EQ(exchange::parse_class("4").value().number, 4);
    EXPECT_FALSE(exchange::parse_class("cuddly").ok());
}

TEST(Having, Skeins) {
    yarn::Yarn like;
    like.name = "Brook";
    const auto two = exchange::parse_having("2 skeins of 170 yd / 100 g", like, "", 1).value();
    ASSERT_EQ(two.size(), 2U);
    EXPECT_EQ(two[1].id, "yours-2");
    EXPECT_NEAR(stash::supply_of(two[0])->length.value(), 170 * 0.9144, 1e-9);
    EXPECT_EQ(stash::lot_key(two[0]), stash::lot_key(two[1]));
    EXPECT_EQ(exchange::parse_having("340 yd", like, "", 1).value().size(), 1U);
    EXPECT_FALSE(exchange::parse_having("48 g", like, "", 1).ok());
    like.label = skein("x", "Brook", "170 yd", "100 g").yarn.label;
    const auto part = exchange::parse_having("48 g", like, "", 1).value();
    EXPECT_NEAR(stash::supply_of(part[0])->length.value(), 0.48 * 170 * 0.9144, 1e-6);
    EXPECT_EQ(exchange::parse_having("3 balls", like, "", 1).value().size(), 3U);
    // The label's own mass is no reading of a scale.
    const auto whole = exchange::parse_having("4 balls of 100 g", like, "", 1).value();
    EXPECT_FALSE(whole[0].part || whole[0].weighing);
    EXPECT_TRUE(exchange::parse_having("4 balls of 97 g", like, "", 1).value()[3].weighing);
    for (const std::string text : {"half a ball", "3 part balls of 100 g / 170 yd", "about 210 g",
                                   "~340 yd", "1 skein and a half"})
        EXPECT_NE(exchange::parse_having(text, like, "", 1).problem().what.find("does not say how"),
                  std::string::npos)
            << text;
    for (const std::string text : {"10 x 50 g, 1200 m", "6 balls, 300 g, 720 m"})
        EXPECT_NE(
            exchange::parse_having(text, like, "", 1).problem().what.find("of each or of all"),
            std::string::npos)
            << text;
    EXPECT_EQ(exchange::parse_having("10 x 50 g / 120 m", like, "", 1).value().size(), 10U);
    for (const std::string text : {"", "some", "0 skeins", "2 skeins of hope"})
        EXPECT_FALSE(exchange::parse_having(text, like, "", 1).ok()) << text;
}

}  // namespace
