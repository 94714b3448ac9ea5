// One row in the many ways makers write it: every spelling is understood and comes to the same.
// Expected counts are worked out by hand; the spellings are common practice, no source.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "helpers.hpp"

namespace skeinfall::notation::spellings {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;

RowWork last(const std::string& text, const NotationOptions& options) {
    const NotationResult result = work_rows(text, options);
    EXPECT_THAT(problems(result), IsEmpty()) << text;
    EXPECT_THAT(complaints(result), IsEmpty()) << text;
    return result.rows.stated() ? result.rows.row(result.rows.rows()) : RowWork{};
}

const std::string ten = "Ch 11.\nRow 1: sc in 2nd ch from hook and in each ch across. (10 sc)\n";

TEST(Spellings, AFirstRowOfSingleCrochet) {
    for (const char* rows :
         {"Ch 11. Row 1: sc in 2nd ch from hook and in each ch across. (10 sc)",
          "CH11\nR1: sc in 2nd ch from hook and each ch across (10)",
          "Chain 11.\nRow 1 (RS): Single crochet in second chain from hook and in each chain "
          "across. 10 sc.",
          "ch 11\n1st row: 1 sc into 2nd ch from the hook, 1 sc into each ch to end. [10 sts]",
          "Ch 11, turn.\nFirst row: starting in the 2nd ch from hook, sc in each ch across. "
          "10 sts. Turn.",
          "Ch 11\nRow 1: sc in each ch across, beginning in 2nd ch from hook - 10 sc",
          "With MC and a 5 mm hook, ch 11.\nRow 1: sc in 2nd ch from hook and across = 10",
          "Ch 11\nRow 1 (foundation row): sk first ch, sc in each ch along (10 sts)"}) {
        const RowWork row = last(rows, crochet());
        EXPECT_EQ(kinds_of(row.kinds), (Kinds{{"sc", 10}})) << rows;
        EXPECT_EQ(whole(row.consumed), 11) << rows;
    }
}

TEST(Spellings, ARowOfSingleCrochet) {
    for (const char* row :
         {"Row 2: ch 1, turn, sc in each st across. (10 sts)", "R2: ch1, turn; sc across",
          "Row 2: Ch 1 and turn. Sc in each sc across. 10 sc. Fasten off.",
          "2nd row: 1 ch, turn, 1 sc in each sc to end", "Row 2: ch 1, turn, sc even",
          "Row 2: ch 1, turn, 10 sc", "Row 2: ch 1, turn, sc10", "Row 2: ch 1, turn, sc x 10",
          "Row 2: ch 1, turn, sc in next ten sts", "Row 2: ch 1, turn, sc all the way across",
          "Row 2: ch 1, turn, sc blo across", "Row 2: ch 1, turn, sc in blo of each st across",
          "Row 2: ch 1, turn, working in back loops only, sc in each st across",
          "Row 2 (WS): ch 1, turn, sc in each st, working last st in top of turning chain",
          "Row 2: ch 1, turn, sc in each st across, changing to B in last st"}) {
        EXPECT_EQ(kinds_of(last(ten + row, crochet()).kinds), (Kinds{{"sc", 10}, {"ch", 1}}))
            << row;
    }
    EXPECT_EQ(
        kinds_of(
            last(ten + "Row 2: join yarn with sc in first st, sc in next 9 sts.", crochet()).kinds),
        (Kinds{{"sc", 10}}));
}

TEST(Spellings, RoundsOfASphere) {
    for (const char* third :
         {"(sc 1, inc) x 6 (18)", "(1sc, 1inc)*6 [18]", "(sc, inc) x6 - 18 sts",
          "[sc in next st, 2 sc in next st] six times. 18 sc.",
          "*sc in next st, 2 sc in next st* 6x (18)",
          "*sc in next st, inc in next st; rep from *. (18)", "sc 1, inc, repeat around (18)",
          "[sc in next st, inc] around. Join with sl st. (18 sts)"}) {
        const RowWork row = last(
            "Magic ring.\nR1: 6sc in mr (6)\nRnd 2: inc x 6 (12)\nRnd 3: " + std::string(third),
            crochet(Terms::us, true));
        EXPECT_EQ(whole(row.made), 18) << third;
        EXPECT_EQ(whole(row.consumed), 12) << third;
    }
}

TEST(Spellings, ARingAndAJoinedChain) {
    const std::string round =
        "\nRnd 1: ch 3, 11 dc in ring, join with sl st to top of ch 3 to "
        "close. (12 dc)";
    for (const char* ring : {"Ch 4, sl st in first ch to form ring.", "Ch 4, join to form a ring.",
                             "Chain 4 and join with a slip stitch into a ring."})
        EXPECT_EQ(whole(last(ring + round, crochet(Terms::us, true)).made), 12) << ring;
    for (const char* joined :
         {"Ch 40, join.\nRnd 1: ch 1, sc in same st as joining and in each ch around, join. (40)",
          "Ch 40, being careful not to twist, join with sl st in first ch to form a ring.\n"
          "Rnd 1: ch 1, sc in each ch around, join. (40 sc)"}) {
        const RowWork row = last(joined, crochet(Terms::us, true));
        EXPECT_EQ(whole(row.made), 40) << joined;
        EXPECT_EQ(whole(row.consumed), 40) << joined;
    }
}

TEST(Spellings, TheLastRepeatEndsOtherwise) {
    const RowWork shells = last(
        "Ch 26.\nRow 1: sc in 2nd ch from hook and in each ch across. (25 sc)\n"
        "Row 2: ch 1, turn, sc in first st, *sk 2 sts, 5 dc in next st, sk 2 sts, sc in next "
        "st; rep from * across. (5 sc, 20 dc)\n"
        "Row 3: ch 3, turn, 2 dc in first sc, *sk 2 dc, sc in next dc, sk 2 dc, 5 dc in next "
        "sc; rep from * across, ending with 3 dc in last sc. (4 sc, 21 dc)",
        crochet());
    // ch 3 and 2 dc, three times 5 dc, 3 dc
    EXPECT_EQ(kinds_of(shells.kinds), (Kinds{{"sc", 4}, {"dc", 20}, {"ch", 3}}));
    const RowWork rib = last("CO 11\nRow 1: work in k2, p2 rib.", knitting());
    EXPECT_EQ(kinds_of(rib.kinds), (Kinds{{"k", 6}, {"p", 5}}));
}

TEST(Spellings, TheTurningChainByName) {
    const std::string mesh =
        "Ch 20\nRow 1: sc in 2nd ch from hook and each ch across. (19 sc)\n"
        "Row 2: ch 4, turn (counts as first dc and ch 1), sk next sc, dc in next sc, *ch 1, sk "
        "next sc, dc in next sc; rep from * across. (10 dc, 9 ch-1 sps)\n";
    for (const char* row :
         {"sc in first dc, *sc in ch-1 sp, sc in next dc; rep from * across to "
          "t-ch, sc in t-ch sp, sc in 3rd ch of t-ch. (19 sc)",
          "sc in first dc, (sc in next ch-1 sp, sc in next dc) across. 19 sc.",
          "sc in each dc and ch-1 sp across. (19 sc)", "sc in each st of previous row. (19 sc)"})
        EXPECT_EQ(whole(last(mesh + "Row 3: ch 1, turn, " + row, crochet()).made), 19) << row;
    const RowWork round = last(
        "Rnd 1: Ch 4, 11 dc in 4th ch from hook, join. (12 dc)\n"
        "Rnd 2: Ch 3, dc in base of ch 3, 2 dc in each st around; join in "
        "3rd ch of beg ch-3. 24 dc.\n"
        "Rnd 3: Sl st in next dc, ch 5 (counts as dc and ch 2), *skip next "
        "dc, dc in next dc, ch 2; repeat from * around; join. (12 ch-2 sps)",
        crochet(Terms::us, true));
    EXPECT_EQ(whole(round.made), 12);
}

TEST(Spellings, CornersOfABorder) {
    const RowWork row = last(
        "Rnd 1: 16 sc in ring.\n"
        "Rnd 2: *sc in next 3 sts, (sc, ch 2, sc) in next st; rep from * 3 "
        "more times; join. (20 sc, 4 ch-2 sps)\n"
        "Rnd 3: sc in each st around, working 3 sc in each corner ch-2 sp. "
        "(32 sc)",
        crochet(Terms::us, true));
    EXPECT_EQ(kinds_of(row.kinds), (Kinds{{"sc", 32}}));
}

TEST(Spellings, StitchesWorkedTogether) {
    for (const char* row : {"sc2tog, sc in next 6 sts, sc2tog over last 2 sts. (8 sc)",
                            "dec over first 2 sts, sc to last 2 sts, dec. (8)",
                            "sc2tog over first 2 sts, sc in each st across to last 2 sts, sc2tog",
                            "sc across, dec 2 sts evenly. (8 sts)"})
        EXPECT_EQ(kinds_of(last(ten + "Row 2: ch 1, turn, " + row, crochet()).kinds),
                  (Kinds{{"sc", 6}, {"sc2tog", 2}, {"ch", 1}}))
            << row;
    EXPECT_EQ(
        kinds_of(
            last(ten + "Row 2: ch 1, turn, 3-dc cluster in next st, sc to end.", crochet()).kinds),
        (Kinds{{"sc", 9}, {"dc3tog", 1}, {"ch", 1}}));
}

TEST(Spellings, RowsAgain) {
    const std::string two = ten + "Row 2: ch 1, turn, sc in each st across. ";
    for (const char* again :
         {"Rep row 2 for 8 rows more.", "\nRows 3-10: Repeat row 2. (10 sc) Fasten off.",
          "\nR3-R10: rep R2", "\nRepeat 2nd row eight times.", "\nRows 3 to 10: as row 2.",
          "\nRows 3-10: rep row 2 until piece measures 5 in, ending with a WS row.",
          "\nRows 3 and 4: alternate rows 2 and 2.\nWork rows 3 and 4 three times."}) {
        const NotationResult result = work_rows(two + again, crochet());
        EXPECT_THAT(problems(result), IsEmpty()) << again;
        EXPECT_THAT(complaints(result), IsEmpty()) << again;
        EXPECT_EQ(result.rows.rows(), 10) << again;
    }
}

// "(8 sts)" of a row that decreases holds where it is written; of rows written together it holds
// in the last of them; behind "rep" it holds in the last row repeated.
TEST(Spellings, ACountHoldsInOneRow) {
    const std::string row = "Row 2: ch 1, turn, sc2tog, sc to end. (9 sts)\n";
    EXPECT_EQ(whole(last(ten + row + "Rows 3-6: rep row 2. (5 sts)", crochet()).made), 5);
    EXPECT_EQ(whole(last(ten + "Rows 2-6: ch 1, turn, sc2tog, sc to end. (5 sts)", crochet()).made),
              5);
    EXPECT_THAT(complaints(work_rows(ten + row + "Rows 3-6: rep row 2. (6 sts)", crochet())),
                testing::ElementsAre("stop 4:23 row 6: the pattern says 6 stitches; these "
                                     "words make 5"));
    EXPECT_THAT(
        complaints(work_rows(ten + "Rows 2-6: ch 1, turn, sc in each st. (12 sts)", crochet())),
        testing::ElementsAre(HasSubstr("row 6: the pattern says 12 stitches")));
}

TEST(Spellings, UkRows) {
    const RowWork row = last(
        "Make 26 ch.\n1st row: 1 dc into 2nd ch from hook, 1 dc in each ch "
        "along. [25 dc]\n2nd row: 3 ch (counts as first tr), miss first st, 1 "
        "tr in each st to end, turn. 25 tr.\nRow 3: 1ch, *miss 2 sts, (2tr, "
        "1ch, 2tr) into next st, miss 2 sts; rep from * to end.",
        crochet(Terms::uk));
    EXPECT_EQ(kinds_of(row.kinds), (Kinds{{"dc", 20}, {"ch", 6}}));
}

TEST(Spellings, Knitting) {
    for (const char* rows :
         {"Cast on 40 stitches.\nKnit 6 rows.", "CO 40\nRows 1-6: Knit every row.",
          "With MC and 4 mm needles, cast on 40 sts.\nRows 1-6: work in garter "
          "stitch.",
          "CO 40\nWork 6 rows in St st.",
          "CO 40\nRow 1: k all sts. Row 2: k.\n"
          "Rep rows 1-2 twice."}) {
        const NotationResult result = work_rows(rows, knitting());
        EXPECT_THAT(problems(result), IsEmpty()) << rows;
        EXPECT_THAT(complaints(result), IsEmpty()) << rows;
        EXPECT_EQ(result.rows.rows(), 6) << rows;
        EXPECT_EQ(kinds_of(result.rows.totals()), (Kinds{{"k", 240}})) << rows;
    }
    for (const char* row :
         {"dec row: k1, ssk, k to last 3 sts, k2 tog, k1", "k, dec 2 sts evenly across",
          "k2, sl 1, k1, psso, k to last 4 sts, k2tog, k2",
          "bind off 2 sts at beg of row, k to end", "K2TOG, knit to last 2 sts, skpo",
          "k1, sl2 knitwise, k1, p2sso, k to end"})
        EXPECT_EQ(whole(last("CO 20\nRow 1: " + std::string(row) + " - 18 sts", knitting()).made),
                  18)
            << row;
    for (const char* row : {"k1, m1, k to last st, m1, k1", "k1, make 1, k to last st, make 1, k1",
                            "kfb, k to last st, kfb", "kfbf, k to end", "inc 2 sts evenly across",
                            "inc in first st, k to last st, inc in last st"})
        EXPECT_EQ(whole(last("CO 20\nRow 1: " + std::string(row) + ". 22 sts.", knitting()).made),
                  22)
            << row;
    EXPECT_EQ(kinds_of(last("CO 16\nRow 1: k2p2, c4f, k1-b, p to end.", knitting()).kinds),
              (Kinds{{"k", 7}, {"p", 9}}));
}

TEST(Spellings, AStitchThatPatternsDefineThemselves) {
    const NotationResult result =
        work_rows(ten + "Row 2: ch 1, turn, *sc in next st, zigzag; rep from * across.", crochet());
    EXPECT_THAT(complaints(result), Contains(HasSubstr("3:36 \"zigzag\" is no known")));
    EXPECT_THAT(result.rows.findings.front().remedy, HasSubstr("[stitch.zigzag] of = "));
}

}  // namespace
}  // namespace skeinfall::notation::spellings
