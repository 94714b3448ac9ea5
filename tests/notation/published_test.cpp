// Published makes, their rows in our own wording. Only counts and structure are theirs; the page is
// named beside each. Expected counts come from the page or from adding up its rows by hand.

#include <cstdint>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "helpers.hpp"

namespace skeinfall::notation {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

NotationResult clean(const std::string& text, const NotationOptions& options) {
    NotationResult result = work_rows(text, options);
    EXPECT_THAT(problems(result), IsEmpty()) << text;
    EXPECT_THAT(complaints(result), IsEmpty()) << text;
    return result;
}

// https://thegracefultangle.wixsite.com/blog/post/the-alternate-dishcloth-free-crochet-pattern :
// 27 rows of 13 pairs of sc, each pair in every second stitch; 27 x 26 = 702.
TEST(Published, DishclothOfPairs) {
    const NotationResult cloth = clean(
        "Ch 27.\n"
        "Row 1: sc in 2nd ch from hook and in each ch across. (26 sc)\n"
        "Rows 2-27: ch 1, turn, *sk next st, 2 sc in next st; rep from * across. (26 sc)",
        crochet());
    EXPECT_EQ(kinds_of(cloth.rows.totals()), (Kinds{{"sc", 702}, {"ch", 26}}));
}

// https://www.gruendl-wolle.de/en/anleitungen/cotton-quick-print-dreiecktuch-mit-lochmuster-en :
// 334 cast on, one wrong-side row, four rows straight, then 4 fewer in every right-side row down
// to 6, each with its wrong-side row. With the cast-on: 6 x 334 + 2 x (330 + 326 + ... + 6) =
// 29 556, in 169 rows.
TEST(Published, LaceTriangleFromItsLongEdge) {
    const NotationResult shawl = clean(
        "Cast on 334 sts.\n"
        "Row 1 (WS): k to end.\n"
        "Rows 2-5: k to end.\n"
        "Row 6 (RS): k1, k3tog, k to last 4 sts, k3tog, k1. \n"
        "Row 7: p to end.\n"
        "Rows 8-169: rep rows 6 and 7.",
        knitting());
    EXPECT_EQ(whole(shawl.rows.row(169).made), 6);
    std::int64_t sum = whole(shawl.rows.foundation.made);
    for (std::int64_t row = 1; row <= 169; ++row) sum += whole(shawl.rows.row(row).made);
    EXPECT_EQ(sum, 29'556);
}

// https://jennyrosecrochet.blogspot.com/2016/11/make-mans-scarf-using-easy-crochet.html :
// every row 14 sc and 13 ch over a chain of 29.
TEST(Published, LinenStitchScarf) {
    const NotationResult scarf = clean(
        "Ch 29.\n"
        "Row 1: sc in 3rd ch from hook (skipped ch do not count), *ch 1, sk next ch, sc in next "
        "ch; rep "
        "from * across. (14 sc, 13 ch-1 sp)\n"
        "Row 2: ch 1, turn, sc in first st, *ch 1, sk next ch-1 sp, sc in next sc; rep from * "
        "across. "
        "(14 sc, 13 ch-1 sp)\n"
        "Rows 3-200: rep row 2.",
        crochet());
    EXPECT_EQ(kinds_of(scarf.rows.row(200).kinds), (Kinds{{"sc", 14}, {"ch", 14}}));
}

// http://uponcherryhill.blogspot.com.au/2010/09/ : back 152 x 208 = 31 616; front 69 rows of 152,
// down by one a row to 142, 50 rows of 142, up again, 69 rows of 152: 31 006.
TEST(Published, SidewaysSweater) {
    const NotationResult back = clean("Cast on 152 sts.\nRows 1-208: knit.", knitting());
    EXPECT_EQ(kinds_of(back.rows.totals()), (Kinds{{"k", 31'616}}));

    const NotationResult front = clean(
        "Cast on 152 sts.\n"
        "Rows 1-69: knit.\n"
        "Rows 70-79: k to last 2 sts, k2tog.\n"
        "Row 80: knit. (142 sts)\n"
        "Rows 81-128: knit.\n"
        "Rows 129-138: k to last st, M1, k1.\n"
        "Rows 139-207: knit. (152 sts)",
        knitting());
    std::int64_t sum = 0;
    for (std::int64_t row = 1; row <= front.rows.rows(); ++row)
        sum += whole(front.rows.row(row).made);
    // 69 x 152 + (151 + ... + 142) + 49 x 142 + (143 + ... + 152) + 69 x 152
    EXPECT_EQ(sum, 2 * 69 * 152 + 1465 + 49 * 142 + 1475);
}

// http://gardeners-ramblings.blogspot.com/2010/05/may-day-baby-blanket.html?m=0 : a chain of 121
// and 120 stitches in every row, of sc, dc, post stitches and crossed dc.
TEST(Published, PostStitchBabyBlanket) {
    const NotationResult blanket = clean(
        "Ch 121.\n"
        "Row 1: sc in 2nd ch from hook and in each ch across. (120 sc)\n"
        "Row 2: ch 3 (counts as dc), turn, dc in next st and in each st across. (120 dc)\n"
        "Row 3: ch 1, turn, *fpdc around next st, bpdc around next st; rep from * across. (120 "
        "sts)\n"
        "Row 4: ch 1, turn, sc in first st, *sk next st, dc in next st, dc in skipped st; rep from "
        "* to "
        "last st, sc in last st.\n"
        "Row 5: ch 1, turn, sc in each st across. (120 sc)",
        crochet());
    EXPECT_EQ(kinds_of(blanket.rows.row(3).kinds), (Kinds{{"fpdc", 60}, {"bpdc", 60}, {"ch", 1}}));
    EXPECT_EQ(kinds_of(blanket.rows.row(4).kinds), (Kinds{{"sc", 2}, {"dc", 118}, {"ch", 1}}));
    EXPECT_EQ(whole(blanket.rows.row(4).made), 120);
}

// https://oftwineandtwigs.blogspot.com : a band of 40 rows that alternate 14 sc and 14 dc (six
// crossed pairs and two), 280 of each; a crown of 470 sc and 90 ch.
TEST(Published, CrossStitchHat) {
    const NotationResult band = clean(
        "Ch 15.\n"
        "Row 1: sc in 2nd ch from hook and in each ch across. (14 sc)\n"
        "Row 2: ch 3 (does not count as a st), turn, dc in first st, *sk next st, dc in next st, "
        "dc in "
        "skipped st; rep from * to last st, dc in last st. (14 dc)\n"
        "Row 3: ch 1, turn, sc in each st across. (14 sc)\n"
        "Rows 4-40: rep rows 2 and 3.",
        crochet());
    Kinds kinds = kinds_of(band.rows.totals());
    kinds.erase("ch");  // the turning chains are not counted there
    EXPECT_EQ(kinds, (Kinds{{"dc", 280}, {"sc", 280}}));

    const auto times = [](double count) { return count * units::stitch; };
    std::vector<WrittenRows> crown;
    for (const auto& [sc, ch] : std::vector<std::pair<double, double>>{{60, 0},
                                                                       {30, 30},
                                                                       {60, 0},
                                                                       {50, 0},
                                                                       {25, 25},
                                                                       {50, 0},
                                                                       {40, 0},
                                                                       {20, 20},
                                                                       {40, 0},
                                                                       {30, 0},
                                                                       {15, 15},
                                                                       {30, 0},
                                                                       {20, 0}}) {
        CountedRows row;
        row.kinds = {{"sc", times(sc)}};
        if (ch > 0) row.kinds.push_back({"ch", times(ch)});
        crown.push_back({"", row});
    }
    const NotationResult worked = work_rows(crown, crochet(Terms::us, true));
    EXPECT_EQ(kinds_of(worked.rows.totals()), (Kinds{{"sc", 470}, {"ch", 90}}));
}

// The same crown in notation: the rounds with spaces and those that close them again.
TEST(Published, CrossStitchHatCrownInNotation) {
    const NotationResult crown = clean(
        "Rnd 1: sc in each st around. (60 sc)\n"
        "Rnd 2: *sc in next st, ch 1, sk next st; rep from * around. (30 sc, 30 ch-1 sp)\n"
        "Rnd 3: sc in each sc and in each ch-1 sp around. (60 sc)\n"
        "Rnd 4: *sc in next 4 sts, sc2tog; rep from * around. (50 sts)",
        crochet(Terms::us, true));
    EXPECT_EQ(kinds_of(crown.rows.totals()),
              (Kinds{{"sc", 60 + 30 + 60 + 40}, {"ch", 30}, {"sc2tog", 10}}));
}

// https://www.thriftyfun.com/tf41072356.tip.html?print : the 22 in hat, 378 dc and 1485 sc.
TEST(Published, BrimmedHat) {
    const NotationResult hat = clean(
        "Make a magic ring.\n"
        "Rnd 1: 12 dc in ring. (12 dc)\n"
        "Rnd 2: 2 dc in each st around. (24 dc)\n"
        "Rnd 3: *dc in next st, 2 dc in next st; rep from * around. (36 dc)\n"
        "Rnd 4: *dc in next 2 sts, 2 dc in next st; rep from * around. (48 dc)\n"
        "Rnd 5: *dc in next 3 sts, 2 dc in next st; rep from * around. (60 dc)\n"
        "Rnd 6: *dc in next 9 sts, 2 dc in next st; rep from * around. (66 dc)\n"
        "Rnds 7 and 8: sc in each st around.\n"
        "Rnd 9: dc in each st around. (66 dc)\n"
        "Rnds 10 and 11: rep rnds 7 and 8.\n"
        "Rnd 12: as rnd 9.\n"
        "Rnds 13-15: with CC, sc in each st around. (66 sc)\n"
        "Rnd 16: with MC, *sc in next 5 sts, 2 sc in next st; rep from * around. (77 sc)\n"
        "Rnd 17: sc in each st around.\n"
        "Rnd 18: *sc in next 6 sts, 2 sc in next st; rep from * around. (88 sc)\n"
        "Rnd 19: sc in each st around.\n"
        "Rnd 20: *sc in next 7 sts, 2 sc in next st; rep from * around. (99 sc)\n"
        "Rnds 21-26: sc in each st around. (99 sc)",
        crochet(Terms::us, true));
    EXPECT_EQ(kinds_of(hat.rows.totals()), (Kinds{{"dc", 378}, {"sc", 1485}}));
    std::int64_t contrast = 0;
    for (std::int64_t round = 13; round <= 15; ++round) contrast += whole(hat.rows.row(round).made);
    EXPECT_EQ(contrast, 198);
}

// https://heather-thegoodlife.blogspot.com/2010/10/29-stitches.html : 29 sc, then in every row one
// sc and 14 times dc and sc in one stitch.
TEST(Published, TexturedCloth) {
    const NotationResult cloth = clean(
        "Ch 30.\n"
        "Row 1: sc in 2nd ch from hook and in each ch across. (29 sc)\n"
        "Row 2: ch 1, turn, sc in first st, *sk next st, (dc, sc) in next st; rep from * across. "
        "(29 "
        "sts)\n"
        "Rows 3-30: rep row 2.",
        crochet());
    EXPECT_EQ(kinds_of(cloth.rows.row(30).kinds), (Kinds{{"sc", 15}, {"dc", 14}, {"ch", 1}}));
}

// http://postcardsfromhappytown.blogspot.com/2014/04/crochet-pattern-striped-baby-blanket.html :
// 136 stitches of nine checks of 15 and one more. The page has its repeat of 30 stitches worked
// "6 more times", with 16 to follow: 7 x 30 + 16 = 226.
TEST(Published, ChecksWhoseRepeatDoesNotFit) {
    const NotationResult blanket = work_rows(
        "Ch 137.\n"
        "Row 1: sc in 2nd ch from hook and in each ch across. (136 sc)\n"
        "Row 2: ch 1, turn, *sc in next 15 sts, fpdc around each of next 15 sts; rep from * 6 more "
        "times, sc in next 16 sts.",
        crochet());
    EXPECT_THAT(complaints(blanket),
                ElementsAre("stop 3:8 row 2: the row takes 226 stitches, the row below has 136"));
    EXPECT_EQ(blanket.rows.findings.back().remedy,
              "It fits when the repeat is worked 4 times in all.");
}

// http://cromulentknitter.blogspot.com/2006/10/math-for-doilies-and-shawls-part-2.html : 16 rounds
// of 8, 8, 16, 16, ..., 64, 64 stitches: 576 in all, 160 after round 8, 288 after round 11.
TEST(Published, Doily) {
    std::string rounds = "Rnd 1: 8 sc in ring. (8)\n";
    for (std::int64_t round = 2; round <= 16; ++round) {
        const std::string label = "Rnd " + std::to_string(round) + ": ";
        const std::int64_t stitches = 8 * ((round + 1) / 2);
        if (round % 2 == 0)
            rounds += label + "sc in each st around. (" + std::to_string(stitches) + " sts)\n";
        else if (round == 3)
            rounds += label + "2 sc in each st around. (16 sts)\n";
        else
            rounds += label + "*sc in next " + std::to_string(stitches / 8 - 2) +
                      " sts, 2 sc in next st; rep from * around. (" + std::to_string(stitches) +
                      " sts)\n";
    }
    const NotationResult doily = clean(rounds, crochet(Terms::us, true));
    std::vector<std::int64_t> sums{0};
    for (std::int64_t round = 1; round <= 16; ++round)
        sums.push_back(sums.back() + whole(doily.rows.row(round).made));
    EXPECT_EQ(sums[16], 576);
    EXPECT_EQ(sums[8], 160);
    EXPECT_EQ(sums[11], 288);
}

}  // namespace
}  // namespace skeinfall::notation
