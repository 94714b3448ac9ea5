// A sheet that comes again, as a multiset of rows.

#include "skeinfall/stash/sheet.hpp"

#include <cstdint>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/builders.hpp"

namespace {

using namespace skeinfall;
using stash::RowIs;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

stash::SheetRow row(const std::string& yarn, const std::string& lot = "7",
                    const std::string& note = {}) {
    stash::SheetRow out;
    out.skein =
        support::whole("", support::yarn_of(yarn, support::metres(200), support::grams(100)), lot);
    out.skein.note = note;
    return out;
}

std::vector<stash::EarlierRow> came(const std::vector<stash::SheetRow>& rows,
                                    std::int64_t entry = 1) {
    std::vector<stash::EarlierRow> out;
    for (const stash::SheetRow& one : rows)
        out.push_back({one, "s" + std::to_string(out.size() + 1), entry});
    return out;
}

std::vector<RowIs> found(const std::vector<stash::SheetRow>& sheet,
                         const std::vector<stash::EarlierRow>& earlier, bool days = false) {
    std::vector<RowIs> out;
    for (const stash::ComparedRow& one : stash::compare_sheet(sheet, earlier, days).rows)
        out.push_back(one.is);
    return out;
}

TEST(Sheet, TheSameAgainIsSeen) {
    const std::vector<stash::SheetRow> sheet{row("Kelpie"), row("Kelpie"), row("Brack")};
    EXPECT_THAT(found(sheet, came(sheet)), ElementsAre(RowIs::seen, RowIs::seen, RowIs::seen));
    EXPECT_THAT(stash::compare_sheet(sheet, came(sheet), false).gone, IsEmpty());
    EXPECT_THAT(found(sheet, {}), ElementsAre(RowIs::fresh, RowIs::fresh, RowIs::fresh));
}

TEST(Sheet, SurplusRowsAreNewAndGoneOnesAreTold) {
    const auto earlier = came({row("Kelpie"), row("Kelpie"), row("Brack")});
    EXPECT_THAT(found({row("Kelpie"), row("Kelpie"), row("Kelpie")}, earlier),
                ElementsAre(RowIs::seen, RowIs::seen, RowIs::fresh));
    EXPECT_THAT(stash::compare_sheet({row("Kelpie")}, earlier, false).gone, ElementsAre(1U, 2U));
}

TEST(Sheet, OtherImportsMissNothing) {
    auto earlier = came({row("Kelpie"), row("Brack")});
    earlier[1].entry = 2;
    EXPECT_THAT(stash::compare_sheet({row("Kelpie")}, earlier, false).gone, IsEmpty());
    EXPECT_THAT(stash::compare_sheet({row("Tern")}, earlier, false).gone, IsEmpty());
}

TEST(Sheet, NamesAndLotsAsPeopleTypeThem) {
    const auto earlier = came({row("Brookside Aran", "4411")});
    EXPECT_THAT(found({row("brookside  aran", "Lot 4411")}, earlier), ElementsAre(RowIs::seen));
    EXPECT_THAT(found({row("Brookside Aran", "4412")}, earlier), ElementsAre(RowIs::fresh));
}

TEST(Sheet, FiguresCountNotTheirText) {
    stash::SheetRow other = row("Kelpie");
    other.skein.yarn.label.mass = units::Printed<units::Mass>{"100.0 g", 100.0 * units::gram};
    EXPECT_THAT(found({other}, came({row("Kelpie")})), ElementsAre(RowIs::seen));
}

// An edited cell does not double the skein.
TEST(Sheet, ARewordedRowIsNoSecondSkein) {
    const auto earlier = came({row("Kelpie", "7", "top drawer"), row("Kelpie", "7")});
    const std::vector<stash::SheetRow> sheet{row("Kelpie", "7", "bottom drawer"),
                                             row("Kelpie", "7")};
    const auto both = stash::compare_sheet(sheet, earlier, false);
    EXPECT_EQ(both.rows[0].is, RowIs::reworded);
    EXPECT_EQ(both.rows[0].earlier, 0U);
    EXPECT_EQ(both.rows[1].is, RowIs::seen);
    EXPECT_THAT(both.gone, IsEmpty());
    EXPECT_EQ(stash::difference_of(sheet[0], earlier[0].row), "the note");
    stash::SheetRow weighed = row("Kelpie", "7");
    weighed.skein.weighing = support::weighed(62, 1);
    EXPECT_EQ(stash::difference_of(weighed, row("Kelpie", "7")), "the weighing");
}

// A new whole one does not take the place of a part whose note was edited.
/// The same sheet with less left of everything doubled the stash.
TEST(Sheet, WhatIsLeftOfEveryRowMayBeAnother) {
    const auto left = [](const std::string& yarn, double grams) {
        stash::SheetRow out = row(yarn);
        out.skein.weighing = measure::Weighing{support::grams(grams), support::grams(1), {}};
        return out;
    };
    const auto earlier = came({left("Kelpie", 100), left("Kelpie", 100), left("Brack", 100)});
    EXPECT_THAT(found({left("Kelpie", 50), left("Kelpie", 50), left("Brack", 40)}, earlier),
                ElementsAre(RowIs::reworded, RowIs::reworded, RowIs::reworded));
    // A yarn that did not come with them makes it another sheet.
    EXPECT_THAT(found({left("Kelpie", 50), left("Tarn", 40)}, earlier),
                ElementsAre(RowIs::fresh, RowIs::fresh));
}

TEST(Sheet, TheLikestRowsArePaired) {
    stash::SheetRow part = row("Kelpie");
    part.skein.part = true;
    part.skein.weighing = support::weighed(62, 1);
    stash::SheetRow noted = part;
    noted.skein.note = "blue bag";
    const auto both = stash::compare_sheet({row("Kelpie"), noted}, came({part}), false);
    EXPECT_THAT(found({row("Kelpie"), row("Kelpie"), noted}, came({row("Kelpie"), part})),
                ElementsAre(RowIs::seen, RowIs::fresh, RowIs::reworded));
    EXPECT_EQ(both.rows[0].is, RowIs::fresh) << "no row of that import came again";
    EXPECT_EQ(both.rows[1].is, RowIs::reworded);
    // Begun since: the row says part now.
    EXPECT_THAT(found({row("Brack"), part}, came({row("Brack"), row("Kelpie")})),
                ElementsAre(RowIs::seen, RowIs::reworded));
}

TEST(Sheet, DaysCountWhereTheSheetStatesThem) {
    stash::SheetRow may = row("Kelpie");
    may.day = base::parse_day("2026-05-01").value();
    stash::SheetRow june = row("Kelpie");
    june.day = base::parse_day("2026-06-01").value();
    EXPECT_THAT(found({june}, came({may}), true), ElementsAre(RowIs::fresh));
    EXPECT_THAT(found({june}, came({may}), false), ElementsAre(RowIs::seen));
}

}  // namespace
