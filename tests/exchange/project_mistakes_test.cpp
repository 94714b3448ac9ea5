#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/exchange/project_toml.hpp"

#include "problems_of.hpp"
#include "project_problems.hpp"

namespace skeinfall::exchange {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

const std::string yarn = "[yarn.MC]\ntotal = '380 yd'\n";

/// Line 1 is the title; `lines` start in line 2.
std::vector<std::string> at_top(const std::string& lines) {
    return project_problems("title = 'T'\n" + lines + "\n" + hdc_gauge + yarn);
}
/// `lines` start in line 2 of the file and are the only ones of [gauge].
std::vector<std::string> in_gauge(const std::string& lines) {
    return project_problems("[gauge]\n" + lines + "\n" + yarn + "[title]\n");
}
/// `lines` start in line 7, in [yarn.MC], which stands in line 6.
std::vector<std::string> in_yarn(const std::string& lines) {
    return project_problems("title = 'T'\n" + hdc_gauge + "[yarn.MC]\n" + lines + "\n" +
                            "[[piece]]\nname = 'P'\nrows = 1\nstitches = 1\n");
}
// Whole files ---------------------------------------------------------------------------------

TEST(ProjectMistakes, EmptyFile) {
    EXPECT_THAT(
        project_problems(""),
        ElementsAre(
            "p:1:1: \"title\" is missing; expected a line like title = \"Name of the project\"",
            "p:1:1: \"gauge\" is missing; expected a [gauge] table\n"
            "    Add [gauge] with lines like stitches = \"13 per 10 cm\", rows = \"8 per 10 "
            "cm\" "
            "and stitch = \"hdc\".",
            "p:1:1: \"yarn\" is missing; expected at least one yarn, in a table like [yarn.MC]\n"
            "    Add [yarn.MC] with a line like grist = \"200 yd / 100 g\"."));
}

// Work is bounded before it is begun: this gauge took 12 s and a gigabyte in a report.
TEST(ProjectMistakes, AGaugeNobodyWorks) {
    EXPECT_THAT(project_problems("title = 'T'\n[gauge]\nstitches = '100000 per 10 cm'\n"
                                 "rows = '1001 per 10 cm'\nstitch = 'hdc'\n" +
                                 yarn),
                ElementsAre(HasSubstr("at most 1000 stitches per 10 cm"),
                            HasSubstr("at most 1000 rows per 10 cm")));
    EXPECT_THAT(project_problems("title = 'T'\n[gauge]\nstitches = '1000 per 10 cm'\n"
                                 "rows = '1000 per 10 cm'\nstitch = 'hdc'\n" +
                                 yarn),
                IsEmpty());
}

TEST(ProjectMistakes, SyntaxErrorHasItsPlace) {
    // The e with an accent is one character and two bytes, so the mistake stands in byte 11.
    EXPECT_THAT(project_problems("title = 'T'\nskill = \xc3\xa9"),
                ElementsAre(StartsWith("p:2:9: ")));
    EXPECT_THAT(project_problems("a = '\xc3\xa9' 5\n"),
                ElementsAre(StartsWith("p:1:10: something stands behind the closing quote")));
    EXPECT_THAT(project_problems("a = 1\na = 2\n"),
                ElementsAre(StartsWith("p:2:5: \"a\" stands twice")));
    EXPECT_THAT(project_problems("a = 99999999999999999999\n"),
                ElementsAre(HasSubstr("this number is too large")));
    EXPECT_THAT(project_problems("a = 'x\n"),
                ElementsAre(StartsWith("p:1:7: a quote is missing in this line")));
}

TEST(ProjectMistakes, BytesThatAreNoText) {
    EXPECT_THAT(
        project_problems("title = 'T'\nskill = '\xff'\n"),
        ElementsAre("p:2:10: a letter here is saved in an older way than UTF-8; expected plain "
                    "text in UTF-8\n    Save the file again with the encoding UTF-8."));
    EXPECT_THAT(project_problems(std::string_view("a = 'x\0'\n", 9)),
                ElementsAre(StartsWith("p:1:7: a character that no text has")));
}

TEST(ProjectMistakes, DeepNestingIsRefusedWithoutOverflow) {
    std::string dots;
    for (int i = 0; i < 1'000'000; ++i) dots += "a.";
    const std::string refused =
        "a key with too many dots; expected at most two, as in yarn.MC.name\n"
        "    Take the key apart.";
    // Dot 17 is the first too many: byte 34.
    EXPECT_THAT(project_problems(dots + "a = 1\n"), ElementsAre("p:1:34: " + refused));
    EXPECT_THAT(project_problems("\n[" + dots + "a]\n"), ElementsAre("p:2:35: " + refused));
    EXPECT_THAT(project_problems("x = [\n{" + dots + "a = 1}]\n"),
                ElementsAre("p:2:35: " + refused));
    // Strings before it do not hide it, whatever quotes they hold.
    EXPECT_THAT(project_problems("x = '''a'''''\n" + dots + "a = 1\n"),
                ElementsAre("p:2:34: " + refused));
    EXPECT_THAT(project_problems("x = \"\"\"\\\"\"\"\"\n" + dots + "a = 1\n"),
                ElementsAre("p:2:34: " + refused));
    EXPECT_THAT(project_problems("x = \"\\\"\" # '\n" + dots + "a = 1\n"),
                ElementsAre("p:2:34: " + refused));
    EXPECT_THAT(project_problems("x = " + std::string(1'000'000, '[')),
                ElementsAre(HasSubstr("too many brackets open")));
}

TEST(ProjectMistakes, DotsInTextsAndRemarksAreNoKeys) {
    EXPECT_THAT(at_top("# ................................\nskill = '....................'\n"
                       "care = [\"\"\"......................\"\"\"] # '.................."),
                IsEmpty());
}

TEST(ProjectMistakes, ValuesNestedTooDeepAreOnlyWrong) {
    EXPECT_THAT(at_top("care = " + std::string(200, '[') + std::string(200, ']')),
                ElementsAre("p:2:9: care: this is a list; expected a text"));
}

TEST(ProjectMistakes, ManyMistakesStopAtAThousand) {
    std::string keys;
    for (int i = 0; i < 2'000; ++i) keys += "zz" + std::to_string(i) + " = 1\n";
    const auto found = at_top(keys);
    ASSERT_EQ(found.size(), 1001U);
    EXPECT_THAT(found[0], StartsWith("p:2:1: unknown key \"zz0\"; expected one of title, craft"));
    EXPECT_THAT(found[1000], HasSubstr("there are more than 1000 mistakes"));
}

TEST(ProjectMistakes, AllMistakesOfAFileComeInOrder) {
    const auto found = project_problems(
        "craft = 'wool'\n"
        "[gauge]\n"
        "stitches = '0 per 10 cm'\n"
        "rows = '8 per 10 cm'\n"
        "stitch = 'hdc'\n"
        "[yarn.MC]\n"
        "fibre = '80% wool 10% nylon'\n"
        "[[piece]]\n"
        "name = 'Body'\n"
        "rows = 0\n"
        "width = '50 cn'\n");
    ASSERT_EQ(found.size(), 6U);
    EXPECT_THAT(found[0], StartsWith("p:1:1: \"title\" is missing"));
    EXPECT_THAT(found[1], StartsWith("p:1:9: craft: unknown word \"wool\""));
    EXPECT_THAT(found[2], StartsWith("p:3:13: stitches: \"0 per 10 cm\": the amount is zero"));
    EXPECT_THAT(found[3], StartsWith("p:7:10: fibre: \"80% wool 10% nylon\": the shares add to"));
    EXPECT_THAT(found[4], StartsWith("p:10:8: rows: 0 is too small"));
    EXPECT_THAT(found[5], StartsWith("p:11:13: width: \"50 cn\": unknown unit \"cn\""));
}

// Keys of the top -----------------------------------------------------------------------------

TEST(ProjectMistakes, WordsOfTheTop) {
    EXPECT_THAT(at_top("craft = 'crochett'"),
                ElementsAre("p:2:9: craft: unknown word \"crochett\"; expected \"crochet\" or "
                            "\"knit\"\n"
                            "    Did you mean \"crochet\"?"));
    EXPECT_THAT(at_top("terms = 'AU'"),
                ElementsAre("p:2:9: terms: unknown word \"AU\"; expected \"US\" or \"UK\""));
    EXPECT_THAT(
        at_top("made_for = 'dog'"),
        ElementsAre("p:2:12: made_for: unknown word \"dog\"; expected \"adult\", \"child\", "
                    "\"infant\" or \"kitchen heat\""));
    EXPECT_THAT(at_top("craft = true"),
                ElementsAre("p:2:9: craft: this is true or false; expected a text"));
}

TEST(ProjectMistakes, TextsOfTheTop) {
    EXPECT_THAT(at_top("skill = 3"),
                ElementsAre("p:2:9: skill: 3 is not in quotes; expected skill = \"3\""));
    const std::string rest =
        "; expected a text of 1 to 1000 bytes without control characters\n"
        "    Leave the key out when there is nothing to say.";
    EXPECT_THAT(at_top("skill = ' '"), ElementsAre("p:2:9: skill: the text is empty" + rest));
    EXPECT_THAT(at_top("skill = \"\\u001b[2J\""),
                ElementsAre("p:2:9: skill: \"\\x1b[2J\" has a control character in it" + rest));
    EXPECT_THAT(at_top("skill = '" + std::string(1001, 's') + "'"),
                ElementsAre("p:2:9: skill: \"" + std::string(60, 's') +
                            "...\" has 1001 bytes, more than 1000" + rest));
    EXPECT_THAT(at_top("skill = '" + std::string(1000, 's') + "'"), IsEmpty());
    EXPECT_THAT(
        at_top("care = 'wash'"),
        ElementsAre(
            "p:2:8: care: one or several belong between [ and ] here; expected care = [\"wash\"]"));
    EXPECT_THAT(at_top("notions = ['pins', 1979-05-27]"),
                ElementsAre("p:2:20: notions: this is a date, a time or too deep a nesting; "
                            "expected a text"));
}

TEST(ProjectMistakes, MarginAndTail) {
    EXPECT_THAT(at_top("margin = '10'"),
                ElementsAre("p:2:13: margin: \"10\": the percent sign is missing; expected \"%\"\n"
                            "    Write margin = \"10 %\"."));
    EXPECT_THAT(at_top("margin = '101 %'"),
                ElementsAre("p:2:10: margin: a margin above the need itself; expected 0 % to "
                            "100 %"));
    EXPECT_THAT(at_top("margin = 0.1"),
                ElementsAre("p:2:10: margin: 0.1 has no unit; expected margin = \"0.1 %\""));
    EXPECT_THAT(at_top("tail = '-3 cm'"),
                ElementsAre(StartsWith("p:2:9: tail: \"-3 cm\": the amount is negative; ")));
}

TEST(ProjectMistakes, UnknownKeysWithTheNearest) {
    const auto found = at_top("crafft = 'knit'\n\"a\\u001bb\" = 1");
    ASSERT_EQ(found.size(), 2U);
    EXPECT_EQ(found[0],
              "p:2:1: unknown key \"crafft\"\n"
              "    Did you mean \"craft\"?");
    EXPECT_THAT(found[1], StartsWith("p:3:1: unknown key \"a\\x1bb\"; "));
}

TEST(ProjectMistakes, Sizes) {
    EXPECT_THAT(at_top("sizes = []"),
                ElementsAre("p:2:9: sizes: 0 sizes; expected a list of 1 to 100 sizes\n"
                            "    Leave the key out when there is one size."));
    EXPECT_THAT(
        at_top("sizes = ['S', 'M', 'S']"),
        ElementsAre("p:2:9: sizes: the size \"S\" is there twice; expected each size once"));
    std::string many = "sizes = [";
    for (int i = 0; i < 101; ++i) many += "'" + std::to_string(i) + "',";
    EXPECT_THAT(at_top(many + "]"),
                ElementsAre("p:2:9: sizes: 101 sizes; expected a list of 1 to 100 sizes\n"
                            "    Leave the key out when there is one size."));
    EXPECT_THAT(
        at_top("sizes = 'S'"),
        ElementsAre(
            "p:2:9: sizes: one or several belong between [ and ] here; expected sizes = [\"S\"]"));
}

TEST(ProjectMistakes, NeitherPiecesNorTotals) {
    EXPECT_THAT(project_problems("title = 'T'\n" + hdc_gauge + "[yarn.MC]\n"),
                ElementsAre("p:1:1: \"piece\" is missing; expected at least one [[piece]], or a "
                            "total for a yarn\n"
                            "    Add a [[piece]] table, or a line like total = \"380 yd\" to a "
                            "yarn."));
}

TEST(ProjectMistakes, TablesOfTheWrongShape) {
    EXPECT_THAT(at_top("piece = 5"),
                ElementsAre("p:2:9: piece: this is a whole number; expected a list of tables\n"
                            "    Write [[piece]], with two brackets."));
    EXPECT_THAT(at_top("[piece]\nname = 'P'"),
                ElementsAre("p:2:1: piece: this is a single table; expected a list of tables\n"
                            "    Write [[piece]], with two brackets."));
    EXPECT_THAT(at_top("piece = ['P']"),
                ElementsAre("p:2:10: piece: this is a text; expected a table"));
    EXPECT_THAT(project_problems("title = 'T'\ngauge = 'tight'\n" + yarn),
                ElementsAre("p:2:9: gauge: this is a text; expected a table that starts with "
                            "[gauge]"));
}

// [gauge] -------------------------------------------------------------------------------------

TEST(ProjectMistakes, Gauge) {
    const auto missing = in_gauge("hook = '0 mm'\nneedle = 5\nstitches = '13 per 10 cm'");
    ASSERT_EQ(missing.size(), 5U);
    EXPECT_EQ(missing[0],
              "p:1:1: \"rows\" is missing; expected a line like rows = \"8 per 10 cm\"");
    EXPECT_EQ(missing[1], "p:1:1: \"stitch\" is missing; expected a line like stitch = \"hdc\"");
    EXPECT_THAT(missing[2], StartsWith("p:2:9: hook: \"0 mm\": the amount is zero; "));
    EXPECT_THAT(missing[3], StartsWith("p:3:10: needle: 5 has no unit; "));
    EXPECT_THAT(missing[4], StartsWith("p:7:1: title: this is a table; expected a text"));

    EXPECT_THAT(in_gauge("stitches = '13 per 0 cm'\nrows = '8 rows / 10 cn'\nstitch = 'hdc'"),
                ElementsAre(StartsWith("p:2:20: stitches: \"13 per 0 cm\": the amount is zero; "),
                            StartsWith("p:3:21: rows: \"8 rows / 10 cn\": unknown unit \"cn\"; "),
                            StartsWith("p:7:1: title: ")));
}

// [yarn.ID] -----------------------------------------------------------------------------------

TEST(ProjectMistakes, YarnNames) {
    const std::string rest =
        "; expected up to 20 letters without accents, digits, \"-\" or \"_\"\n"
        "    Name the yarns MC, CC1, CC2 and so on.";
    EXPECT_THAT(in_yarn("[yarn.\"C C\"]"),
                ElementsAre("p:7:1: \"C C\" cannot name a yarn" + rest,
                            StartsWith("p:8:1: \"yarn\" is missing; expected one of MC, C C")));
    EXPECT_THAT(
        project_problems("title = 'T'\n" + hdc_gauge + "[yarn]\nMC = 'wool'\n"),
        ElementsAre("p:6:1: yarn: this table has no name of its own; expected a name in it: "
                    "[yarn.NAME]"));
    std::string many;
    for (int i = 0; i <= 100; ++i) many += "[yarn.A" + std::to_string(i) + "]\ntotal = '1 m'\n";
    EXPECT_THAT(project_problems("title = 'T'\n" + hdc_gauge + many).back(),
                StartsWith("p:6:1: yarn: 101 yarns; expected at most 100 yarns"));
}

TEST(ProjectMistakes, ValuesOfAYarn) {
    EXPECT_THAT(
        in_yarn("class = 8"),
        ElementsAre(StartsWith("p:7:9: class: there is no weight class 8; expected a whole number "
                               "from 0 to 7\n    They are 0 (Lace), 1 (Super Fine), ")));
    EXPECT_THAT(in_yarn("class = -1"),
                ElementsAre(StartsWith("p:7:9: class: there is no weight class -1; ")));
    EXPECT_THAT(in_yarn("class = 'wool'"),
                ElementsAre(StartsWith("p:7:9: class: this is not a weight class; ")));
    EXPECT_THAT(in_yarn("class = 'DK'"), testing::IsEmpty());
    EXPECT_THAT(in_yarn("class = 'Medium'"), testing::IsEmpty());
    EXPECT_THAT(in_yarn("grist = '200 yd / 100 gg'"),
                ElementsAre(StartsWith("p:7:23: grist: \"200 yd / 100 gg\": unknown unit \"gg\"")));
    EXPECT_THAT(
        in_yarn("grist = '1,500 m / 1 kg'"),
        ElementsAre(StartsWith("p:7:10: grist: \"1,500 m / 1 kg\": \"1,500\" can be read")));
    EXPECT_THAT(in_yarn("one_lot = 'yes'"),
                ElementsAre("p:7:11: one_lot: this is a text; expected true or false, without "
                            "quotes"));
    EXPECT_THAT(in_yarn("avoid = 'wool'"),
                ElementsAre(StartsWith("p:7:9: avoid: one or several belong between")));
    EXPECT_THAT(
        in_yarn("counted = 'measured'"),
        ElementsAre("p:7:11: counted: there is no total it could belong to; expected a total "
                    "as well\n"
                    "    Add a line like total = \"380 yd\", or leave this one out."));
    EXPECT_THAT(in_yarn("total = '380 yd'\ncounted = 'skeins'"),
                ElementsAre("p:8:11: counted: unknown word \"skeins\"; expected \"measured\" or "
                            "\"whole skeins\""));
    EXPECT_THAT(in_yarn("color = 'red'"), ElementsAre("p:7:1: unknown key \"color\"\n"
                                                      "    Did you mean \"colour\"?"));
}

// A word that is not understood would keep nothing out.
TEST(ProjectMistakes, WhatToAvoidAndWhomTotalsAreFor) {
    EXPECT_THAT(in_yarn("avoid = ['woool']"),
                ElementsAre(StartsWith("p:7:11: avoid: \"woool\" is not a fibre or a family")));
    EXPECT_THAT(in_yarn("avoid = ['Animal fibres', 'merino wool', 'polyamide']"), IsEmpty());
    EXPECT_THAT(in_yarn("label_tolerance = '40 %'"),
                ElementsAre(StartsWith("p:7:19: label_tolerance: so far off no label")));
    EXPECT_THAT(in_yarn("label_tolerance = '2 %'"), IsEmpty());
    EXPECT_THAT(at_top("totals_for = '20 %'"),
                ElementsAre(StartsWith("p:2:14: totals_for: \"20 %\" is not a share of makers")));
    EXPECT_THAT(at_top("totals_for = 'middle'"), IsEmpty());
    EXPECT_THAT(at_top("totals_for = '95 %'"), IsEmpty());
}

TEST(ProjectMistakes, TotalsOfAYarn) {
    const std::string units =
        "; expected a length (m, cm, mm, yd, ft, in) or a weight (g, kg, oz, lb)\n";
    EXPECT_THAT(in_yarn("total = '7 oxz'"),
                ElementsAre("p:7:12: total: \"7 oxz\": unknown unit \"oxz\"" + units +
                            "    Did you mean \"oz\"?"));
    // The reading that comes further tells the mistake.
    EXPECT_THAT(in_yarn("total = '7 oz or so'"),
                ElementsAre(StartsWith("p:7:15: total: \"7 oz or so\": \"or so\" is left over; ")));
    EXPECT_THAT(in_yarn("total = '7 yd or so'"),
                ElementsAre(StartsWith("p:7:15: total: \"7 yd or so\": \"or so\" is left over; ")));
    EXPECT_THAT(in_yarn("total = '0 oz'"),
                ElementsAre(StartsWith("p:7:10: total: \"0 oz\": the amount is zero; ")));
    EXPECT_THAT(
        in_yarn("total = '7 oz'"),
        ElementsAre("p:7:9: total: a mass without the yarn's length per mass; expected a "
                    "grist as well\n"
                    "    Add a line like grist = \"200 yd / 100 g\" to this yarn, or class = "
                    "4 for what yarns of a class may have."));
    EXPECT_THAT(
        in_yarn("total = 380"),
        ElementsAre(StartsWith("p:7:9: total: 380 has no unit; expected total = \"380 yd\"")));
    EXPECT_THAT(
        in_yarn("total = ['1 m', '2 m']"),
        ElementsAre("p:7:9: total: a list, but the project has no sizes; expected one value "
                    "for all\n"
                    "    Name the sizes at the top, as in sizes = [\"S\", \"M\"], or write "
                    "one value."));
    EXPECT_THAT(project_problems("title = 'T'\nsizes = ['S', 'M']\n" + hdc_gauge +
                                 "[yarn.MC]\ngrist = '2 m/g'\ntotal = ['1 m', '2 g']\n"),
                ElementsAre("p:9:9: total: lengths and masses in one list; expected all lengths or "
                            "all masses"));
}

TEST(ProjectMistakes, RateOfAYarn) {
    EXPECT_THAT(in_yarn("rate = '2.9 in per yarn'"),
                ElementsAre(StartsWith("p:7:20: rate: \"2.9 in per yarn\": ")));
    EXPECT_THAT(in_yarn("rate = '2.9 in per sq ix'"),
                ElementsAre(StartsWith("p:7:23: rate: \"2.9 in per sq ix\": unknown unit \"ix\"")));
    EXPECT_THAT(in_yarn("rate = '2.9 oz per st'"),
                ElementsAre(StartsWith("p:7:13: rate: \"2.9 oz per st\": \"oz\" is a weight")));
}

// Places inside texts -------------------------------------------------------------------------

TEST(ProjectMistakes, ColumnInsideATextThatIsNotWrittenOutIsItsStart) {
    EXPECT_THAT(at_top("tail = '15 cn'"), ElementsAre(StartsWith("p:2:12: tail: ")));
    EXPECT_THAT(at_top("tail = \"15\\u0020cn\""), ElementsAre(StartsWith("p:2:8: tail: ")));
    EXPECT_THAT(at_top("tail = '''15 cn'''"), ElementsAre(StartsWith("p:2:14: tail: ")));
    // Bytes are counted, not characters.
    EXPECT_THAT(at_top("tail = '1\xc2\xbd cn'"), ElementsAre(StartsWith("p:2:13: tail: ")));
}

}  // namespace
}  // namespace skeinfall::exchange
