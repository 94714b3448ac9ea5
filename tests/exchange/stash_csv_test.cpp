#include "skeinfall/exchange/stash_csv.hpp"

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "skeinfall/units/quantity.hpp"

#include "problems_of.hpp"

namespace skeinfall::exchange {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

std::vector<std::string> stash_problems(std::string_view text) {
    return problems_of([&] { return parse_stash_csv(text, "s.csv"); });
}

TEST(StashCsv, EveryColumnOfAFile) {
    const StashTable table =
        read_stash_csv(std::string(SKEINFALL_SOURCE_DIR) + "/tests/data/stash.csv");
    ASSERT_EQ(skeins_of(table).size(), 3U);

    const stash::Skein whole = skeins_of(table)[0];
    EXPECT_EQ(whole.id, "s1");
    EXPECT_EQ(whole.yarn.name, "Harbour Aran");
    EXPECT_EQ(whole.colourway, "Slate");
    EXPECT_EQ(whole.dye_lot, "A17");
    EXPECT_FALSE(whole.shade_group);
    EXPECT_EQ(whole.yarn.weight, yarn::WeightClass{4});
    ASSERT_EQ(whole.yarn.fibre.shares.size(), 2U);
    EXPECT_EQ(whole.yarn.fibre.shares[1].fibre, "nylon");
    ASSERT_TRUE(whole.yarn.label.length && whole.yarn.label.mass);
    EXPECT_EQ(whole.yarn.label.length->text, "170 yd");
    // 170 yd = 170 x 0.9144 m; 3.5 oz = 3.5 x 28.349523125 g (yard and pound agreement, 1959).
    EXPECT_NEAR(whole.yarn.label.length->value / units::metre, 155.448, 1e-9);
    EXPECT_NEAR(whole.yarn.label.mass->value / units::gram, 99.2233309375, 1e-9);
    EXPECT_FALSE(whole.part || whole.weighing);
    EXPECT_EQ(whole.knots, 0);
    EXPECT_EQ(whole.note, "");

    const stash::Skein part = skeins_of(table)[1];
    EXPECT_EQ(part.id, "");
    EXPECT_FALSE(part.dye_lot);
    EXPECT_EQ(part.shade_group, "dusk");
    EXPECT_EQ(part.yarn.weight, yarn::WeightClass{4});
    EXPECT_FALSE(part.yarn.fibre.known());
    EXPECT_TRUE(part.part);
    ASSERT_TRUE(part.weighing && part.weighing->tare);
    EXPECT_EQ(part.weighing->shown.text, "62 g");
    EXPECT_EQ(part.weighing->scale.text, "1 g");
    EXPECT_EQ(part.weighing->tare->text, "40 g");
    EXPECT_NEAR(part.weighing->shown.value / units::gram, 62.0, 1e-12);
    EXPECT_EQ(part.knots, 2);
    EXPECT_EQ(part.note, "on a cone, \"blue\" label");

    const stash::Skein lace = skeins_of(table)[2];
    EXPECT_EQ(lace.id, "d-1.b");
    EXPECT_EQ(lace.yarn.weight, yarn::WeightClass{0});
    EXPECT_NEAR(lace.yarn.label.length->value / units::metre, 1234.5, 1e-9);
    EXPECT_EQ(lace.yarn.label.mass->text, "1 1/2 oz");
    EXPECT_EQ(lace.yarn.colour_repeat->text, "2 m");
    EXPECT_FALSE(lace.part);
    EXPECT_EQ(lace.note, "bought\nat the fair");

    EXPECT_THAT(
        table.understood,
        ElementsAre("ID -> the skein's own name", "Yarn -> name of the yarn", "Colour -> colourway",
                    "Dye Lot -> dye lot", "shade-group -> shade group, skeins judged alike by eye",
                    "Class -> Council's yarn weight class", "Fibre -> fibre content",
                    "label length -> length on the label", "LABEL_MASS -> mass on the label",
                    "colour repeat -> length of one colour repeat",
                    "State -> whole skein or part of one", "weighed -> what the scale showed",
                    "scale -> step of that scale", "tare -> cone or bag on the scale",
                    "knots -> knots inside the skein", "Note -> note"));
}

TEST(StashCsv, OtherColumnNamesInAnyOrder) {
    const StashTable table = parse_stash_csv(
        "\xef\xbb\xbfLOT,Color Repeat,fiber,COLOR-WAY,yarn\r\n7,1 m,100% cotton,Plum,Moss\r\n",
        "s.csv");
    ASSERT_EQ(skeins_of(table).size(), 1U);
    EXPECT_EQ(skeins_of(table)[0].dye_lot, "7");
    EXPECT_EQ(skeins_of(table)[0].yarn.colour_repeat->text, "1 m");
    EXPECT_EQ(skeins_of(table)[0].yarn.fibre.shares.at(0).fibre, "cotton");
    EXPECT_EQ(skeins_of(table)[0].colourway, "Plum");
    EXPECT_EQ(skeins_of(parse_stash_csv("yarn,color\na,b\n", "s")).at(0).colourway, "b");
    EXPECT_EQ(skeins_of(parse_stash_csv("yarn,colorway\na,b\n", "s")).at(0).colourway, "b");
}

TEST(StashCsv, HeaderAloneIsAnEmptyStash) {
    const StashTable table = parse_stash_csv("yarn\r\n", "s.csv");
    EXPECT_THAT(skeins_of(table), IsEmpty());
    EXPECT_THAT(table.understood, ElementsAre("yarn -> name of the yarn"));
}

TEST(StashCsv, FileWithoutRows) {
    EXPECT_THAT(stash_problems(""),
                ElementsAre("s.csv:1:1: the file has no rows; expected a header row with the names "
                            "of the columns\n"
                            "    The first row could be: "
                            "id,yarn,colourway,dye_lot,label_length,label_mass"));
}

TEST(StashCsv, MistakesOfTheHeaderComeTogether) {
    const auto found = stash_problems("id,colr,lot,Dye-Lot,,zebra\ns1,,,,,\n");
    ASSERT_EQ(found.size(), 5U);
    EXPECT_EQ(found[0],
              "s.csv:1:1: the column \"yarn\" is missing; expected a column with the names of the "
              "yarns\n"
              "    Add a column named \"yarn\".");
    EXPECT_THAT(found[1],
                StartsWith("s.csv:1:4: unknown column \"colr\"; expected one of id, yarn, "
                           "colourway, dye_lot, "));
    EXPECT_THAT(found[1], HasSubstr("\n    Did you mean \"color\"?"));
    EXPECT_EQ(
        found[2],
        "s.csv:1:13: \"Dye-Lot\" is a second column for dye_lot; the first one is column 9 of "
        "the line; expected each column once\n"
        "    Leave one of them out.");
    EXPECT_THAT(found[3], StartsWith("s.csv:1:21: a column without a name; "));
    EXPECT_THAT(found[4], StartsWith("s.csv:1:22: unknown column \"zebra\"; "));
    EXPECT_THAT(found[4], HasSubstr("\n    Rename the column, or leave it out of the file."));
}

TEST(StashCsv, RowsWithTooFewAndTooManyCells) {
    EXPECT_THAT(stash_problems("yarn,note\nMoss\nMoss,a,b,c\n"),
                ElementsAre("s.csv:2:1: the row ends after 1 of 2 columns; expected one cell a "
                            "column, empty where nothing is known\n"
                            "    Add the commas of the empty cells.",
                            "s.csv:3:8: the row has 4 cells for 2 columns; expected one cell a "
                            "column, empty where nothing is known\n"
                            "    A cell with a comma in it has to stand between quotes."));
}

TEST(StashCsv, RowWithoutAYarn) {
    EXPECT_THAT(stash_problems("id,yarn\ns1, \n"),
                ElementsAre("s.csv:2:1: no yarn is named; expected the yarn's name\n"
                            "    Fill in that cell."));
}

TEST(StashCsv, Ids) {
    const std::string remedy = "\n    Leave the cell empty to have an id given.";
    const std::string letters =
        "; expected up to 40 letters without accents, digits, \"-\", \"_\" or \".\"";
    const std::string forty(40, 'a');
    EXPECT_THAT(stash_problems("id,yarn\n" + forty + ",Moss\ns1,Moss\ns2,Moss\n\"s1\",Moss\n"),
                ElementsAre("s.csv:5:2: id: \"s1\" is the id of line 3 too; expected an id of its "
                            "own for each skein" +
                            remedy));
    EXPECT_THAT(
        stash_problems("id,yarn\ns/1,Moss\n" + forty + "a,Moss\n"),
        ElementsAre("s.csv:2:2: id: \"s/1\" cannot be an id" + letters + remedy,
                    "s.csv:3:1: id: \"" + forty + "a\" cannot be an id" + letters + remedy));
}

TEST(StashCsv, UnitMistakesPointIntoTheCell) {
    // "3.5 ozz": the unit is byte 5 of a cell that starts in column 6, a quoted one in column 7.
    EXPECT_THAT(stash_problems("yarn,label_mass\nMoss,3.5 ozz\nMoss,\" 3.5 ozz\"\n"),
                ElementsAre("s.csv:2:10: label_mass: \"3.5 ozz\": unknown unit \"ozz\"; expected a "
                            "weight (g, kg, oz, lb)\n"
                            "    Did you mean \"oz\"?",
                            "s.csv:3:12: label_mass: \"3.5 ozz\": unknown unit \"ozz\"; expected a "
                            "weight (g, kg, oz, lb)\n"
                            "    Did you mean \"oz\"?"));
    // The inch sign is doubled in the file, so the cell does not stand there byte for byte.
    EXPECT_THAT(stash_problems("yarn,label_length\nMoss,\"6\"\" x\"\n").front(),
                StartsWith("s.csv:2:6: label_length: \"6\" x\": \"x\" is left over; "));
    EXPECT_THAT(stash_problems("yarn,label_length\nMoss,100\n").front(),
                StartsWith("s.csv:2:9: label_length: \"100\": the unit is missing; "));
    EXPECT_THAT(stash_problems("yarn,label_length\nMoss,\"1,500 m\"\n").front(),
                StartsWith("s.csv:2:7: label_length: \"1,500 m\": \"1,500\" can be read as 1500 or "
                           "as 1.500; "));
    EXPECT_THAT(stash_problems("yarn,colour_repeat\nMoss,2 oz\n").front(),
                StartsWith("s.csv:2:8: colour_repeat: \"2 oz\": \"oz\" is a weight; "));
}

TEST(StashCsv, MassesMustBeAboveZero) {
    EXPECT_THAT(
        stash_problems("yarn,label_mass,weighed,scale\nMoss,-3 oz,0 g,1 g\n"),
        ElementsAre("s.csv:2:6: label_mass: \"-3 oz\": the amount is negative; expected more "
                    "than zero\n"
                    "    Write \"100 g\".",
                    "s.csv:2:12: weighed: \"0 g\": the amount is zero; expected more than "
                    "zero\n"
                    "    Write \"62 g\"."));
}

TEST(StashCsv, WeighingNeedsItsScale) {
    EXPECT_THAT(stash_problems("yarn,weighed,scale,tare\nMoss,62 g,,\nMoss,,1 g,\nMoss,,,9 g\n"),
                ElementsAre("s.csv:2:1: the step of the scale is missing; expected the "
                            "smallest step the scale shows, such as 1 g\n"
                            "    A usual kitchen scale has a step of \"1 g\".",
                            "s.csv:3:7: scale: there is no weighing it belongs to; expected the "
                            "reading in the column \"weighed\"\n"
                            "    Fill in that cell, or empty this one.",
                            "s.csv:4:8: tare: there is no weighing it belongs to; expected the "
                            "reading in the column \"weighed\"\n"
                            "    Fill in that cell, or empty this one."));
}

TEST(StashCsv, WrongTareIsOneProblemAndNoWeighingWithoutIt) {
    EXPECT_THAT(stash_problems("yarn,weighed,scale,tare\nMoss,62 g,1 g,70\n"),
                ElementsAre(StartsWith("s.csv:2:17: tare: \"70\": the unit is missing; ")));
}

TEST(StashCsv, FaultsOfASkein) {
    const std::string rest =
        "; expected a reading that fits the skein\n"
        "    Weigh the skein again, or correct its label, or whether it is whole.";
    EXPECT_THAT(
        stash_problems("yarn,weighed,scale,tare\nMoss,62 g,1 g,62 g\n"),
        ElementsAre(
            "s.csv:2:6: weighed: the scale shows no more than the cone or bag: nothing would be "
            "left" +
            rest));
    EXPECT_THAT(
        stash_problems("yarn,label_mass,state,weighed,scale\nMoss,100 g,part,150 g,1 g\n"),
        ElementsAre("s.csv:2:17: weighed: a part skein that weighs more than a whole one by "
                    "its label (100 g)" +
                    rest));
}

TEST(StashCsv, FibreThatDoesNotAddUp) {
    EXPECT_THAT(stash_problems("yarn,fiber\nMoss,80% wool 10% nylon\n"),
                ElementsAre("s.csv:2:6: fibre: \"80% wool 10% nylon\": the shares add to 90 %; "
                            "expected shares and fibres that add to 100 %\n"
                            "    Write it like \"80% wool 20% nylon\"."));
    EXPECT_THAT(stash_problems("yarn,fiber\nMoss,80% wool nylon 20%\n").front(),
                StartsWith("s.csv:2:24: fibre: "));
}

TEST(StashCsv, ClassStateAndKnots) {
    EXPECT_THAT(
        stash_problems("yarn,class,state,knots\nMoss,9,half,-1\nMoss,medum,,1.5\nMoss,,,1001\n"),
        ElementsAre(
            "s.csv:2:6: class: unknown weight class \"9\"; expected a number or name of 0 "
            "(Lace), 1 (Super Fine), 2 (Fine), 3 (Light), 4 (Medium), 5 (Bulky), 6 (Super "
            "Bulky), 7 (Jumbo)",
            "s.csv:2:8: state: \"half\" is neither whole nor part; expected \"whole\" or \"part\"\n"
            "    Write \"part\" for a skein that was begun.",
            "s.csv:2:13: knots: \"-1\" is not a number of knots; expected a whole number from "
            "0 to 1000",
            "s.csv:3:6: class: unknown weight class \"medum\"; expected a number or name of "
            "0 (Lace), 1 (Super Fine), 2 (Fine), 3 (Light), 4 (Medium), 5 (Bulky), 6 (Super "
            "Bulky), 7 (Jumbo)\n"
            "    Did you mean \"Medium\"?",
            "s.csv:3:13: knots: \"1.5\" is not a number of knots; expected a whole number from "
            "0 to 1000",
            "s.csv:4:8: knots: \"1001\" is not a number of knots; expected a whole number from "
            "0 to 1000"));
}

TEST(StashCsv, TextsThatAreTooLongOrHoldControlCharacters) {
    const std::string rest =
        "; expected at most 200 bytes of plain text\n    Shorten it, or type it anew.";
    EXPECT_THAT(stash_problems("yarn,note\n" + std::string(200, 'm') + ",n\n"), IsEmpty());
    EXPECT_THAT(stash_problems("yarn,note\n" + std::string(201, 'm') + ",n\n"),
                ElementsAre("s.csv:2:1: yarn: \"" + std::string(60, 'm') +
                            "...\" has 201 bytes, more than 200" + rest));
    EXPECT_THAT(
        stash_problems("yarn,lot\nMoss,a\x1b[2J\n"),
        ElementsAre("s.csv:2:6: dye_lot: \"a\\x1b[2J\" has a control character in it" + rest));
    // Only a note may have line breaks.
    EXPECT_THAT(stash_problems("yarn,note\nMoss,\"a\nb\"\n"), IsEmpty());
    EXPECT_THAT(
        stash_problems("yarn,lot\nMoss,\"a\nb\"\n"),
        ElementsAre("s.csv:2:7: dye_lot: \"a\\x0ab\" has a control character in it" + rest));
}

TEST(StashCsv, MistakesOfCsvItself) {
    EXPECT_THAT(stash_problems("yarn\n4\" wide\n").front(),
                StartsWith("s.csv:2:2: a quote inside"));
    EXPECT_THAT(stash_problems("yarn\n\xff\n").front(),
                StartsWith("s.csv:2:1: a letter here is saved in an older way"));
}

TEST(StashCsv, TooManySkeinsAndTooManyMistakes) {
    EXPECT_GE(most_rows, 1'000'000U);
    EXPECT_THAT(problems_of([] { return parse_stash_csv("yarn\na\na\na\n", "s.csv", 3); }),
                IsEmpty());
    EXPECT_THAT(problems_of([] { return parse_stash_csv("yarn\na\na\na\na\n", "s.csv", 3); }),
                ElementsAre("s.csv:5:1: the file has more than 3 rows; expected fewer rows\n"
                            "    Check that it is the right file, or take it apart."));
    std::string text = "yarn,knots\n";
    for (int row = 0; row < 1'500; ++row) text += "a,x\n";
    const auto found = stash_problems(text);
    ASSERT_EQ(found.size(), 1001U);
    EXPECT_THAT(found[0], StartsWith("s.csv:2:3: knots: "));
    EXPECT_THAT(found[1000], StartsWith("s.csv:1001:3: there are more than 1000 mistakes"));
}

TEST(StashCsv, MissingFile) {
    EXPECT_THAT(problems_of([] { return read_stash_csv("no/such/stash.csv"); }),
                ElementsAre("no/such/stash.csv: there is no such file\n"
                            "    The folder \"no/such\" is not there either."));
}

}  // namespace
}  // namespace skeinfall::exchange
