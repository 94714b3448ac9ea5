// Random words must never crash or hang the reading, and every problem must say where it is.

#include <cstdint>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "helpers.hpp"

namespace skeinfall::notation {
namespace {

const std::vector<std::string>& words() {
    static const std::vector<std::string> all{"sc",
                                              "hdc",
                                              "dc",
                                              "tr",
                                              "sc2tog",
                                              "dc3tog",
                                              "ch",
                                              "ch 3",
                                              "ch-1 sp",
                                              "sl st",
                                              "inc",
                                              "dec",
                                              "sk",
                                              "in",
                                              "next",
                                              "each",
                                              "st",
                                              "sts",
                                              "across",
                                              "around",
                                              "to",
                                              "last",
                                              "first",
                                              "same",
                                              "ring",
                                              "turn",
                                              "join",
                                              "rep",
                                              "from",
                                              "*",
                                              "**",
                                              "(",
                                              ")",
                                              "[",
                                              "]",
                                              "{",
                                              "}",
                                              ",",
                                              ";",
                                              ".",
                                              ":",
                                              "-",
                                              "=",
                                              "1",
                                              "2",
                                              "3",
                                              "17",
                                              "1000000",
                                              "times",
                                              "more",
                                              "twice",
                                              "Row",
                                              "Rows",
                                              "Rnd",
                                              "1-3",
                                              "2-40",
                                              "and",
                                              "all",
                                              "even",
                                              "rows",
                                              "k",
                                              "p2",
                                              "yo",
                                              "ssk",
                                              "psso",
                                              "k2tog",
                                              "M1",
                                              "sl 1",
                                              "BO",
                                              "CO 20",
                                              "knit",
                                              "to end",
                                              "Ch 30.",
                                              "2nd",
                                              "4th",
                                              "hook",
                                              "counts",
                                              "as",
                                              "leave",
                                              "of",
                                              "the",
                                              "magic",
                                              "turning",
                                              "top",
                                              "x",
                                              "wibble",
                                              "\n",
                                              "\nRow 2:",
                                              "(25 sts)",
                                              "over",
                                              "rep rows 1 and 2",
                                              "rep row 1",
                                              "opposite",
                                              "side",
                                              "working",
                                              "skipped",
                                              "\xc3\x97",
                                              "\xe2\x80\x93",
                                              "*sc, ch 1; rep from * across",
                                              "[sc, 2 dc in next st] 4 times",
                                              "Row 1: sc in each ch across"};
    return all;
}

/// What is wrong with the result, empty when all is well.
std::string wrong_with(const NotationResult& result) {
    for (const base::Problem& problem : result.problems)
        if (problem.place.line == 0 || problem.place.column == 0 || problem.what.empty() ||
            problem.expected.empty())
            return "a problem without place or words: " + base::to_text(problem);
    for (const Finding& finding : result.rows.findings)
        if (finding.place.line == 0 || finding.what.empty()) return "a finding without place";
    if (!result.problems.empty()) return {};
    if (!result.rows.stated()) return "neither rows nor problems";
    for (const RowWork& row : result.rows.distinct)
        for (const KindCount& kind : row.kinds)
            if (!(kind.count.value() > 0.0 && kind.count.value() <= 1e6))
                return "a count out of range: " + kind.kind;
    return {};
}

std::string check(const std::string& text) {
    for (const Craft craft : {Craft::crochet, Craft::knit}) {
        NotationOptions options;
        options.craft = craft;
        options.round = craft == Craft::knit;
        const std::string wrong = wrong_with(work_rows(text, options));
        if (!wrong.empty()) return wrong;
    }
    return {};
}

RC_GTEST_PROP(Robustness, WordSoup, ()) {
    std::string text =
        *rc::gen::element(std::string("Row 1: "), std::string("Ch 20.\nRow 1: "), std::string());
    const auto picks = *rc::gen::container<std::vector<std::size_t>>(
        rc::gen::inRange<std::size_t>(0, words().size()));
    for (const std::size_t pick : picks) text += words()[pick] + " ";
    RC_ASSERT(check(text) == std::string());
}

RC_GTEST_PROP(Robustness, ByteSoup, (const std::string& text)) {
    RC_ASSERT(check("Row 1: " + text) == std::string());
}

RC_GTEST_PROP(Robustness, AGoodPatternWithOneByteChanged, ()) {
    std::string text =
        "Ch 30.\nRow 1: sc in 2nd ch from hook, *ch 1, sk next ch, sc in next ch; rep from * "
        "across. "
        "(15 sc, 14 ch-1 sp)\nRow 2: ch 3 (counts as dc), turn, *[dc, ch 1] twice, 2 dc in next "
        "st; rep "
        "from * to last 2 sts, dc2tog.\nRows 3-12: rep rows 1 and 2.\n";
    const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
    text[at] = *rc::gen::arbitrary<char>();
    RC_ASSERT(check(text) == std::string());
}

TEST(Robustness, HugeNumbersEndSoon) {
    std::string nested = "Row 1: ";
    for (int i = 0; i < 15; ++i) nested += "[";
    nested += "sk next st, turn";
    for (int i = 0; i < 15; ++i) nested += "] 1000000 times";
    for (const std::string& row :
         {nested,
          std::string("Row 1: [[[sc in next st] 1000000 times] 1000000 times] 1000000 times"),
          std::string("Row 1: [[sc in last st] 1000000 times] 1000000 times"),
          std::string("Row 1: [[turn] 1000000 times] 1000000 times, sc in next st"),
          std::string("Row 1: [(dc, ch 1000000, dc) in next st] 1000000 times"),
          std::string("Row 1: *[[sc, ch 1] 1000 times, dc] 1000 times; rep from * 1000 times"),
          std::string("Rows 1-1000000: [[sc in last st] 1000 times] 1000 times")})
        EXPECT_EQ(check("Ch 20.\n" + row), "") << row;
}

// Lines and columns are sought where something is wrong only: for every row they would take time
// with the square of the rows.
TEST(Robustness, SoundRowsAskForNoPlaces) {
    std::string text = "Row 1: Ch 11, sc in 2nd ch from hook and in each ch across. (10 sc)\n";
    for (int row = 2; row <= 200; ++row)
        text += "Row " + std::to_string(row) + ": ch 1, turn, sc in each st across. (10 sc)\n";
    std::int64_t asked = 0;
    NotationOptions options;
    options.locate = [&asked](std::size_t, std::size_t) {
        ++asked;
        return skeinfall::base::Place{};
    };
    const NotationResult sound = work_rows(text, options);
    EXPECT_EQ(sound.rows.rows(), 200);
    EXPECT_TRUE(sound.rows.findings.empty());
    EXPECT_EQ(asked, 0);
    static_cast<void>(work_rows(text + "Row 200: sc in each st across.\n", options));
    EXPECT_EQ(asked, 1);
}

}  // namespace
}  // namespace skeinfall::notation
