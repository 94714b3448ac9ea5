// Crochet patterns of our own, read as they would be pasted: pieces, steps, sizes, what is
// proposed, and two whole makes whose counts close.

#include <algorithm>
#include <map>
#include <string>

#include <gtest/gtest.h>

#include "skeinfall/notation/document.hpp"

#include "helpers.hpp"

namespace skeinfall::notation {
namespace {

using State = RowReading::State;

Document read(const std::string& text, std::size_t size = 0) {
    DocumentOptions options;
    options.craft = Craft::crochet;
    options.size = size;
    return read_document(text, options);
}

/// Every stitch of all pieces, as often as each is made.
std::map<std::string, std::int64_t> stitches_of(const Document& document) {
    std::map<std::string, std::int64_t> out;
    for (const Section& section : document.sections) {
        for (const std::uint32_t row : section.rows.order)
            for (const KindCount& kind : section.rows.distinct[row].kinds)
                out[kind.kind] += section.times * whole(kind.count);
        for (const KindCount& kind : section.rows.foundation.kinds)
            out[kind.kind] += section.times * whole(kind.count);
    }
    return out;
}

std::string trouble(const Document& document);

TEST(CrochetDocument, AFoundationIsClosedToARing) {
    for (const char* const closed :
         {"Ch 96, join with sl st to form a ring.", "Ch 96, sl st to form ring.",
          "Chain 96, join to form a circle, being careful not to twist."}) {
        const Document cowl = read(std::string("Hill cowl\n") + closed +
                                   "\nRnd 1: Ch 1, sc in each ch around. (96 sc)\n");
        ASSERT_EQ(cowl.sections.size(), 1U) << closed;
        EXPECT_FALSE(cowl.sections.front().rows.foundation.kinds.empty()) << closed;
        EXPECT_EQ(trouble(cowl), "") << closed;
    }
}

std::string trouble(const Document& document) {
    std::string out;
    for (const Section& section : document.sections)
        for (const RowReading& reading : section.readings) {
            if (reading.state == State::read || reading.state == State::foundation) continue;
            out += reading.words + ": " + (reading.problem ? reading.problem->what : "");
            for (const Finding& finding : reading.findings) out += " | " + finding.what;
            out += "\n";
        }
    return out;
}

TEST(CrochetDocument, ANamedPartThatMakesItsOwnBaseIsAPiece) {
    const Document document = read(R"(Small mouse

Body
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: inc around. (12)
Rnds 3-5: sc around. (12)
Ears (make 2)
Rnd 1: 5 sc in magic ring. (5)
Rnd 2: 2 sc in each st around. (10)
)");
    ASSERT_EQ(document.sections.size(), 2U);
    EXPECT_EQ(document.sections[0].times, 1);
    EXPECT_EQ(document.sections[1].times, 2);
    EXPECT_EQ(trouble(document), "");
    // 6 + 12 + 3 * 12, and twice 5 + 10
    EXPECT_EQ(stitches_of(document).at("sc"), 84);
}

TEST(CrochetDocument, NumberedStepsAreRowsAndNumberedAdviceIsNot) {
    const Document steps = read(R"(Little mat

1- Ch 1, 8 hdc in a magic ring. (8)
2- ch 1, 2 hdc in each st around, join. (16)
3- ch 1, *hdc in next st, 2 hdc in next st; rep from * around, join. (24)
)");
    EXPECT_EQ(trouble(steps), "");
    ASSERT_EQ(steps.sections.size(), 1U);
    EXPECT_EQ(steps.sections[0].rows_read, 3U);
    const Document advice = read(R"(Little mat

1. Work in back loops only.
2. Do not join at the end.
3. Numbers in brackets are counts.

Ch 5.
Row 1: sc in 2nd ch from hook and in each ch across. (4 sc)
)");
    ASSERT_EQ(advice.sections.size(), 1U);
    EXPECT_EQ(advice.sections[0].rows_read, 2U) << trouble(advice);
}

TEST(CrochetDocument, LinesForOtherSizesAreLeftOut) {
    const std::string text = R"(Cap
To fit sizes small (medium, large)
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (12)
Small only: Rnd 3: sc in each st around. (12)
Medium and large only: Rnd 3: *sc in next st, 2 sc in next st; rep from * around. (18)
All sizes: Rnd 4: sc in each st around. 12 (18, 18) sc.
Rnd 5: sc in each st around. 12 (18, 18) sc.
)";
    const Document small = read(text, 0);
    EXPECT_EQ(trouble(small), "");
    EXPECT_EQ(stitches_of(small).at("sc"), 6 + 12 + 12 + 12 + 12);
    const Document large = read(text, 2);
    EXPECT_EQ(trouble(large), "");
    EXPECT_EQ(stitches_of(large).at("sc"), 6 + 12 + 18 + 18 + 18);
}

TEST(CrochetDocument, ARowThatIsNotReadIsToldWhatWouldHaveBeenTaken) {
    const Document document = read(R"(Ch 11.
Row 1: sc in 2nd ch from hook and in each ch across. (10 sc)
Row 2: ch 1, turn, sc in each st across, glorpify the corners. (10 sc)
Row 3: ch 1, turn, scc in each st across. (10 sc)
)");
    ASSERT_EQ(document.sections.size(), 1U);
    const auto& readings = document.sections[0].readings;
    ASSERT_EQ(readings.size(), 4U);
    ASSERT_TRUE(readings[2].proposal.has_value());
    EXPECT_EQ(readings[2].proposal->words, "glorpify the corners");
    EXPECT_TRUE(readings[2].proposal->counted);
    EXPECT_EQ(whole(readings[2].proposal->makes), 10);
    ASSERT_TRUE(readings[3].proposal.has_value());
    EXPECT_EQ(readings[3].proposal->words, "scc");
    EXPECT_EQ(readings[3].proposal->instead, "sc");
    EXPECT_EQ(readings[2].state, State::unread);
}

TEST(CrochetDocument, NothingIsProposedThatTakesOutWorkWithoutACount) {
    const Document document = read(R"(Ch 11.
Row 1: sc in 2nd ch from hook and in each ch across. (10 sc)
Row 2: ch 1, turn, sc in each st across, glorpify 5 dc.
)");
    const auto& readings = document.sections.at(0).readings;
    EXPECT_EQ(readings.back().state, State::unread);
    EXPECT_FALSE(readings.back().proposal.has_value());
}

TEST(CrochetDocument, AChoiceOfStitchesAndRowEndsAreRefused) {
    for (const std::string row :
         {"Row 2: ch 1, turn, slip stitch or single crochet in each st across.",
          "Row 2: ch 1, turn, sc in each row.", "Row 2: 5 sc = 10 dc in next st"}) {
        const Document document = read(
            "Ch 11.\nRow 1: sc in 2nd ch from hook and in each ch across. (10 sc)\n" + row + "\n");
        EXPECT_EQ(document.sections.at(0).readings.back().state, State::unread) << row;
    }
}

TEST(CrochetDocument, TheNextCountShowsWhetherAChainCounts) {
    const Document document = read(R"(Rnd 1: ch 3, 11 dc in magic ring, join.
Rnd 2: ch 3, 2 dc in each dc around, join. (22 dc)
)");
    EXPECT_EQ(trouble(document), "");
    const Document counting = read(R"(Rnd 1: ch 3, 11 dc in magic ring, join.
Rnd 2: ch 3, dc in same st, 2 dc in each dc around, join. (24 dc)
)");
    EXPECT_EQ(trouble(counting), "");
    EXPECT_EQ(whole(*document.sections.at(0).readings[0].stitches), 11);
    EXPECT_EQ(whole(*counting.sections.at(0).readings[0].stitches), 12);
}

TEST(CrochetDocument, SixteenSquaresClose) {
    const Document document = read(R"(Yoke of sixteen squares

SQUARE (make 16)
Ch 4, join with sl st to form a ring.
Rnd 1: Ch 3 (counts as dc throughout), 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times, join
with sl st to top of beg ch-3. (12 dc)
Rnd 2: Sl st in next 2 dc and in next ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, ch 1, *(3 dc,
ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * 2 more times, join with sl st to top of beg ch-3. (24 dc)
Rnd 3: Ch 1, sc in each dc and in each ch-1 sp around, 3 sc in each corner ch-2 sp. (40 sc)
)");
    EXPECT_EQ(trouble(document), "");
    ASSERT_EQ(document.sections.size(), 1U);
    EXPECT_EQ(document.sections[0].times, 16);
    // The chains that count are chains: 11 and 23 dc of a square, 24 + 4 + 12 sc.
    const auto sums = stitches_of(document);
    EXPECT_EQ(sums.at("dc"), 16 * (11 + 23));
    EXPECT_EQ(sums.at("sc"), 16 * 40);
}

TEST(CrochetDocument, ATunisianScarfCloses) {
    const Document document = read(R"(Narrow scarf

Ch 24.
Row 1: Pull up a loop in 2nd ch from hook and in each ch across. (24 sts)
Return pass: ch 1, *yo, pull through 2 loops; rep from * across.
Row 2: Tss in each st across. (24 sts)
Return pass: as before.
Rows 3-90: Rep row 2. (24 sts)
Bind off: sl st in each st across.
)");
    EXPECT_EQ(trouble(document), "");
    const auto sums = stitches_of(document);
    EXPECT_EQ(sums.at("tss"), 24 * 90);
}

TEST(CrochetDocument, ALineBetweenTwoNumbersGoesOnWithTheRound) {
    const Document document = read(R"(Lace mat

Round 1: 12 dc in magic ring, sl st to first dc. (12)
Round 2: ch 1, sc in same st.
(Ch 3, sc in next st) 11 times; ch 3, sl st to first sc.
Round 3: sl st in next ch-3 sp, ch 1, sc in same sp, (ch 4, sc in next ch-3 sp) 11 times, ch 4, join.
)");
    ASSERT_EQ(document.sections.size(), 1U);
    EXPECT_EQ(document.sections[0].readings.size(), 3U);
    EXPECT_EQ(trouble(document), "");
}

TEST(CrochetDocument, ALargeNumberBehindANameIsNoNumberOfPieces) {
    const std::string rows = R"(
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: inc around. (12)
)";
    const Document ears = read("Owl\n\nEars (2)" + rows);
    ASSERT_EQ(ears.sections.size(), 1U);
    EXPECT_EQ(ears.sections[0].times, 2);
    const Document sleeve = read("Owl\n\nSleeve (36)" + rows);
    ASSERT_EQ(sleeve.sections.size(), 1U);
    EXPECT_EQ(sleeve.sections[0].times, 1);
    ASSERT_FALSE(sleeve.sections[0].readings[0].findings.empty());
    EXPECT_EQ(sleeve.sections[0].readings[0].findings[0].severity, Severity::caution);
}

TEST(CrochetDocument, ARoundMayBeToldInSentencesBelowItsLabel) {
    const Document document = read(R"(Round mat

Round 1:
8 sc in magic ring.
Pull the ring tight.
Slip stitch to join. (8)
Round 2:
Ch 1, 2 sc in the same stitch.
2 sc in each remaining stitch.
Slip stitch to join. (16)
Round 3:
* Sc in next st, inc,
rep from * around. (24)
)");
    ASSERT_EQ(document.sections.size(), 1U);
    EXPECT_EQ(trouble(document), "");
    EXPECT_EQ(document.sections[0].readings.size(), 3U);
    EXPECT_EQ(document.sections[0].readings.back().stitches, 24.0 * units::stitch);
}

TEST(CrochetDocument, AHeadingMayStandBeforeALabelInOneLine) {
    const Document document = read(R"(Small cup

Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (12)
Begin the side - Rnd 3: sc in back loop only of each st around. (12)
Rnd 4: sc around. (12)
)");
    EXPECT_EQ(trouble(document), "");
}

TEST(CrochetDocument, NewSpellingsStillCatchAWrongCount) {
    const std::string base =
        "Ch 20.\nRow 1: Dc in 4th ch from hook, dc in each ch across; ch 1, "
        "turn. (18 dc)\nRow 2: Sc in each st across; ch 3, turn. (18 sc)\n";
    EXPECT_NE(trouble(read(base + "Row 3: Dc in each st across. (19 dc)\n")), "");
    const Document dashes = read(
        "Ch 24.\nRow 1: Dc - ch 2 - dc into 6th ch from hook, sk 2 ch, "
        "*dc - ch 2 - dc into next ch, sk 2 ch; rep from * across to "
        "last ch, dc in last ch. (15 dc)\n");
    EXPECT_NE(trouble(dashes), "");
    const Document joined = read(
        "Rnd 1: 12 dc in magic ring, join. (12)\n"
        "Rnd 2: Join with sc in any st, *sc in next 2 sts, inc; rep from "
        "* around. (20)\n");
    EXPECT_NE(trouble(joined), "");
}

TEST(CrochetDocument, WordsAboutTheToyAreNoRows) {
    const Document bear = read(R"(Small bear

HEAD
1: 6 sc in MR [6]
2: inc * 6 [12]
3: sc around [12]
Place eyes between rows 2 and 3, 4 stitches apart.
4: dec * 6 [6]
Insert the joints between 1 and 2
rows, at a distance of 4
loops.
Close.

TAIL
1: 5 sc in MR [5]
2: sc around [5]
)");
    EXPECT_EQ(trouble(bear), "");
    ASSERT_EQ(bear.sections.size(), 2U);
    EXPECT_EQ(stitches_of(bear).at("sc"), 6 + 12 + 12 + 5 + 5);
    EXPECT_TRUE(std::none_of(bear.parts.begin(), bear.parts.end(), [](const DocumentPart& part) {
        return part.what == DocumentPart::What::may_work;
    }));
}

TEST(CrochetDocument, LettersOfOtherKeyboardsAndRangesWithStops) {
    const Document bear = read(
        "HEAD:\n1. 6sc in MAG\xc4\xb0"
        "C R\xc4\xb0NG (6);\n"
        "2. 6 \xc4\xb1nc (12);\n3. \xe2\x80\x93 5. unchanged (12);\n"
        "6. (1sc, DEC)*4 (8);\n");
    EXPECT_EQ(trouble(bear), "");
    EXPECT_EQ(stitches_of(bear).at("sc"), 6 + 12 + 36 + 4);
}

TEST(CrochetDocument, ACountBehindRepeatedRowsIsChecked) {
    const Document cloth = read(R"(Cloth

Ch 11.
Row 1: sc in 2nd ch from hook and in each ch across. (10 sc)
Row 2: ch 1, turn, 2 sc in first st, sc in each st across. (11 sc)
Rows 3-6: Repeat row 2. (14 sc)
)");
    ASSERT_EQ(cloth.sections.size(), 1U);
    EXPECT_EQ(cloth.sections[0].readings.back().state, State::disagrees);
    EXPECT_NE(trouble(cloth).find("the pattern says 14 sc; these words make 15"), std::string::npos)
        << trouble(cloth);
}

TEST(CrochetDocument, AMeshWhoseStitchesAreNoSpaces) {
    const Document mesh = read(R"(Mesh

Row 1: Ch 6, dc in last ch from hook. Turn. (1 box)
Row 2: Ch 4 (counts as dc + ch 1), skip next ch, [dc, ch 1, dc] in next ch. Turn. (1 box more)
Row 3: Ch 4 (counts as dc + ch 1), dc in same st, repeat [ch 1, dc in next st] across. Turn.
)");
    // The second row fits only so; the third is told with both counts.
    const auto& readings = mesh.sections.at(0).readings;
    EXPECT_EQ(whole(*readings.back().stitches), 4);
    EXPECT_EQ(readings.back().state, State::two_ways);
    EXPECT_NE(trouble(mesh).find("6 when"), std::string::npos) << trouble(mesh);
}

TEST(CrochetDocument, RowsWithinAParagraphOfAnotherPart) {
    const Document boot = read(R"(Boot

FOOT ... Ch 11. 1st row: Sc in 2nd ch from hook and in each ch across (10 sc). Ch 1, turn. 2nd row: Sc in each sc across.

TOP ... Insert hook at the back and pull up a loop. 1st rnd: Ch 1, sc in each sc around. Join with sl st. (10 sc) 2nd rnd: Ch 1, 2 sc in each sc around. Join. (20 sc)
)");
    EXPECT_EQ(trouble(boot), "");
    EXPECT_EQ(stitches_of(boot).at("sc"), 10 + 10 + 10 + 20);
}

TEST(CrochetDocument, ABracketThatAPageBroke) {
    const Document scarf = read(R"(Scarf

V-stitch (V-st): (Dc, ch 1, dc) in indicated st or sp.

Ch 11. Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc) Row 2: Ch 3, turn, sk next sc, V-st (see Special

Stitch) in next sc, *sk 2 sc, V-st in next sc; rep from * to last sc, dc in last sc. (2 dc, 3 V-sts)
)");
    EXPECT_EQ(trouble(scarf), "");
}

