// Knitting as leaflets, blogs and old magazines word it: heels, needles within a row, what stands
// behind a repeat. Patterns are of our own; counts are worked out by hand.

#include <numeric>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "page_reading.hpp"

namespace skeinfall::notation::knit_leaflets {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

/// How many stitches each row works, whatever else is on the needles.
std::vector<std::int64_t> worked_in(const Section& section) {
    std::vector<std::int64_t> out;
    for (const std::uint32_t row : section.rows.order) {
        const auto kinds = kinds_of(section.rows.distinct[row].kinds);
        out.push_back(
            std::accumulate(kinds.begin(), kinds.end(), std::int64_t{0},
                            [](std::int64_t sum, const auto& kind) { return sum + kind.second; }));
    }
    return out;
}

// A flap over 32 of 64: 32 stitches a row, not 64.
TEST(KnitLeaflets, AHeelFlapInASentenceOfItsOwnLeavesTheOthersWaiting) {
    const Document next = knit_page(
        "Sock\n\nCast on 64 sts and join in the round.\n"
        "Heel flap is worked back and forth over the next 32 sts.\n"
        "Row 1: *Sl 1, k1; rep from * to end.\nRow 2: Sl 1, purl to end.\n");
    ASSERT_EQ(next.sections.size(), 1U);
    EXPECT_THAT(worked_in(next.sections.front()), ElementsAre(32, 32));
    // 16 knitted and the 16 before them: the turn is said, or the wrong side comes next.
    for (const std::string turn : {" Turn.", ""})
        for (const std::string apart : {" ", "\n"}) {
            const Document these = knit_page(
                "Sock\n\nCast on 64 sts and join in the round.\n"
                "Knit 16 sts from Needle 1 onto Needle 3." +
                apart + "Heel flap is worked back and forth over these 32 sts." + turn +
                "\nRow 1 (WS): Sl 1, purl to end.\nRow 2 (RS): *Sl 1, k1; rep from * to end.\n");
            ASSERT_EQ(these.sections.size(), 1U);
            EXPECT_THAT(worked_in(these.sections.front()), ElementsAre(16, 32, 32)) << turn;
        }
}

// "Knit 16." of 64 is no row of 64.
TEST(KnitLeaflets, OnePlainNumberIsNotWorkedAgainToTheEnd) {
    const Document sock = knit_page("Sock\n\nCast on 64 sts and join in the round.\nKnit 16.\n");
    EXPECT_THAT(rows_told(sock), ElementsAre("0 x 64", "1 x ?"));
}

// 24 twice, then half the rounds of increases: 28, 28, 60. Short rows 29, 28 to 10: 20 rows and 20
// back.
TEST(KnitLeaflets, AToeAndAHeelOfShortRows) {
    const Document sock = knit_page(
        "Sock\n\nCO 24 sts and join in the round.\n"
        "Rnd 1: *K1, M1R, knit to last st on needle, M1L, k1; rep from * on second needle. (28 "
        "sts)\nRnd 2: Knit.\nRepeat rnds 1 and 2 until there are 60 sts (30 per needle).\n"
        "Work back and forth on first 30 sts only.\nRow 1 (RS): K29, w&t.\nRow 2: P28, w&t.\n"
        "Row 3: Knit to 1 st before wrapped st, w&t.\nRow 4: Purl to 1 st before wrapped st, w&t.\n"
        "Repeat rows 3 and 4 until 10 sts remain unwrapped in the center.\n"
        "Next row: Knit to first wrapped st, knit it together with its wrap, turn.\n"
        "Next row: Purl to first wrapped st, purl it together with its wrap, turn.\n"
        "Repeat last 2 rows until all wrapped sts have been worked.\n");
    EXPECT_THAT(rows_told(sock),
                ElementsAre("0 x 24", "1 x 28", "1 x 28", "16 x 60", "1 x 60", "1 x 60", "1 x 60",
                            "1 x 60", "16 x 60", "1 x 60", "1 x 60", "18 x 60"));
    EXPECT_EQ(sock.sections.front().rows.order.size(), 58U);
    const Document odd = knit_page(
        "Sock\n\nCO 30 sts.\nRow 1: K29, w&t.\nRow 2: P28, w&t.\n"
        "Row 3: Knit to 1 st before wrapped st, w&t.\nRow 4: Purl to 1 st before wrapped st, w&t.\n"
        "Repeat rows 3 and 4 until 9 sts remain unwrapped.\n");
    EXPECT_THAT(rows_told(odd),
                ElementsAre("0 x 30", "1 x 30", "1 x 30", "1 x 30", "1 x 30", "0 x ?"));
}

// 82 = 18 + 16 + 32 + 16; 80.
TEST(KnitLeaflets, NeedlesNamedWithinTheRow) {
    const Document sock = knit_page(
        "Sock\n\nCast on 82 sts and join in the round.\n"
        "Rnd 1: Knit to last 3 sts on Needle 1, k2tog, k1; knit across Needle 2; on Needle 3, k1, "
        "ssk, knit to end. 80 sts.\nRnd 2: Knit.\nRep rnds 1 and 2 until 64 sts remain.\n");
    EXPECT_THAT(rows_told(sock), ElementsAre("0 x 82", "1 x 80", "1 x 80", "16 x 64"));
    EXPECT_EQ(sock.sections.front().rows.order.size(), 18U);
}

// 8 rows 6 times are 48 with the first; 4 more of them, and one.
TEST(KnitLeaflets, RowsBehindARepeat) {
    const Document cloth = knit_page(
        "Cloth\n\nCO 20 sts.\nRow 1: Knit.\nRow 2: Purl.\nRow 3: *K1, p1; rep from * to end.\n"
        "Row 4: Purl.\nRep rows 1-4 five more times, then rows 1-2 once.\nBind off.\n");
    EXPECT_THAT(rows_told(cloth), ElementsAre("0 x 20", "1 x 20", "1 x 20", "1 x 20", "1 x 20",
                                              "20 x 20", "2 x 20", "1 x 0"));
    // The first of the last two is row 3, not row 1 of the piece.
    const Document sole = knit_page(
        "Sole\n\nCO 20 sts.\nRow 1: Knit.\nRow 2: K2tog, k to end.\nRow 3: Inc in first st, k to "
        "end.\nRow 4: Knit.\nRep last 2 rows 3 times more, then first of these rows once.\n");
    EXPECT_THAT(rows_told(sole),
                ElementsAre("0 x 20", "1 x 20", "1 x 19", "1 x 20", "1 x 20", "6 x 23", "1 x 24"));
}

// 19 ridges are 38 rows: one stands above.
TEST(KnitLeaflets, RowsByRidges) {
    EXPECT_THAT(
        rows_told(knit_page("Coaster\n\nCO 20 sts.\nRow 1: Knit.\nRepeat row 1 until 38 rows "
                            "(19 garter ridges) have been worked.\n")),
        ElementsAre("0 x 20", "1 x 20", "37 x 20"));
    EXPECT_THAT(
        rows_told(knit_page("Slipper\n\nCO 20 sts.\nRow 1: K9, p2, k9.\nRow 2: Knit.\nRepeat "
                            "these 2 rows until you have 20 ridges (40 rows).\n")),
        ElementsAre("0 x 20", "1 x 20", "1 x 20", "38 x 20"));
}

// 80 - 10, and 60 behind a plain round.
TEST(KnitLeaflets, ShapingAndItsFirstRowInOneLine) {
    EXPECT_THAT(rows_told(knit_page("Hat\n\nCast on 80 sts and join in the round.\n"
                                    "Shape top: 1st rnd: *K6. K2tog. Rep from * around. 70 sts.\n"
                                    "2nd and alt rnds: Knit.\n"
                                    "3rd rnd: *K5. K2tog. Rep from * around. 60 sts.\n"
                                    "4th to 6th rnds: Knit.\n")),
                ElementsAre("0 x 80", "1 x 70", "1 x 70", "1 x 60", "3 x 60"));
}

TEST(KnitLeaflets, ACountBehindAStarThatNothingCloses) {
    EXPECT_THAT(rows_told(knit_page("Thumb\n\nCast on 12 sts and join in the round.\n"
                                    "Next rnd: *K2tog around. 6 sts. Break yarn.\n")),
                ElementsAre("0 x 12", "1 x 6"));
    EXPECT_THAT(rows_told(knit_page("Thumb\n\nCast on 12 sts and join in the round.\n"
                                    "Knit to end of rnd. 11 sts.\n")),
                ElementsAre("0 x 12", "1 x ?"));
}

// 41 held and 4 picked up, for both sleeves; 2 picked up twice, where a count behind the join
// holds.
TEST(KnitLeaflets, SleevesFromHeldStitches) {
    const std::string body =
        "Yoke\n\nCast on 100 sts and join in the round.\n"
        "Next rnd: Knit 18, place next 41 sts on holder, place next 41 sts on holder. 18 sts.\n"
        "Bind off.\n";
    const std::string sleeve =
        "Place 41 sleeve sts on dpns. Join yarn at underarm, pick up and knit 4 sts, knit to end "
        "of rnd. 45 sts.\nKnit 6 rnds.\nDec rnd: K1, k2tog, k to last 3 sts, ssk, k1.\n"
        "Rep Dec rnd every 4th rnd 2 times more.\nBO.\n";
    const auto both =
        ElementsAre("0 x 100", "1 x 18", "1 x 0", "1 x 45", "6 x 45", "1 x 43", "8 x 39", "1 x 0",
                    "1 x 45", "6 x 45", "1 x 43", "8 x 39", "1 x 0");
    EXPECT_THAT(rows_told(knit_page(body + "SLEEVES (make 2)\n" + sleeve)), both);
    const Document second =
        knit_page(body + "Sleeve\n" + sleeve + "Work second sleeve in the same way.\n");
    EXPECT_THAT(rows_told(second), both);
    EXPECT_THAT(lines_that_may_work(second), IsEmpty());
    EXPECT_THAT(lines_that_may_work(
                    knit_page(body + "SLEEVES (make 2)\nRow 1: Place 41 held sts on needles, "
                                     "k to end.\nRow 2: Purl.\nRep rows 1 and 2 twice.\n")),
                testing::SizeIs(1));
    const auto twice = [&](const std::string& count) {
        return rows_told(knit_page(body +
                                   "Sleeves\nPlace 41 sleeve sts on needles. Pick up 2 sts at "
                                   "underarm, knit across, pick up 2 sts at underarm. Join in "
                                   "the round. " +
                                   count + " sts.\n"));
    };
    EXPECT_THAT(twice("45"), ElementsAre("0 x 100", "1 x 18", "1 x 0", "1 x 45"));
    EXPECT_THAT(twice("46"), ElementsAre("0 x 100", "1 x 18", "1 x 0", "1 x ?"));
}

// 12 short of the row that a sentence tells, and no row of "Continue in pattern."
TEST(KnitLeaflets, RowsInSentences) {
    EXPECT_THAT(
        rows_told(knit_page("Hat\n\nCast on 40 sts.\nKnit 4 rows.\n"
                            "The next row is a decrease row. Knit 2 stitches together across "
                            "the row. (20 sts)\nThe next row, purl across.\nPurl another "
                            "row.\n")),
        ElementsAre("0 x 40", "4 x 40", "1 x 20", "1 x 20", "1 x 20"));
    EXPECT_THAT(
        rows_told(knit_page("Shawl\n\nCO 5 sts.\nRow 1: K1, yo, k to last st, yo, k1.\nRow 2: "
                            "Knit.\nContinue established pattern.\n")),
        ElementsAre("0 x 5", "1 x 7", "1 x 7", "0 x ?"));
    EXPECT_THAT(
        rows_told(knit_page("Scarf\n\nCast on 39 stitches.\nRow 1: *K2, p2; rep from * to last "
                            "3 sts, k2, p1.\nRepeat this row. That's it!\n")),
        ElementsAre("0 x 39", "1 x 39", "19 x 39"));
}

TEST(KnitLeaflets, JoinedSeamsAreNoRounds) {
    EXPECT_FALSE(knit_page("Bootees\n\nCast on 37 sts.\nKnit 4 rows.\nCast off. Join seams.\n")
                     .sections.front()
                     .round);
    EXPECT_FALSE(knit_page("Band\n\nCast on 37 sts.\nKnit 4 rows.\nCast off and join ends.\n")
                     .sections.front()
                     .round);
}

// 30 and rising never come to 10; how many needles there are is not said.
TEST(KnitLeaflets, AGoalThatIsNeverMetIsTold) {
    const std::string rows =
        "Scarf\n\nCast on 30 sts and join in the round.\nRnd 1: K1, m1, k to end.\nRnd 2: Knit.\n"
        "Rnd 3: K1, m1, k to end.\n";
    EXPECT_THAT(rows_told(knit_page(rows + "Continue thus until you have 10 sts.\n")).back(),
                testing::EndsWith("?"));
    EXPECT_THAT(
        rows_told(knit_page(rows + "Continue thus until you have 20 sts on each needle.\n")).back(),
        testing::EndsWith("?"));
    EXPECT_EQ(rows_told(knit_page(rows + "Continue thus until you have 40 sts.\n")).back(),
              "16 x 40");
}

// An inch is 5 rows less than the wished 20; rows farther up are not gone on with.
TEST(KnitLeaflets, LengthsLeftToTheMakerWithoutANumber) {
    const std::string rows = "Scarf\n\nCast on 30 sts.\nRow 1: Knit.\nRow 2: Purl.\n";
    EXPECT_EQ(
        rows_told(knit_page(rows + "Repeat rows 1 and 2 until it is desired length minus about an "
                                   "inch.\n"))
            .back(),
        "12 x 30");
    EXPECT_EQ(
        rows_told(knit_page(rows + "Repeat rows 1 and 2 until it is about an inch shorter than you "
                                   "would like.\n"))
            .back(),
        "12 x 30");
    EXPECT_EQ(
        rows_told(knit_page(rows + "Row 3: K1, p1.\nRow 4: P1, k1.\nRepeat rows 1-2.\n")).back(),
        "0 x ?");
}

// Slipped with the yarn in front: 10 and no more.
TEST(KnitLeaflets, AForwardBeforeAStitchSlippedPurlwise) {
    EXPECT_THAT(
        rows_told(knit_page("Blanket\n\nCast on 10 sts.\nRow 1: K9, YF, Slip 1 purlwise\nRow 2: "
                            "K9, yf, sl1P\nRow 3: K1, yf, sl 1, k1, psso, k7.\n")),
        ElementsAre("0 x 10", "1 x 10", "1 x 10", "1 x 10"));
}

// 8 and 8 with 8 new ones between them, whatever leads to the row.
TEST(KnitLeaflets, StitchesBeforeACastOnWithinARow) {
    EXPECT_THAT(
        rows_told(knit_page("Bootie\n\nCast on 35 sts\nK8, bind off 19, K8\n"
                            "Next make the strap by casting on new stitches in the middle:\n"
                            "K8, cast on 8 sts, K8\nK all sts for 4 rows\n")),
        ElementsAre("0 x 35", "1 x 16", "1 x 24", "4 x 24"));
}

// A forward beside a slipped stitch makes none: 31.
TEST(KnitLeaflets, AForwardBesideASlippedStitch) {
    EXPECT_THAT(rows_told(knit_page("Scarf\n\nCast on 31 sts.\nRow 1: *k3, yfwd, slip st as if to "
                                    "purl, yb* repeat ** to last 3 sts, k3\n")),
                ElementsAre("0 x 31", "1 x 31"));
    EXPECT_THAT(
        rows_told(knit_page("Vest\n\nCast on 32 sts.\nNext row.-K.2, * wl.fwd., K.2 tog., k1; "
                            "rep. from * to end.\n")),
        ElementsAre("0 x 32", "1 x 32"));
}

// Named before the piece, with what it is a multiple of: 34 sts; 10 cm are 20 rows.
TEST(KnitLeaflets, AStitchPatternOverAnEvenNumber) {
    const Document scarf = knit_page(
        "Scarf\n\nGauge: 18 sts and 20 rows = 10 cm in Moss st\n\n"
        "Moss Stitch (over an even number of sts)\nRow 1 (RS): *K1, p1; rep from * to end.\n"
        "Rows 2 and 3: *P1, k1; rep from * to end.\nRow 4: *K1, p1; rep from * to end.\n"
        "Rep Rows 1-4 for pattern.\n\nSCARF\nCO 34 sts.\nKnit 4 rows.\n"
        "Work in Moss st until piece measures 10 cm, ending with a WS row.\n");
    ASSERT_EQ(scarf.sections.size(), 1U);
    EXPECT_THAT(lines_that_may_work(scarf), IsEmpty());
    EXPECT_EQ(scarf.sections.front().rows.order.size(), 20U);
}

// 60 - 8 - 8, then up to the armholes alone.
TEST(KnitLeaflets, AFrontLikeTheBackUpToItsArmholes) {
    const std::string back =
        "Vest\n\nBACK\nCast on 60 sts.\nWork 10 rows in k1, p1 rib.\n"
        "Bind off 4 sts at beginning of next 2 rows. 52 sts.\n"
        "Dec 1 st at each end of every other row 3 times. 46 sts.\nWork 10 rows even.\nBind "
        "off.\n\n";
    EXPECT_THAT(
        rows_told(knit_page(back + "FRONT\nWork same as back until armholes have been bound "
                                   "off.\nWork 4 rows even.\n")),
        ElementsAre("0 x 60", "10 x 60", "2 x 52", "6 x 46", "10 x 46", "1 x 0", "0 x 60",
                    "10 x 60", "2 x 52", "4 x 52"));
    EXPECT_THAT(
        rows_told(knit_page(back + "FRONT\nWork as for back until armhole shaping is complete. "
                                   "46 sts.\nWork 4 rows even.\n")),
        ElementsAre("0 x 60", "10 x 60", "2 x 52", "6 x 46", "10 x 46", "1 x 0", "0 x 60",
                    "10 x 60", "2 x 52", "6 x 46", "4 x 46"));
    EXPECT_THAT(rows_told(knit_page(back + "FRONT\nWork as back to armhole shaping.\nBind off.\n")),
                ElementsAre("0 x 60", "10 x 60", "2 x 52", "6 x 46", "10 x 46", "1 x 0", "0 x 60",
                            "10 x 60", "1 x 0"));
}

TEST(KnitLeaflets, PiecesThatAreBothAlikeAreMadeTwice) {
    const Document vest = knit_page(
        "Vest\n\nBACK AND FRONT (both alike)\nCast on 30 sts.\nKnit 4 rows.\nBind off.\n");
    ASSERT_EQ(vest.sections.size(), 1U);
    EXPECT_EQ(vest.sections.front().times, 2);
}

// 6 rows, 18 more and the bind-off, though row 7 is known from "all odd rows", too.
TEST(KnitLeaflets, RepeatsFollowTheirBlockThoughTheNextRowIsKnown) {
    for (const char* text :
         {"Hat\nCast on 50 sts.\nRows 1 and alt rows (WS): Purl.\nRow 2: Knit.\nRow 4: Knit.\n"
          "Row 6: Knit.\nRep these six rows 3 more times.\nBind off.\n",
          "Hat\nCast on 50 sts.\nRow 1 and all odd rows: Purl.\nRow 2: Knit.\nRow 4: Knit.\n"
          "Row 6: Knit.\nRep rows 1-6 3 more times.\nBind off.\n",
          "Hat\nCast on 50 sts.\nRow 1: Knit.\nRow 2 and all even rows: Purl.\nRow 3: Knit.\n"
          "Row 5: Knit.\nRep rows 1-6 3 more times.\nBind off.\n"}) {
        const Document hat = knit_page(text);
        ASSERT_EQ(hat.sections.size(), 1U) << text;
        EXPECT_THAT(lines_that_may_work(hat), IsEmpty()) << text;
        EXPECT_EQ(hat.sections.front().rows.order.size(), 25U) << text;
    }
}

TEST(KnitLeaflets, TheOthersOfARowWithItsNumberAreLikeIt) {
    const Document hat = knit_page(
        "Hat\nCast on 50 sts.\nRow 1 and all WS rows: Purl.\nRow 2: Knit.\nRow 4: "
        "Knit.\nBind off.\n");
    ASSERT_EQ(hat.sections.size(), 1U);
    EXPECT_THAT(lines_that_may_work(hat), IsEmpty());
    EXPECT_EQ(hat.sections.front().rows.order.size(), 5U);
}

// 5 + 4 x 6 = 29 rows of increases behind 6 of garter stitch, then to 50 of 2 rows a centimetre.
TEST(KnitLeaflets, LengthsCountRowsThatAreRepeatedUntilACountIsReached) {
    const Document sleeve = knit_page(
        "Sleeve\nTension: 22 sts and 20 rows = 10 cm\nCast on 32 sts.\nWork 6 rows in "
        "g-st.\nChange to 4mm needles and st-st.\nInc 1 st at each end of 5th and every "
        "foll 6th row to 42 sts.\nCont straight until sleeve measures 25 cm, ending with "
        "a p row.\nCast off.\n");
    ASSERT_EQ(sleeve.sections.size(), 1U);
    EXPECT_THAT(lines_that_may_work(sleeve), IsEmpty());
    EXPECT_EQ(sleeve.sections.front().rows.order.size(), 51U);
}

}  // namespace
}  // namespace skeinfall::notation::knit_leaflets
