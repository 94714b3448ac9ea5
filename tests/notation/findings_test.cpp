// What a pattern contradicts itself in, with its place.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "helpers.hpp"

namespace skeinfall::notation {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

const std::string twenty = "Ch 21.\nRow 1: sc in 2nd ch from hook and in each ch across. (20 sc)\n";

std::vector<std::string> of_row_two(const std::string& row,
                                    const NotationOptions& options = crochet()) {
    const NotationResult result = work_rows(twenty + row, options);
    EXPECT_THAT(problems(result), IsEmpty()) << row;
    return complaints(result);
}

TEST(Findings, ARowThatTakesTooMuch) {
    EXPECT_THAT(of_row_two("Row 2: ch 1, turn, sc in next 25 sts."),
                ElementsAre("stop 3:8 row 2: the row takes 25 stitches, the row below has 20"));
}

TEST(Findings, ARowThatLeavesStitches) {
    EXPECT_THAT(of_row_two("Row 2: ch 1, turn, sc in next 17 sts."),
                ElementsAre("stop 3:8 row 2: the row leaves 3 of the 20 stitches of the row below "
                            "unworked"));
    EXPECT_THAT(of_row_two("Row 2: ch 1, turn, sc in next 17 sts, leave remaining sts unworked."),
                IsEmpty());
    EXPECT_THAT(
        of_row_two("Row 2: ch 1, turn, sc in next 5 sts, sc in last st."),
        ElementsAre("stop 3:38 row 2: 14 stitches before the last of the row below are passed "
                    "over"));
}

TEST(Findings, AWrongCount) {
    EXPECT_THAT(of_row_two("Row 2: ch 1, turn, sc in each st across. (21 sts)"),
                ElementsAre("stop 3:43 row 2: the pattern says 21 stitches; these words make 20"));
    EXPECT_THAT(
        of_row_two("Row 2: ch 1, turn, *sc in next st, ch 1, sk next st; rep from * across. "
                   "(10 sc, 11 ch-1 sp)"),
        ElementsAre("stop 3:81 row 2: the pattern says 11 ch-1 sps; these words make 10"));
    EXPECT_THAT(of_row_two("Row 2: ch 1, turn, sc in each st across - 19 sts."),
                ElementsAre("stop 3:43 row 2: the pattern says 19 stitches; these words make 20"));
}

// The rows behind a slip fit the count that it was meant to come to.
TEST(Findings, OneSlipIsToldOnce) {
    const std::string hat =
        "Rnd 1: 6 sc in magic ring. (6)\n"
        "Rnd 2: 2 sc in each st around. (12)\n"
        "Rnd 3: *sc in next 2 sts, 2 sc in next st; rep from * around. (18)\n"
        "Rnd 4: *sc in next 2 sts, 2 sc in next st; rep from * around. (24)\n"
        "Rnd 5: *sc in next 3 sts, 2 sc in next st; rep from * around. (30)\n"
        "Rnds 6-9: sc in each st around. (30)\n";
    const auto slip = [&](const std::string& from, const std::string& to) {
        std::string text = hat;
        text.replace(text.find(from), from.size(), to);
        return complaints(work_rows(text, crochet()));
    };
    EXPECT_THAT(slip("sc in next 2 sts, 2 sc in next st; rep from * around. (18)",
                     "sc in next st, 2 sc in next st; rep from * around. (18)"),
                IsEmpty());
    // Its words make 16; the rounds behind it go on from 18.
    const auto told = complaints(work_rows(hat, crochet()));
    for (const std::string& one : told) EXPECT_TRUE(one.starts_with("stop 3:")) << one;
    EXPECT_FALSE(told.empty());
    // A slip in the count: the rounds behind it fit the words.
    EXPECT_THAT(slip("(12)\nRnd 3: *sc in next 2 sts", "(13)\nRnd 3: *sc in next st"),
                ElementsAre("stop 2:33 row 2: the pattern says 13 stitches; these words make 12"));
}

TEST(Findings, ARepeatThatDoesNotComeOutEven) {
    EXPECT_THAT(
        of_row_two("Row 2: ch 1, turn, *sc in next 2 sts, 2 sc in next st; rep from * across."),
        ElementsAre("stop 3:20 row 2: the repeat does not come out even: after 6 times 2 of the "
                    "stitches below are left, one repeat takes 3"));
    EXPECT_THAT(
        of_row_two("Row 2: ch 1, turn, *ch 1; rep from * across."),
        ElementsAre("stop 3:20 row 2: the repeat uses no stitch of the row below, so it has no "
                    "end"));
}

TEST(Findings, AnUnknownAbbreviationOnce) {
    const NotationResult result =
        work_rows(twenty +
                      "Row 2: ch 1, turn, scc in next 10 sts, scc in next 10 sts.\n"
                      "Row 3: ch 1, turn, scc in each st across. (20 sts)",
                  crochet());
    EXPECT_THAT(
        complaints(result),
        ElementsAre("stop 3:20 \"scc\" is no known abbreviation; it is read as one stitch into "
                    "one"));
    EXPECT_THAT(result.rows.findings[0].remedy, testing::StartsWith("Did you mean \"sc\"?"));
    EXPECT_EQ(kinds_of(result.rows.row(3).kinds), (Kinds{{"scc", 20}, {"ch", 1}}));
    EXPECT_FALSE(relative_yarn("scc"));
}

TEST(Findings, NamesOfTheOtherTerms) {
    EXPECT_THAT(
        of_row_two("Row 2: ch 2, turn, htr in first st, htr in each st across. (20 sts)"),
        ElementsAre("stop 3:20 the terms look mixed: \"htr\" is a UK name in a pattern in US "
                    "terms; it is read as US hdc"));
    const NotationResult uk = work_rows(
        "Ch 21.\nRow 1: sc in 2nd ch from hook and in each ch across.", crochet(Terms::uk));
    EXPECT_THAT(complaints(uk),
                ElementsAre("stop 2:8 the terms look mixed: \"sc\" is a US name in a pattern in UK "
                            "terms; it is read as US sc"));
}

TEST(Findings, TurningChainsOfTheOtherTerms) {
    const std::string rows =
        "Ch 21.\nRow 1: dc in 2nd ch from hook and in each ch across. (20 dc)\n"
        "Row 2: ch 1, turn, dc in each st across. (20 dc)";
    EXPECT_THAT(complaints(work_rows(rows, crochet())),
                ElementsAre("caution 1:1 the turning chains fit UK terms, not US (ch 1 for dc)"));
    EXPECT_THAT(complaints(work_rows(rows, crochet(Terms::uk))), IsEmpty());
}

TEST(Findings, TwoReadings) {
    const NotationResult result =
        work_rows(twenty +
                      "Row 2: ch 1, turn, *sc in next st, ch 1, sk next st; rep from * across.\n"
                      "Row 3: ch 1, turn, sc in each st across.",
                  crochet());
    EXPECT_THAT(
        complaints(result),
        ElementsAre("caution 4:8 row 3: the row can be read two ways: the usual one makes 20 "
                    "stitches, 10 when \"st\" does not mean chain spaces"));
    EXPECT_THAT(
        complaints(work_rows(
            twenty + "Row 2: ch 1, turn, *sc in next st, ch 1, sk next st; rep from * across.\n"
                     "Row 3: ch 1, turn, sc in each st across. (10 sts)",
            crochet())),
        IsEmpty());
}

TEST(Findings, AFoundationRowRepeatedHigherUp) {
    const NotationResult result = work_rows(
        "Ch 11.\nRow 1: sc in 2nd ch from hook, *ch 1, sk next ch, sc in next ch; rep from * to "
        "last "
        "ch, sc in last ch. \nRow 2: ch 1, turn, sc in each st across. (10 sts)\nRows 3-8: rep "
        "rows 1 "
        "and 2.",
        crochet());
    EXPECT_THAT(
        complaints(result),
        ElementsAre("caution 2:8 row 3: there is no foundation chain here: \"2nd ch from hook\" "
                    "is read as the first stitch, after ch 1 to turn"));
    EXPECT_EQ(whole(result.rows.row(8).made), 10);
}

TEST(Findings, WhatSticksOutAboveATableIsOnlyACaution) {
    CountedRows table;
    table.kinds = {{"sc", 12.0 * units::stitch}};
    const NotationResult result =
        work_rows({{"", table}, {"Row 2: ch 1, turn, sc in next 9 sts.", std::nullopt}}, crochet());
    EXPECT_THAT(complaints(result),
                ElementsAre(testing::StartsWith("caution 2:8 row 2: the row leaves")));
}

// Rows in the same words are read once; what is wrong in one of them stands at its own place, and a
// declared count holds in each.
TEST(Findings, RowsInTheSameWordsHaveTheirOwnPlaces) {
    const std::string plain = "ch 1, turn, sc in each st across. (20 sc)\n";
    const std::string more = "ch 1, turn, 2 sc in first st, sc in each st across. (21 sc)\n";
    EXPECT_THAT(of_row_two("Row 2: " + plain + "Row 3: " + plain + "Row 4: " + plain), IsEmpty());
    EXPECT_THAT(of_row_two("Row 2: " + plain + "Row 3: " + more + "Row 4: " + plain),
                ElementsAre("stop 5:43 row 4: the pattern says 20 sc; these words make 21"));
    EXPECT_THAT(of_row_two("Row 2: " + more + "Row 3: " + more),
                ElementsAre("stop 4:61 row 3: the pattern says 21 sc; these words make 22"));
    const NotationResult rows =
        work_rows(twenty + "Row 2: " + plain + "Row 2: " + plain, crochet());
    EXPECT_THAT(problems(rows), ElementsAre("4:1 row 2 is written twice"));
}

TEST(Findings, ALongListIsCut) {
    std::string text = twenty;
    for (int row = 2; row < 3000; ++row)
        text += "Row " + std::to_string(row) + ": ch 1, turn, sc in each st across. (19 sts)\n";
    EXPECT_LE(work_rows(text, crochet()).rows.findings.size(), 1000U);
}

}  // namespace
}  // namespace skeinfall::notation
