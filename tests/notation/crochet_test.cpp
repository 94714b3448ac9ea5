// Rows of crochet as the trade writes them. Expected counts are worked out by hand.

#include <cstdint>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "helpers.hpp"

namespace skeinfall::notation {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

/// The last row of a text that must be free of problems and complaints.
RowWork last(const std::string& text, const NotationOptions& options = crochet()) {
    const NotationResult result = work_rows(text, options);
    EXPECT_THAT(problems(result), IsEmpty()) << text;
    EXPECT_THAT(complaints(result), IsEmpty()) << text;
    return result.rows.stated() ? result.rows.row(result.rows.rows()) : RowWork{};
}

TEST(Crochet, CountsARowOnAFoundationChain) {
    const RowWork row =
        last("Ch 26.\nRow 1: Sc in 2nd ch from hook and in each ch across. (25 sts)");
    EXPECT_EQ(whole(row.made), 25);
    EXPECT_EQ(whole(row.consumed), 26);
    EXPECT_EQ(kinds_of(row.kinds), (Kinds{{"sc", 25}}));
}

// Common practice of toys in the round: a count of "sc" counts the decreases too.
TEST(Crochet, DecreasesAreAmongTheStitchesDeclared) {
    const std::string rounds =
        "Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 2 sc in each st around. (12 sc)\n";
    EXPECT_EQ(whole(last(rounds + "Rnd 3: *sc in next st, sc2tog; rep from * around. (8 sc)").made),
              8);
    EXPECT_EQ(whole(last(rounds + "Rnd 3: sc3tog around. (4 sc)").made), 4);
    EXPECT_THAT(complaints(work_rows(rounds + "Rnd 3: sc2tog around. (5 sc)", crochet())),
                testing::SizeIs(1));
}

TEST(Crochet, KeepsWhatIsWrittenForEveryRow) {
    const NotationResult result = work_rows(
        "Ch 26.\n"
        "Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (25 sts)\n"
        "Row 2: Ch 1, turn, SC in each st across.\n"
        "Rows 3-6: Rep rows 1 and 2.\n"
        "Next 2 rows: ch 1, turn, sc in each st across. ",
        crochet());
    EXPECT_EQ(result.rows.foundation_text, "Ch 26.");
    ASSERT_EQ(result.rows.rows(), 8);
    const std::string first = "Sc in 2nd ch from hook and in each ch across. (25 sts)";
    const std::string second = "Ch 1, turn, SC in each st across.";
    const std::string last = "ch 1, turn, sc in each st across.";
    std::vector<std::string> told;
    for (std::int64_t row = 1; row <= 8; ++row) told.emplace_back(result.rows.text(row));
    EXPECT_THAT(told, ElementsAre(first, second, first, second, first, second, last, last));
    EXPECT_EQ(result.rows.text(9), "");
    const WorkedRows behind =
        work_rows(
            "Ch 26.\nSet-up row: Sc in 2nd ch from hook and in each ch across.\n"
            "Row 1: ch 1, turn, sc in each st across.",
            crochet())
            .rows;
    EXPECT_EQ(behind.text(1), "set-up row: Sc in 2nd ch from hook and in each ch across.");
    EXPECT_EQ(behind.text(2), "pattern row 1: ch 1, turn, sc in each st across.");
}

TEST(Crochet, TakesTheFoundationChainFromTheRowItself) {
    const RowWork row =
        last("Row 1: Ch 26, sc in 2nd ch from hook and in each ch across. (25 sts)");
    EXPECT_EQ(kinds_of(row.kinds), (Kinds{{"sc", 25}, {"ch", 26}}));
}

TEST(Crochet, FindsTheFoundationThatAFirstRowNeeds) {
    const NotationResult result = work_rows(
        "Row 1: sc in 2nd ch from hook, *ch 1, skip next ch, sc in next ch; rep from * across. "
        "(61 sc, 60 ch-1 sp)",
        crochet());
    ASSERT_THAT(problems(result), IsEmpty());
    EXPECT_EQ(whole(result.rows.row(1).consumed), 122);
    ASSERT_EQ(result.rows.findings.size(), 1U);
    EXPECT_EQ(result.rows.findings[0].severity, Severity::ok);
    EXPECT_EQ(result.rows.findings[0].what,
              "row 1: no foundation is written; one of 122 fits this row");
}

TEST(Crochet, AlternatesStitchesAndSpaces) {
    const NotationResult result = work_rows(
        "Ch 122.\n"
        "Row 1: sc in 2nd ch from hook, *ch 1, skip next ch, sc in next ch; rep from * across. "
        "(61 sc, 60 ch-1 sp)\n"
        "Row 2: ch 1, turn, sc in first st, *sc in next ch-1 sp, ch 1, skip next st; rep from * to "
        "last 2 sts, sc in next ch-1 sp, sc in last st. (62 sc, 59 ch-1 sp)",
        crochet());
    EXPECT_THAT(complaints(result), IsEmpty());
    const RowWork& row = result.rows.row(2);
    EXPECT_EQ(whole(row.made), 62);
    EXPECT_EQ(whole(row.across), 121);
    EXPECT_EQ(row.chain_spaces, 59);
    EXPECT_EQ(row.turning_chain, 1);
    EXPECT_FALSE(row.turning_chain_counts);
    EXPECT_EQ(kinds_of(row.kinds), (Kinds{{"sc", 62}, {"ch", 60}}));
}

TEST(Crochet, CountsATurningChainWhenItSaysSo) {
    const std::string foundation =
        "Ch 21.\nRow 1: sc in 2nd ch from hook and in each ch across. (20 sc)\n";
    const RowWork counted =
        last(foundation + "Row 2: ch 3 (counts as dc), turn, dc in next st and in each st across.");
    EXPECT_EQ(whole(counted.made), 20);
    EXPECT_TRUE(counted.turning_chain_counts);
    EXPECT_EQ(kinds_of(counted.kinds), (Kinds{{"dc", 19}, {"ch", 3}}));

    const RowWork beside =
        last(foundation + "Row 2: ch 3 (does not count as a st), turn, dc in each st across.");
    EXPECT_EQ(kinds_of(beside.kinds), (Kinds{{"dc", 20}, {"ch", 3}}));
    EXPECT_FALSE(beside.turning_chain_counts);
}

TEST(Crochet, LetsTheDeclaredCountSettleATurningChain) {
    const std::string foundation = "Ch 21.\nRow 1: sc in 2nd ch from hook and in each ch across.\n";
    EXPECT_FALSE(
        last(foundation + "Row 2: ch 2, turn, hdc in first st, hdc in each st across. (20 sts)")
            .turning_chain_counts);
    EXPECT_TRUE(
        last(foundation + "Row 2: ch 2, turn, hdc in next st, hdc in each st across. (20 sts)")
            .turning_chain_counts);
}

TEST(Crochet, CarriesANoteThroughout) {
    const RowWork row = last(
        "Note: ch 2 does not count as a stitch throughout.\n"
        "Ch 21.\nRow 1: sc in 2nd ch from hook and in each ch across.\n"
        "Row 2: ch 2, turn, hdc in each st across.");
    EXPECT_EQ(kinds_of(row.kinds), (Kinds{{"hdc", 20}, {"ch", 2}}));
}

TEST(Crochet, LeavesAChainAtTheEndToTheNextRow) {
    const NotationResult result = work_rows(
        "Ch 11.\nRow 1: sc in 2nd ch from hook and in each ch across. Ch 3, turn.\n"
        "Row 2: dc in next st and in each st across. (10 sts)",
        crochet());
    EXPECT_THAT(complaints(result), IsEmpty());
    EXPECT_EQ(kinds_of(result.rows.row(1).kinds), (Kinds{{"sc", 10}, {"ch", 3}}));
    EXPECT_EQ(kinds_of(result.rows.row(2).kinds), (Kinds{{"dc", 9}}));
    EXPECT_TRUE(result.rows.row(2).turning_chain_counts);
}

TEST(Crochet, ReadsSkippedChainsAsTheFirstStitch) {
    const RowWork row =
        last("Ch 22.\nRow 1: dc in 4th ch from hook and in each ch across. (20 dc)");
    EXPECT_EQ(kinds_of(row.kinds), (Kinds{{"dc", 19}}));
    EXPECT_EQ(whole(row.made), 20);
}

TEST(Crochet, IncreasesAndDecreases) {
    const std::string foundation =
        "Ch 13.\nRow 1: sc in 2nd ch from hook and in each ch across. (12 sc)\n";
    EXPECT_EQ(
        kinds_of(
            last(foundation + "Row 2: ch 1, turn, inc, sc in next 10 sts, inc. (14 sts)").kinds),
        (Kinds{{"sc", 14}, {"ch", 1}}));
    EXPECT_EQ(kinds_of(last(foundation + "Row 2: ch 1, turn, sc2tog, sc in each st to last 2 sts, "
                                         "sc2tog. (10 sts)")
                           .kinds),
              (Kinds{{"sc", 8}, {"sc2tog", 2}, {"ch", 1}}));
    EXPECT_EQ(
        kinds_of(last(foundation + "Row 2: ch 1, turn, dc3tog over next 3 sts, sc 3 tog, sc in "
                                   "next 6 sts (8)")
                     .kinds),
        (Kinds{{"sc", 6}, {"sc3tog", 1}, {"dc3tog", 1}, {"ch", 1}}));
    EXPECT_EQ(kinds_of(last(foundation + "Row 2: ch 1, turn, dec 6 (6)").kinds),
              (Kinds{{"sc2tog", 6}, {"ch", 1}}));
}

TEST(Crochet, WorksAClusterInOnePlace) {
    const RowWork row = last(
        "Ch 8.\nRow 1: sc in 2nd ch from hook and in each ch across.\n"
        "Row 2: ch 1, turn, *sc in next st, dc3tog in next st; rep from * to last st, sc in last "
        "st. "
        "(7 sts)");
    EXPECT_EQ(kinds_of(row.kinds), (Kinds{{"sc", 4}, {"dc3tog", 3}, {"ch", 1}}));
    EXPECT_EQ(whole(row.consumed), 7);
}

TEST(Crochet, PutsGroupsIntoOneStitchOrSpace) {
    const RowWork row = last(
        "Ch 20.\nRow 1: sc in 2nd ch from hook and in each ch across. (19 sc)\n"
        "Row 2: ch 1, turn, sc in first st, *sk next 2 sts, (2 dc, ch 1, 2 dc) in next st, sk next "
        "2 "
        "sts, sc in next st; rep from * across. (4 sc, 12 dc, 3 ch-1 sp)\n"
        "Row 3: ch 1, turn, 5 sc in each ch-1 sp across. (15 sc)");
    EXPECT_EQ(kinds_of(row.kinds), (Kinds{{"sc", 15}, {"ch", 1}}));
    EXPECT_EQ(whole(row.consumed), 13) << "of 16; two dc and a sc stand behind the last space";
}

TEST(Crochet, WorksStitchesAndSpacesInTurn) {
    const std::string below =
        "Ch 28.\nRow 1: sc in 2nd ch from hook and in each ch across. (27 sc)\n"
        "Row 2: ch 1, turn, *sc in next 3 sts, ch 3, sk next 3 sts; rep from * to last 3 sts, sc "
        "in "
        "last 3 sts. (15 sc, 4 ch-3 sps)\n";
    EXPECT_EQ(
        whole(last(below + "Row 3: ch 1, turn, sc in each sc and 2 sc in each ch-3 sp across. "
                           "(23 sc)")
                  .made),
        23);
    EXPECT_EQ(
        whole(last(below + "Row 3: ch 1, turn, sc in each st and ch-3 sp across. (19 sc)").made),
        19);
}

TEST(Crochet, RepeatsInRepeats) {
    const RowWork row = last(
        "Ch 41.\nRow 1: sc in 2nd ch from hook and in each ch across. (40 sc)\n"
        "Row 2: ch 1, turn, *[sc in next st, (dc, ch 1) twice in next st] 3 times, hdc in next 4 "
        "sts; "
        "rep from * across.");
    // 4 times: 3 x (1 sc + 2 dc + 2 ch) + 4 hdc
    EXPECT_EQ(kinds_of(row.kinds), (Kinds{{"sc", 12}, {"dc", 24}, {"hdc", 16}, {"ch", 25}}));
}

TEST(Crochet, StopsTheLastRepeatAtTheDoubleStar) {
    const RowWork row = last(
        "Ch 24.\nRow 1: sc in 2nd ch from hook and in each ch across. (23 sc)\n"
        "Row 2: ch 1, turn, *sc in next 3 sts, ** ch 2, sk next 2 sts; rep from * across, ending "
        "last "
        "rep at **. (15 sc, 4 ch-2 sp)");
    EXPECT_EQ(whole(row.made), 15);
}

TEST(Crochet, TellsMoreTimesFromTimes) {
    const std::string below =
        "Ch 13.\nRow 1: sc in 2nd ch from hook and in each ch across. (12 sc)\n";
    for (const char* row :
         {"Row 2: ch 1, turn, *sc in next st, hdc in next st; rep from * 5 more times.",
          "Row 2: ch 1, turn, *sc in next st, hdc in next st; rep from * 5 times more.",
          "Row 2: ch 1, turn, [sc in next st, hdc in next st] 6 times.",
          "Row 2: ch 1, turn, (sc, hdc) x 6.",
          "Row 2: ch 1, turn, *sc, hdc* rep from * to * 6 times in all.",
          "Row 2: ch 1, turn, *sc in next st, hdc in next st; rep from * 6 times. (12 sts)",
          "Row 2: ch 1, turn, *sc in next st, hdc in next st; rep from * 5 times."})
        EXPECT_EQ(kinds_of(last(below + row).kinds), (Kinds{{"sc", 6}, {"hdc", 6}, {"ch", 1}}))
            << row;
}

TEST(Crochet, WorksRoundsFromARing) {
    const NotationResult result = work_rows(
        "Ch 4, join with sl st to form a ring.\n"
        "Rnd 1: ch 3 (counts as dc), 2 dc in ring, *ch 2, 3 dc in ring; rep from * 2 more times, "
        "ch 2, "
        "join with sl st to top of ch-3. (12 dc, 4 ch-2 sp)\n"
        "Rnd 2: sl st in next 2 dc and in next ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, *ch "
        "1, "
        "(3 dc, ch 2, 3 dc) in next ch-2 sp; rep from * around, ch 1, join. (24 dc, 4 ch-2 sp, 4 "
        "ch-1 "
        "sp)",
        crochet(Terms::us, true));
    EXPECT_THAT(problems(result), IsEmpty());
    EXPECT_THAT(complaints(result), IsEmpty());
    EXPECT_EQ(kinds_of(result.rows.foundation.kinds), (Kinds{{"ch", 4}}));
    EXPECT_EQ(kinds_of(result.rows.row(1).kinds), (Kinds{{"dc", 11}, {"ch", 11}, {"sl st", 1}}));
    EXPECT_EQ(kinds_of(result.rows.row(2).kinds), (Kinds{{"dc", 23}, {"ch", 15}, {"sl st", 4}}));
}

TEST(Crochet, GoesRoundAFoundationChain) {
    const RowWork row = last(
        "Ch 11.\nRnd 1: 3 sc in 2nd ch from hook, sc in next 8 ch, 3 sc in last ch, working along "
        "opposite side of foundation ch, sc in next 8 ch, join with sl st in first sc. (22 sc)\n"
        "Rnd 2: ch 1, 2 sc in each of next 3 sts, sc in next 8 sts, 2 sc in each of next 3 sts, sc "
        "in "
        "next 8 sts, join. (28)",
        crochet(Terms::us, true));
    EXPECT_EQ(whole(row.made), 28);
}

TEST(Crochet, ReadsUkTermsIntoUsKinds) {
    const RowWork row = last(
        "22 ch.\nRow 1: dc in 2nd ch from hook and in each ch to end. (21 dc)\n"
        "Row 2: 3 ch (counts as 1 tr), turn, miss first st, 1 tr into next st, htr in each of next "
        "4 "
        "sts, dc2tog, ss in each of next 3 sts, dtr in each st to end.",
        crochet(Terms::uk));
    EXPECT_EQ(kinds_of(row.kinds),
              (Kinds{{"dc", 1}, {"hdc", 4}, {"sc2tog", 1}, {"sl st", 3}, {"tr", 10}, {"ch", 3}}));
}

TEST(Crochet, KnowsPostStitchesAndFullNames) {
    const RowWork row = last(
        "Ch 11.\nRow 1: single crochet in 2nd chain from hook and in each chain across. (10 sts)\n"
        "Row 2: Ch 1, turn. *FPdc around next st, bpdc around next st; repeat from * to last 2 "
        "sts, "
        "front post dc around next st, half double crochet in last st. (10 sts)");
    EXPECT_EQ(kinds_of(row.kinds), (Kinds{{"fpdc", 5}, {"bpdc", 4}, {"hdc", 1}, {"ch", 1}}));
}

TEST(Crochet, RepeatsRowsByNumber) {
    const NotationResult result = work_rows(
        "Ch 11.\nRow 1: sc in 2nd ch from hook and in each ch across. (10 sts)\n"
        "Row 2: ch 1, turn, sc in each st across.\nRow 3: ch 2, turn, hdc in first st, hdc in each "
        "st "
        "across. (10 sts)\nRows 4-20: rep rows 2 and 3.\nRow 21: as row 2.\nRep last 2 rows 3 more "
        "times.\nNext 3 rows: ch 1, turn, sc in each st across.",
        crochet());
    EXPECT_THAT(problems(result), IsEmpty());
    EXPECT_THAT(complaints(result), IsEmpty());
    // rows 2, 4, ..., 20 and 21, then three times (20, 21), then three more
    EXPECT_EQ(result.rows.rows(), 30);
    EXPECT_EQ(kinds_of(result.rows.totals()),
              (Kinds{{"sc", 10 * (1 + 10 + 1 + 6 + 3)}, {"hdc", 90}, {"ch", 20 + 18}}));
    EXPECT_LE(result.rows.distinct.size(), 10U);
}

TEST(Crochet, FillsTheRowsBetween) {
    const NotationResult result = work_rows(
        "Ch 11.\nRow 1: sc in 2nd ch from hook and in each ch across.\n"
        "Row 2 and all even rows: ch 1, turn, sc in each st across.\n"
        "Row 3: ch 1, turn, sc2tog, sc in each st across.\nRow 5: ch 1, turn, 2 sc in first st, sc "
        "in "
        "each st across.\nRow 7: ch 1, turn, sc in each st across. (10 sts)",
        crochet());
    EXPECT_THAT(problems(result), IsEmpty());
    EXPECT_THAT(complaints(result), IsEmpty());
    EXPECT_EQ(result.rows.rows(), 7);
    EXPECT_EQ(whole(result.rows.row(4).made), 9);
}

TEST(Crochet, WorksStitchesOfItsOwn) {
    NotationOptions options = crochet();
    OwnStitch pebble;
    pebble.name = "pebble";
    pebble.of = "5 dc";
    pebble.makes = 1;
    OwnStitch fan;
    fan.name = "fan";
    fan.of = "2 dc, ch 1, 2 dc";
    OwnStitch knot;
    knot.name = "knot";
    knot.yarn = units::Ratio(4.0);
    knot.takes = 2;
    options.own = {pebble, fan, knot};
    const RowWork row = last(
        "Ch 13.\nRow 1: sc in 2nd ch from hook and in each ch across. (12 sc)\n"
        "Row 2: ch 1, turn, sc in next 3 sts, pebble in next st, sk next st, fan in next st, sc in "
        "next "
        "st, knot, sc in next 3 sts.",
        options);
    EXPECT_EQ(kinds_of(row.kinds), (Kinds{{"sc", 7}, {"dc", 9}, {"ch", 2}, {"knot", 1}}));
    EXPECT_EQ(whole(row.made), 13);
    EXPECT_EQ(row.chain_spaces, 1);
    EXPECT_EQ(whole(row.consumed), 12);
}

TEST(Crochet, TakesTheNumbersOfItsSize) {
    const std::string text =
        "Ch 21 (25, 31).\nRow 1: sc in 2nd ch from hook and in each ch across. (20 (24, 30) sts)\n"
        "Row 2: ch 1, turn, *sc in next 3 (4, 5) sts, sc2tog; rep from * across. (16 (20, 24) sts)";
    NotationOptions options = crochet();
    options.sizes = 3;
    const std::vector<std::int64_t> stitches{16, 20, 0};
    for (options.size = 0; options.size < 2; ++options.size)
        EXPECT_EQ(whole(last(text, options).made), stitches[options.size]);
    // 30 stitches do not divide by 7.
    options.size = 2;
    EXPECT_THAT(complaints(work_rows(text, options)),
                testing::Contains(testing::HasSubstr("does not come out even")));
}

TEST(Crochet, FeedsTablesIntoTheSameRows) {
    CountedRows grow;
    grow.rows = 5;
    grow.kinds = {{"dc", 12.0 * units::stitch}};
    grow.increase = {{"dc", 12.0 * units::stitch}};
    CountedRows mixed;
    mixed.kinds = {{"sc", 60.0 * units::stitch}, {"ch", 20.0 * units::stitch}};
    const NotationResult result =
        work_rows({{"", grow}, {"", mixed}, {"Rnd 7: sc in each st around. (80 sc)", std::nullopt}},
                  crochet(Terms::us, true));
    EXPECT_THAT(problems(result), IsEmpty());
    EXPECT_THAT(complaints(result), IsEmpty());
    EXPECT_EQ(kinds_of(result.rows.totals()),
              (Kinds{{"dc", 12 + 24 + 36 + 48 + 60}, {"sc", 140}, {"ch", 20}}));
    EXPECT_EQ(whole(result.rows.row(6).across), 80);
    EXPECT_EQ(result.rows.row(6).chain_spaces, 20);
}

// A round about rows has stitches along their ends too, which nobody has told.
TEST(CrochetRows, ARoundAboutRowsIsAsked) {
    std::string rows = "Ch 41.\nRow 1: hdc in 2nd ch from hook and in each ch across. (40 hdc)\n";
    for (int row = 2; row < 9; ++row)
        rows += "Row " + std::to_string(row) + ": ch 1, turn, hdc in each st across. (40 hdc)\n";
    EXPECT_THAT(complaints(work_rows(rows + "Work 2 rounds of sc around.", crochet())),
                Not(IsEmpty()));
    EXPECT_THAT(complaints(work_rows(rows + "Rnd 9: 140 sc evenly around. (140 sc)", crochet())),
                IsEmpty());
}

}  // namespace
}  // namespace skeinfall::notation
