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

TEST(NotationYarns, AChangeInsideARowIsToldApart) {
    const std::string what =
        " the yarn changes inside a row, and how much of the row it takes is not followed\n";
    EXPECT_EQ(yarns_of(chain + first + "Row 2: ch 1, turn, 10 sc, 20 sc with CC1."), "3:38" + what);
    EXPECT_EQ(yarns_of(chain + first + "Row 2: ch 1, turn, 10 sc, with CC1 10 sc, with MC 10 sc."),
              "3:32" + what);
    EXPECT_EQ(yarns_of(chain + first +
                       "Row 2: ch 1, turn, *(sc with CC1) in next st, sc in next st; rep from * "
                       "across."),
              "3:30" + what);
}

TEST(NotationYarns, AYarnThatIsNotThereIsAnError) {
    EXPECT_EQ(yarns_of(chain + first + "Row 2: With CC7, " + rest),
              "3:13 no yarn \"CC7\" is described\n");
    EXPECT_EQ(yarns_of(chain + first + "Change to color plum.\nRow 2: " + rest),
              "3:17 no yarn \"plum\" is described\n");
    EXPECT_EQ(yarns_of(chain + first + "Row 2: With caly, " + rest),
              "3:13 no yarn \"caly\" is described\n");
}

}  // namespace
}  // namespace skeinfall::notation
