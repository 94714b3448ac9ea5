// How many pieces a make's words say. A count that is taken as one is so much yarn too little.

#include "skeinfall/exchange/count_words.hpp"

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/make_words.hpp"
#include "skeinfall/exchange/name_words.hpp"

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
        {"coasters (4) 10 x 10 cm", 4},
        {"coaster (6 needed): 10 x 10 cm", 6},
        {"30 granny squares of 4 in", 30},
        {"size 6 hat: 20 x 20 cm", 1},
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

TEST(CountWords, AreAskedForWhereTheNameIsOfSeveral) {
    for (const std::string text :
         {"scarves: 33 hdc x 96 rows", "squares 6 x 6 in", "some squares: 6 x 6 in",
          "several hats: 60 hdc x 30 rows", "a few coasters: 10 x 10 cm",
          "squares in rust: 6 x 6 in", "back and front: 50 x 60 cm", "scarf + hat: 22 x 150 cm",
          "scarf, 2 layers: 22 x 150 cm", "left mitts, 2 right: 20 x 20 cm",
          "double-sided scarf: 22 x 150 cm", "scarf for each of 3 kids: 22 x 150 cm",
          "coaster set: 10 x 10 cm", "lots of squares: 6 x 6 in",
          "2 scarves: 3 scarves of 33 hdc x 96 rows", "33 hdc x 96 rows x 2",
          "33 hdc x 96 rows twice", "22 cm x 1.5 m x 2"})
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
                             {"8 in by 6'", "8 in", "6 ft"}}) {
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

}  // namespace
