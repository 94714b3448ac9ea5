// What the words of a make leave open: lengths that looked like counts, parts that are not there.

#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/make_answers.hpp"
#include "skeinfall/exchange/make_words.hpp"

#include "given_answers.hpp"

namespace {

using namespace skeinfall;

// Twenty blankets were bought for where "1 m 20" was the length of one.
TEST(Sides, AreLengthsInTwoUnitsAndNoCounts) {
    struct Said {
        const char* text;
        const char* width;
        const char* length;
        const char* name;
    };
    for (const Said& said : {Said{"scarf 20 cm by 1 m 50", "20 cm", "1.5 m", "scarf"},
                             {"blanket 1 m x 1 m 20", "1 m", "1.2 m", "blanket"},
                             {"blanket 3 ft 6 by 4 ft", "42 in", "4 ft", "blanket"},
                             {"blanket 4 ft by 3 ft 6", "4 ft", "42 in", "blanket"},
                             {"scarf 8 in by 5 ft 6 in", "8 in", "66 in", "scarf"},
                             {"scarf: 8 in x 1 yd 18 in", "8 in", "54 in", "scarf"}}) {
        const auto piece = exchange::parse_piece(said.text);
        ASSERT_TRUE(piece) << said.text << ": " << piece.problem().what;
        EXPECT_EQ(piece->count, 1) << said.text;
        EXPECT_EQ(piece->name, said.name) << said.text;
        EXPECT_EQ(piece->width, said.width) << said.text;
        EXPECT_EQ(piece->length, said.length) << said.text;
    }
    for (const char* const text :
         {"scarf 8 in x 1 yd 18", "blanket 1 m x 1 m 5", "scarf 8 in by 5 ft 14"}) {
        const auto piece = exchange::parse_piece(text);
        ASSERT_FALSE(piece) << text;
        EXPECT_THAT(piece.problem().what, testing::HasSubstr("has a figure without its unit"));
    }
    EXPECT_EQ(exchange::parse_piece("scarf 20 cm by 1 m 50 x 2").value().count, 2);
}

TEST(Sides, WhatIsMissingOrTooMuchIsNamed) {
    const auto refused = [](const char* text) {
        const auto piece = exchange::parse_piece(text);
        return piece ? std::string("read") : base::to_text(piece.problem());
    };
    using testing::HasSubstr;
    EXPECT_THAT(refused("cowl 60 cm around"), HasSubstr("\"cowl: 60 cm around x 20 cm\""));
    EXPECT_THAT(refused("scarf 8 in wide"), HasSubstr("\"scarf: 8 in x 20 cm\""));
    EXPECT_THAT(refused("baby blanket"), HasSubstr("does not say how big it is"));
    EXPECT_THAT(refused("scarf 20 cm by 150 cm, 5 mm hook"),
                HasSubstr("\"5 mm hook\" behind the size"));
    EXPECT_THAT(refused("scarf 20 cm by 150 cm with a border of 2 rounds"),
                HasSubstr("\"a border of 2 rounds\" behind the size"));
    EXPECT_THAT(refused("cowl 20 in around, 10 in wide"), HasSubstr("is not understood"));
}

// What is not there takes yarn all the same.
TEST(NameWords, PartsColoursAndFeltingAreAskedAbout) {
    const auto problem = [](const std::vector<std::pair<std::string, std::string>>& given) {
        auto all = given;
        all.emplace_back("class", "4");
        all.emplace_back("stitch", "stockinette");
        try {
            static_cast<void>(exchange::project_of_answers(exchange::answers(all), {}, {}));
        } catch (const base::InputError& error) {
            return error.problems().front().place.file + ": " + error.problems().front().what;
        }
        return std::string();
    };
    using testing::HasSubstr;
    EXPECT_THAT(problem({{"make", "sweater 40 in around x 24 in"}}),
                HasSubstr("make: \"sweater\" has sleeves"));
    EXPECT_THAT(problem({{"make", "child's cardigan: 26 in around x 14 in"}}),
                HasSubstr("has sleeves"));
    EXPECT_THAT(problem({{"make", "2 gloves: 8 in around x 9 in"}}), HasSubstr("has fingers"));
    for (const char* const text :
         {"sleeveless sweater 40 in around x 24 in", "fingerless gloves: 8 in around x 8 in",
          "sweater body: 40 in around x 24 in", "dog sweater: 20 in around x 14 in"})
        EXPECT_EQ(problem({{"make", text}}), "") << text;
    EXPECT_EQ(problem({{"make", "sweater 40 in around x 24 in"},
                       {"make", "2 sleeves: 9 to 14 in x 17 in"}}),
              "");
    EXPECT_EQ(problem({{"make", "sweater 40 in around x 24 in"}, {"total", "1200 yd"}}), "");
    EXPECT_THAT(problem({{"make", "striped scarf 8 x 60 in"}}),
                HasSubstr("stripes: \"striped scarf\" speaks of several colours"));
    EXPECT_THAT(problem({{"make", "two-colour scarf 8 x 60 in"}}), HasSubstr("stripes: "));
    EXPECT_EQ(problem({{"make", "striped scarf 8 x 60 in"}, {"stripes", "rust 6, sand 4"}}), "");
    EXPECT_EQ(problem({{"make", "self-striping scarf 8 x 60 in"}}), "");
    EXPECT_THAT(problem({{"make", "felted bag 28 in around x 16 in"}}),
                HasSubstr("its size before felting"));
    EXPECT_EQ(problem({{"make", "bag, before felting: 28 in around x 16 in"}}), "");
    for (const char* const text :
         {"cowl 60 cm around, 20 cm high, doubled over", "strap 2 in x 40 in doubled"})
        EXPECT_THAT(problem({{"make", text}}), HasSubstr("may be fabric folded in two")) << text;
}

}  // namespace
