// What would be right is said for the place that a text stands in.

#include "skeinfall/units/example.hpp"

#include <gtest/gtest.h>

#include "skeinfall/units/parse.hpp"

namespace skeinfall::units {
namespace {

TEST(Example, TakesTheFigureThatWasWritten) {
    EXPECT_EQ(fitted_example("20", "15 cm"), "20 cm");
    EXPECT_EQ(fitted_example(" 2,5 ", "10 %"), "2,5 %");
    EXPECT_EQ(fitted_example("10", "10 per 10 cm"), "10 per 10 cm");
    EXPECT_EQ(fitted_example("170", "170 yd / 100 g"), "170 yd / 100 g");
}

TEST(Example, StandsWhereThereIsNoFigureOfItsOwn) {
    EXPECT_EQ(fitted_example("0", "1 g"), "1 g");
    EXPECT_EQ(fitted_example("-3", "1 g"), "1 g");
    EXPECT_EQ(fitted_example("20 y", "6 in"), "6 in");
    EXPECT_EQ(fitted_example("", "6 in"), "6 in");
    EXPECT_EQ(fitted_example("7", "hdc"), "hdc");
    EXPECT_EQ(fitted_example("7", "3"), "3");
}

TEST(Example, ReplacesOnlyTheReadersOwn) {
    const auto bare = parse_mass("42");
    ASSERT_FALSE(bare);
    EXPECT_EQ(with_example(bare.problem(), "42", "--weighed ", "62 g").remedy,
              "Write --weighed \"42 g\".");
    const auto none = parse_whole("0");
    ASSERT_FALSE(none);
    EXPECT_EQ(with_example(none.problem(), "0", "--count ", "3").remedy, "Write --count 3.");
    EXPECT_EQ(with_example(none.problem(), "0", "--count ", "").remedy, none.problem().remedy);
    // A remedy of another kind stays.
    const auto slip = parse_mass("42 gg");
    ASSERT_FALSE(slip);
    EXPECT_EQ(with_example(slip.problem(), "42 gg", "", "62 g").remedy, slip.problem().remedy);
}

}  // namespace
}  // namespace skeinfall::units
