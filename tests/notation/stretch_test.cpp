// Written rows on other foundations and with more rows. The patterns are our own.

#include "skeinfall/notation/stretch.hpp"

#include <cstdint>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace {

using namespace skeinfall;
using notation::NotationOptions;
using notation::WrittenRows;

std::vector<WrittenRows> entries(const std::vector<std::string>& texts) {
    std::vector<WrittenRows> out;
    for (const std::string& text : texts) out.push_back({text, std::nullopt});
    return out;
}

std::vector<std::string> texts(const std::vector<WrittenRows>& entries) {
    std::vector<std::string> out;
    for (const WrittenRows& entry : entries) out.push_back(entry.text);
    return out;
}

/// Foundations from `least` on that work, up to `most`.
std::vector<std::int64_t> working(const std::vector<std::string>& rows, std::int64_t least,
                                  std::int64_t most, const NotationOptions& options = {}) {
    std::vector<std::int64_t> out;
    for (std::int64_t count = least; count <= most; ++count)
        if (notation::with_foundation(entries(rows), options, count)) out.push_back(count);
    return out;
}

const std::vector<std::string> plain{"Ch 31.",
                                     "Row 1: sc in 2nd ch from hook and in each ch across. (30 sc)",
                                     "Rows 2-40: ch 1, turn, sc in each st across. (30 sc)"};

const std::vector<std::string> shells{
    "Ch 38.",
    "Row 1: sc in 2nd ch from hook, *skip 2 ch, 5 dc in next ch, skip 2 ch, sc in next ch; rep "
    "from * 5 more times. (37 sts)",
    "Row 2: ch 3 (counts as dc), turn, 2 dc in first st, *skip 2 dc, sc in next dc, skip 2 dc, 5 "
    "dc in next sc; rep from * 4 more times, skip 2 dc, sc in next dc, skip 2 dc, 3 dc in last sc. "
    "(37 sts)",
    "Row 3: ch 1, turn, sc in first st, *skip 2 dc, 5 dc in next sc, skip 2 dc, sc in next dc; rep "
    "from * 5 more times. (37 sts)",
    "Rows 4-31: rep rows 2 and 3.",
    "Row 32: ch 1, turn, sc in each st across. (37 sc)"};

const std::vector<std::string> crown{
    "Ch 60, join with sl st to form a ring.", "Rnd 1: ch 1, sc in each ch around, join. (60 sc)",
    "Rnds 2-10: ch 1, sc in each st around, join. (60 sc)",
    "Rnd 11: ch 1, *sc in next 8 sts, sc2tog; rep from * 5 more times, join. (54 sc)"};

TEST(Stretch, PlainRowsWorkOnAnyFoundation) {
    EXPECT_EQ(notation::foundation_count(entries(plain), {}), 31);
    const auto out = notation::with_foundation(entries(plain), {}, 26);
    ASSERT_TRUE(out.has_value());
    EXPECT_EQ(texts(out->entries),
              (std::vector<std::string>{
                  "Ch 26.", "Row 1: sc in 2nd ch from hook and in each ch across. (25 sc)",
                  "Rows 2-40: ch 1, turn, sc in each st across. (25 sc)"}));
    EXPECT_EQ(out->rows.row(40).made.value(), 25.0);
}

// Each shell with its two single crochets takes six chains: 6 n + 2.
TEST(Stretch, CountedRepeatsFollowAFoundation) {
    EXPECT_EQ(working(shells, 38, 56), (std::vector<std::int64_t>{38, 44, 50, 56}));
    const auto out = notation::with_foundation(entries(shells), {}, 50);
    ASSERT_TRUE(out.has_value());
    EXPECT_EQ(out->entries[1].text,
              "Row 1: sc in 2nd ch from hook, *skip 2 ch, 5 dc in next ch, skip 2 ch, sc in next "
              "ch; rep from * 7 more times. (49 sts)");
    EXPECT_EQ(out->entries[4].text, "Rows 4-31: rep rows 2 and 3.");
    EXPECT_EQ(out->entries[2].text.substr(out->entries[2].text.find("rep from")),
              "rep from * 6 more times, skip 2 dc, sc in next dc, skip 2 dc, 3 dc in last sc. "
              "(49 sts)");
    EXPECT_EQ(out->entries[5].text, "Row 32: ch 1, turn, sc in each st across. (49 sc)");
}

