// Rows of knitting. Expected counts are worked out by hand.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "helpers.hpp"

namespace skeinfall::notation::knit_rows {
namespace {

using testing::IsEmpty;

RowWork last(const std::string& text) {
    const NotationResult result = work_rows(text, knitting());
    EXPECT_THAT(problems(result), IsEmpty()) << text;
    EXPECT_THAT(complaints(result), IsEmpty()) << text;
    return result.rows.stated() ? result.rows.row(result.rows.rows()) : RowWork{};
}

TEST(Knit, WorksRib) {
    const RowWork row =
        last("Cast on 38 sts.\nRow 1 (RS): *k2, p2; rep from * to last 2 sts, k2. (38 sts)");
    EXPECT_EQ(kinds_of(row.kinds), (Kinds{{"k", 20}, {"p", 18}}));
    EXPECT_EQ(whole(row.consumed), 38);
}

TEST(Knit, KeepsTheCastOnApart) {
    const NotationResult result = work_rows("CO 12\nRow 1: knit.\nRow 2: p", knitting());
    EXPECT_EQ(kinds_of(result.rows.foundation.kinds), (Kinds{{"CO", 12}}));
    EXPECT_EQ(kinds_of(result.rows.totals()), (Kinds{{"k", 12}, {"p", 12}}));
}

TEST(Knit, WorksLace) {
    const RowWork row =
        last("CO 21\nRow 1: k2, *yo, k2tog, k1, ssk, yo, k1; rep from * to last st, k1. (21 sts)");
    EXPECT_EQ(kinds_of(row.kinds),
              (Kinds{{"k", 2 + 3 * 2 + 1}, {"yo", 6}, {"k2tog", 3}, {"ssk", 3}}));
}

TEST(Knit, ShapesAtBothEnds) {
    EXPECT_EQ(whole(last("CO 20\nRow 1: k1, M1, k to last st, M1, k1. (22 sts)").made), 22);
    EXPECT_EQ(whole(last("CO 20\nRow 1: k1, ssk, k to last 3 sts, k2tog, k1. (18 sts)").made), 18);
    EXPECT_EQ(whole(last("CO 20\nRow 1: kfb, k to last 2 sts, kfb, k1. (22 sts)").made), 22);
    EXPECT_EQ(whole(last("CO 20\nRow 1: k1, inc, k to last 3 sts, dec, k1. (20 sts)").made), 20);
}

TEST(Knit, PassesSlippedStitchesOver) {
    const RowWork row = last("CO 20\nRow 1: (k1, sl 1, k2tog, psso) 5 times. (10 sts)");
    EXPECT_EQ(kinds_of(row.kinds), (Kinds{{"k", 5}, {"sl", 5}, {"k2tog", 5}, {"psso", 5}}));
    EXPECT_EQ(whole(row.made), 10);
    EXPECT_EQ(
        whole(
            last("CO 10\nRow 1: sl 1 purlwise wyif, k1 tbl, s2kp, k3tog, k to end. (6 sts)").made),
        6);
}

TEST(Knit, BindsOff) {
    const NotationResult result = work_rows(
        "CO 20\nRow 1: bind off 5 sts, knit to end.\nRow 2: cast off 5 sts, purl to end. (10 sts)\n"
        "Row 3: BO all sts.",
        knitting());
    EXPECT_THAT(complaints(result), IsEmpty());
    EXPECT_EQ(whole(result.rows.row(2).made), 10);
    EXPECT_EQ(kinds_of(result.rows.row(3).kinds), (Kinds{{"BO", 10}}));
    EXPECT_EQ(whole(result.rows.row(3).made), 0);
}

TEST(Knit, WorksInRoundsAndPlainFabrics) {
    const NotationResult result = work_rows(
        "Cast on 24 sts, join in the round.\nRnds 1-10: *k2, p2; rep from * around.\n"
        "Rnds 11-30: work in St st.\nRnd 31: *k4, k2tog; rep from * around. (20 sts)\n"
        "Rnd 32: k2tog around. (10 sts)",
        knitting());
    EXPECT_THAT(problems(result), IsEmpty());
    EXPECT_THAT(complaints(result), IsEmpty());
    EXPECT_EQ(kinds_of(result.rows.totals()),
              (Kinds{{"k", 120 + 480 + 16}, {"p", 120}, {"k2tog", 4 + 10}}));
}

TEST(Knit, SlipsWithLittleYarn) {
    EXPECT_LT(relative_yarn("sl")->value(), 0.5);
    EXPECT_EQ(relative_yarn("k2tog")->value(), 1.0);
    EXPECT_EQ(relative_yarn("k5tog")->value(), 1.0);
    EXPECT_EQ(relative_yarn("psso")->value(), 0.0);
}

}  // namespace
}  // namespace skeinfall::notation::knit_rows