TEST(CrochetDocument, AStitchToldInABracketAlone) {
    const Document scarf = read(R"(Scarf
Special Stitches: V-Stitch (Work 2 Double Crochet Stitches into one Stitch)
Row 1 - CH. 12, SC into the second CH from the hook and across, TURN (11 SC)
Row 2 - CH. 1, SC into the first Stitch, (V-Stitch, SK the next stitch) repeat 4 more times, TURN (11 sts)
)");
    EXPECT_EQ(trouble(scarf), "");
}

TEST(CrochetDocument, ABaseBehindMaterialsAndARowBehindAHeading) {
    const Document square = read(R"(Square

You will need

Yarn A red

Yarn B blue

With Yarn A, ch10, ss into the first ch to form a ring.

Round 1 Ch1, 16 sc into the ring, ss to the first sc. (16 sc)
)");
    EXPECT_EQ(trouble(square), "");
    EXPECT_EQ(stitches_of(square).at("ch"), 11);
    const Document bag = read(
        "Bag\nMethod Row 1. Make 35 ch, sc into 2nd ch from hook and each ch "
        "to end (34 sts)\nRow 2. Ch 1, sc in each st. (34 sts)\n");
    EXPECT_EQ(trouble(bag), "");
}

TEST(CrochetDocument, AMisspeltStitchIsProposedWithoutACount) {
    const Document cloth = read(R"(Ch 11.
Row 1: sc in 2nd ch from hook and in each ch across. (10 sc)
Row 2: ch 1, turn, hdcc in each st across.
)");
    const auto& readings = cloth.sections.at(0).readings;
    EXPECT_EQ(readings.back().state, State::unread);
    ASSERT_TRUE(readings.back().proposal.has_value());
    EXPECT_EQ(readings.back().proposal->instead, "hdc");
    EXPECT_FALSE(readings.back().proposal->counted);
}

