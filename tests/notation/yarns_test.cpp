// Which yarn written rows are worked in. Cases are our own; how patterns word a change of yarn is
// common practice, no source.

#include <gtest/gtest.h>

#include "helpers.hpp"

namespace skeinfall::notation {
namespace {

NotationOptions two_yarns() {
    NotationOptions options;
    options.yarns = {
        {"MC", {"mc", "oat"}}, {"CC1", {"cc1", "clay", "wharf dk dark clay"}}, {"A", {"a"}}};
    return options;
}

const std::string chain = "Ch 31.\n";
const std::string first = "Row 1: sc in 2nd ch from hook and in each ch across. (30 sc)\n";
const std::string rest = "ch 1, turn, sc in each st across.";

/// "MC 3, CC1 2"; problems instead where there are any.
std::string yarns_of(const std::string& text, const NotationOptions& options = two_yarns()) {
    const NotationResult result = work_rows(text, options);
    std::string out;
    for (const std::string& problem : problems(result)) out += problem + "\n";
    for (const std::string& complaint : complaints(result)) out += complaint + "\n";
    for (const Stripe& stripe : result.rows.stripes)
        out += (out.empty() ? "" : ", ") + stripe.role + " " + std::to_string(stripe.rows);
    return out;
}

TEST(NotationYarns, AChangeHoldsFromItsRowOn) {
    const std::string before = chain + first + "Row 2: " + rest + "\n";
    for (const std::string row :
         {"Row 3: With CC1, ",
          "With CC1, Row 3: ", "Row 3 (CC1): ", "Row 3 (with CC1): ", "Row 3: In CC1, ",
          "Row 3: Using CC1, ", "Row 3: Switch to CC1, ", "Row 3: Change to CC1. ",
          "Row 3: Join CC1, ", "Change to CC1.\nRow 3: ", "Fasten off MC.\nJoin CC1.\nRow 3: ",
          "Drop MC, pick up CC1.\nRow 3: ", "Row 3: With clay, ", "Row 3: With color Clay, ",
          "Row 3: With Wharf DK dark clay, ",
          "Row 3: CC1: ", "Fasten off MC and join CC1.\nRow 3: "}) {
        EXPECT_EQ(yarns_of(before + row + rest + "\nRow 4: " + rest), "MC 2, CC1 2") << row;
    }
}

TEST(NotationYarns, AChangeAtTheEndOfARowIsForTheNext) {
    for (const std::string end :
         {" Change to CC1.", " (30 sc) Change to CC1.", " (30 sc) Fasten off MC, join CC1.",
          " (30 sc) Switch to clay in last st."})
        EXPECT_EQ(yarns_of(chain + first + "Rows 2-4: " + rest + end + "\nRow 5: " + rest),
                  "MC 4, CC1 1")
            << end;
    EXPECT_EQ(yarns_of(chain + first +
                       "Row 2: ch 1, turn, sc in each st across, changing to CC1 "
                       "in last st. (30 sc)\nRow 3: " +
                       rest),
              "MC 2, CC1 1");
}

TEST(NotationYarns, BehindTheOnlyStitchesItIsForTheRow) {
    EXPECT_EQ(yarns_of(chain + first + "Row 2: ch 1, turn, sc in each st across with CC1.\n" +
                       "Row 3: ch 1, turn, sc in each st across in MC."),
              "MC 1, CC1 1, MC 1");
}

TEST(NotationYarns, RepeatedRowsBringTheirYarns) {
    const std::string four =
        chain + first + "Row 2: " + rest + "\nRow 3: With CC1, " + rest + "\nRow 4: " + rest + "\n";
    EXPECT_EQ(yarns_of(four + "Rows 5-7: rep rows 2-4."), "MC 2, CC1 2, MC 1, CC1 2");
    EXPECT_EQ(yarns_of(four + "Rows 5-8: rep row 4."), "MC 2, CC1 6");
    EXPECT_EQ(yarns_of(four + "Change to MC.\nRows 5-8: rep rows 3 and 4."), "MC 2, CC1 2, MC 4");
    EXPECT_EQ(yarns_of(four + "Rows 5-8: With MC, rep rows 3 and 4."), "MC 2, CC1 2, MC 4");
}

TEST(NotationYarns, RowsInTheSameWordsMayHaveDifferentYarns) {
    EXPECT_EQ(yarns_of(chain + first + "Row 2: " + rest + "\nChange to CC1.\nRow 3: " + rest),
              "MC 2, CC1 1");
    EXPECT_EQ(yarns_of(chain + first + "Row 2: With CC1, " + rest + "\nRow 3: With MC, " + rest +
                       "\nRow 4: With CC1, " + rest),
              "MC 1, CC1 1, MC 1, CC1 1");
}

TEST(NotationYarns, AnArticleIsNoYarn) {
    EXPECT_EQ(yarns_of(chain + first + "Row 2: With a 5 mm hook, " + rest), "");
    EXPECT_EQ(yarns_of(chain + first + "Row 2: With A, " + rest), "MC 1, A 1");
    EXPECT_EQ(yarns_of(chain + first + "Row 2: With color A, " + rest), "MC 1, A 1");
}

TEST(NotationYarns, WordsThatNameNoYarnGoOnWorking) {
    for (const std::string words :
         {"With right side facing, ", "With RS facing, ", "With WS facing, ", "With a hook, ",
          "Using a smaller hook, ", "With wrong side facing, "})
        EXPECT_EQ(yarns_of(chain + first + "Row 2: " + words + rest), "") << words;
    EXPECT_EQ(yarns_of("Ch 4, join with sl st to form ring.\nRnd 1: ch 3, 11 dc in ring, join with "
                       "sl st in top of ch-3. (12 dc)"),
              "");
    EXPECT_EQ(yarns_of(chain + first +
                       "Row 2: ch 1, turn, *sc in next st, ch 1, sk next st; rep "
                       "from * across, ending with sc in last 2 sts. Fasten off."),
              "");
}

/// "MC 20 (10), CC1 10": each yarn's stitches in the last row, and those it passes.
std::string colours_of(const std::string& text, const NotationOptions& options) {
    const NotationResult result = work_rows(text, options);
    std::string out;
    for (const std::string& problem : problems(result)) out += problem + "\n";
    for (const std::string& complaint : complaints(result)) out += complaint + "\n";
    if (result.rows.order.empty()) return out;
    for (const project::ColourWork& colour : result.rows.row(result.rows.rows()).colours) {
        out +=
            (out.empty() ? "" : ", ") + colour.role + " " + std::to_string(whole(colour.stitches));
        if (whole(colour.carried) > 0) out += " (" + std::to_string(whole(colour.carried)) + ")";
        if (colour.begun > 0) out += " begun " + std::to_string(colour.begun);
    }
    return out;
}

NotationOptions knit_in_two(bool round) {
    NotationOptions options = two_yarns();
    options.craft = Craft::knit;
    options.round = round;
    return options;
}

TEST(NotationYarns, AChangeInsideARowPartsIt) {
    const auto row = [&](const std::string& words) {
        return colours_of(chain + first + "Row 2: ch 1, turn, " + words, two_yarns());
    };
    EXPECT_EQ(row("10 sc, 20 sc with CC1."), "MC 10, CC1 20");
    EXPECT_EQ(row("10 sc, with CC1 10 sc, with MC 10 sc."), "MC 20 (10), CC1 10");
    EXPECT_EQ(row("*sc with CC1, sc with MC; rep from * across."), "MC 15 (14), CC1 15 (14)");
    EXPECT_EQ(row("with MC, 3 sc, change to CC1, 2 sc, change to MC, sc in each st across."),
              "MC 28 (2), CC1 2");
}

TEST(NotationYarns, AYarnBeforeTheTurningChainLeavesItATurningChain) {
    const NotationResult result = work_rows(
        chain + first + "Rows 2-5: With CC1, ch 1, turn, 10 sc, 20 sc with MC.", two_yarns());
    EXPECT_TRUE(problems(result).empty());
    EXPECT_TRUE(complaints(result).empty()) << complaints(result).front();
    EXPECT_EQ(whole(result.rows.row(5).across), 30);
}

TEST(NotationYarns, StrandedRoundsPassTheOtherYarnAllRound) {
    const auto round = [&](const std::string& words) {
        return colours_of("CO 20 sts. Join in the round.\nRnd 1: " + words, knit_in_two(true));
    };
    EXPECT_EQ(round("[K4 in MC, K1 in CC1] around."), "MC 16 (4), CC1 4 (16)");
    EXPECT_EQ(round("*K4 MC, k1 CC1; rep from * around."), "MC 16 (4), CC1 4 (16)");
    EXPECT_EQ(round("*With MC k4, with CC1 k1; rep from * around."), "MC 16 (4), CC1 4 (16)");
    EXPECT_EQ(round("*MC: k4, CC1: k1; rep from * around."), "MC 16 (4), CC1 4 (16)");
    EXPECT_EQ(round("*4 MC, 1 CC1; rep from * around."), "MC 16 (4), CC1 4 (16)");
    EXPECT_EQ(round("(K4MC, K1CC1) around."), "MC 16 (4), CC1 4 (16)");
    EXPECT_EQ(round("K in CC1 to last 3 sts, k3 in MC."), "MC 3 (17), CC1 17 (3)");
    EXPECT_EQ(round("With MC, k2, *k1 CC1, k1 MC; rep from * around."), "MC 11 (9), CC1 9 (11)");
    EXPECT_EQ(round("With CC1, knit."), "");
}

TEST(NotationYarns, FlatRowsPassItBetweenTheirOwnStitchesOnly) {
    const auto row = [&](const std::string& words) {
        return colours_of("CO 20 sts.\nRow 1: " + words, knit_in_two(false));
    };
    EXPECT_EQ(row("With MC k5, with CC1 k10, with MC k5."), "MC 10 (10), CC1 10");
    EXPECT_EQ(row("K12 in MC, k8 in CC1."), "MC 12, CC1 8");
    EXPECT_EQ(row("K1 MC, *k1 CC1, k2 MC; rep from * to last st, k1 CC1."),
              "MC 13 (6), CC1 7 (12)");
}

TEST(NotationYarns, IntarsiaCutsWhatItDoesNotCarry) {
    const std::string start = "Note: this is worked in intarsia.\nCO 20 sts.\n";
    EXPECT_EQ(
        colours_of(start + "Row 1: With MC k5, with CC1 k10, with MC k5.", knit_in_two(false)),
        "MC 10 begun 1, CC1 10");
    EXPECT_EQ(colours_of(start + "Row 1: With MC k5, with CC1 k10, with MC k5.\nRow 2: With MC p4, "
                                 "with CC1 p12, with MC p4.",
                         knit_in_two(false)),
              "MC 8, CC1 12");
}

TEST(NotationYarns, YarnsHeldTogetherAreNotColoursOfARow) {
    const std::string what = "the row names two yarns";
    EXPECT_NE(
        colours_of("CO 20 sts.\nRow 1: With MC and CC1 held together, knit.", knit_in_two(false))
            .find(what),
        std::string::npos);
}

TEST(NotationYarns, AYarnThatIsNotThereIsAnError) {
    EXPECT_EQ(yarns_of(chain + first + "Row 2: With CC7, " + rest),
              "3:13 no yarn \"CC7\" is described\n");
    EXPECT_EQ(yarns_of(chain + first + "Change to color plum.\nRow 2: " + rest),
              "3:17 no yarn \"plum\" is described\n");
    // A change to what is no yarn is no remark.
    const std::string before = chain + first + "Row 2: " + rest + "\n";
    for (const std::string row : {"Row 3: change to plum, ", "Row 3: Change to plum. "})
        EXPECT_NE(yarns_of(before + row + rest).find("no yarn \"plum\" is described"),
                  std::string::npos)
            << row;
    for (const std::string row : {"Row 3: change colour, ", "Change to the next color.\nRow 3: "})
        EXPECT_NE(yarns_of(before + row + rest).find("which yarn comes next"), std::string::npos)
            << row;
    EXPECT_EQ(yarns_of(chain + first + "Row 2: With caly, " + rest),
              "3:13 no yarn \"caly\" is described\n");
}

}  // namespace
}  // namespace skeinfall::notation
