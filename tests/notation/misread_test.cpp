// Words that once were passed over in silence, or read as something else. Each comes to its count,
// or is told. Expected counts are worked out by hand.

#include <cstdint>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "helpers.hpp"

namespace skeinfall::notation {
namespace {

using testing::IsEmpty;

std::vector<std::int64_t> counts(const std::string& text, const NotationOptions& options) {
    const NotationResult result = work_rows(text, options);
    EXPECT_THAT(problems(result), IsEmpty()) << text;
    EXPECT_THAT(complaints(result), IsEmpty()) << text;
    std::vector<std::int64_t> out;
    for (std::int64_t row = 1; row <= result.rows.rows(); ++row)
        out.push_back(whole(result.rows.row(row).made));
    return out;
}

NotationOptions round_knitting() {
    NotationOptions options = knitting();
    options.round = true;
    return options;
}

using Counts = std::vector<std::int64_t>;

TEST(Misread, TheStitchesOfAMagicRing) {
    EXPECT_EQ(counts("Make magic ring and work 6 hdc in ring.\nRnd 2: 2 hdc in each st around.",
                     crochet(Terms::us, true)),
              (Counts{6, 12}));
}

TEST(Misread, RoundsBehindAJoin) {
    EXPECT_EQ(counts("Cast on 72 sts, join in the round and knit 3 rounds in 2/2 ribbing.",
                     round_knitting()),
              (Counts{72, 72, 72}));
    EXPECT_EQ(counts("Cast on 22 stitches and knit 2 rows.", knitting()), (Counts{22, 22}));
}

// "K2tog." before other stitches is one of them, not a row of them.
TEST(Misread, FullStopsBetweenStitches) {
    EXPECT_EQ(counts("Cast on 12\nRow 1: K2tog. K8. K2tog.\nRow 2: P2tog. P to end.", knitting()),
              (Counts{10, 9}));
}

TEST(Misread, RowsOfWhichNothingElseIsSaid) {
    EXPECT_EQ(counts("CO 20\nRnd 1: knit\nWork 3 rounds.\nDo 2 more rounds without shaping.",
                     round_knitting()),
              (Counts{20, 20, 20, 20, 20, 20}));
}

// 24 and 2 more each time never come to 31.
TEST(Misread, ARepeatThatPassesItsCount) {
    NotationOptions options = knitting();
    options.lenient = true;
    const NotationResult result = work_rows(
        "CO 24\nRow 1: k1, m1, k to last st, m1, k1\nRow 2: p\n"
        "Repeat these 2 rows until there are 31 sts.",
        options);
    ASSERT_FALSE(result.readings.empty());
    EXPECT_EQ(result.readings.back().state, RowReading::State::disagrees);
}

// "k8, place these 8": those that were worked, not the next ones.
TEST(Misread, StitchesWorkedAndThenHeld) {
    const NotationResult result =
        work_rows("CO 20\nRow 1: k8, place these 8 sts on a holder, k to end", knitting());
    EXPECT_EQ(whole(result.rows.row(1).made), 12);
    EXPECT_EQ(whole(result.rows.row(1).kinds.front().count), 20);
}

TEST(Misread, AListThatGoesAround) {
    EXPECT_EQ(counts("CO 80\nRnd 1: K6, K2tog around. (70 sts)", round_knitting()), (Counts{70}));
    // The count says that only the last part goes on: 6 and 37.
    EXPECT_EQ(counts("CO 80\nRnd 1: K6, K2tog around. (43 sts)", round_knitting()), (Counts{43}));
    // Without a count both readings are told.
    EXPECT_FALSE(
        complaints(work_rows("CO 80\nRnd 1: K6, K2tog around.", round_knitting())).empty());
    EXPECT_EQ(counts("CO 80\nRow 1: K1, purl across.", knitting()), (Counts{80}));
}

TEST(Misread, ATurningChainWhoseStitchIsSkipped) {
    EXPECT_EQ(counts("Ch 12\nRow 1: dc in 4th ch from hook and in each ch across. (10 dc)\n"
                     "Row 2: ch 2, turn, skip first st, dc in next 8 sts, dc in top of turning "
                     "ch. (10)\n"
                     "Row 3: ch 2, turn, skip first st, dc in next 8 sts, dc in top of turning ch.",
                     crochet()),
              (Counts{10, 10, 10}));
}

TEST(Misread, TheFirstStitchOfARepeat) {
    EXPECT_EQ(counts("Rnd 1: 6 sc in magic ring. (6)\n"
                     "Rnd 2: 2 sc in each st around. (12)\n"
                     "Rnd 3: [2 sc in first st, sc in next st] 6 times. (18)",
                     crochet(Terms::us, true)),
              (Counts{6, 12, 18}));
}

TEST(Misread, WorkInARemarkIsRefused) {
    const std::string ten = "Ch 11\nRow 1: sc in 2nd ch from hook and in each ch across. (10)\n";
    for (const char* row : {"Row 2: ch 1, turn, being careful to skip 2 sts, sc across.",
                            "Row 2: ch 1, turn, sc across, not increasing at the edge.",
                            "Row 2: ch 1, turn, this time repeat rows 1 and 2, sc across."})
        EXPECT_EQ(work_rows(ten + row, crochet()).problems.size(), 1U) << row;
}

TEST(Misread, ThreeTogetherThroughTheBackLoops) {
    EXPECT_EQ(counts("CO 40\nRow 1: *k5, k 3 tog tbl; rep from * to end.", knitting()),
              (Counts{30}));
    EXPECT_EQ(
        counts("CO 40\nRow 1: *k5, k3tog through the back loops; rep from * to end.", knitting()),
        (Counts{30}));
}

// From the other side the markers stand behind 8, 12 and 16 of the 20 stitches; a yarn over before
// each stitch behind tells where one was found.
TEST(Misread, TheSecondMarkerIsCountedFromTheBeginning) {
    const std::string cast_on = "CO 20\nRow 1: k4, pm, k4, pm, k4, pm, k8.\n";
    EXPECT_EQ(counts(cast_on + "Row 2: k to 2nd marker, [yo, k1] to end.", knitting()),
              (Counts{20, 28}));
    EXPECT_EQ(counts(cast_on + "Row 2: k to first marker, sm, k to second marker, [yo, k1] to end.",
                     knitting()),
              (Counts{20, 28}));
    EXPECT_EQ(counts(cast_on + "Row 2: k to 3rd m, [yo, k1] to end.", knitting()),
              (Counts{20, 24}));
    EXPECT_FALSE(
        complaints(work_rows(cast_on + "Row 2: k to 4th marker, k to end.", knitting())).empty());
}

// 6 in at 4 rows an inch, and not the 5 in that are named first.
TEST(Misread, OfTwoLengthsTheLongerOne) {
    NotationOptions options = knitting();
    options.row_gauge = 4.0 * units::row / (1.0 * units::inch);
    for (const char* length :
         {"for about 5 in to 6 in", "for about 5 to 6 inches", "until it measures 5 to 6 inches",
          "for 5-6 inches", "for approximately 5 or 6 inches"})
        EXPECT_EQ(counts("CO 20\nKnit every row " + std::string(length) + ".", options).size(), 24U)
            << length;
}

TEST(Misread, PickedUpByTheEdgeIsNoNumberInAll) {
    for (const char* words : {"pick up and knit 3 sts for every 4 rows along the side edge.",
                              "pick up and k 1 st in each slipped st along the flap."})
        EXPECT_EQ(work_rows("CO 20\nKnit 40 rows.\nNext row: " + std::string(words), knitting())
                      .problems.size(),
                  1U)
            << words;
    EXPECT_EQ(counts("CO 20\nRow 1: k5, pick up and knit 1 st in each slipped st (15 sts), k15.",
                     knitting()),
              (Counts{35}));
}

// 60 are cast on; the line's own count is another.
TEST(Misread, ACastOnThatContradictsItsCount) {
    for (const char* line : {"Cast on 60 sts (62 sts).", "Cast on 60 (62 sts)",
                             "Cast on 30 sts, pm, cast on 30 sts. (62 sts)"}) {
        NotationOptions options;
        options.craft = Craft::knit;
        options.lenient = true;
        const NotationResult result = work_rows(std::string(line) + "\nRow 1: knit", options);
        ASSERT_FALSE(result.readings.empty()) << line;
        EXPECT_EQ(result.readings.front().state, RowReading::State::disagrees) << line;
        EXPECT_EQ(result.readings.back().stitches, 60.0 * units::stitch) << line;
    }
}

// Row 2 neither fits the 22 below it nor comes to its count: the count holds for row 3.
TEST(Misread, ACountSetsTheWorkRightBehindARowThatDoesNotFit) {
    NotationOptions options;
    options.craft = Craft::knit;
    options.lenient = true;
    const NotationResult result = work_rows(
        "Cast on 22 sts\nRow 1: knit\nRow 2: *k10, k2tog* to end (20 sts)\nRow 3: knit", options);
    ASSERT_EQ(result.readings.size(), 4U);
    EXPECT_EQ(result.readings[2].state, RowReading::State::disagrees);
    EXPECT_EQ(result.readings[3].stitches, 20.0 * units::stitch);
}

}  // namespace
}  // namespace skeinfall::notation
