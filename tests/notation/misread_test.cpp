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

}  // namespace
}  // namespace skeinfall::notation
