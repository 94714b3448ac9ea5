// Counts that can be read two ways, or not at all: what is said, where, and how to mend it.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/units/count.hpp"
#include "skeinfall/units/parse.hpp"

namespace {

using namespace skeinfall::units;
using testing::AllOf;
using testing::HasSubstr;

void expect_refused(std::string_view text, std::size_t column,
                    const testing::Matcher<std::string>& message) {
    const auto count = parse_count(text);
    ASSERT_FALSE(count.ok()) << text << " was read";
    EXPECT_EQ(count.problem().place.column, column) << text;
    EXPECT_THAT(to_text(count.problem()), message) << text;
    EXPECT_FALSE(count.problem().remedy.empty()) << text;
}

TEST(CountFaults, NoSystemShowsBothReadings) {
    const auto both = AllOf(HasSubstr("worsted (2 plies of 24, 6720 yd/lb)"),
                            HasSubstr("cotton (24 plies of 2, 70 yd/lb)"),
                            HasSubstr("Write \"2/24 NeW\" for worsted, \"24/2 NeC\" for cotton"));
    expect_refused("2/24", 1, both);
    expect_refused(" 2/24", 2, both);
    expect_refused("2-24", 1, both);
    expect_refused("16/2", 1,
                   AllOf(HasSubstr("16 plies of 2, 70 yd/lb"), HasSubstr("2 plies of 16, 6720")));
    // Every door refuses it alike.
    EXPECT_THAT(parse_grist("2/24").problem().what, HasSubstr("6720 yd/lb"));
    EXPECT_THAT(parse_linear_density("2/24").problem().what, HasSubstr("6720 yd/lb"));
}

TEST(CountFaults, AgainstTheOrderOfTheSystem) {
    expect_refused(
        "24/2 NeW", 1,
        AllOf(HasSubstr("NeW is written plies/count"), HasSubstr("24 plies of 2, 46.667"),
              HasSubstr("2 plies of 24, 6720 yd/lb"), HasSubstr("\"24s/2 NeW\"")));
    expect_refused("2/24 NeC", 1,
                   AllOf(HasSubstr("NeC is written count/plies"), HasSubstr("24 plies of 2, 70 yd"),
                         HasSubstr("\"2/24s NeC\"")));
    expect_refused("1/4 linen", 1, HasSubstr("NeL is written count/plies"));
}

TEST(CountFaults, MetricWithTwoSmallNumbers) {
    expect_refused("2/8 Nm", 1,
                   AllOf(HasSubstr("written both ways"), HasSubstr("2 plies of 8, 1984.2 yd/lb"),
                         HasSubstr("8 plies of 2, 124.01 yd/lb"), HasSubstr("\"2/8s Nm\"")));
    expect_refused("12/3 Nm", 1, HasSubstr("either number here can be the plies"));
    EXPECT_TRUE(parse_count("13/3 Nm").ok());
}

TEST(CountFaults, SystemsWithoutFoldedNotation) {
    expect_refused("3/4 run", 1,
                   AllOf(HasSubstr("the fraction 0.75 run"), HasSubstr("3 plies of 4"),
                         HasSubstr("4 plies of 3")));
    expect_refused("2/150 den", 1, HasSubstr("not written with a stroke"));
    expect_refused("2/150s den", 1, HasSubstr("the number of the whole yarn"));
    expect_refused("60/2 spun silk", 1,
                   AllOf(HasSubstr("with a hyphen (40s-2)"), HasSubstr("\"60/2 Nm\"")));
    expect_refused("2-40 cotton", 1, HasSubstr("it is not clear which number is the count"));
    expect_refused("2s/40s cotton", 1, HasSubstr("both numbers are marked"));
    expect_refused("2.5/8 NeW", 1, HasSubstr("a whole number of plies"));
}

TEST(CountFaults, NamesThatMeanSeveralSystems) {
    expect_refused("60/2 silk", 6,
                   AllOf(HasSubstr("spun silk count"), HasSubstr("metric count"),
                         HasSubstr("\"Nm\" or \"spun silk\"")));
    expect_refused("12 woollen", 4, AllOf(HasSubstr("\"run\" or \"cut\""), HasSubstr("\"Gala\"")));
}

TEST(CountFaults, TicketsOfSewingThread) {
    for (const auto* text : {"Tkt 40", "40 Tkt", "40 ticket"}) {
        const auto count = parse_count(text);
        ASSERT_FALSE(count.ok()) << text;
        EXPECT_THAT(count.problem().what, HasSubstr("a size class of sewing thread"));
    }
}

TEST(CountFaults, NotACount) {
    expect_refused("", 1, HasSubstr("this is not a number"));
    expect_refused("20", 3, HasSubstr("the unit is missing"));
    expect_refused("NeW", 4, HasSubstr("this is not a number"));
    expect_refused("0 NeC", 1, HasSubstr("the count is zero"));
    expect_refused("2/0 NeW", 1, HasSubstr("the count is zero"));
    expect_refused("-3 NeC", 1, HasSubstr("this is not a number"));
    expect_refused("20 Gaal", 4, HasSubstr("Did you mean \"Gala\"?"));
    expect_refused("20 NeC ball", 8, HasSubstr("\"ball\" is left over"));
    expect_refused("1,500 typp", 1, HasSubstr("1500 or as 1.500"));
    expect_refused("99999999999999 NeC", 1, HasSubstr("out of range"));
}

TEST(CountFaults, LengthsThatDependOnTheTrade) {
    const auto hank = parse_length("3 hanks");
    ASSERT_FALSE(hank.ok());
    EXPECT_EQ(hank.problem().place.column, 3U);
    EXPECT_THAT(hank.problem().what,
                AllOf(HasSubstr("cotton hank, 7 leas = 840 yd"), HasSubstr("worsted hank, 560 yd"),
                      HasSubstr("3600 yd")));
    EXPECT_THAT(hank.problem().remedy, HasSubstr("\"cotton hanks\""));
    EXPECT_FALSE(parse_length("3 leas").ok());
}

}  // namespace
