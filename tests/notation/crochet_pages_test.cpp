// Crochet as pages set it: lines that put pieces together, sizes by their names, pieces made again,
// tables, lengths without a gauge. Patterns of our own; counts by hand.

#include <algorithm>
#include <string>

#include <gtest/gtest.h>

#include "skeinfall/notation/document.hpp"
#include "skeinfall/notation/proposal_text.hpp"

#include "helpers.hpp"

namespace skeinfall::notation {
namespace {

using Paged = RowReading::State;

Document paged(const std::string& text, std::size_t size = 0) {
    DocumentOptions options;
    options.craft = Craft::crochet;
    options.size = size;
    return read_document(text, options);
}

/// The lines of rows that are not read as they stand.
std::string faults_of_page(const Document& document) {
    std::string out;
    for (const Section& section : document.sections)
        for (const RowReading& reading : section.readings) {
            if (reading.state == Paged::read || reading.state == Paged::foundation) continue;
            out += reading.words + ": " + (reading.problem ? reading.problem->what : "") + "\n";
        }
    return out;
}

std::int64_t rows_of_page(const Document& document) {
    std::int64_t out = 0;
    for (const Section& section : document.sections)
        out += section.times * static_cast<std::int64_t>(section.rows.order.size());
    return out;
}

const std::string band_of_page =
    "Ch 11.\n"
    "Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"
    "Rows 2-9: Ch 1, turn, sc in each sc across. (10)\n";

TEST(CrochetPages, SeamsBetweenRowsAreNoRows) {
    for (const char* const line :
         {"Sl st the short ends together to form a tube. Do not fasten off.",
          "Fold the band_of_page in half and sl st the edges together.",
          "Turn the hood inside out.", "Join yarn at the thumb opening.",
          "Now work back and forth in rows.",
          "Join the ends of the ribbing with sl st to form a ring. Do not fasten off.",
          "Sl st the two ends together so you have a tube. Ch 1."}) {
        const Document cuff =
            paged("Cuff\n" + band_of_page + line + "\nRow 10: Ch 1, sc in each sc across. (10)\n");
        EXPECT_EQ(faults_of_page(cuff), "") << line;
        EXPECT_EQ(rows_of_page(cuff), 10) << line;
    }
}

TEST(CrochetPages, WorkBesideAnEdgeIsNoSeam) {
    const Document cuff =
        paged("Cuff\n" + band_of_page + "Join yarn and sc in each st around the edge.\n");
    EXPECT_GT(rows_of_page(cuff) + static_cast<std::int64_t>(faults_of_page(cuff).size()), 9);
    EXPECT_EQ(cuff.sections.front().readings.size(), 4U);
}

TEST(CrochetPages, AnotherPieceIsCountedWhereverItIsSaid) {
    for (const char* const line :
         {"Make a second mitt the same. Sew in all ends.", "Fasten off. Make the second one alike.",
          "Fasten off, weave in ends, and make another one just like it!"}) {
        const Document mitts = paged("Mitts\n" + band_of_page + line + "\n");
        ASSERT_EQ(mitts.sections.size(), 1U) << line;
        EXPECT_EQ(mitts.sections.front().times, 2) << line;
    }
    for (const char* const line :
         {"Make another round of sc.", "Make one more row the same.", "Make another, but longer."})
        EXPECT_EQ(paged("Mitts\n" + band_of_page + line + "\n").sections.front().times, 1) << line;
    // How large it is, and not how often.
    const Document cloth = paged("Cloth\nApprox 24 x 24 cm\n\n" + band_of_page);
    EXPECT_EQ(cloth.sections.front().times, 1);
}

TEST(CrochetPages, HeadingsOfSizesChooseTheirRows) {
    const std::string hat =
        "Hat\nSizes: Toddler (Child, Adult)\nFinished circumference: 17 (19, 21) in\n\n"
        "Rnd 1: 10 sc in magic ring. (10 sc)\n"
        "Rnd 2: 2 sc in each st around. (20 sc)\n"
        "Child and Adult sizes only:\n"
        "Rnd 3: *2 sc in next st, sc in next st; rep from * around. (30 sc)\n"
        "Adult size only:\n"
        "Rnd 4: *2 sc in next st, sc in next 2 sts; rep from * around. (40 sc)\n"
        "All sizes:\n"
        "Next rnd: Sc in each st around. (20 (30, 40) sc)\n"
        "Next rnd: Sc in each st around. (20, 30, 40 sc)\n";
    for (const std::size_t size : {0U, 1U, 2U}) {
        const Document document = paged(hat, size);
        EXPECT_EQ(faults_of_page(document), "") << size;
        const auto& last = document.sections.back().readings.back();
        EXPECT_EQ(whole(last.stitches.value_or(units::StitchCount{})),
                  20 + 10 * static_cast<std::int64_t>(size));
    }
}

TEST(CrochetPages, SizesWithoutAnEndAreAsked) {
    const Document hat = paged(
        "Hat\nSizes: Child (Adult)\nFits 18 (21) in heads, brim 2 (3) in\n\n"
        "Ch 11 (13) loosely.\nRow 1: Sc in 2nd ch from hook and in each ch across. 10 (12) sc.\n"
        "Adult size only:\n"
        "Row 2: Ch 1, turn, sc in each sc across. 10 (12) sc.\n"
        "Row 3: Ch 1, turn, sc in each sc across. 10 (12) sc.\n");
    ASSERT_EQ(hat.size_names.size(), 2U);
    EXPECT_EQ(rows_of_page(hat), 3);
    EXPECT_TRUE(std::any_of(hat.parts.begin(), hat.parts.end(), [](const DocumentPart& part) {
        return part.what == DocumentPart::What::may_work;
    }));
}

TEST(CrochetPages, AYarnThatIsJoinedIsNoSeam) {
    const Document square = paged(
        "Square\nWith A, ch 4, join to form a ring.\n"
        "Rnd 1: Ch 1, 8 sc in ring, join. (8 sc)\n"
        "Join B at any corner.\n"
        "Rnd 2: Ch 1, 2 sc in each st around, join. (16 sc)\n");
    EXPECT_EQ(faults_of_page(square), "");
    EXPECT_EQ(square.yarns.size(), 2U);
    EXPECT_TRUE(
        std::none_of(square.parts.begin(), square.parts.end(),
                     [](const DocumentPart& part) { return part.text.starts_with("Join B"); }));
}

TEST(CrochetPages, SizesKeepTheirNames) {
    const Document vest = paged(
        "Vest\nSizes: S (M, XL)\nFinished chest: 32 (36, 40) in\n\nCh 11 (13, 15).\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. 10 (12, 14) sc.\n");
    EXPECT_EQ(vest.size_names, (std::vector<std::string>{"S", "M", "XL"}));
}

TEST(CrochetPages, APieceLikeAnother) {
    const Document vest =
        paged("Vest\n\nBACK\n" + band_of_page + "Fasten off.\n\nFRONT\nWork same as Back.\n");
    ASSERT_EQ(vest.sections.size(), 2U);
    EXPECT_EQ(rows_of_page(vest), 18);
    EXPECT_EQ(faults_of_page(vest), "");
}

TEST(CrochetPages, MarksOfPagesAreNoWords) {
    const Document page = paged(
        "# Coaster\n\n**Hook:** 3.5 mm\n\n### Round\n\n"
        "| Round | Colour | Instructions | Stitches |\n|---|---|---|---|\n"
        "| 1 | Brown | 6 sc in magic ring | 6 |\n"
        "| 2 | Brown | 2 sc in each st | 12 |\n"
        "| 3 | Yellow | (1 sc, inc) x 6 | 18 |\n");
    EXPECT_EQ(faults_of_page(page), "");
    EXPECT_EQ(rows_of_page(page), 3);
    const Document cloth = paged(
        "Cloth\n\n**Row 1:** Ch 11, sc in 2nd ch from hook and in each ch "
        "across. (10 sc)\n**Row 2:** Ch 1, turn, sc in each st. (10)\n");
    EXPECT_EQ(rows_of_page(cloth), 2);
    EXPECT_EQ(faults_of_page(cloth), "");
}

TEST(CrochetPages, StopsWithinShortForms) {
    const Document wrap = paged(
        "Wrap\nABBREVIATIONS: ch., chain; d.c., double crochet; tr., treble; s.s., slip stitch.\n"
        "Commence with 22 ch.\n"
        "1st row - 1 tr. into 4th ch. from hook, 1 tr. into each ch. to end, turn (20 sts.).\n"
        "2nd row - 1 ch., 1 d.c. into each st. to end, turn. (20 sts.)\n");
    EXPECT_EQ(faults_of_page(wrap), "");
}

TEST(CrochetPages, AnOwnStitchWithItsShortForm) {
    const Document filet = paged(
        "Runner\nOpen mesh (om): ch 2, skip 2 sts, dc in next st. Solid mesh (sm): dc in next 3 "
        "sts.\n"
        "\nCh 14.\n"
        "Row 1: Dc in 8th ch from hook, *ch 2, sk 2 ch, dc in next ch; rep from * across, turn.\n"
        "Row 2: Ch 5 (counts as dc, ch 2), dc in next dc, 1 sm, 1 om, turn.\n");
    EXPECT_EQ(faults_of_page(filet), "");
    const Document shells = paged(
        "Scarf\n\nSPECIAL STITCHES\nShell: 5 dc as indicated in instructions.\n\nSCARF\nCh 14.\n"
        "Row 1: Sc in 2nd ch from hook, [sk 2 chs, shell (see Special Stitches) in next ch, sk 2 "
        "chs, sc in next ch] across. (2 shells, 3 sc)\n");
    EXPECT_EQ(faults_of_page(shells), "");
    EXPECT_EQ(whole(shells.sections.back().rows.row(1).made), 13);
}

TEST(CrochetPages, ALengthWithoutAGaugeIsProposedInRows) {
    const Document scarf =
        paged("Scarf\nHook: 5 mm\n\n" + band_of_page + "Rep Row 9 until scarf measures 40 in.\n");
    const RowReading& last = scarf.sections.back().readings.back();
    ASSERT_TRUE(last.problem);
    ASSERT_TRUE(last.proposal);
    EXPECT_TRUE(last.proposal->guess);
    // 40 in over 0.88 of a stitch of 1.45 hooks: 159 rows, of which 9 are worked.
    EXPECT_EQ(last.proposal->instead, "Rep Row 9 for 150 rows.");
    EXPECT_NE(text(*last.proposal).find("usual height of such rows"), std::string::npos);
    const Document accepted =
        paged("Scarf\nHook: 5 mm\n\n" + band_of_page + last.proposal->instead + "\n");
    EXPECT_EQ(faults_of_page(accepted), "");
    EXPECT_EQ(rows_of_page(accepted), 159);
}

TEST(CrochetPages, ACordBehindThePiece) {
    const Document cowl =
        paged("Cowl\n" + band_of_page + "Fasten off.\nNow, chain 75 and fasten off.\n");
    ASSERT_EQ(cowl.sections.size(), 2U);
    EXPECT_EQ(faults_of_page(cowl), "");
    EXPECT_EQ(cowl.sections.front().rows.order.size(), 9U);
}

TEST(CrochetPages, ARowThatSaysUntilWhen) {
    DocumentOptions options;
    options.craft = Craft::crochet;
    options.row_gauge = 4.0 * units::row / units::inch;
    options.desired = 5.0 * units::inch;
    const Document hat = read_document(
        "Hat\nRnd 1: 10 sc in magic ring. (10)\nRnd 2: 2 sc in each st around. (20)\n"
        "Rnd 3 until the hat is the desired length: sc in all sts around and around\n",
        options);
    EXPECT_EQ(faults_of_page(hat), "");
    EXPECT_EQ(rows_of_page(hat), 20);
}

TEST(CrochetPages, BlocksFromCornerToCornerEnd) {
    const Document throw_ = paged(
        "Throw\n"
        "Row 1: Ch 6, dc in 4th ch from hook and in next 2 ch. (1 block made)\n"
        "Row 2: Ch 6, dc in 4th ch from hook and next 2 ch, turn piece, sl st in ch-3 sp of "
        "previous block, ch 3, 3 dc in same sp. (2 blocks)\n"
        "Row 3: Ch 6, dc in 4th ch from hook and next 2 ch, turn, *sl st in next ch-3 sp, ch 3, 3 "
        "dc in same sp; rep from * across. (3 blocks)\n"
        "Rows 4-8: Rep Row 3. (8 blocks in row 8)\n");
    EXPECT_EQ(faults_of_page(throw_), "");
    EXPECT_EQ(rows_of_page(throw_), 8);
}

TEST(CrochetPages, ARepeatThatFindsNoneOfItsSpacesIsTold) {
    // All of the row below would be passed over for the space at its end.
    const Document stole = paged(
        "Stole\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
        "Row 2: Ch 1, turn, sc in first sc, *ch 5, sc in next 5-ch loop; rep from * across.\n");
    EXPECT_NE(faults_of_page(stole), "");
}

}  // namespace
}  // namespace skeinfall::notation
