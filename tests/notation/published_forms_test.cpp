// Forms of web pages and old books, in patterns of our own: tables, lists, rows told by others, and
// what is proposed for a row that does not come to its count.

#include <string>

#include <gtest/gtest.h>

#include "skeinfall/notation/document.hpp"

#include "helpers.hpp"

namespace skeinfall::notation {
namespace {

using State = RowReading::State;

Document read_crochet(const std::string& text) {
    DocumentOptions options;
    options.craft = Craft::crochet;
    return read_document(text, options);
}

/// The stitches of each line of rows, "-" without them, "!" before one that is not read.
std::string counts_of(const Document& document) {
    std::string out;
    for (const Section& section : document.sections) {
        if (!out.empty()) out += "| ";
        for (const RowReading& reading : section.readings) {
            if (reading.state == State::foundation) continue;
            if (reading.state != State::read) out += "!";
            out += reading.stitches ? std::to_string(whole(*reading.stitches)) : "-";
            out += " ";
        }
    }
    return out;
}

TEST(PublishedForms, ARowOfATableIsARow) {
    EXPECT_EQ(counts_of(read_crochet("Ball\n"
                                     "| Rnd | Work | Stitches |\n"
                                     "|---|---|---|\n"
                                     "| R1 | 6 sc in magic ring | 6 |\n"
                                     "| R2 | inc x 6 | 12 |\n"
                                     "| R3-R4 | sc around | 12 |\n")),
              "6 12 12 ");
    EXPECT_EQ(
        counts_of(read_crochet("Ball\n| 1 | 6 sc in magic ring | (6) |\n| 2 | inc x6 | (12) |\n")),
        "6 12 ");
}

TEST(PublishedForms, TheNumbersOfAListAreNoRows) {
    EXPECT_EQ(counts_of(read_crochet("1. Start with a magic ring.\n"
                                     "2. Round 1: 6 sc into the ring (6).\n"
                                     "3. Round 2: inc in each st (12).\n"
                                     "4. Stuff the body.\n"
                                     "5. Round 3: dec around (6).\n")),
              "6 12 6 ");
}

TEST(PublishedForms, EachBulletIsALineOfItsOwn) {
    EXPECT_EQ(counts_of(read_crochet("- 8 sc in magic circle\n"
                                     "- Sc around\n"
                                     "- 2 sc in each st around\n"
                                     "- (2 sc in next st, sc in next st) around\n")),
              "8 8 16 24 ");
}

TEST(PublishedForms, APieceBeginsWithItsRing) {
    const Document toy = read_crochet(
        "Round 1: 6 sc in mr [6]\nRound 2: inc x6 [12]\nCut the yarn.\n"
        "Round 1: 5 sc in mr [5]\nRound 2: inc x5 [10]\nSlip stitch and cut yarn.\n");
    EXPECT_EQ(counts_of(toy), "6 12 | 5 10 - ");
}

TEST(PublishedForms, SmallPicturesSayNothing) {
    const Document toy = read_crochet(
        "\xf0\x9f\x90\xbb Body\nRnd 1: 6 sc in magic ring (6)\n"
        "\xe2\x98\x98\xef\xb8\x8f Head\nRnd 1: 5 sc in magic ring (5)\n");
    ASSERT_EQ(toy.sections.size(), 2U);
    EXPECT_EQ(toy.sections[1].name, "Head");
    EXPECT_EQ(counts_of(toy), "6 | 5 ");
}

TEST(PublishedForms, TheStitchesOfALabelMayStandBelowIt) {
    EXPECT_EQ(counts_of(read_crochet(
                  "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
                  "Row 2: This row is worked in the front loops only.\n"
                  "Ch 1, sc in first st, sc in every st to the end of the row. (20 sc)\n")),
              "20 20 ");
}

TEST(PublishedForms, RowsMayBeTheSameAsOthers) {
    EXPECT_EQ(counts_of(read_crochet(
                  "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\n"
                  "Row 2: Ch 1, turn, 2 sc in first st, sc in each st across. (21)\n"
                  "Row 3: Ch 1, turn, sc2tog, sc in each st across. (20)\n"
                  "4th and 5th rows are the same as the 2nd and 3rd rows.\n"
                  "Row 6: Ch 1, turn, sc in each st across. (20)\n"
                  "Repeat 2nd to 3rd rows twice, and after that you finish with making row 6.\n")),
              "20 21 20 20 20 20 20 ");
}

TEST(PublishedForms, AChangedRowIsThatRowWithTheChange) {
    const Document same = read_crochet(
        "Ch 8, join to form a ring.\nRnd 1: Ch 1, 16 sc in ring, join. (16 sc)\n"
        "Rnd 2: Ch 1, sc in first sc, *ch 3, skip next sc, sc in next sc; rep from * 6 more times, "
        "ch 3, join. (8 sc)\n"
        "Rnd 3: As round 2 but 4 sc instead of sc in next sc. (16 sc)\n");
    ASSERT_EQ(same.sections.size(), 1U);
    EXPECT_NE(same.sections.front().readings.back().state, State::unread);
    const Document other = read_crochet(
        "Ch 8, join to form a ring.\nRnd 1: Ch 1, 16 sc in ring, join. (16 sc)\n"
        "Rnd 2: Same as last round but ch 7 instead of ch 6. (16 sc)\n");
    ASSERT_TRUE(other.sections.front().readings.back().problem.has_value());
    EXPECT_NE(other.sections.front().readings.back().problem->what.find("does not stand in row 1"),
              std::string::npos);
}

TEST(PublishedForms, AColourChangedToIsNoLength) {
    const Document rounds = read_crochet(
        "Rnd 1: 6 sc in magic ring. (6)\n"
        "Change color to Light Pink Yarn (I used what I had).\nRnd 2: inc around (12)\n");
    EXPECT_EQ(counts_of(rounds), "6 - 12 ");
}

TEST(PublishedForms, WhatIsProposedComesToTheCount) {
    struct Case {
        const char* row;
        const char* words;
        const char* instead;
    };
    for (const Case& one : {
             Case{"Rnd 2: (2 sc in next st, sc in next st) repeat aroudn (18)", "aroudn", "around"},
             Case{"Rnd 2: (2 sc in next st, sc in next st) x 5 (18)", "5", "6"},
             Case{"Rnd 2: sc in each st around (18)", "(18", "(12"},
             Case{"Rnd 2: sc in each st ) around (12)", ")", ""},
             Case{"Rnd 2: 1 sc in some of them and 2 sc in others (18)",
                  "1 sc in some of them and 2 sc in others", "sc in each st, inc 6 sts evenly"},
         }) {
        const Document document =
            read_crochet(std::string("Rnd 1: 12 sc in magic ring (12)\n") + one.row);
        ASSERT_EQ(document.sections.size(), 1U) << one.row;
        const RowReading& reading = document.sections.front().readings.back();
        ASSERT_TRUE(reading.proposal.has_value()) << one.row;
        EXPECT_EQ(reading.proposal->words, one.words) << one.row;
        EXPECT_EQ(reading.proposal->instead, one.instead) << one.row;
        // With it the row is read.
        std::string mended = one.row;
        mended.replace(mended.find(one.words), std::string(one.words).size(), one.instead);
        EXPECT_EQ(counts_of(read_crochet("Rnd 1: 12 sc in magic ring (12)\n" + mended)),
                  "12 " + std::to_string(whole(reading.proposal->makes)) + " ")
            << mended;
    }
}

TEST(PublishedForms, ARowThatIsJoinedIsARound) {
    for (const char* const label : {"Rnd 2:", "R2:", "Row 2:", "2nd Row."}) {
        const Document rounds =
            read_crochet(std::string("Magic ring.\nRnd 1: 12 dc in ring, join.\n") + label +
                         " ch 3, 2 dc in each st around, join with sl st to top of "
                         "first dc.\n");
        ASSERT_EQ(rounds.sections.size(), 1U) << label;
        const RowReading& reading = rounds.sections.front().readings.back();
        ASSERT_TRUE(reading.stitches.has_value()) << label;
        // The chain is not joined to, so it is no stitch.
        EXPECT_EQ(whole(*reading.stitches), 24) << label;
    }
}

TEST(PublishedForms, SentencesWithoutWorkAreSetAside) {
    const Document bootie = read_crochet(
        "Using the soft red wool and a 4 mm hook, ch 8.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (7)\n"
        "Row 2: Ch 1, turn, sc in each st. 7 sts. Turn bootie right side out.\n"
        "Row 3: Ch 1, turn, sc in each st across. Hereafter it goes quickly for everyone. (7)\n"
        "Fasten off. Turn down three of the rows.\n"
        "Repeat for second bootie.\n");
    EXPECT_EQ(counts_of(bootie), "7 7 7 ");
    ASSERT_EQ(bootie.sections.size(), 1U);
    EXPECT_EQ(bootie.sections.front().times, 2);
    std::string aside;
    for (const RowReading& reading : bootie.sections.front().readings)
        for (const WordsAside& words : reading.aside) aside += words.words + "; ";
    EXPECT_NE(aside.find("turn bootie right side out"), std::string::npos) << aside;
    EXPECT_NE(aside.find("using the soft red wool"), std::string::npos) << aside;
    // A sentence with work in it is not.
    const Document worked = read_crochet(
        "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: sc in each st around. Wobble 3 dc there.\n");
    EXPECT_EQ(worked.sections.front().readings.back().state, State::unread);
}

TEST(PublishedForms, AHeadingBeforeALabelInOneLine) {
    const Document sock = read_crochet(
        "Rnd 1: 6 sc in magic ring. (6)\n"
        "Cuff: Rnd 1 (right side): Magic ring, 12 sc in ring, join. (12)\n");
    ASSERT_EQ(sock.sections.size(), 2U);
    EXPECT_EQ(sock.sections[1].name, "Cuff");
    EXPECT_EQ(counts_of(sock), "6 | 12 ");
}

TEST(PublishedForms, TheBaseMayStandBehindWhatTells) {
    EXPECT_EQ(
        counts_of(read_crochet("Waves\n\nSoft yarn and a large hook. Ch 23, adding multiples of 10 "
                               "for more.\nRow 1: Dc in 4th ch from hook (counts as dc) and in "
                               "each ch across. (21 dc)\n")),
        "21 ");
}

TEST(PublishedForms, ALineThatBreaksOffAtANumberGoesOn) {
    EXPECT_EQ(counts_of(read_crochet(
                  "Ch 8.\nRow 1: 1\nsc into 2nd ch from hook and into each of the next "
                  "6 ch. (7)\n")),
              "7 ");
}

TEST(PublishedForms, RowsWithinAParagraph) {
    EXPECT_EQ(
        counts_of(read_crochet(
            "Small rug, made of three skeins of soft yarn (any colour you like) and a large "
            "hook, for a floor that is cold in winter and for those who like to sit there "
            "(about as wide as a chair) rnd 1: ch 4, join with sl st to form a ring. ch 3 "
            "(counts as dc), work 11 dc in ring (12 dc). join. rnd 2: ch 3 (counts as dc), 1 dc "
            "in same st, 2 dc in each st around (24). join.\n")),
        "12 24 ");
    EXPECT_EQ(counts_of(read_crochet(
                  "FOOT - Toepiece Ch 11 (to measure about 2 inches). 1st row: Sc in "
                  "2nd ch from hook and in each ch across (10 sc). Ch 1, turn. 2nd row: "
                  "Sc in each sc across. Ch 1, turn.\n")),
              "10 10 ");
}

TEST(PublishedForms, WordsOfTheMakerInBrackets) {
    EXPECT_EQ(
        counts_of(read_crochet("Rnd 1: 6 sc in magic ring. (6)\n"
                               "Rnd 2: 2 sc in each st around. (12) (I make the last 2 sc through "
                               "both loops.)\n")),
        "6 12 ");
}

TEST(PublishedForms, StepsOfFinishingAreNoRows) {
    EXPECT_EQ(
        counts_of(read_crochet("Begin with a magic ring.Round 1: Ch 1, 8 sc in magic ring, join.\n"
                               "Round 2: Ch 1, 2 sc in each st around, join. (16)\n"
                               "2. Fold your piece in half.\n"
                               "3. Use your needle to sew the ends.\n")),
        "8 16 ");
    EXPECT_EQ(
        counts_of(read_crochet("Start a magic ring in green.\nR1. Sc 6 into the magic ring (6)\n")),
        "6 ");
}

TEST(PublishedForms, LabelsOfTwoSizes) {
    const std::string band =
        "Band\nCh 6.\nRow 1: Sc in 2nd ch from hook and in each ch across. (5 sc)\n"
        "Rows 2-9 (2-15): Ch 1, turn, sc across. (5 sc)\n"
        "Row 10 (16): Ch 1, turn, 2 sc in first st, sc across. (6 sc)\n"
        "Rows 11-12 (17-20): Ch 1, turn, sc across. (6 sc)\n";
    DocumentOptions options;
    options.craft = Craft::crochet;
    const Document small = read_document(band, options);
    EXPECT_EQ(small.sizes, 2U);
    EXPECT_EQ(counts_of(small), "5 5 6 6 ");
    EXPECT_EQ(small.sections.front().rows.order.size(), 12U);
    options.size = 1;
    EXPECT_EQ(read_document(band, options).sections.front().rows.order.size(), 20U);
}

TEST(PublishedForms, BritishNamesAreToldByWhatStandsBesideThem) {
    const Document square = read_crochet(
        "TR treble crochet (US dc - double crochet)\nCh 4, join to form a ring.\n"
        "RND 1: ch 3 (counts as tr), 11 tr in ring, join. (12 tr)\n");
    EXPECT_EQ(square.terms, Terms::uk);
}

}  // namespace
}  // namespace skeinfall::notation