TEST(CrochetDocument, AnEdgingInALineIsARowAndWorkIsNeverARemark) {
    const Document cloth = read(R"(Cloth

Ch 11.
Row 1: sc in 2nd ch from hook and in each ch across. (10 sc)
Edging: ch 1, turn, 2 sc in each st across. (20 sc)
)");
    EXPECT_EQ(trouble(cloth), "");
    EXPECT_EQ(stitches_of(cloth).at("sc"), 30);
    const Document bag = read(
        "Bag\nUsing foundation crochet, work a foundation row of 40 dcs\n"
        "1st row: Ch 1, turn, dc in each dc across. (40 dc)\n");
    EXPECT_EQ(trouble(bag), "");
}

TEST(CrochetDocument, RoundsUnderASignAndWhatReadersAsk) {
    const Document ball = read(R"(Ball
1. MC 8 [8]
2. Inc x8 [16]
3. *Sc, inc* x8 [24]
4-6. Sc around [24]
7. *1 sc dec* x8 [16]
Add eyes between rounds 4 and 5, about 6 sts apart
8. Dec all [8]
Can I ask what the chain 21 in round 10 is for? Thanks!
)");
    EXPECT_EQ(trouble(ball), "");
    EXPECT_TRUE(std::none_of(ball.parts.begin(), ball.parts.end(), [](const DocumentPart& part) {
        return part.what == DocumentPart::What::may_work;
    }));
    const Document cone = read(R"(Cone
Rnd 1 = 6 sc in magic ring
Rnd 2 = 2 sc in each st around - 12 sc
Rnds 3 - 5 = sc in each st around
Rnd 6 = [sc in next st, 2 sc in next st] 6 times - 18 sc
)");
    EXPECT_EQ(trouble(cone), "");
    EXPECT_EQ(stitches_of(cone).at("sc"), 6 + 12 + 36 + 18);
}

