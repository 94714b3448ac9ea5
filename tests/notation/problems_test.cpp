// What cannot be read: one clear problem a line, all lines at once.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "helpers.hpp"

namespace skeinfall::notation {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

struct Mistake {
    std::string row;
    std::string problem;
};

class Mistakes : public testing::TestWithParam<Mistake> {};

TEST_P(Mistakes, IsReportedWhereItStands) {
    const NotationResult result = work_rows("Ch 21.\n" + GetParam().row, crochet());
    ASSERT_EQ(result.problems.size(), 1U) << GetParam().row;
    EXPECT_EQ(problems(result)[0], GetParam().problem);
    EXPECT_FALSE(result.problems[0].expected.empty());
}

INSTANTIATE_TEST_SUITE_P(
    Rows, Mistakes,
    testing::Values(
        Mistake{"Row 1: [sc, ch 1 4 times.", "2:18 the number 4 is not attached to a stitch"},
        Mistake{"Row 1: [sc, ch 1", "2:17 the row ends before the bracket is closed"},
        Mistake{"Row 1: sc, ch 1)", "2:16 \")\" closes nothing"},
        Mistake{"Row 1: (sc, ch 1]", "2:17 \"]\" closes nothing"},
        Mistake{"Row 1: *sc, ch 1.", "2:18 the row ends inside a part that began with *"},
        Mistake{"Row 1: sc; rep from * across.", "2:12 \"rep from *\" without a * before it"},
        Mistake{"Row 1: *sc; rep from * nicely.", "2:24 the repeat does not say how often"},
        Mistake{"Row 1: *sc; rep from there across.", "2:22 \"rep from\" without a *"},
        Mistake{"Row 1: sc evenly across.",
                "2:11 \"evenly\" does not say which stitches, or how many"},
        Mistake{"Row 1: sc in the 3rd st of next group",
                "2:18 a place counted within a group, \"3rd\", is not followed"},
        Mistake{"Row 1: sc in frist 3 sts.", "2:14 \"frist\" is no place"},
        Mistake{"Row 1: dc between the first row and the second one.",
                "2:11 places between stitches are not followed"},
        Mistake{"Row 1: dec every 4th st.",
                "2:12 a place counted as \"every nth\" is not followed"},
        Mistake{"Row 1: sc\nRows 2-9: rep row 1, sc in next st.",
                "3:22 this part of the repeat is not understood"},
        Mistake{"Row 1: sc to marker.", "2:14 markers are not followed"},
        Mistake{"Row 1: in next st.", "2:8 a place without a stitch that goes there"},
        Mistake{"Row 1: sc between next 2 groups.",
                "2:11 how many stitches a group has is not said"},
        Mistake{"Row 1: sc 9999999", "2:11 the number is too large"},
        Mistake{"Row 1: sc @ 5", "2:11 the sign \"@\" means nothing in notation"},
        Mistake{"Row 1: sc in 2nd ch from hook\nRow 1: sc", "3:1 row 1 is written twice"},
        Mistake{"Row 1: sc\nRow 3: sc", "1:1 row 2 is not written"},
        Mistake{"Row 1: sc\nRows 2-9: rep rows 1 and 20",
                "3:11 row 20 is repeated before it is written"},
        Mistake{"Row 1: sc\nRep row 1 until piece measures 20 cm.",
                "3:11 how many rows this length takes is not known"},
        Mistake{"Row 1: sc\nRep row 1.", "3:1 the repeat does not say how many rows are worked"},
        Mistake{"Row 1: sc\nRows 2-9: rep row 1 3 times.",
                "3:11 8 rows are labelled, 3 times 1 rows are 3"},
        Mistake{"Rows 9-2: sc", "2:6 the rows run backwards"},
        Mistake{"Rows 1-1000001: sc", "2:8 the number is too large"},
        Mistake{"Row 0: sc", "2:1 there is no row 0"}));

TEST(Problems, AllOfThemAtOnce) {
    EXPECT_THAT(
        problems(work_rows("Row 1: sc in each st, (dc\nRow 2: *sc\nRow 3: sc ]", crochet())),
        ElementsAre(HasSubstr("1:26"), HasSubstr("2:11"), HasSubstr("3:11")));
}

TEST(Problems, NestingHasALimit) {
    std::string deep = "Row 1: ";
    for (int i = 0; i < 5000; ++i) deep += "(sc, ";
    const NotationResult result = work_rows(deep, crochet());
    ASSERT_EQ(result.problems.size(), 1U);
    EXPECT_EQ(result.problems[0].what, "brackets and repeats stand in each other too deep");
    EXPECT_EQ(result.problems[0].expected, "at most 20 levels");
}

TEST(Problems, NothingSaysHowWide) {
    EXPECT_THAT(problems(work_rows("Row 1: sc in each ch across.", crochet())),
                ElementsAre("1:1 nothing says how many stitches the first row goes into"));
    EXPECT_THAT(
        problems(work_rows("Row 1: *sc in next 2 ch, ch 1, sk next ch; rep from * across. (9 sc)",
                           crochet())),
        ElementsAre(HasSubstr("makes this row come to what it declares")));
}

TEST(Problems, NoRowAtAll) {
    EXPECT_THAT(problems(work_rows("", crochet())), ElementsAre("1:1 there is no row in it"));
    EXPECT_THAT(problems(work_rows("Ch 20.\nFasten off.", crochet())),
                ElementsAre("1:1 there is no row in it"));
}

TEST(Problems, NumbersThatDoNotMatchTheSizes) {
    NotationOptions options = crochet();
    options.sizes = 3;
    EXPECT_THAT(problems(work_rows("Ch 21 (25).\nRow 1: sc in each ch across.", options)),
                ElementsAre("1:7 the numbers in brackets do not match the sizes"));
}

TEST(Problems, StitchesOfItsOwn) {
    NotationOptions options = crochet();
    OwnStitch bad;
    bad.name = "fan";
    bad.of = "2 dcc";
    bad.of_place = {"", 7, 7};
    options.own = {bad};
    ASSERT_EQ(problems_of_own(options).size(), 1U);
    EXPECT_EQ(problems_of_own(options)[0].what, "\"dcc\" is no known stitch");
    EXPECT_EQ(problems_of_own(options)[0].place.column, 9U);
    bad.of = "2 dc";
    bad.name = "sc";
    options.own = {bad};
    EXPECT_EQ(problems_of_own(options)[0].what, "the stitch \"sc\" is known already");
}

TEST(Problems, UnknownKindsInATable) {
    CountedRows table;
    table.kinds = {{"hcd", 12.0 * units::stitch}};
    const NotationResult result = work_rows({{"", table}}, crochet());
    ASSERT_EQ(result.problems.size(), 1U);
    EXPECT_EQ(result.problems[0].what, "\"hcd\" is no known stitch");
    EXPECT_EQ(result.problems[0].remedy, "Did you mean \"hdc\"?");
}

}  // namespace
}  // namespace skeinfall::notation
