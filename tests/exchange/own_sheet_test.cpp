#include "skeinfall/exchange/own_sheet.hpp"

#include <cstdint>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "skeinfall/units/quantity.hpp"

#include "problems_of.hpp"

namespace skeinfall::exchange {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

StashTable sheet(const std::string& text, const std::vector<ColumnMeaning>& given = {}) {
    return parse_own_sheet(text, "own.csv", given);
}

std::vector<std::string> sheet_problems(const std::string& text) {
    return problems_of([&] { return sheet(text); });
}

/// "Reed|gold|150 yd|100 g|45 g" of each skein, what is not known left empty.
std::vector<std::string> shown(const StashTable& table) {
    std::vector<std::string> out;
    for (const stash::Skein& skein : skeins_of(table))
        out.push_back(skein.yarn.name + "|" + skein.colourway + "|" +
                      (skein.yarn.label.length ? skein.yarn.label.length->text : "") + "|" +
                      (skein.yarn.label.mass ? skein.yarn.label.mass->text : "") + "|" +
                      (skein.weighing ? skein.weighing->shown.text : "") +
                      (skein.part ? "|part" : ""));
    return out;
}

/// A total is never taken for what one skein holds.
TEST(OwnSheet, TotalsAreOfAllSkeinsOfTheRow) {
    for (const std::string heading :
         {"Total yards", "Yards total", "Yards left", "Remaining yards", "Yds in stash",
          "Yards on hand", "Total yardage", "yards (total)"})
        EXPECT_THAT(shown(sheet("Yarn,Qty," + heading + "\nReed,3,510\n")),
                    ElementsAre("Reed||170 yd||", "Reed||170 yd||", "Reed||170 yd||"))
            << heading;
}

/// "420 m" of a ball of 50 g would be twice what it holds.
TEST(OwnSheet, ALengthPerMassIsNotWhatASkeinHolds) {
    for (const std::string heading : {"m/100g", "Meters per 100 g", "m per 100g"}) {
        EXPECT_THAT(shown(sheet("Yarn," + heading + ",Weight each (g)\nReed,420,50\n")),
                    ElementsAre("Reed||210 m|50 g|"))
            << heading;
        EXPECT_THAT(shown(sheet("Yarn," + heading + ",g left\nReed,240,62\n")),
                    ElementsAre("Reed||148.8 m|62 g|62 g|part"))
            << heading;
        EXPECT_THAT(sheet_problems("Yarn,Balls," + heading + "\nReed,3,420\n"),
                    Contains(HasSubstr("does not say what a skein holds")))
            << heading;
    }
}

/// "62 g" under "Left" is no note beside a whole ball.
TEST(OwnSheet, WhatIsLeftMayStandInEachCellInItsOwnWay) {
    const std::string rows =
        "Yarn,Ball grams,Metres/ball,How many,Left\nReed,50,120,2,1.5 balls\nMoor,100,170,1,62 g\n";
    EXPECT_THAT(shown(sheet(rows)), ElementsAre("Reed||120 m|50 g|", "Reed||120 m|50 g||part",
                                                "Moor||170 m|100 g|62 g|part"));
    const auto note = parse_column_meaning("Left=note");
    ASSERT_TRUE(note);
    EXPECT_THAT(
        shown(sheet(rows, {*note})),
        ElementsAre("Reed||120 m|50 g||part", "Reed||120 m|50 g||part", "Moor||170 m|100 g||part"));
}

/// Of skeins of several lots nobody knows which is of which.
TEST(OwnSheet, SeveralLotsAreNoLot) {
    for (const std::string lot : {"mixed", "various", "12/14", "A and B", "2 lots"})
        for (const stash::Skein& skein :
             skeins_of(sheet("Yarn,Skeins,Put-up,Lot\nReed,3,210 m / 100 g,\"" + lot + "\"\n"))) {
            EXPECT_FALSE(skein.dye_lot) << lot;
            EXPECT_THAT(skein.note, HasSubstr(lot));
        }
    const auto one = skeins_of(sheet("Yarn,Skeins,Put-up,Lot\nReed,3,210 m / 100 g,4411\n"));
    EXPECT_EQ(one.at(0).dye_lot, "4411");
    // One skein has one lot, however it is written.
    EXPECT_EQ(
        skeins_of(sheet("Yarn,Skeins,Put-up,Lot\nReed,1,210 m / 100 g,12/14\n")).at(0).dye_lot,
        "12/14");
}

/// "Total" is as often the product of the columns before it: it takes nothing back.
TEST(OwnSheet, ATotalThatAddsUpTheLabelsHidesNoRemark) {
    for (const std::string total : {"420", "210"}) {
        const auto skeins = skeins_of(sheet(
            "Yarn,Skeins,Metres each,Notes,Total metres\nReed,2,210,one started," + total + "\n"));
        for (const stash::Skein& skein : skeins)
            EXPECT_EQ(stash::is_part(skein), total == "420") << total;
    }
}

/// A remark that some is gone leaves no whole skein.
TEST(OwnSheet, ARemarkThatSomeIsGoneCounts) {
    for (const std::string remark :
         {"used up", "1 gifted to Ann", "one half used", "in use", "set aside for Anna",
          "promised to my sister", "kept for a hat"})
        for (const stash::Skein& skein :
             skeins_of(sheet("Yarn,Skeins,Put-up,Remarks\nReed,2,210 m / 100 g," + remark + "\n")))
            EXPECT_TRUE(skein.part) << remark;
    for (const std::string remark : {"new", "unused", "not opened", "for the blanket"})
        for (const stash::Skein& skein :
             skeins_of(sheet("Yarn,Skeins,Put-up,Remarks\nReed,2,210 m / 100 g," + remark + "\n")))
            EXPECT_FALSE(skein.part) << remark;
}

/// The label says what a whole ball weighs; another weight beside it is of what is there, or a
/// slip.
TEST(OwnSheet, AWeightBesideTheLabelsOwnIsAskedAbout) {
    for (const std::string heading : {"Weight", "Grams", "g", "Mass"}) {
        EXPECT_THAT(sheet_problems("Yarn,Label," + heading + "\nReed,200 m / 100 g,62 g\n"),
                    ElementsAre(HasSubstr("62 g here, and 100 g by another column")))
            << heading;
        EXPECT_THAT(sheet_problems("Yarn,Label," + heading + "\nReed,200 m / 100 g,3.5 oz\n"),
                    IsEmpty())
            << heading;
    }
}

TEST(OwnSheet, TotalsInMetres) {
    for (const std::string heading : {"Meterage total", "Total metres", "Metres left"}) {
        const auto table = sheet("Yarn,Qty," + heading + "\nReed,4,500\n");
        ASSERT_EQ(table.lines.size(), 4U) << heading;
        for (const stash::Skein& skein : skeins_of(table))
            EXPECT_NEAR(skein.yarn.label.length->value / units::metre, 125.0, 1e-9) << heading;
    }
}

TEST(OwnSheet, WhatItWeighsNowIsNoLabel) {
    for (const std::string heading :
         {"Grams left", "Leftover grams", "Current weight g", "Weight now (g)", "g remaining"})
        EXPECT_THAT(shown(sheet("Yarn,Yards,Grams," + heading + "\nReed,170,100,45\n")),
                    ElementsAre("Reed||170 yd|100 g|45 g|part"))
            << heading;
}

/// Three balls of 100 g that weigh 250 g are two and a half; they were three of 250 g.
TEST(OwnSheet, OneWeightOfSeveralSkeins) {
    EXPECT_THAT(shown(sheet("Yarn,Qty,Yards,Grams,Grams left\nReed,3,170,100,250\n")),
                ElementsAre("Reed||170 yd|100 g|100 g|part", "Reed||170 yd|100 g|100 g|part",
                            "Reed||170 yd|100 g|50 g|part"));
    EXPECT_THAT(shown(sheet("Yarn,Qty,Yards,Grams,Grams left\nReed,3,170,100,150\n")),
                ElementsAre("Reed||170 yd|100 g|50 g|part", "Reed||170 yd|100 g|50 g|part",
                            "Reed||170 yd|100 g|50 g|part"));
    EXPECT_THAT(shown(sheet("Yarn,Qty,Yards,Grams,Total grams\nReed,3,170,100,300\n")),
                ElementsAre("Reed||170 yd|100 g|", "Reed||170 yd|100 g|", "Reed||170 yd|100 g|"));
    EXPECT_THAT(shown(sheet("Yarn,Qty,Total yards,Total grams\nReed,3,510,300\n")),
                ElementsAre("Reed||170 yd|100 g|", "Reed||170 yd|100 g|", "Reed||170 yd|100 g|"));
}

TEST(OwnSheet, ALengthThatIsLeftOfSeveralSkeins) {
    EXPECT_THAT(shown(sheet("Yarn,Qty,Yards,Grams,Yards left\nReed,3,170,100,400\n")),
                ElementsAre("Reed||170 yd|100 g|", "Reed||170 yd|100 g|", "Reed||60 yd|35.29 g|"));
    // Nobody knows which of the three holds what: each has its share, and its label.
    EXPECT_THAT(shown(sheet("Yarn,Qty,Yards,Grams,Yards left\nReed,3,170,100,255\n")),
                ElementsAre("Reed||170 yd|100 g|50 g|part", "Reed||170 yd|100 g|50 g|part",
                            "Reed||170 yd|100 g|50 g|part"));
    EXPECT_THAT(sheet_problems("Yarn,Qty,Yards,Yards left\nReed,3,170,800\n"),
                ElementsAre(HasSubstr("is more than 3 skeins of 170 yd hold")));
}

/// Whatever the figures, a row never gives more than its own total.
RC_GTEST_PROP(OwnSheetTotals, GiveNoMoreThanTheySay, ()) {
    const auto count = *rc::gen::inRange(1, 9);
    const auto label = *rc::gen::inRange(50, 500);
    // A yard or less is no skein, and refused.
    const auto total = *rc::gen::inRange(3 * count, count * label);
    const std::string heading = *rc::gen::elementOf(
        std::vector<std::string>{"Total yards", "Yards left", "Yards in stash", "Yds remaining"});
    const bool with_label = *rc::gen::arbitrary<bool>();
    const auto table =
        with_label
            ? sheet(fmt::format("Yarn,Qty,Yards,{}\nReed,{},{},{}\n", heading, count, label, total))
            : sheet(fmt::format("Yarn,Qty,{}\nReed,{},{}\n", heading, count, total));
    double sum = 0.0;
    for (const stash::Skein& skein : skeins_of(table))
        sum += skein.yarn.label.length->value / units::yard;
    RC_ASSERT(sum <= total + 1e-6);
    // Rounded down to hundredths, skein by skein; half a per cent of a skein is no skein.
    RC_ASSERT(sum >= total - 0.011 * count - 0.0051 * label);
}

RC_GTEST_PROP(OwnSheetWeights, GiveNoMoreThanTheySay, ()) {
    const auto count = *rc::gen::inRange(1, 9);
    const auto label = *rc::gen::inRange(20, 200);
    const auto total = *rc::gen::inRange(1, count * label + 1);
    const auto table = sheet(
        fmt::format("Yarn,Qty,Yards,Grams,Grams left\nReed,{},170,{},{}\n", count, label, total));
    double sum = 0.0;
    for (const stash::Skein& skein : skeins_of(table))
        sum += skein.weighing->shown.value / units::gram;
    RC_ASSERT(sum <= total + 0.0051 * label);
    RC_ASSERT(sum >= total - 0.011 * count - 0.0051 * label);
}

TEST(OwnSheet, WhatIsGoneOrWantedIsAskedAbout) {
    for (const std::string heading : {"Yards used", "Grams used", "Yards needed", "Used"})
        EXPECT_THAT(sheet_problems("Yarn,Yards,Grams," + heading + "\nReed,170,100,45\n"),
                    ElementsAre(HasSubstr("says what is used or wanted")))
            << heading;
}

TEST(OwnSheet, FiguresWithoutAUnitAreAskedAbout) {
    EXPECT_THAT(sheet_problems("Yarn,Length\nReed,170\n"),
                ElementsAre(AllOf(HasSubstr("figures without a unit"),
                                  HasSubstr("\"Length=label length in yd\""))));
    // The likeliest reading comes first, and none that loses the weights.
    EXPECT_THAT(sheet_problems("Yarn,Left\nReed,45\n"),
                ElementsAre(HasSubstr("Say what it is: \"Left=weighed in g\"")));
    EXPECT_THAT(shown(sheet("Yarn,Left\nReed,45 g\n")), ElementsAre("Reed||||45 g|part"));
}

TEST(OwnSheet, LabelsInOneCell) {
    EXPECT_THAT(shown(sheet("Yarn,Put-up\nReed,50 g / 120 m\nFell,100g = 200m\n")),
                ElementsAre("Reed||120 m|50 g|", "Fell||200m|100g|"));
    EXPECT_THAT(shown(sheet("Yarn,Weight\nReed,50 g / 120 m\n")), ElementsAre("Reed||120 m|50 g|"));
    EXPECT_THAT(shown(sheet("Yarn,Odd\nReed,50 g / 120 m\n")), ElementsAre("Reed||120 m|50 g|"));
    EXPECT_THAT(shown(sheet("Yarn,Yards,Grams\nReed,170 yds (155 m),100 g / 3.5 oz\n")),
                ElementsAre("Reed||170 yds|100 g|"));
}

TEST(OwnSheet, SeveralColumnsOfNotes) {
    const auto table = sheet("Yarn,Shop,Notes,Project,Price\nReed,Lane End,soft,hat,4.50\n");
    EXPECT_EQ(skeins_of(table).front().note, "Shop: Lane End; soft; Project: hat");
    EXPECT_THAT(table.understood, Contains("Price -> left out"));
}

TEST(OwnSheet, TotalsHeadingsAndRemarksAreNoSkeins) {
    const auto table = sheet(
        "My yarn,,,\nupdated in May,,,\nYarn,Colour,Balls,Yards\nWool,,,\nReed,rust,2,170\n"
        "Yarn,Colour,Balls,Yards\nReed,moss,1,170\nTotal,,3,\n,,3,510\nstill to count,,,\n");
    EXPECT_THAT(shown(table),
                ElementsAre("Reed|rust|170 yd||", "Reed|rust|170 yd||", "Reed|moss|170 yd||"));
    EXPECT_THAT(table.understood, Contains("line 8 left out: a total"));
}

TEST(OwnSheet, MergedCellsAndDittoMarks) {
    EXPECT_THAT(shown(sheet("Yarn,Colour,Yards\nReed,rust,170\n,moss,\n\"\"\"\",sand,\"\"\"\"\n")),
                ElementsAre("Reed|rust|170 yd||", "Reed|moss|170 yd||", "Reed|sand|170 yd||"));
}

/// An unknown lot matches nothing; two question marks would match each other.
TEST(OwnSheet, WordsForUnknownAreNoValues) {
    for (const std::string word : {"?", "-", "n/a", "unknown", "none"})
        EXPECT_FALSE(skeins_of(sheet("Yarn,Lot,Yards\nReed," + word + ",170\n")).front().dye_lot)
            << word;
}

TEST(OwnSheet, Quantities) {
    const auto count = [](const std::string& cell) {
        const auto table = sheet("Yarn,Qty,Yards\nReed,\"" + cell + "\",170\nFell,1,100\n");
        std::int64_t whole = 0;
        std::int64_t parts = 0;
        for (const stash::Skein& skein : skeins_of(table))
            if (skein.yarn.name == "Reed") ++(skein.part ? parts : whole);
        return fmt::format("{}+{}", whole, parts);
    };
    EXPECT_EQ(count("3"), "3+0");
    EXPECT_EQ(count("3 balls"), "3+0");
    EXPECT_EQ(count("x3"), "3+0");
    EXPECT_EQ(count("1.5"), "1+1");
    EXPECT_EQ(count("2 1/2"), "2+1");
    EXPECT_EQ(count("2 full, 1 partial"), "2+1");
    EXPECT_EQ(count("2 + half"), "2+1");
    EXPECT_EQ(count("partial"), "0+1");
    EXPECT_EQ(count("0"), "0+0");
    EXPECT_EQ(count("-"), "0+0");
    EXPECT_EQ(count("?"), "1+0");
    EXPECT_THAT(sheet_problems("Yarn,Qty,Yards\nReed,lots,170\nFell,1,100\n"),
                ElementsAre(HasSubstr("\"lots\" is not a number of skeins")));
}

TEST(OwnSheet, AMistakeIsToldOncePerLine) {
    EXPECT_THAT(sheet_problems("Yarn,Qty,Yards\nReed,2,170 yd\nFell,2,17o yd\n"),
                ElementsAre(AllOf(HasSubstr("own.csv:3:8"), HasSubstr("\"Yards\""))));
    EXPECT_THAT(sheet_problems("Yarn,Qty,Yards\n"), ElementsAre(HasSubstr("no skein below")));
}

TEST(OwnSheet, ClassesAndFibresAsTheyAreWritten) {
    const auto table = sheet(
        "Yarn,Weight,Fibre\nReed,Worsted (4),merino\nFell,#3,wool blend\nTarn,DK/sock,\"80% wool, "
        "20% nylon\"\n");
    EXPECT_EQ(skeins_of(table)[0].yarn.weight, yarn::WeightClass{4});
    EXPECT_EQ(skeins_of(table)[1].yarn.weight, yarn::WeightClass{3});
    EXPECT_FALSE(skeins_of(table)[2].yarn.weight);
    EXPECT_EQ(skeins_of(table)[2].note, "Weight: DK/sock");
}

/// A heading that means nothing here, told what it means in any words that a heading may have.
TEST(OwnSheet, MeaningsInTheWordsOfHeadings) {
    for (const std::string meaning : {"label", "put-up", "total yards", "weighed in g", "shade",
                                      "length left in m", "price", "weighed each in g"})
        EXPECT_TRUE(parse_column_meaning("Mood=" + meaning).ok()) << meaning;
    EXPECT_FALSE(parse_column_meaning("Mood=grumpy").ok());
    EXPECT_FALSE(parse_column_meaning("Mood=yards used").ok());
}

/// tests/exchange/sheets/README.md names the program that wrote them.
TEST(OwnSheet, OfAnOfficeProgram) {
    const std::string folder = std::string(SKEINFALL_SOURCE_DIR) + "/tests/exchange/sheets/";
    std::vector<std::string> first;
    for (const std::string name : {"comma.csv", "semicolon.csv", "tab.csv", "utf16_tab.csv"}) {
        const auto found = shown(read_own_sheet(folder + name, {}));
        if (first.empty()) first = found;
        EXPECT_EQ(found, first) << name;
    }
    EXPECT_THAT(
        first, ElementsAre(
                   "Heron Fell Aran|rust, dark|85 m|50 g|", "Heron Fell Aran|rust, dark|85 m|50 g|",
                   "Heron Fell Aran|rust, dark|85 m|50 g|", "Heron Fell Aran|moss|85 m|50 g|",
                   "Heron Fell Aran|moss|85 m|50 g|", "Heron Fell Aran|moss|85 m|50 g||part",
                   "Tarn Quill \"Sock\"|dusk|400 m|100 g|", "Tarn Quill \"Sock\"|dusk|400 m|100 g|",
                   "Tarn Lace|snow|210 m|25 g|"));
    EXPECT_THAT(shown(read_own_sheet(folder + "decimal_comma.csv", {})),
                ElementsAre("Fell Aran|rost|85,5 m|50 g|", "Fell Aran|rost|85,5 m|50 g|",
                            "Fell Aran|rost|85,5 m|50 g|", "Fell Aran|moos|85,5 m|50 g|22,5 g|part",
                            "Quill|grau|400 m|100 g|", "Quill|grau|400 m|100 g|"));
    for (const std::string name : {"sheet.ods", "sheet.xlsx"})
        EXPECT_THAT(problems_of([&] { return read_own_sheet(folder + name, {}); }),
                    ElementsAre(HasSubstr("Save As")))
            << name;
}

}  // namespace
}  // namespace skeinfall::exchange