// Ten stitches a decrease: 60, 70, 80.
TEST(Stretch, AShapedRoundKeepsItsLaw) {
    NotationOptions round;
    round.round = true;
    EXPECT_EQ(working(crown, 55, 80, round), (std::vector<std::int64_t>{60, 70, 80}));
    const auto out = notation::with_foundation(entries(crown), round, 70);
    ASSERT_TRUE(out.has_value());
    EXPECT_EQ(out->entries[3].text,
              "Rnd 11: ch 1, *sc in next 8 sts, sc2tog; rep from * 6 more times, join. (63 sc)");
}

TEST(Stretch, RangesGrowAndWhatIsBehindThemMoves) {
    const auto out = notation::with_rows(entries(shells), {}, 40);
    ASSERT_TRUE(out.has_value());
    EXPECT_EQ(out->rows.rows(), 40);
    EXPECT_EQ(out->entries[4].text, "Rows 4-39: rep rows 2 and 3.");
    EXPECT_EQ(out->entries[5].text, "Row 40: ch 1, turn, sc in each st across. (37 sc)");
    const auto fewer = notation::with_rows(entries(plain), {}, 12);
    ASSERT_TRUE(fewer.has_value());
    EXPECT_EQ(fewer->entries[2].text, "Rows 2-12: ch 1, turn, sc in each st across. (30 sc)");
}

TEST(Stretch, CountsOfShapedRowsFollowTheirRows) {
    const std::vector<std::string> wedge{
        "Ch 21.", "Row 1: sc in 2nd ch from hook and in each ch across. (20 sc)",
        "Rows 2-11: ch 1, turn, 2 sc in first st, sc in each st across. (30 sc)"};
    const auto out = notation::with_rows(entries(wedge), {}, 15);
    ASSERT_TRUE(out.has_value());
    EXPECT_EQ(out->entries[2].text,
              "Rows 2-15: ch 1, turn, 2 sc in first st, sc in each st across. (34 sc)");
}

TEST(Stretch, TheCountItHasChangesNothing) {
    for (const auto& [rows, count] :
         {std::pair{plain, std::int64_t{31}}, std::pair{shells, std::int64_t{38}}}) {
        const auto out = notation::with_foundation(entries(rows), {}, count);
        ASSERT_TRUE(out.has_value());
        EXPECT_EQ(texts(out->entries), rows);
    }
    const auto same = notation::with_rows(entries(plain), {}, 40);
    ASSERT_TRUE(same.has_value());
    EXPECT_EQ(texts(same->entries), plain);
}

TEST(Stretch, WhatContradictsItselfIsNotStretched) {
    std::vector<std::string> wrong = plain;
    wrong[1] = "Row 1: sc in 2nd ch from hook and in each ch across. (29 sc)";
    EXPECT_FALSE(notation::with_foundation(entries(wrong), {}, 41).has_value());
    EXPECT_FALSE(notation::with_rows(entries(wrong), {}, 50).has_value());
    NotationOptions graded;
    graded.sizes = 2;
    EXPECT_FALSE(notation::with_foundation(entries(plain), graded, 41).has_value());
}

// Whatever is handed out was read and worked: it says of itself what it comes to.
RC_GTEST_PROP(StretchProperties, WhatComesOutIsSound, ()) {
    const std::int64_t chains = *rc::gen::inRange(std::int64_t{4}, std::int64_t{90});
    const std::int64_t rows = *rc::gen::inRange(std::int64_t{3}, std::int64_t{60});
    const auto wide = notation::with_foundation(entries(plain), {}, chains);
    RC_ASSERT(wide.has_value());
    const auto both = notation::with_rows(wide->entries, {}, rows);
    RC_ASSERT(both.has_value());
    const auto read = notation::work_rows(both->entries, {});
    RC_ASSERT(read.problems.empty());
    RC_ASSERT(read.rows.findings.empty());
    RC_ASSERT(read.rows.rows() == rows);
    RC_ASSERT(read.rows.row(rows).made.value() == static_cast<double>(chains - 1));
}

}  // namespace