TEST(CrochetDocument, ASpaceWhereThereAreNone) {
    const Document hat = read(R"(Hat
sp - space
R1: ch3 (counts as first dc), 9dc into ring, join with a sl st. - 10
R2: ch3, dc in same sp, 2dc in each sp to end - 20
)");
    EXPECT_EQ(trouble(hat), "");
    // Above loops it is the loops.
    const Document lace = read(R"(Lace
R1: 10 sc in magic ring, join. (10)
R2: ch 1, *sc in next st, ch 3, skip next st; rep from * around, join. (5 sc)
R3: ch 1, 4 sc in each sp around, join. (20 sc)
)");
    EXPECT_EQ(trouble(lace), "");
}

TEST(CrochetDocument, ARepeatThatFindsNoneOfItsPlacesIsTold) {
    const Document scarf = read(R"(Ch 32
Row 1: sc in 2nd ch from hook, *ch 5, sk next 4 dc, sc in next ch; rep from * to end across
)");
    EXPECT_NE(trouble(scarf), "");
}

TEST(CrochetDocument, ABorderRoundAPieceOfRowsIsNotItsLastRow) {
    const std::string cloth =
        "Cloth\nCh 11.\nRow 1: sc in 2nd ch from hook and in each ch across, turn. (10 sc)\n"
        "Rows 2-10: ch 1, sc in each st across, turn. (10 sc)\n";
    const Document round = read(cloth + "Border\nRnd 1: Ch 1, sc in each st around, join.\n");
    EXPECT_NE(trouble(round).find("goes round a piece of rows"), std::string::npos)
        << trouble(round);
    const Document line = read(cloth + "Edging: sc in each st around, join.\n");
    EXPECT_TRUE(std::any_of(line.parts.begin(), line.parts.end(),
                            [](const DocumentPart& part) { return part.work; }));
}

}  // namespace
}  // namespace skeinfall::notation
