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

}  // namespace
