// How many pieces a make's words say. A count that is taken as one is so much yarn too little.

#include "skeinfall/exchange/count_words.hpp"

#include <cstdint>
#include <regex>
#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/make_answers.hpp"
#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/name_words.hpp"

#include "given_answers.hpp"

namespace {

using namespace skeinfall;

TEST(CountWords, AreReadBeforeTheName) {
    const std::vector<std::pair<std::string, std::int64_t>> known{
        {"a dozen scarves: 33 hdc x 96 rows", 12},
        {"two dozen squares: 6 x 6 in", 24},
        {"half a dozen coasters: 10 x 10 cm", 6},
        {"granny squares x 30: 6 x 6 in", 30},
        {"granny squares \xc3\x97 30: 6 x 6 in", 30},
        {"30 x granny square: 6 x 6 in", 30},
        {"squares (30): 6 x 6 in", 30},
        {"squares (make 30): 6 x 6 in", 30},
        {"set of six coasters: 10 x 10 cm", 6},
        {"coasters, set of 6: 10 x 10 cm", 6},
        {"2 sets of 4 coasters: 10 x 10 cm", 8},
        {"both fronts: 40 hdc x 60 rows", 2},
        {"fronts, both: 40 hdc x 60 rows", 2},
        {"both: 40 hdc x 60 rows", 2},
        {"pair of mitts: 40 sts x 60 rounds", 2},
        {"a pair of bookends: 40 sts x 60 rounds", 2},
        {"pair: 40 sts x 60 rounds", 2},
        {"three pairs of socks: 60 sts x 120 rounds", 6},
        {"a couple of towels: 40 hdc x 60 rows", 2},
        {"thirty squares: 6 x 6 in", 30},
        {"one hundred squares: 6 x 6 in", 100},
        {"a dozen scarves 33 hdc x 96 rows", 12},
        {"2x scarf 10 x 10 cm", 2},
        {"scarf 2x: 10 x 10 cm", 2},
        {"scarf \xc3\x97"
         "3 10 x 10 cm",
         3},
        {"quartet of placemats 30 x 40 cm", 4},
        {"trio of placemats: 30 x 40 cm", 3},
        {"placemats four: 30 x 40 cm", 4},
        {"coaster, qty 6: 10 x 10 cm", 6},
        {"6-pack coaster: 10 x 10 cm", 6},
        {"coaster, six of them: 10 x 10 cm", 6},
        {"coasters, 4: 10 x 10 cm", 4},
        {"33 hdc x 96 rows x 2", 2},
        {"33 hdc x 96 rows twice", 2},
        {"a gross of squares: 10 x 10 cm", 144},
        {"half a gross of squares: 10 x 10 cm", 72},
        {"a score of squares: 10 x 10 cm", 20},
        {"bakers dozen of squares: 10 x 10 cm", 13},
        {"baker's dozen dishcloths: 10 x 10 cm", 13},
        {"half-dozen coasters: 10 x 10 cm", 6},
        {"box of 6 coasters: 10 x 10 cm", 6},
        {"2 boxes of 6 coasters: 10 x 10 cm", 12},
        {"10-flag bunting: 10 x 10 cm", 10},
        {"bunting, 10 flags: 10 x 10 cm", 10},
        {"make 2 legs: 20 sc x 20 rows", 2},
        {"mittens: 48 sts x 70 rounds, pair", 2},
        {"mitten: 48 sts x 70 rounds x 2", 2},
        {"leg: 20 sc x 20 rows, make 2", 2},
        {"leg: 20 sc x 20 rows (make 2)", 2},
        {"dishcloths: a dozen of 20 x 20 cm", 12},
        {"7 face cloths, 20 x 20 cm each", 7},
        {"5 strips 10 x 100 cm each", 5},
        {"bonnet 3-6 months: 36 sc x 14 rows", 1},
        {"bonnet, 3 to 6 months: 36 sc x 14 rows", 1},
        {"hat 0-3 mo: 60 sc x 20 rounds", 1},
        {"jumper age 7-8 years: 60 sc x 20 rows", 1},
        {"2 hats 3-6 months: 60 sc x 20 rounds", 2},
        {"score board cover: 40 sc x 20 rows", 1},
        {"coasters (4) 10 x 10 cm", 4},
        {"coaster (6 needed): 10 x 10 cm", 6},
        {"30 granny squares of 4 in", 30},
        {"size 6 hat: 60 sc x 20 rounds", 1},
        {"two-tone scarf: 20 x 150 cm", 1},
        {"8 ply scarf 20 x 150 cm", 1},
        {"scarf in 2 strands: 20 x 150 cm", 1},
        {"1 mittens: 40 sts x 60 rounds", 1},
        {"1 scarves: 33 hdc x 96 rows", 1},
        {"the scarf: 33 hdc x 96 rows", 1},
        {"a scarf: 33 hdc x 96 rows", 1},
        {"6 month hat: 60 hdc x 30 rows", 1},
        {"black and white scarf: 33 hdc x 96 rows", 1},
        {"dress: 60 hdc x 96 rows", 1},
        {"trousers: 60 hdc x 96 rows", 1},
        {"scarf for kids: 33 hdc x 96 rows", 1},
        {"33 hdc x 96 rows", 1}};
    for (const auto& [text, count] : known) {
        const auto piece = exchange::parse_piece(text);
        ASSERT_TRUE(piece) << text;
        EXPECT_EQ(piece->count, count) << text;
    }
}

// A number of two words is not its first one, nor is a dozen and a half one thing.
TEST(CountWords, OfTwoWordsAndOfDozensInParts) {
    for (const auto& [text, count] : std::vector<std::pair<std::string, std::int64_t>>{
             {"3 1/2 dozen tiles: 8 x 8 cm", 42},
             {"1\xc2\xbd dozen tiles 8 x 8 cm", 18},
             {"1,5 dozen tiles: 8 x 8 cm", 18},
             {"2.25 dozen tiles: 8 x 8 cm", 27},
             {"one and a half dozen tiles: 8 x 8 cm", 18},
             {"a dozen and a half tiles: 8 x 8 cm", 18},
             {"2 1/2 score tiles: 8 x 8 cm", 50},
             {"35 * tile: 8 x 8 cm", 35},
             {"forty two tiles: 8 x 8 cm", 42},
             {"forty-two tiles: 8 x 8 cm", 42},
             {"one hundred thirty tiles: 8 x 8 cm", 130},
             {"two hundred and six tiles: 8 x 8 cm", 206},
             {"a hundred tiles: 8 x 8 cm", 100},
             {"one thousand tiles: 8 x 8 cm", 1000},
             {"two score tiles: 8 x 8 cm", 40},
             {"twenty-one dozen tiles: 8 x 8 cm", 252},
             {"forty two tiles 8 x 8 cm", 42}}) {
        const auto piece = exchange::parse_piece(text);
        ASSERT_TRUE(piece) << text << ": " << piece.problem().what;
        EXPECT_EQ(piece->count, count) << text;
    }
    for (const char* const text :
         {"quilt of 3 x 7: 8 x 8 cm", "quilt, 3 by 7: 8 x 8 cm", "doubled trivet: 30 x 30 rows",
          "doubled trivet 30 sts x 30 rows", "double potholder: 20 x 20 cm", "every tile: 8 x 8 cm",
          "1 1/7 dozen tiles: 8 x 8 cm", "forty seven six tiles: 8 x 8 cm",
          "dozens of tiles: 8 x 8 cm", "forty two inch tiles: 8 x 8 cm"})
        EXPECT_FALSE(exchange::parse_piece(text)) << text;
    for (const char* const text :
         {"double bed blanket: 33 hdc x 96 rows", "score board cover: 40 sc x 20 rows",
          "the one scarf: 33 hdc x 96 rows"})
        EXPECT_TRUE(exchange::parse_piece(text)) << text;
}

TEST(CountWords, AreAskedForWhereTheNameIsOfSeveral) {
    for (const std::string text :
         {"scarves: 33 hdc x 96 rows", "squares 6 x 6 in", "some squares: 6 x 6 in",
          "several hats: 60 hdc x 30 rows", "a few coasters: 10 x 10 cm",
          "squares in rust: 6 x 6 in", "back and front: 50 x 60 cm", "scarf + hat: 22 x 150 cm",
          "scarf, 2 layers: 22 x 150 cm", "left mitts, 2 right: 20 x 20 cm",
          "double-sided scarf: 22 x 150 cm", "scarf for each of 3 kids: 22 x 150 cm",
          "coaster set: 10 x 10 cm", "lots of squares: 6 x 6 in",
          "2 scarves: 3 scarves of 33 hdc x 96 rows", "33 hdc x 96 rows each",
          "2 scarves: 33 hdc x 96 rows x 3"})
        EXPECT_FALSE(exchange::parse_piece(text)) << text;
    EXPECT_THAT(exchange::parse_piece("scarves: 33 hdc x 96 rows").problem().remedy,
                testing::HasSubstr("1 scarves"));
}

// Yarn that only a name speaks of would be missing from the need.
TEST(NameWords, TellWhatIsThereBesides) {
    using testing::ElementsAre;
    using testing::IsEmpty;
    EXPECT_THAT(exchange::named_besides("scarf with fringe"), ElementsAre("fringe"));
    EXPECT_THAT(exchange::named_besides("Scarf with a long fringe in rust"), ElementsAre("fringe"));
    EXPECT_THAT(exchange::named_besides("hat and matching mitts"), ElementsAre("mitts"));
    EXPECT_THAT(exchange::named_besides("hat + cowl & mitts"), ElementsAre("cowl", "mitts"));
    EXPECT_THAT(exchange::named_besides("lined, hooded wrap"), ElementsAre("lining", "hood"));
    EXPECT_THAT(exchange::named_besides("pom-pom hat"), ElementsAre("pompom"));
    EXPECT_THAT(exchange::named_besides("fringed scarf with tassels"),
                ElementsAre("tassels", "fringe"));
    for (const std::string plain :
         {"scarf", "scarf with stripes", "cowl with a twist", "hat without pompom", "Sandy's shawl",
          "unlined bag", "no fringe scarf", "scarf, blue", "island blanket"})
        EXPECT_THAT(exchange::named_besides(plain), IsEmpty()) << plain;
}

TEST(NameWords, AreToldByAnExtraOrAnotherPiece) {
    const auto piece = [](const std::string& text) { return exchange::parse_piece(text).value(); };
    const auto extra = [](const std::string& text) { return exchange::parse_extra(text).value(); };
    const auto fringed = piece("fringed scarf: 33 hdc x 96 rows");
    const auto both = piece("hat and cowl: 60 sts x 40 rounds");
    EXPECT_EQ(exchange::yarn_not_told({fringed}, {})->place.file, "plus");
    EXPECT_TRUE(exchange::yarn_not_told({fringed}, {extra("edging 30 yd")}));
    EXPECT_FALSE(exchange::yarn_not_told({fringed}, {extra("fringe 30 yd")}));
    EXPECT_TRUE(exchange::yarn_not_told({both}, {}));
    EXPECT_FALSE(exchange::yarn_not_told({both, piece("cowl: 90 sts x 40 rounds")}, {}));
}

// One thing worked twice over takes twice the yarn, though it is counted as one.
TEST(CountWords, AskWhereOneThingIsTwo) {
    for (const char* const text :
         {"1 double-sided potholder: 20 x 20 cm", "two-layer potholder 20 x 20 cm",
          "potholder, double thickness: 20 x 20 cm", "cushion front and back: 40 x 40 cm"}) {
        const auto piece = exchange::parse_piece(text);
        ASSERT_FALSE(piece) << text;
        EXPECT_THAT(piece.problem().what, testing::HasSubstr("twice over")) << text;
    }
    for (const char* const text : {"potholders, one each for six friends 20 x 20 cm",
                                   "triple scarf: 20 x 150 cm", "coaster pieces: 10 x 10 cm"})
        EXPECT_FALSE(exchange::parse_piece(text)) << text;
}

// A unit that one side lacks, and thousands that may be parts, are asked about where it matters.
TEST(Sides, OfDoubtfulFiguresAreAskedAbout) {
    for (const char* const text :
         {"wrap 25 x 1.8 m", "wrap: 25 x 1.8 m", "belt 6 x 5 ft", "runner 14 x 2 yd",
          "throw 90 x 1.2 m", "wrap 1.8 x 25 cm", "wrap 25 cm x 1.800 m"})
        EXPECT_FALSE(exchange::parse_piece(text)) << text;
    EXPECT_THAT(exchange::parse_piece("wrap 25 x 1.8 m").problem().expected,
                testing::HasSubstr("\"25 cm x 1.8 m\""));
    for (const char* const text :
         {"rug 8 x 5 ft", "throw 1.2 x 1.5 m", "throw 5 x 6 ft", "wrap 25 x 180 cm",
          "belt 5 x 120 cm", "wrap 25 cm x 1.8 m", "throw 30.125 x 40.125 in"})
        EXPECT_TRUE(exchange::parse_piece(text)) << text;
}

TEST(Sides, AreReadInOtherOrdersAndFractions) {
    struct Said {
        const char* text;
        const char* name;
        const char* width;
        const char* length;
        std::int64_t count;
    };
    for (const Said& said : {Said{"7-7/8 in x 50 in", "", "7 7/8 in", "50 in", 1},
                             {"wrap: 8 in x 5'4\"", "wrap", "8 in", "64 in", 1},
                             {"wrap: 8 in x 5 ft 4 in", "wrap", "8 in", "64 in", 1},
                             {"80 x 95 cm pram blanket", "pram blanket", "80 cm", "95 cm", 1},
                             {"14 5-inch squares", "squares", "5 inch", "5 inch", 14},
                             {"14 5 in granny squares", "granny squares", "5 in", "5 in", 14}}) {
        const auto piece = exchange::parse_piece(said.text);
        ASSERT_TRUE(piece) << said.text << ": " << piece.problem().what;
        EXPECT_EQ(piece->name, said.name) << said.text;
        EXPECT_EQ(piece->width, said.width) << said.text;
        EXPECT_EQ(piece->length, said.length) << said.text;
        EXPECT_EQ(piece->count, said.count) << said.text;
    }
    EXPECT_FALSE(exchange::parse_piece("30 x 40 cm chair cover"));
}

// What is hollow lies in two layers where it is measured flat, and takes twice as much.
TEST(Layers, OfWhatIsHollowAreAskedAbout) {
    for (const char* const name :
         {"waistcoat",   "tank top", "cardi",       "poncho",          "leggings",
          "trouser leg", "snood",    "neck warmer", "golf club cover", "chair covers",
          "pouffe",      "bowl",     "pincushion",  "rag doll",        "lampshade",
          "sachet",      "cat bed",  "tube scarf",  "headband",        "can cooler"}) {
        const std::string count = std::string(name) == "chair covers" ? "2 " : "";
        const auto piece = exchange::parse_piece(count + name + " 31 x 47 cm");
        ASSERT_FALSE(piece) << name;
        EXPECT_THAT(piece.problem().what, testing::HasSubstr("two layers")) << name;
        EXPECT_THAT(piece.problem().expected,
                    testing::AllOf(testing::HasSubstr(": 31 cm around x 47 cm\""),
                                   testing::HasSubstr(": 62 cm around x 47 cm\" where 31 cm")))
            << name;
        EXPECT_TRUE(exchange::parse_piece(count + name + ", one layer: 31 x 47 cm")) << name;
        EXPECT_TRUE(exchange::parse_piece(count + name + ": 31 cm around x 47 cm")) << name;
        EXPECT_TRUE(exchange::parse_piece(count + name + ": 60 sts x 47 rounds")) << name;
    }
    EXPECT_TRUE(exchange::parse_piece("headband 9 x 48 cm"));
    EXPECT_FALSE(exchange::parse_piece("headband 24 x 9 cm"));
    for (const char* const name :
         {"scarf", "shawl", "blanket", "table runner", "pot holder", "doily mat"})
        EXPECT_TRUE(exchange::parse_piece(name + std::string(" 31 x 47 cm"))) << name;
}

// Which side is which is told by the words before it is told by the order.
TEST(Sides, AreSaidInManyWays) {
    struct Said {
        const char* text;
        const char* width;
        const char* length;
    };
    for (const Said& said : {Said{"70 in long x 9 in wide", "9 in", "70 in"},
                             {"9 in wide x 70 in long", "9 in", "70 in"},
                             {"cowl: 60 in around and 12 in tall", "60 in", "12 in"},
                             {"hat 52 cm around, 22 cm high", "52 cm", "22 cm"},
                             {"36 inch square", "36 inch", "36 inch"},
                             {"30 granny squares of 4 in", "4 in", "4 in"},
                             {"9\xc2\xbd x 70 in", "9 1/2 in", "70 in"},
                             {"9'' x 70''", "9\"", "70\""},
                             {"8 in by 6'", "8 in", "6 ft"},
                             {"scarf 60 in long 8 in wide", "8 in", "60 in"},
                             {"headband 4 inches wide, 18 inches around", "18 inches", "4 inches"},
                             {"infinity scarf 60 in around, 8 in wide", "60 in", "8 in"},
                             {"scarf seven inches by sixty inches", "7 inches", "60 inches"},
                             {"blanket one metre square", "1 metre", "1 metre"},
                             {"40\" square blanket", "40\"", "40\""}}) {
        const auto piece = exchange::parse_piece(said.text);
        ASSERT_TRUE(piece) << said.text << ": " << piece.problem().what;
        EXPECT_EQ(piece->width, said.width) << said.text;
        EXPECT_EQ(piece->length, said.length) << said.text;
    }
    const auto counted = exchange::parse_piece("33 hdc, 96 rows");
    ASSERT_TRUE(counted);
    EXPECT_EQ(counted->stitches, 33);
    EXPECT_EQ(counted->rows, 96);
    const auto uk = exchange::parse_piece("33 dc (UK) x 96 rows");
    ASSERT_TRUE(uk);
    EXPECT_EQ(uk->stitch, "UK dc");
    // Neither a shape nor two figures without a word makes two sides.
    for (const char* const text :
         {"triangle shawl 60 in x 30 in", "60 in and 12 in", "33 hdc and 40 dc"})
        EXPECT_FALSE(exchange::parse_piece(text)) << text;
}

// A wrong count is so much yarn too little: what stands behind a plural does not hide it.
TEST(CountWords, LookBehindMarksAndSizes) {
    for (const char* const text :
         {"socks, size 42: 64 sts x 150 rounds", "socks (adult M): 64 sts x 150 rounds",
          "socks (pr): 64 sts x 150 rounds", "mitts (adult): 40 sts x 60 rounds",
          "socks - adult: 64 sts x 150 rounds", "slippers size 8: 30 sts x 60 rows",
          "sleeves, both alike: 60 sts x 80 rows", "gloves (fingerless): 40 sts x 60 rounds",
          "socks adult M: 64 sts x 150 rounds", "socks blue: 64 sts x 150 rounds",
          "mitten twice: 40 sts x 60 rounds", "socks/adult: 64 sts x 150 rounds",
          "bed socks, grey: 64 sts x 150 rounds"}) {
        const auto piece = exchange::parse_piece(text);
        ASSERT_TRUE(piece) << text << ": " << piece.problem().what;
        EXPECT_EQ(piece->count, 2) << text;
    }
    for (const char* const text : {"hats, blue: 60 sts x 40 rounds",
                                   "placemats (oval): 45 sts x 60 rows",
                                   "granny squares (4 rounds): 10 x 10 cm",
                                   "feet: 20 sc x 10 rounds",
                                   "mice: 20 sc x 10 rounds",
                                   "geese: 20 sc x 10 rounds",
                                   "children: 20 sc x 10 rounds",
                                   "dice: 20 sc x 10 rounds",
                                   "teeth: 4 sc x 3 rounds",
                                   "front/back: 50 sts x 80 rows",
                                   "front, back: 50 sts x 80 rows",
                                   "mitt L/R: 40 sts x 60 rounds",
                                   "mitt (left/right): 40 sts x 60 rounds",
                                   "left/right mitt: 40 sts x 60 rounds",
                                   "sock (repeat for second): 64 sts x 150 rounds",
                                   "2 or 3 hats: 60 sts x 40 rounds",
                                   "2-3 hats: 60 sts x 40 rounds",
                                   "two or three hats 60 sts x 40 rounds",
                                   "2 baby hat: 60 sts x 40 rounds",
                                   "2 socks (pair): 64 sts x 150 rounds",
                                   "hats adult: 60 sts x 40 rounds",
                                   "sock, make another: 64 sts x 150 rounds",
                                   "hat, mittens: 60 sts x 40 rounds",
                                   "socks yarn bag: 60 sts x 40 rounds"})
        EXPECT_FALSE(exchange::parse_piece(text)) << text;
    for (const char* const text :
         {"2 hour hat: 60 sts x 40 rounds", "2 hour hat 60 sts x 40 rounds",
          "3 cornered shawl: 1 st x 139 rows, 1 more every row", "1 feet: 20 sc x 10 rounds",
          "sock, size 42: 64 sts x 150 rounds", "granny squares blanket: 60 x 60 in"}) {
        const auto piece = exchange::parse_piece(text);
        ASSERT_TRUE(piece) << text << ": " << piece.problem().what;
        EXPECT_EQ(piece->count, 1) << text;
    }
    EXPECT_EQ(exchange::parse_piece("2 hats blue: 60 sts x 40 rounds")->count, 2);
    EXPECT_EQ(exchange::parse_piece("6 dice: 20 sc x 10 rounds")->count, 6);
}

// Repeats are stitches of one piece.
TEST(CountWords, TakeRepeatsForStitches) {
    for (const char* const text : {"throw: 6 repeats of 12 sts x 180 rows",
                                   "throw 6 pattern repeats of 12 sts x 180 rows"}) {
        const auto piece = exchange::parse_piece(text);
        ASSERT_TRUE(piece) << text << ": " << piece.problem().what;
        EXPECT_EQ(piece->count, 1) << text;
        EXPECT_EQ(piece->stitches, 72) << text;
    }
    EXPECT_FALSE(exchange::parse_piece("throw: 6 repeats x 180 rows").ok() &&
                 exchange::parse_piece("throw: 6 repeats of 12 + 3 sts x 180 rows").ok());
}

// A growth before the rows is one, and its piece no number of pieces.
TEST(Growth, IsReadWhereverItStands) {
    struct Said {
        const char* text;
        std::int64_t stitches, rows, increase, every;
    };
    for (const Said& said :
         {Said{"shawl: 3 dc, 2 more every row, 60 rows", 3, 60, 2, 1},
          {"shawl: 3 dc x 60 rows, 2 more every row", 3, 60, 2, 1},
          {"ball: 6 sc, 6 more every round, 20 rounds", 6, 20, 6, 1},
          {"8 dc, 8 more every round, 12 rounds", 8, 12, 8, 1},
          {"8 dc, 8 more each round for 12 rounds", 8, 12, 8, 1},
          {"100 sc, 1 fewer every round, 20 rounds", 100, 20, -1, 1},
          {"shawl 3 dc, 2 more every other row, 60 rows", 3, 60, 2, 2},
          {"shawl: 3 dc x 60 rows, 2 dc more every 3rd row", 3, 60, 2, 3},
          {"shawl: 3 dc x 60 rows, increasing by 2 sts every 2 rows", 3, 60, 2, 2},
          {"shawl: 60 rows of 3 dc, two more every second row", 3, 60, 2, 2}}) {
        const auto piece = exchange::parse_piece(said.text);
        ASSERT_TRUE(piece) << said.text << ": " << piece.problem().what;
        EXPECT_EQ(piece->count, 1) << said.text;
        EXPECT_EQ(piece->stitches, said.stitches) << said.text;
        EXPECT_EQ(piece->rows, said.rows) << said.text;
        EXPECT_EQ(piece->increase, said.increase) << said.text;
        EXPECT_EQ(piece->every, said.every) << said.text;
    }
    for (const char* const text :
         {"shawl 3 dc, 2 more each right side row, 60 rows", "shawl: 3 dc x 60 rows, growing",
          "shawl: 3 dc x 60 rows, 2 more at the end", "3 dc, 2 hdc more every row, 60 rows",
          "3 dc, 2 more every row, 1 fewer every row, 60 rows",
          "3 dc x 60 rows, 2 more every row, 40 rows", "33 hdc, 40 sts x 20 rows"})
        EXPECT_FALSE(exchange::parse_piece(text)) << text;
    EXPECT_THAT(
        exchange::parse_piece("shawl: 3 dc x 60 rows, 2 more at the end").problem().expected,
        testing::HasSubstr("1 more every 2 rows"));
}

// What a refusal suggests is taken when it is typed: every form that it quotes goes back as the
// answer to the same question.
using Given = std::vector<std::pair<std::string, std::string>>;

struct Refused {
    Given given;
    std::string question;  ///< that is answered anew
};

base::Problems refusals_of(const Given& given) {
    Given all = given;
    const auto says = [&](const std::string& id) {
        for (const auto& one : given)
            if (one.first == id) return true;
        return false;
    };
    for (const auto& [id, text] : Given{{"class", "4"}, {"stitch", "sc"}})
        if (!says(id)) all.emplace_back(id, text);
    try {
        static_cast<void>(exchange::project_of_answers(exchange::answers(all), {}));
    } catch (const base::InputError& error) {
        return error.problems();
    }
    return {};
}

/// The quoted forms of a text, "6 hats: ..." with sides in place of the dots; inch marks inside
/// none.
std::vector<std::string> forms_in(const std::string& text) {
    static const std::regex quoted("\"([^\"]+)\"");
    std::vector<std::string> out;
    for (std::sregex_iterator found(text.begin(), text.end(), quoted), end; found != end; ++found) {
        std::string form = (*found)[1];
        if (const std::size_t dots = form.find("..."); dots != std::string::npos)
            form.replace(dots, 3, "20 sts x 30 rows");
        // A word that the refusal speaks of is no form.
        if (form.find_first_of("0123456789") != std::string::npos) out.push_back(form);
    }
    return out;
}

TEST(Hints, AreTakenWhenTheyAreTyped) {
    std::vector<Refused> all;
    for (const char* const make : {"handful of squares: 10 x 10 cm",
                                   "stack of squares: 10 x 10 cm",
                                   "string of flags: 10 x 10 cm",
                                   "family of hats: 60 sts x 20 rounds",
                                   "brace of mittens: 40 sts x 20 rounds",
                                   "wreath of leaves: 20 sts x 10 rows",
                                   "blanket of squares: 10 x 10 cm",
                                   "hats 3-6 months: 60 sts x 20 rounds",
                                   "dishcloth: 20 x 20 cm each",
                                   "2 legs: 20 sc x 20 rows, make 4",
                                   "mittens: 10 x 24 cm",
                                   "2 bags: 30 x 35 cm",
                                   "cushion cover: 40 x 40 cm",
                                   "20 hexagons: 10 x 10 cm",
                                   "6 x 4 granny squares: 10 x 10 cm",
                                   "4 rows of 6 squares: 10 x 10 cm",
                                   "front and back: 40 x 40 cm",
                                   "cushion, front and back: 40 x 40 cm",
                                   "2 socks (pair): 60 sts x 80 rounds",
                                   "both 2 socks twice: 60 sts x 80 rounds",
                                   "hats, blue: 60 sts x 30 rounds",
                                   "hats (adult): 60 sts x 30 rounds",
                                   "scarves: 33 hdc x 96 rows",
                                   "coaster set: 10 x 10 cm",
                                   "feet: 20 sc x 10 rounds",
                                   "mitt (left/right): 40 sts x 60 rounds",
                                   "2 or 3 hats: 60 sts x 40 rounds",
                                   "2-3 hats: 60 sts x 40 rounds",
                                   "2 baby hat: 60 sts x 40 rounds",
                                   "3 dc, 2 more each right side row, 60 rows",
                                   "33 x 96",
                                   "33 hdc",
                                   "a scarf",
                                   "triangle shawl 60 in x 30 in",
                                   "double-sided potholder: 20 x 20 cm",
                                   "scarf, 2 layers: 22 x 150 cm",
                                   "sock (repeat for second): 60 sts x 80 rounds",
                                   "one each for six friends: 20 x 20 cm",
                                   "some squares: 6 x 6 in",
                                   "40 rows x 50 rows",
                                   "squares + border: 10 x 10 cm",
                                   "panel A-D: 10 x 10 cm",
                                   "side panels 1 to 5: 10 x 10 cm",
                                   "strip (reverse for other side): 10 x 10 cm",
                                   "rag bundle: 10 x 10 cm",
                                   "rag 9 blue: 10 x 10 cm",
                                   "ea. strip: 10 x 10 cm",
                                   "(hats): 60 sts x 4 rows"})
        all.push_back({{{"make", make}}, "make"});
    const std::pair<std::string, std::string> hats{"make", "2 hats: 60 sts x 40 rounds"};
    const std::pair<std::string, std::string> hat{"make", "hat: 60 sts x 40 rounds"};
    for (const char* const plus :
         {"pompom 15 m", "2 pompoms 10 m each", "2 pompoms 10 m", "border of 3 rounds of 60 sts",
          "strap 80 cm", "an edging", "edging -30 yd", "both edgings 30 yd", "10 m per scarf"})
        all.push_back({{hats, {"plus", plus}}, "plus"});
    for (const char* const plus : {"strap 1 m", "fringe 20 cm", "2 pompoms 10 m", "an edging"})
        all.push_back({{hat, {"plus", plus}}, "plus"});
    all.push_back({{hats, {"plus", "edging"}, {"total", "200 m in all"}}, "plus"});
    for (const char* const total : {"120 m", "200 g", "2 balls of 100 m", "many"})
        all.push_back({{hats, {"label", "200 m / 100 g"}, {"total", total}}, "total"});
    all.push_back({{{"make", "hat held double: 60 sts x 40 rounds"}, {"total", "100 m"}}, "total"});
    all.push_back({{hat, {"plus", "border: 5 rounds"}}, "plus"});
    all.push_back({{hat, {"plus", "edging 30 to 40 yd"}}, "plus"});
    all.push_back({{hat, {"plus", "straps 2 x 30 yd"}}, "plus"});
    all.push_back({{hat, {"plus", "strap: 8 sts x 100 rows"}}, "plus"});
    for (const char* const total : {"about 4 balls of 100 m", "2 skeins (400 yd)",
                                    "380 (420, 460) yd", "12 of 45 yd", "380 yd (400 m)"})
        all.push_back({{hat, {"label", "200 m / 100 g"}, {"total", total}}, "total"});
    all.push_back({{hat, {"gauge", "14 sts"}}, "gauge"});
    all.push_back({{hat, {"gauge", "14 sts per 10 cm"}}, "gauge"});
    all.push_back({{hat, {"swatch", "14 g"}}, "swatch"});
    all.push_back({{hat, {"label", "about a ball"}}, "label"});
    all.push_back({{hat, {"stripes", "rust"}}, "stripes"});
    for (const Refused& one : all) {
        const base::Problems problems = refusals_of(one.given);
        std::string shown;
        for (const auto& [id, text] : one.given) shown += id + " \"" + text + "\" ";
        EXPECT_FALSE(problems.empty()) << shown;
        if (problems.empty()) continue;
        const base::Problem& problem = problems.front();
        EXPECT_EQ(problem.place.file, one.question) << shown << to_text(problem);
        EXPECT_FALSE(problem.expected.empty()) << shown;
        for (const std::string& form : forms_in(problem.expected + " " + problem.remedy)) {
            Given again;
            for (const auto& [id, text] : one.given)
                again.emplace_back(id, id == one.question ? form : text);
            for (const base::Problem& next : refusals_of(again))
                // A form may still leave open what the make alone makes ambiguous.
                if (next.what.find("of one or of all") == std::string::npos) {
                    EXPECT_NE(next.place.file, one.question)
                        << shown << "\n  suggests " << form << "\n  " << to_text(next);
                }
        }
    }
}

}  // namespace
