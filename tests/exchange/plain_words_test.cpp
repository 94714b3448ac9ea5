// A total that holds for another size is taken to the size of the make.

#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/base/problem.hpp"
#include "skeinfall/exchange/colour_words.hpp"
#include "skeinfall/exchange/make_answers.hpp"
#include "skeinfall/exchange/yarn_words.hpp"
#include "skeinfall/need/need.hpp"

#include "given_answers.hpp"

namespace {

using namespace skeinfall;

double yards_of(const std::vector<std::pair<std::string, std::string>>& said) {
    const auto made = exchange::project_of_answers(exchange::answers(said), {}).project;
    return need::need_of(made, 0).roles.front().length.centre / units::yard;
}

TEST(TotalOfAnotherSize, GoesByTheArea) {
    // 2000 of 3000 sq in
    EXPECT_NEAR(yards_of({{"make", "blanket: 40 x 50 in"}, {"total", "1800 yd for 50 x 60 in"}}),
                1200.0, 0.01);
    // Two of 192 sq in, told by the area of another piece.
    EXPECT_NEAR(yards_of({{"make", "2 sleeves: 10 to 14 in x 16 in"},
                          {"craft", "knit"},
                          {"total", "500 yd for 960 sq in"}}),
                200.0, 0.01);
}

TEST(TotalOfAnotherSize, GoesByTheStitchesWhereTheMakeDoes) {
    EXPECT_NEAR(yards_of({{"make", "40 sc x 60 rows"}, {"total", "90 yd for 20 sc x 20 rows"}}),
                540.0, 0.01);
}

TEST(TotalOfAnotherSize, IsRefusedWhereTheyCannotBeCompared) {
    for (const char* total : {"9 skeins of 200 yd for 50 x 60 in", "90 yd for 20 sc x 20 rows"})
        EXPECT_THROW(yards_of({{"make", "blanket: 40 x 50 in"}, {"total", total}}),
                     base::InputError)
            << total;
}

/// Lengths of what is at hand, in yards.
std::vector<double> lengths_of(const std::string& said) {
    std::vector<double> out;
    for (const stash::Skein& skein : exchange::parse_having(said, {}, "", 1).value())
        out.push_back(skein.yarn.label.length->value / units::yard);
    return out;
}

TEST(HavingWords, SayHowManyAndHowMuchInAnyOrder) {
    const std::vector<double> two{170.0, 170.0};
    for (const char* said :
         {"2x170yd", "2 x 170 yd", "2 @ 170 yd", "2 of 170 yd", "a pair of 170-yard skeins",
          "2 new skeins of 170 yd", "2 skeins of 170 yd, same lot", "2 sand balls of 170 yd",
          "2 balls of rust, 170 yd each", "2 skeins of worsted, 170 yd each", "170 yd + 170 yd",
          "170 yd; 170 yd", "170 yd and a ball of 170 yd"}) {
        const std::vector<double> got = lengths_of(said);
        ASSERT_EQ(got.size(), 2U) << said;
        EXPECT_NEAR(got[0], two[0], 1e-9) << said;
        EXPECT_NEAR(got[1], two[1], 1e-9) << said;
    }
    EXPECT_EQ(exchange::parse_having("2 rust balls of 170 yd", {}, "", 1).value().front().colourway,
              "rust");
}

TEST(HavingWords, AHalfIsWeighedAndNotGuessed) {
    for (const char* said : {"2 1/2 skeins of 200 yd", "two and a half skeins of 200 yd"})
        EXPECT_FALSE(exchange::parse_having(said, {}, "", 1)) << said;
}

TEST(HavingWords, AndBetweenFiguresOfOneBallIsNoSecondBall) {
    const auto balls = exchange::parse_having("2 balls of 50 g and 120 m", {}, "", 1);
    if (balls) {
        EXPECT_EQ(balls.value().size(), 2U);
    }
}

TEST(StripeWords, SayRowsInAnyOrder) {
    const auto rows = [](const char* said) {
        std::string out;
        const auto stripes = exchange::parse_stripes(said).value();
        for (const auto& stripe : stripes)
            out += stripe.colour + " " + std::to_string(stripe.rows) + ", ";
        return out;
    };
    EXPECT_EQ(rows("rust x 6, sand x 4"), "rust 6, sand 4, ");
    EXPECT_EQ(rows("6 rust 4 sand"), "rust 6, sand 4, ");
    EXPECT_EQ(rows("2 rows each of rust, sand and moss"), "rust 2, sand 2, moss 2, ");
    EXPECT_FALSE(exchange::parse_stripes("rust, sand, moss"));
}

TEST(ClassWords, TwoNamesOfOneClassAreOne) {
    for (const char* said : {"worsted/aran", "worsted or aran"})
        EXPECT_EQ(exchange::parse_class(said).value().number, 4) << said;
    EXPECT_EQ(exchange::parse_class("sock yarn").value().number, 1);
    EXPECT_FALSE(exchange::parse_class("worsted or bulky"));
}

}  // namespace
